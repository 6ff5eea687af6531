package design

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millpond/hydro"
)

// ErrNoThrust says that a craft file has no thrust line, and what to write.
var ErrNoThrust = errors.New(`the craft has no thrust line; write one for each motor, such as

  [[thrust]]
  name = "motor"
  at = ["375 mm", "0 mm", "235 mm"]   # the propeller's hub
  most = "22 N"                       # static thrust at full throttle`)

// Throttle returns what opening the throttle of all motors does.
func (t *Trial) Throttle() (*hydro.Throttle, error) {
	return t.throttle.get(func() (*hydro.Throttle, error) { return t.ThrottleOf(nil) })
}

// ThrottleOf returns what opening the throttle does with the motors at the
// given shares of it, by the index of their thrust line; nil means all at full.
func (t *Trial) ThrottleOf(shares []float64) (*hydro.Throttle, error) {
	lines := t.ThrustLines(shares)
	if len(lines) == 0 {
		return nil, ErrNoThrust
	}
	rest, err := t.Rest()
	if err != nil {
		return nil, err
	}
	return rest.Throttle(lines, t.Craft.Reaction)
}

// ThrustLines returns the craft's thrust lines with each at a share of its
// most; nil shares mean full.
func (t *Trial) ThrustLines(shares []float64) []hydro.ThrustLine {
	var out []hydro.ThrustLine
	for i := range t.Craft.Thrusts {
		l := t.Craft.ThrustLine(i)
		if shares != nil {
			l.Most *= shares[i]
			l.Torque *= shares[i]
		}
		out = append(out, l)
	}
	return out
}

// Soaking is a place that goes under on the way.
type Soaking struct {
	Watched
	Share float64 // of the load
	At    hydro.Point
}

// minded returns the watched places, those that let water into a compartment
// among the ones to keep dry.
func (t *Trial) minded() []Watched {
	all := t.Watched() // all points first
	for i, p := range t.Craft.Points {
		all[i].KeepDry = all[i].KeepDry || p.Feeds != ""
	}
	return all
}

// Soaked returns which of the watched places go under as the throttle opens in
// a steady tow, first ones first, as far as the craft is followed. A place that
// lets water into a compartment is one to keep dry.
func (t *Trial) Soaked(th *hydro.Throttle) []Soaking {
	var out []Soaking
	for _, w := range t.minded() {
		if at, wet := th.Under(w.Place); wet {
			out = append(out, Soaking{w, at.Share, at})
		}
	}
	sortSoaked(out)
	return out
}

// firstDry returns the first of the places to keep dry that goes under.
func firstDry(all []Soaking) (Soaking, bool) {
	for _, s := range all {
		if s.KeepDry {
			return s, true
		}
	}
	return Soaking{}, false
}

// Followed is what a limit of throttle comes to for a craft that holds as far
// as it is followed.
func Followed(th *hydro.Throttle) float64 { return th.Most * hydro.Overdriven }

func throttleLimit(t *Trial, _ int) (float64, error) {
	th, err := t.Throttle()
	if err != nil {
		return 0, err
	}
	limit, _ := th.Limit()
	return limit, nil
}

func throttleToFirstWet(t *Trial, _ int) (float64, error) {
	th, err := t.Throttle()
	if err != nil {
		return 0, err
	}
	if !slices.ContainsFunc(t.minded(), func(w Watched) bool { return w.KeepDry }) {
		return 0, errNothingDry
	}
	if first, wet := firstDry(t.Soaked(th)); wet {
		return th.Most * first.Share, nil
	}
	limit, _ := th.Limit()
	return limit, nil
}

var errNothingDry = errors.New("nothing is marked to keep dry: set keep_dry = true on a point or a part")

func fullThrust(t *Trial) (float64, error) {
	th, err := t.Throttle()
	if err != nil {
		return 0, err
	}
	return th.Most, nil
}

// atFull makes a getter from how the craft lies at full throttle in a steady
// tow.
func atFull(f func(*Trial, *hydro.Point, int) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, i int) (float64, error) {
		th, err := t.Throttle()
		if err != nil {
			return 0, err
		}
		at, ok := th.Steady.At(1)
		if !ok {
			limit, _ := th.Limit()
			return math.NaN(), fmt.Errorf("it does not hold at full throttle: beyond %.3g N %s", limit, happening(th.Steady.Stop))
		}
		return f(t, &at, i), nil
	}
}

// happening returns what a Stop says as a clause.
func happening(s hydro.Stop) string {
	switch s {
	case hydro.NoseUnder, hydro.TailUnder:
		return "its " + s.String()
	}
	return "it " + s.String()
}
