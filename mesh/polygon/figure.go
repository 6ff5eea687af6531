// Package polygon lays loops of points in space on their mean plane and cuts
// them into triangles: faces of a file that have more than three corners, and
// the edges of holes.
package polygon

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Figure is a closed loop of points, laid on its mean plane.
type Figure struct {
	Points []r3.Vec
	Center r3.Vec  // the mean of the points
	Area   r3.Vec  // the area vector: its direction sees the loop run anticlockwise
	Normal r3.Vec  // unit; zero when the loop has no area
	Size   float64 // the diagonal of its box
	// OffPlane is how far a point lies off the mean plane at most, or for a
	// slit, a loop without area, off the line between its ends.
	OffPlane float64

	flat []r2.Vec // see Flat
}

// New returns the figure of a loop. It keeps the points, which must be finite
// and small enough for their squares to be so too.
func New(points []r3.Vec) Figure {
	f := Figure{Points: points}
	inf := math.Inf(1)
	lo, hi := r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for _, p := range points {
		f.Center = r3.Add(f.Center, p)
		lo = r3.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}
		hi = r3.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
	}
	n := len(points)
	f.Center = r3.Scale(1/float64(n), f.Center)
	f.Size = norm(r3.Sub(hi, lo))
	for i, p := range points {
		q := points[(i+1)%n]
		f.Area = r3.Add(f.Area, r3.Scale(0.5, r3.Cross(r3.Sub(p, f.Center), r3.Sub(q, f.Center))))
	}
	if a := norm(f.Area); a > 1e-9*f.Size*f.Size {
		f.Normal = r3.Scale(1/a, f.Area)
		for _, p := range points {
			f.OffPlane = max(f.OffPlane, math.Abs(r3.Dot(f.Normal, r3.Sub(p, f.Center))))
		}
		return f
	}
	f.OffPlane = offLine(points)
	return f
}

// offLine returns how far points lie off the line from the first of them to
// the one farthest from it.
func offLine(points []r3.Vec) float64 {
	a := points[0]
	b := slices.MaxFunc(points, func(p, q r3.Vec) int {
		if r3.Norm2(r3.Sub(p, a)) < r3.Norm2(r3.Sub(q, a)) {
			return -1
		}
		return 1
	})
	ab := r3.Sub(b, a)
	off := 0.0
	for _, p := range points {
		ap, at := r3.Sub(p, a), 0.0
		if n := r3.Norm2(ab); n > 0 {
			at = max(0, min(1, r3.Dot(ap, ab)/n))
		}
		off = max(off, norm(r3.Sub(ap, r3.Scale(at, ab))))
	}
	return off
}

// Flat returns the points in two coordinates on the mean plane, anticlockwise.
// The figure must have a normal.
func (f *Figure) Flat() []r2.Vec {
	if f.flat == nil {
		f.flat = make([]r2.Vec, len(f.Points))
		for i, p := range f.Points {
			f.flat[i] = f.project(p)
		}
	}
	return f.flat
}

// project returns p's coordinates on the figure's plane.
func (f *Figure) project(p r3.Vec) r2.Vec {
	u := r3.Cross(leastAxis(f.Normal), f.Normal)
	u = r3.Scale(1/norm(u), u)
	v := r3.Cross(f.Normal, u)
	d := r3.Sub(p, f.Center)
	return r2.Vec{X: r3.Dot(d, u), Y: r3.Dot(d, v)}
}

// Encloses reports whether p, laid on the figure's plane, is within it. The
// figure must have a normal.
func (f *Figure) Encloses(p r3.Vec) bool {
	q := f.project(p)
	flat := f.Flat()
	in := false
	for i, a := range flat {
		b := flat[(i+1)%len(flat)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// norm returns the length of v, quicker than r3.Norm: the coordinates are such
// that the squares stay in range.
func norm(v r3.Vec) float64 { return math.Sqrt(r3.Norm2(v)) }

// leastAxis returns the coordinate axis that d leans on least.
func leastAxis(d r3.Vec) r3.Vec {
	switch x, y, z := math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z); {
	case x <= y && x <= z:
		return r3.Vec{X: 1}
	case y <= z:
		return r3.Vec{Y: 1}
	}
	return r3.Vec{Z: 1}
}
