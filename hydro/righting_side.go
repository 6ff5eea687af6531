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
	if falling, err = c.side(-1); err != nil {
		return falling, rising, err
	}
	rising, err = c.side(1)
	return falling, rising, err
}

// side works out the side of rising (1) or falling (-1) angles.
func (c *Righting) side(sign int) (RightingSide, error) {
	s := RightingSide{Vanishing: math.NaN(), MaxAngle: c.Start.Angle}
	arm := func(h *heeled) float64 { return float64(sign) * h.ga }
	best := c.rest
	for i := c.rest + sign; i >= 0 && i < len(c.places); i += sign {
		if arm(&c.places[i]) <= 0 {
			s.Vanishing = c.Start.Angle
			if i != c.rest+sign {
				h, err := c.root(i-sign, i, arm)
				if err != nil {
					return s, err
				}
				s.Vanishing = h.a
			}
			break
		}
		if arm(&c.places[i]) > arm(&c.places[best]) {
			best = i
		}
	}
	if math.IsNaN(s.Vanishing) && math.Abs(c.places[c.end(sign)].a) > math.Pi-1e-9 {
		// The arm of rounding's size at 180 deg fell on the good side.
		s.Vanishing = float64(sign) * math.Pi
	}
	top := c.places[best]
	// The greatest lies where the slope changes sign next to it.
	next := best + sign
	if top.armBy() < 0 {
		next = best - sign
	}
	if best != c.rest && next >= 0 && next < len(c.places) {
		slope := func(h *heeled) float64 { return h.armBy() }
		if p := &c.places[next]; slope(p)*slope(&top) < 0 {
			h, err := c.root(min(best, next), max(best, next), slope)
			if err != nil {
				return s, err
			}
			if arm(&h) > arm(&top) {
				top = h
			}
		}
	}
	s.Max, s.MaxAngle = arm(&top)*c.march.body.Hull.size, top.a
	return s, nil
}

// end returns the index of the last place on a side.
func (c *Righting) end(sign int) int {
	if sign > 0 {
		return len(c.places) - 1
	}
	return 0
}

// errOutside says that an angle lies off the curve.
var errOutside = errors.New("the angle lies beyond the ends of the righting curve")

// At returns the curve at an angle, solved there.
func (c *Righting) At(angle float64) (RightingPoint, error) {
	h, _, err := c.at(angle)
	if err != nil {
		return RightingPoint{}, err
	}
	return c.point(&h, c.places[c.rest].energy), nil
}

// at solves the curve at an angle and returns the number of the place before
// it, seen from rest.
func (c *Righting) at(angle float64) (heeled, int, error) {
	sign := 1
	if angle < c.Start.Angle {
		sign = -1
	}
	for i := c.rest; i >= 0 && i < len(c.places); i += sign {
		if c.places[i].a == angle {
			return c.places[i], i, nil
		}
		j := i + sign
		if j >= 0 && j < len(c.places) && (angle-c.places[i].a)*(angle-c.places[j].a) < 0 {
			h, err := c.between(&c.places[i], &c.places[j], angle)
			return h, i, err
		}
	}
	return heeled{}, 0, errOutside
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

// root returns where f changes sign between the neighboring places i and j of
// the curve. Across a jump it is the far side of it.
func (c *Righting) root(i, j int, f func(*heeled) float64) (heeled, error) {
	p, q := c.places[i], c.places[j]
	if p.a == q.a {
		return q, nil
	}
	fp, fq := f(&p), f(&q)
	lo, hi := p, q
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
		mid, err := c.between(&p, &q, a)
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
	last, before, err := c.at(angle)
	if err != nil {
		return 0, err
	}
	sign := 1
	if angle < c.Start.Angle {
		sign = -1
	}
	sum := 0.0
	// The trapezoid with its end slopes: exact for cubics.
	add := func(p, q *heeled) {
		h := q.a - p.a
		sum += h/2*(p.ga+q.ga) + h*h/12*(p.armBy()-q.armBy())
	}
	for i := c.rest; i != before; i += sign {
		add(&c.places[i], &c.places[i+sign])
	}
	add(&c.places[before], &last)
	return sum * c.march.body.Hull.size, nil
}

// Under returns the points of the curve at which the place first goes under on
// the way out from rest, to falling and to rising angles; nil where it does
// not. A place that is wet at rest goes under there.
func (c *Righting) Under(place Place) (falling, rising *RightingPoint, err error) {
	if falling, err = c.under(place, -1); err != nil {
		return nil, nil, err
	}
	rising, err = c.under(place, 1)
	return falling, rising, err
}

func (c *Righting) under(place Place, sign int) (*RightingPoint, error) {
	center := c.march.body.Hull.center
	size := c.march.body.Hull.size
	clearance := func(h *heeled) float64 {
		s := Attitude{Up: h.n, Height: h.e - r3.Dot(h.n, center)}
		y, _ := place.Clearance(s)
		return y / size
	}
	if clearance(&c.places[c.rest]) < 0 {
		p := c.Start
		return &p, nil
	}
	for i := c.rest + sign; i >= 0 && i < len(c.places); i += sign {
		if clearance(&c.places[i]) >= 0 {
			continue
		}
		h, err := c.root(i-sign, i, clearance)
		if err != nil {
			return nil, err
		}
		p := c.point(&h, c.places[c.rest].energy)
		return &p, nil
	}
	return nil, nil
}
