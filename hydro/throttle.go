package hydro

import "errors"

// Throttle is what opening the throttle does to a body that lies still.
type Throttle struct {
	Most float64 // thrust at full throttle, N
	// Steady is the way with all of the level thrust answered by the water's
	// drag, as in a steady tow or on a tether, Free that with none of it, as
	// when it has only begun to move. Free is nil for a tether.
	Steady, Free *Path
	Load         *Thrust // of Steady
	// Landing is where it goes where Steady is lost; nil where it is not.
	Landing *Landing
}

// Overdriven is how many times full throttle a body is followed to, so that
// what is left beyond full throttle is known too.
const Overdriven = 3

// errNoThrust says that there is nothing to open.
var errNoThrust = errors.New("there is no thrust: no thrust line pulls")

// Throttle opens the throttle of the given thrust lines slowly, from a body at
// rest to three times full throttle.
func (r *Rest) Throttle(lines []ThrustLine, reaction Reaction) (*Throttle, error) {
	t := &Throttle{Load: NewThrust(r.body, lines, reaction, 1)}
	if t.Most = t.Load.most; t.Most == 0 {
		return nil, errNoThrust
	}
	r.body.Hull.Prepare(300)
	var err error
	if t.Steady, err = r.Follow(Course{Load: t.Load, Most: Overdriven}); err != nil {
		return nil, err
	}
	if reaction.Answer != Tethered {
		if t.Free, err = r.Follow(Course{Load: NewThrust(r.body, lines, reaction, 0), Most: Overdriven}); err != nil {
			return nil, err
		}
	}
	if t.Steady.Lost() {
		l := t.Steady.Land()
		t.Landing = &l
	}
	return t, nil
}

// Limit returns the thrust beyond which no attitude holds in a steady tow, N,
// and false where all do.
func (t *Throttle) Limit() (thrust float64, lost bool) {
	return t.Most * t.Steady.Loss().Share, t.Steady.Lost()
}

// Holds reports whether some attitude holds all the way to full throttle in a
// steady tow.
func (t *Throttle) Holds() bool {
	limit, lost := t.Limit()
	return !lost || limit >= t.Most
}

// Under returns the point of a steady tow at which a place goes under, and
// false where it stays dry as far as the body is followed. A place under at
// rest gives rest.
func (t *Throttle) Under(p Place) (Point, bool) {
	return t.Steady.First(false, func(at *Point) float64 {
		h, _ := p.Clearance(at.Attitude)
		return h
	})
}
