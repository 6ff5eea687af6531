package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// integrals are sums over triangles from which the tetrahedra on them can be
// summed for any apex. With the corners a, b, c of a triangle relative to the
// solid's origin, w = (b-a) x (c-a) twice its area vector, s = a+b+c, the six
// volumes a.w to an apex at the origin become (a-o).w to an apex o, and
//
//	six  = Σ (a-o).w          = Σ a.w - o.(Σ w)
//	four = Σ ((a-o).w)(s-3o)  = Σ (a.w) s - (Σ s wᵀ) o - 3o (Σ a.w - o.(Σ w))
//
// are 6 times the volume and 24 times its moment about o. As each corner of a
// triangle has the same product with w, Σ a.w is a third of the trace of
// Σ s wᵀ and is not kept.
type integrals struct {
	w          r3.Vec // Σ w
	sx, sy, sz r3.Vec // the rows of Σ s wᵀ
	moment     r3.Vec // Σ (a.w) s
	area       float64
}

// add adds a triangle.
func (t *integrals) add(a, b, c r3.Vec) {
	w := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	s := r3.Add(a, r3.Add(b, c))
	t.w = r3.Add(t.w, w)
	t.sx = r3.Add(t.sx, r3.Scale(s.X, w))
	t.sy = r3.Add(t.sy, r3.Scale(s.Y, w))
	t.sz = r3.Add(t.sz, r3.Scale(s.Z, w))
	t.moment = r3.Add(t.moment, r3.Scale(r3.Dot(a, w), s))
	t.area += math.Sqrt(r3.Norm2(w)) / 2
}

// join adds the sums of other triangles.
func (t *integrals) join(u *integrals) {
	t.w = r3.Add(t.w, u.w)
	t.sx = r3.Add(t.sx, u.sx)
	t.sy = r3.Add(t.sy, u.sy)
	t.sz = r3.Add(t.sz, u.sz)
	t.moment = r3.Add(t.moment, u.moment)
	t.area += u.area
}

// tetrahedra returns the sums for the apex o.
func (t *integrals) tetrahedra(o r3.Vec) tetrahedra {
	six := (t.sx.X+t.sy.Y+t.sz.Z)/3 - r3.Dot(o, t.w)
	so := r3.Vec{X: r3.Dot(t.sx, o), Y: r3.Dot(t.sy, o), Z: r3.Dot(t.sz, o)}
	return tetrahedra{six, r3.Sub(r3.Sub(t.moment, so), r3.Scale(3*six, o))}
}
