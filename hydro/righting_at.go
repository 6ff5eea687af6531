package hydro

import (
	"errors"
	"math"
)

// errOutside says that an angle lies off the curve.
var errOutside = errors.New("the angle lies beyond the ends of the righting curve")

// At returns the curve at an angle, solved there, also where it shows another
// attitude: see [Righting.Leaves].
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
// zero; see [Righting]. It fails with a *LeapError beyond a leap that does not
// come back.
func (c *Righting) Area(angle float64) (float64, error) {
	if left, err := c.Leaves(angle); err != nil {
		return 0, err
	} else if left != nil {
		return 0, left
	}
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
