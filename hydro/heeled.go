package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Axis is the body axis about which a body is heeled or pitched by force, the
// turn about the other horizontal axis left free.
type Axis int

const (
	HeelAxis  Axis = iota // about x: heel is given, trim is free
	PitchAxis             // about y: pitch is given, nose up positive, roll is free
)

func (x Axis) String() string { return [...]string{"heel", "pitch"}[x] }

// directions returns the body directions that place the upward vector at the
// angle a about the axis and the free angle b:
//
//	n = sin b pole + cos b (sin a side + cos a z)
func (x Axis) directions() (pole, side r3.Vec) {
	if x == PitchAxis {
		return r3.Vec{Y: 1}, r3.Vec{X: 1}
	}
	return r3.Vec{X: 1}, r3.Vec{Y: 1}
}

// angles returns the angle about the axis and the free angle of an upward
// vector.
func (x Axis) angles(n r3.Vec) (angle, free float64) {
	pole, side := x.directions()
	return math.Atan2(r3.Dot(side, n), n.Z), math.Asin(max(-1, min(1, r3.Dot(pole, n))))
}

// heeled is a body held at an angle about an axis: a place on the meridian
// along which the free angle turns, with the energy's derivatives by the angle
// (a), the free angle (b) and the height (e), and how b and e follow a.
type heeled struct {
	place
	a, b           float64
	toA, toB       r3.Vec // unit tangents the way a and b grow
	ga, gb, ge     float64
	aa, ab, bb     float64
	ae, be, ee     float64
	stiff          float64 // second derivative by b at balanced volume
	freeBy, riseBy float64 // db/da, and de/da in sizes
}

// slack is the share of volume per size of height below which a waterplane is
// none: what is left of it then is rounding.
const slack = 1e-9

// heel cuts the body once, held at the angle a, with the free angle b and the
// height e.
func (b *Body) heel(axis Axis, a, free, e float64) heeled {
	return axis.heeled(a, free, b.at(axis.up(a, free), e))
}

// up returns the upward vector at the angle a and the free angle b.
func (x Axis) up(a, free float64) r3.Vec {
	pole, side := x.directions()
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(free)
	return r3.Unit(r3.Add(r3.Scale(sb, pole), r3.Scale(cb, r3.Add(r3.Scale(sa, side), r3.Vec{Z: ca}))))
}

// heeled returns the place cut at the angle a and the free angle b with its
// derivatives by them.
func (x Axis) heeled(a, free float64, p place) heeled {
	pole, side := x.directions()
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(free)
	out := r3.Add(r3.Scale(sa, side), r3.Vec{Z: ca})
	h := heeled{place: p, a: a, b: free}
	h.toA = r3.Sub(r3.Scale(ca, side), r3.Vec{Z: sa})
	h.toB = r3.Sub(r3.Scale(cb, pole), r3.Scale(sb, out))
	ax, ay := r3.Dot(h.toA, h.t1), r3.Dot(h.toA, h.t2)
	bx, by := r3.Dot(h.toB, h.t1), r3.Dot(h.toB, h.t2)
	m := &h.hess
	h.ga, h.gb, h.ge = h.grad[0]*ax+h.grad[1]*ay, h.grad[0]*bx+h.grad[1]*by, h.grad[2]
	form := func(ux, uy, vx, vy float64) float64 {
		return m[0][0]*ux*vx + m[0][1]*(ux*vy+uy*vx) + m[1][1]*uy*vy
	}
	h.aa, h.ab, h.bb = form(ax, ay, ax, ay), form(ax, ay, bx, by), form(bx, by, bx, by)
	h.ae, h.be, h.ee = m[0][2]*ax+m[1][2]*ay, m[0][2]*bx+m[1][2]*by, m[2][2]
	h.stiff = h.bb
	if h.ee > slack {
		h.stiff -= h.be * h.be / h.ee
	}
	// The gradient stays zero along the curve: by a it changes by
	// cos b H - sin b ga for the free angle (toB turns toward -toA), and by
	// cos b H for the height.
	byFree, byRise := cb*h.ab-sb*h.ga, cb*h.ae
	if h.ee > slack {
		h.freeBy = -(byFree - h.be/h.ee*byRise) / h.stiff
		h.riseBy = -(byRise + h.be*h.freeBy) / h.ee
	} else {
		h.freeBy = -byFree / h.stiff
	}
	return h
}

// armBy returns the derivative of the arm, GZ per size, by a along the curve. As a grows toA turns
// toward -(cos b n - sin b toB), and what the sphere's curving gives to aa
// cancels against that.
func (h *heeled) armBy() float64 {
	sb, cb := math.Sincos(h.b)
	return cb*h.aa + sb*h.gb + h.freeBy*h.ab + h.riseBy*h.ae
}

// riseByFree returns de/db at balanced volume, in sizes.
func (h *heeled) riseByFree() float64 {
	if h.ee <= slack {
		return 0
	}
	return -h.be / h.ee
}
