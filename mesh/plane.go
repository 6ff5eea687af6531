package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Plane is the set of points at height zero, where the height of p is
// Normal.p + Offset. Points of negative height are below it, or wet; height
// zero is dry. Normal points up and has unit length wherever a caller passes a
// Plane.
type Plane struct {
	Normal r3.Vec
	Offset float64
}

// Height returns the height of p above the plane.
func (pl Plane) Height(p r3.Vec) float64 { return height(pl.Normal, pl.Offset, p) }

// height is the one formula by which any vertex is judged wet or dry. The
// conversions forbid the compiler to fuse a product and a sum, so that every
// caller on every machine gets the same bits for the same vertex.
func height(n r3.Vec, offset float64, p r3.Vec) float64 {
	return float64(float64(n.X*p.X)+float64(n.Y*p.Y)) + float64(float64(n.Z*p.Z)+offset)
}
