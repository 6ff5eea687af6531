package mend

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// box is a bounding box that may be flat; r3.Box takes a flat one for empty.
type box struct{ lo, hi [3]float64 }

func emptyBox() box {
	inf := math.Inf(1)
	return box{[3]float64{inf, inf, inf}, [3]float64{-inf, -inf, -inf}}
}

// boxOf returns the box of the given points.
func boxOf(points ...r3.Vec) box {
	b := emptyBox()
	for _, p := range points {
		b.add(p)
	}
	return b
}

func (b *box) add(p r3.Vec) {
	b.lo[0], b.hi[0] = min(b.lo[0], p.X), max(b.hi[0], p.X)
	b.lo[1], b.hi[1] = min(b.lo[1], p.Y), max(b.hi[1], p.Y)
	b.lo[2], b.hi[2] = min(b.lo[2], p.Z), max(b.hi[2], p.Z)
}

func (b *box) join(c *box) {
	for k := range 3 {
		b.lo[k], b.hi[k] = min(b.lo[k], c.lo[k]), max(b.hi[k], c.hi[k])
	}
}

// near reports whether the boxes come within margin of each other along every
// axis.
func (b *box) near(c *box, margin float64) bool {
	return b.lo[0]-margin <= c.hi[0] && c.lo[0]-margin <= b.hi[0] &&
		b.lo[1]-margin <= c.hi[1] && c.lo[1]-margin <= b.hi[1] &&
		b.lo[2]-margin <= c.hi[2] && c.lo[2]-margin <= b.hi[2]
}

func (b *box) diagonal() float64 {
	return norm(r3.Vec{X: b.hi[0] - b.lo[0], Y: b.hi[1] - b.lo[1], Z: b.hi[2] - b.lo[2]})
}

// girth returns the sum of the sides.
func (b *box) girth() float64 { return b.hi[0] - b.lo[0] + b.hi[1] - b.lo[1] + b.hi[2] - b.lo[2] }

// farthest returns the largest absolute coordinate.
func (b *box) farthest() float64 {
	far := 0.0
	for k := range 3 {
		far = max(far, math.Abs(b.lo[k]), math.Abs(b.hi[k]))
	}
	return far
}

func (b *box) r3() r3.Box {
	return r3.Box{Min: r3.Vec{X: b.lo[0], Y: b.lo[1], Z: b.lo[2]}, Max: r3.Vec{X: b.hi[0], Y: b.hi[1], Z: b.hi[2]}}
}

// fromR3 is the reverse of box.r3.
func fromR3(b r3.Box) box {
	return box{[3]float64{b.Min.X, b.Min.Y, b.Min.Z}, [3]float64{b.Max.X, b.Max.Y, b.Max.Z}}
}

// norm returns the length of v. Coordinates are bounded, so the squares stay in
// range and the slower way by Hypot is not needed.
func norm(v r3.Vec) float64 { return math.Sqrt(r3.Norm2(v)) }

// unitVec returns v at unit length.
func unitVec(v r3.Vec) r3.Vec { return r3.Scale(1/norm(v), v) }
