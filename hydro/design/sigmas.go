package design

import "math"

// Sigmas returns the standard deviation of each result asked to be shown, by
// the derivatives at the craft as it is; NaN where there is none. It builds no
// samples, so that it can be asked along a sweep.
func (d *Doubt) Sigmas() []float64 {
	out := make([]float64, len(d.Show))
	for k := range out {
		out[k] = math.NaN()
	}
	t, err := New(d.Craft)
	if err != nil {
		return out
	}
	if Stand(t, nil).No != "" {
		return out
	}
	now := make([]float64, len(d.Tolerances))
	for i, q := range d.Tolerances {
		if now[i], err = q.Now(d.Craft); err != nil {
			return out
		}
	}
	for k, a := range d.Show {
		if b, err := d.band(t, now, a); err == nil {
			out[k] = b.Linear
		}
	}
	return out
}
