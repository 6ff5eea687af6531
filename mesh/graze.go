package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Grazes reports whether a facet lies in the plane: all three corners within
// tolerance of it. There the cut's area jumps as the plane passes, though the
// volume does not.
func (p Placed) Grazes(pl Plane, tolerance float64) bool {
	normal, offset := p.local(pl)
	if lo, hi := boxHeights(p.Solid.box, normal, offset); lo > tolerance || hi < -tolerance {
		return false
	}
	near := func(v r3.Vec) bool { return math.Abs(height(normal, offset, v)) <= tolerance }
	s := p.Solid
	for _, t := range s.triangles {
		if near(s.vertices[t[0]]) && near(s.vertices[t[1]]) && near(s.vertices[t[2]]) {
			return true
		}
	}
	return false
}
