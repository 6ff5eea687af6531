package hydro

import "math"

const (
	// held is the residual at which a body held at an angle counts as in
	// balance otherwise.
	held = 1e-11
	// leap is the change of the free angle, off what the curve so far lets
	// expect, that a step is not trusted with.
	leap = 3 * math.Pi / 180
)

// hold returns the body held at the angle a, balanced in the free angle and in
// height by Newton's method from a guess of both; false where that does not
// lead to a stable balance near the guess.
func (b *Body) hold(axis Axis, a, free, e float64, cuts *int) (heeled, bool) {
	size := b.Hull.size
	guess := free
	for range 10 {
		h := b.heel(axis, a, free, e)
		*cuts++
		if h.ee <= slack && math.Abs(h.ge) > held {
			// Nothing pierces the surface, but the volume is wrong: only a
			// bracket finds it again.
			p, c := b.level(h.n, e, levelTolerance)
			*cuts += c
			e = p.e
			continue
		}
		if math.Abs(h.gb) <= held && math.Abs(h.ge) <= held {
			return h, h.stiff > 0
		}
		if h.stiff <= 0 {
			return h, false
		}
		turn, rise := -h.gb/h.stiff, 0.0
		if h.ee > slack {
			turn = -(h.gb - h.be/h.ee*h.ge) / h.stiff
			rise = -(h.ge + h.be*turn) / h.ee
		}
		free, e = free+turn, e+rise*size
		if math.Abs(free-guess) > leap || math.Abs(rise) > 0.1 {
			return h, false
		}
	}
	return heeled{}, false
}

// drop returns where the body held at the angle a comes to rest in the free
// angle by always falling from the given one. A balance on a ridge is left by
// the way down, and to the negative side where both go down alike, which it
// reports.
func (b *Body) drop(axis Axis, a, free, e float64, cuts *int) (h heeled, either bool, err error) {
	const (
		far   = 5 * math.Pi / 180
		nudge = 0.1 * math.Pi / 180
	)
	at := func(free, e, tolerance float64) heeled {
		p, c := b.level(axis.up(a, free), e, tolerance)
		*cuts += c
		return axis.heeled(a, free, p)
	}
	h = at(free, e, held)
	radius := far
	for range 300 {
		if math.Abs(h.gb) <= tie && math.Abs(h.ge) > held {
			h = at(h.b, h.e, held)
		}
		step, tolerance := 0.0, held
		switch {
		case math.Abs(h.gb) <= held*10 && h.stiff <= 0:
			// On a ridge.
			lower, upper := at(h.b-nudge, h.e, held), at(h.b+nudge, h.e, held)
			if min(lower.energy, upper.energy) >= h.energy {
				return h, either, nil // flat: it stays anywhere near
			}
			alike := math.Abs(upper.energy-lower.energy) < 1e-3*(h.energy-lower.energy)
			either = either || alike
			if alike || lower.energy < upper.energy {
				h = lower
			} else {
				h = upper
			}
			continue
		case h.stiff > 0 && math.Abs(h.gb/h.stiff) < radius:
			step = -h.gb / h.stiff
		default:
			step = -math.Copysign(radius, h.gb)
			// On a long way down the volume need not be exact: what it
			// lacks enters the energy squared.
			tolerance = max(held, min(1e-3, h.gb*h.gb))
		}
		if math.Abs(h.gb) <= held {
			return h, either, nil
		}
		next := at(h.b+step, h.e+h.riseByFree()*step*b.Hull.size, tolerance)
		gain := h.energy - next.energy
		switch {
		case gain > 0 || math.Abs(next.gb) < math.Abs(h.gb) && gain > -rounding:
			h = next
			radius = min(far, 2*radius)
		case math.Abs(h.gb) <= firm:
			return h, either, nil // rounding has the last word
		default:
			radius = math.Abs(step) / 4
		}
		if radius < 1e-13 {
			if math.Abs(h.gb) <= tie {
				return h, either, nil
			}
			break
		}
	}
	return h, either, errStuck
}
