package hydro

import "gonum.org/v1/gonum/spatial/r3"

// Under returns the points of the curve at which the place first goes under on
// the way out from rest, to falling and to rising angles; nil where it does
// not, or not before a leap that does not come back (see [Righting.Leaves]). A
// place that is wet at rest goes under there.
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
		if b.leapt(i) {
			if lost, _, err := c.lost(b, i); err != nil || lost {
				return nil, err
			}
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
