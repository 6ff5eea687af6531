package hydro

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// RightingSide is what one side of a righting curve comes to, from rest
// outward.
type RightingSide struct {
	// Max is the largest righting arm before it vanishes, m, over zero, and
	// MaxAngle where, rad.
	Max, MaxAngle float64
	// Vanishing is the angle at which the arm falls to zero, rad: beyond it
	// the body turns over. It is NaN where the curve ends before.
	Vanishing float64
}

// Sides returns the two sides of the curve, that of falling angles and that of
// rising ones.
func (c *Righting) Sides() (falling, rising RightingSide, err error) {
	if falling, err = c.side(&c.branches[0]); err != nil {
		return falling, rising, err
	}
	rising, err = c.side(&c.branches[1])
	return falling, rising, err
}

// Vanishing returns the angles at which the arm vanishes on the two sides, as
// in [RightingSide], without looking for the largest.
func (c *Righting) Vanishing() (falling, rising float64, err error) {
	if _, falling, err = c.vanishing(&c.branches[0]); err != nil {
		return falling, rising, err
	}
	_, rising, err = c.vanishing(&c.branches[1])
	return falling, rising, err
}

// arm returns the arm that turns a place of the branch back to rest, per size.
func (b *branch) arm(h *heeled) float64 { return b.sign * h.ga }

// vanishing returns how many places of the branch come before the arm
// vanishes, and the angle at which it does.
func (c *Righting) vanishing(b *branch) (before int, angle float64, err error) {
	for i := 1; ; i++ {
		h, err := c.place(b, i)
		switch {
		case err != nil:
			return i, 0, err
		case h == nil && math.Abs(b.last().a) > math.Pi-1e-9:
			// The arm of rounding's size at 180 deg fell on the good side.
			return i, b.sign * math.Pi, nil
		case h == nil:
			return i, math.NaN(), nil
		case b.arm(h) > 0:
		case i == 1:
			return i, c.Start.Angle, nil
		default:
			root, err := c.root(&b.places[i-1], h, b.arm)
			return i, root.a, err
		}
	}
}

func (c *Righting) side(b *branch) (RightingSide, error) {
	s := RightingSide{MaxAngle: c.Start.Angle}
	before, angle, err := c.vanishing(b)
	if err != nil {
		return s, err
	}
	s.Vanishing = angle
	best := 0
	for i := range before {
		if b.arm(&b.places[i]) > b.arm(&b.places[best]) {
			best = i
		}
	}
	top := b.places[best]
	// The greatest lies where the slope changes sign next to it.
	next := best + 1
	if top.armBy() < 0 {
		next = best - 1
	}
	if best > 0 && next < len(b.places) {
		slope := func(h *heeled) float64 { return h.armBy() }
		p, q := &b.places[min(best, next)], &b.places[max(best, next)]
		if slope(p)*slope(q) < 0 {
			h, err := c.root(p, q, slope)
			if err != nil {
				return s, err
			}
			if b.arm(&h) > b.arm(&top) {
				top = h
			}
		}
	}
	s.Max, s.MaxAngle = b.arm(&top)*c.march.body.Hull.size, top.a
	return s, nil
}

// errOutside says that an angle lies off the curve.
var errOutside = errors.New("the angle lies beyond the ends of the righting curve")

// At returns the curve at an angle, solved there.
func (c *Righting) At(angle float64) (RightingPoint, error) {
	h, _, _, err := c.at(angle)
	if err != nil {
		return RightingPoint{}, err
	}
	return c.point(&h, c.branches[0].places[0].energy), nil
}

// at solves the curve at an angle and returns the branch it is on and the
// number of the place before it.
func (c *Righting) at(angle float64) (heeled, *branch, int, error) {
	b := &c.branches[1]
	if angle < c.Start.Angle {
		b = &c.branches[0]
	}
	for i := 0; ; i++ {
		p, err := c.place(b, i)
		switch {
		case err != nil:
			return heeled{}, b, i, err
		case p == nil:
			return heeled{}, b, i, errOutside
		case p.a == angle:
			return *p, b, i, nil
		case i > 0 && b.sign*(p.a-angle) > 0:
			h, err := c.between(&b.places[i-1], p, angle)
			return h, b, i - 1, err
		}
	}
}

// between solves the curve between two neighbors on it.
func (c *Righting) between(p, q *heeled, angle float64) (heeled, error) {
	m := &c.march
	free, e := m.guess(p, q, angle)
	h, ok := m.body.hold(m.axis, angle, free, e, &m.cuts)
	if ok {
		return h, nil
	}
	h, _, err := m.body.drop(m.axis, angle, free, e, &m.cuts)
	return h, err
}

// root returns where f changes sign between two neighbors on the curve. Across
// a jump it is the far side of it.
func (c *Righting) root(p, q *heeled, f func(*heeled) float64) (heeled, error) {
	if p.a == q.a {
		return *q, nil
	}
	fp, fq := f(p), f(q)
	lo, hi := *p, *q
	for range 100 {
		if math.Abs(hi.a-lo.a) < 1e-10 {
			break
		}
		// Regula falsi with the Illinois change: keep the bracket, halve the
		// weight of an end that stays.
		a := (lo.a*fq - hi.a*fp) / (fq - fp)
		if !((a-lo.a)*(a-hi.a) < 0) {
			a = (lo.a + hi.a) / 2
		}
		mid, err := c.between(p, q, a)
		if err != nil {
			return mid, err
		}
		fm := f(&mid)
		if math.Abs(fm) < 1e-13 {
			return mid, nil
		}
		if fm < 0 == (fp < 0) {
			lo, fp = mid, fm
			fq /= 2
		} else {
			hi, fq = mid, fm
			fp /= 2
		}
	}
	return hi, nil
}

// Area returns the area under the curve from rest to the angle, m rad: GZ
// integrated. It is the energy over the weight only where the free angle stays
// zero; see [Righting].
func (c *Righting) Area(angle float64) (float64, error) {
	last, b, before, err := c.at(angle)
	if err != nil {
		return 0, err
	}
	sum := 0.0
	// The trapezoid with its end slopes: exact for cubics.
	add := func(p, q *heeled) {
		h := q.a - p.a
		sum += h/2*(p.ga+q.ga) + h*h/12*(p.armBy()-q.armBy())
	}
	for i := range before {
		add(&b.places[i], &b.places[i+1])
	}
	add(&b.places[before], &last)
	return sum * c.march.body.Hull.size, nil
}

// Under returns the points of the curve at which the place first goes under on
// the way out from rest, to falling and to rising angles; nil where it does
// not. A place that is wet at rest goes under there.
func (c *Righting) Under(place Place) (falling, rising *RightingPoint, err error) {
	if falling, err = c.under(place, &c.branches[0]); err != nil {
		return nil, nil, err
	}
	rising, err = c.under(place, &c.branches[1])
	return falling, rising, err
}

func (c *Righting) under(watched Place, b *branch) (*RightingPoint, error) {
	hull := c.march.body.Hull
	clearance := func(h *heeled) float64 {
		y, _ := watched.Clearance(Attitude{Up: h.n, Height: h.e - r3.Dot(h.n, hull.center)})
		return y / hull.size
	}
	if clearance(&b.places[0]) < 0 {
		p := c.Start
		return &p, nil
	}
	for i := 1; ; i++ {
		h, err := c.place(b, i)
		if err != nil || h == nil {
			return nil, err
		}
		if clearance(h) >= 0 {
			continue
		}
		wet, err := c.root(&b.places[i-1], h, clearance)
		if err != nil {
			return nil, err
		}
		p := c.point(&wet, b.places[0].energy)
		return &p, nil
	}
}
