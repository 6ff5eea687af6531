package hydro

import "math"

// march follows a body as it is heeled or pitched, by warm started steps.
type march struct {
	body  *Body
	axis  Axis
	cuts  int
	jumps []Jump
}

// Jump is an angle on a righting curve where the branch that was followed
// ends. The body then turns about the free axis until it is stable again.
type Jump struct {
	// Angle is the outermost at which the branch was found to hold, rad. It
	// ends at most 1e-5 deg beyond.
	Angle float64
	// From and To are the free angle (trim on a heel curve) before and after.
	From, To float64
	// Either says that the two ways to turn were even: it might as well have
	// gone the other way. The curve goes on to the negative side. From and To
	// are equal then when the branch divides without a leap.
	Either bool
	// Lost is the energy that the leap frees, J.
	Lost float64
}

const (
	// leastStep is the step below which the body is let fall, to see whether
	// the branch has ended, rad.
	leastStep = 0.01 * math.Pi / 180
	// finestStep is how near the end of a branch is approached then, rad.
	finestStep = 1e-5 * math.Pi / 180
)

// farthest is the change of the free angle in one step that is followed: a steeper
// curve takes smaller steps, lest one lands beyond the end of the branch.
const farthest = 10 * math.Pi / 180

// guess returns the free angle and the height expected at the angle a, from a
// cubic through two places of the curve and their slopes.
func (m *march) guess(p, q *heeled, a float64) (free, e float64) {
	if p == nil || p.a == q.a {
		return q.b + q.freeBy*(a-q.a), q.e + q.riseBy*m.body.Hull.size*(a-q.a)
	}
	h := q.a - p.a
	t := (a - p.a) / h
	size := m.body.Hull.size
	if steep := 3 * math.Abs(q.b-p.b); t > 0 && t < 1 && max(math.Abs(p.freeBy*h), math.Abs(q.freeBy*h)) > steep {
		return m.guessSteep(p, q, a)
	}
	return hermite(t, p.b, p.freeBy*h, q.b, q.freeBy*h), hermite(t, p.e, p.riseBy*size*h, q.e, q.riseBy*size*h)
}

// guessSteep is guess between two places of which one lies near the end of a
// branch. There b follows a as a root does, which no cubic in a is like, while a
// follows b as a parabola.
func (m *march) guessSteep(p, q *heeled, a float64) (free, e float64) {
	h := q.a - p.a
	// da/dt over the chord's, kept to where the cubic is monotone.
	slope := func(freeBy float64) float64 {
		if d := (q.b - p.b) / (freeBy * h); d > 0 {
			return min(d, 3) * h
		} else if d < 0 {
			return 0
		}
		return 3 * h
	}
	d0, d1 := slope(p.freeBy), slope(q.freeBy)
	lo, hi := 0.0, 1.0
	for range 50 {
		t := (lo + hi) / 2
		if (hermite(t, p.a, d0, q.a, d1)-a)*h < 0 {
			lo = t
		} else {
			hi = t
		}
	}
	return p.b + lo*(q.b-p.b), p.e + lo*(q.e-p.e)
}

// hermite returns the cubic with values y0, y1 and slopes d0, d1 at t = 0, 1.
func hermite(t, y0, d0, y1, d1 float64) float64 {
	s := 1 - t
	return s*s*(1+2*t)*y0 + s*s*t*d0 + t*t*(1+2*s)*y1 - t*t*s*d1
}

// to follows the body through the places so far to the angle a, which it
// appends, and before it the places on both sides of each jump on the way.
func (m *march) to(so []heeled, a float64) ([]heeled, error) {
	last := so[len(so)-1]
	var before *heeled
	if n := len(so); n > 1 && so[n-2].a != last.a {
		before = &so[n-2]
	}
	step, end := a-last.a, a // no step goes beyond one that failed
	for last.a != a {
		next := last.a + step
		if math.Abs(end-last.a) <= math.Abs(step)*1.001 {
			next = end
		}
		free, e := m.guess(before, &last, next)
		var h heeled
		ok := math.Abs(free-last.b) <= farthest
		if ok {
			h, ok = m.body.hold(m.axis, next, free, e, &m.cuts)
		}
		if ok {
			from := last
			last, before, step = h, &from, 2*step
			if next == end {
				end = a
			}
			continue
		}
		if math.Abs(next-last.a) > leastStep {
			step, end = (next-last.a)/2, next
			continue
		}
		h, even, err := m.body.drop(m.axis, next, last.b, last.e, &m.cuts)
		if err != nil {
			return so, err
		}
		leapt := math.Abs(h.b-last.b) > leap || !even && m.apart(&last, &h)
		if leapt || even {
			j := Jump{Angle: last.a, From: last.b, To: last.b, Either: even}
			if leapt {
				last = m.edge(last, next)
				if h, err = m.across(&h, last.a); err != nil {
					return so, err
				}
				j.Angle, j.From, j.To = last.a, last.b, h.b
				j.Lost = (last.energy - h.energy) * m.body.Mass * Gravity * m.body.Hull.size
				so = append(so, last, h)
			}
			m.jumps = append(m.jumps, j)
		}
		last, before, step, end = h, nil, a-h.a, a
	}
	return append(so, last), nil
}

// apart reports whether two places found a least step apart, with free angles
// not far from each other, are on two branches: from the one there is no way
// back to the other.
func (m *march) apart(near, far *heeled) bool {
	const told = 0.1 * math.Pi / 180
	if math.Abs(far.b-near.b) < told {
		return false
	}
	back, ok := m.body.hold(m.axis, near.a, far.b, far.e, &m.cuts)
	return !ok || math.Abs(back.b-near.b) > told/10
}

// edge returns the outermost place of a branch that holds at the place near and
// no more at the angle beyond.
func (m *march) edge(near heeled, beyond float64) heeled {
	for math.Abs(beyond-near.a) > finestStep {
		mid := (near.a + beyond) / 2
		free, e := m.guess(nil, &near, mid)
		if h, ok := m.body.hold(m.axis, mid, free, e, &m.cuts); ok {
			near = h
		} else {
			beyond = mid
		}
	}
	return near
}

// across returns the far side of a jump at the angle a of its near side, from
// one found a little beyond.
func (m *march) across(far *heeled, a float64) (heeled, error) {
	free, e := m.guess(nil, far, a)
	if h, ok := m.body.hold(m.axis, a, free, e, &m.cuts); ok {
		return h, nil
	}
	h, _, err := m.body.drop(m.axis, a, far.b, far.e, &m.cuts)
	return h, err
}
