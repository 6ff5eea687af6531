package mesh

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// NewChain is [NewSolid] for a closed chain that need not enclose anything: what
// two bodies share that are pressed flat on each other is surface without
// volume, and rounding may leave of it a volume just below zero. Its Centroid
// means nothing where the volume is zero.
func NewChain(vertices []r3.Vec, triangles [][3]uint32) (*Solid, error) {
	if len(triangles) == 0 {
		return nil, fmt.Errorf("mesh: no triangles")
	}
	box, err := boundingBox(vertices)
	if err != nil {
		return nil, err
	}
	if err := checkClosed(triangles, len(vertices)); err != nil {
		return nil, err
	}
	mid := box.Center()
	s := &Solid{
		origin:    r3.Vec{X: float64(float32(mid.X)), Y: float64(float32(mid.Y)), Z: float64(float32(mid.Z))},
		vertices:  vertices,
		triangles: triangles,
	}
	for i, v := range vertices {
		vertices[i] = r3.Sub(v, s.origin)
	}
	s.box = r3.Box{Min: r3.Sub(box.Min, s.origin), Max: r3.Sub(box.Max, s.origin)}
	s.sumWhole()
	return s, nil
}

// Whole returns the volume and its first moment about the point about. Unlike
// the centroid, the moment has a meaning where the volume is zero.
func (p Placed) Whole(about r3.Vec) Section { return p.all(about) }
