package mesh

import "gonum.org/v1/gonum/spatial/r3"

// NewChain is [NewSolid] for a closed chain that need not enclose anything: what
// two bodies share that are pressed flat on each other is surface without
// volume, and rounding may leave of it a volume just below zero.
func NewChain(vertices []r3.Vec, triangles [][3]uint32) (*Solid, error) {
	return newPiece(vertices, triangles, len(triangles))
}

// Whole returns the volume and its first moment about the point about. Unlike
// the centroid, the moment has a meaning where the volume is zero.
func (p Placed) Whole(about r3.Vec) Section { return p.all(about) }
