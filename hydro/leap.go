package hydro

import "gonum.org/v1/gonum/spatial/r3"

// Leap is where the attitude of a body that gains mass ends.
type Leap struct {
	// Mass that can be added before the attitude ends, kg.
	Mass float64
	// Sinks says that it keeps its attitude until it sinks: there is no leap.
	Sinks  bool
	Before State  // with that mass added
	After  *State // where it comes to rest with a trace more; nil where it sinks
}

// Leap returns how much mass can be added at the body point at (the CG, where
// at is nil) before the body leaps to another attitude, sinking and trimming and
// heeling freely from its rest. The attitude ends where the rest is lost, as a
// float plane falls onto its tail once its sterns are under; for a body that has
// come to rest from level also where, set level in the water with that mass, it
// would come to another rest.
func (r *Rest) Leap(at *r3.Vec) (Leap, error) {
	w := wetting{start: &r.State, at: at}
	level, err := r.body.Rest()
	if err != nil {
		return Leap{}, err
	}
	fromLevel := !r.Neutral && level.near(r.Up)
	if fromLevel {
		w.alike = func(l *loaded) bool {
			level, err := l.state.body.Rest()
			return err == nil && level.near(l.state.Up)
		}
	}
	end, err := w.first()
	if err != nil {
		return Leap{}, err
	}
	out := Leap{Mass: end.Mass, Sinks: end.End == Sinks, Before: end.State, After: end.After}
	if fromLevel && !out.Sinks {
		// It may also have been followed on and only level falls elsewhere.
		if level, err = out.After.body.Rest(); err != nil {
			return Leap{}, err
		}
		out.After = &level.State
	}
	return out, nil
}

// near reports whether the rest, or one that it could have come to as well, is
// the one with the given upward direction.
func (r *Rest) near(up r3.Vec) bool {
	const apart = 1e-3 // a leap turns further, and rests are solved far better
	for i := range r.Also {
		if angleBetween(r.Also[i].Up, up) < apart {
			return true
		}
	}
	return angleBetween(r.Up, up) < apart
}
