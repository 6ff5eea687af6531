package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Grazes reports whether a facet, or a face between the pieces of a body, lies
// in the plane: all three corners within tolerance of it. There the cut's area
// jumps as the plane passes, though the volume does not.
func (p Placed) Grazes(pl Plane, tolerance float64) bool {
	normal, offset := p.local(pl)
	if lo, hi := boxHeights(&p.Solid.box, normal, offset); lo > tolerance || hi < -tolerance {
		return false
	}
	s := p.Solid
	if x := s.index.Load(); x != nil {
		return x.grazes(x.root(), normal, offset, tolerance)
	}
	for _, t := range s.triangles {
		if near(normal, offset, tolerance, [3]r3.Vec{s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]}) {
			return true
		}
	}
	return false
}

// near reports whether all corners of a triangle are within tolerance of a
// plane.
func near(normal r3.Vec, offset, tolerance float64, corners [3]r3.Vec) bool {
	for _, p := range corners {
		if !(math.Abs(height(normal, offset, p)) <= tolerance) {
			return false
		}
	}
	return true
}
