package hydro

// RightingSide is what one side of a righting curve comes to, from rest
// outward.
type RightingSide struct {
	// Max is the largest righting arm before stability ends, m, over zero,
	// and MaxAngle where, rad.
	Max, MaxAngle float64
	RightingEnd
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

func (c *Righting) side(b *branch) (RightingSide, error) {
	s := RightingSide{MaxAngle: c.Start.Angle}
	before, end, err := c.end(b)
	if err != nil {
		return s, err
	}
	s.RightingEnd = end
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
	// What comes after the end counts only where it is the way down to zero.
	if best > 0 && next < len(b.places) && (next < before || end.Ends == ArmGone) {
		slope := func(h *heeled) float64 { return h.armBy() }
		p, q := &b.places[min(best, next)], &b.places[max(best, next)]
		if p.a != q.a && slope(p)*slope(q) < 0 {
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
