package main

import (
	"errors"
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/design"
)

// throttleReport is what `throttle` has to say about one trial.
type throttleReport struct {
	trial  *design.Trial
	shares []float64 // of full throttle, by motor; nil for all in full
	th     *hydro.Throttle
	wet    []design.Soaking
	known  map[float64]step // by share
}

// solve opens the throttle.
func (r *throttleReport) solve() error {
	var err error
	if r.th, err = r.trial.ThrottleOf(r.shares); err != nil {
		if errors.Is(err, design.ErrNoThrust) {
			return fmt.Errorf("%s: %w", r.trial.Craft.Name, err)
		}
		return err
	}
	r.wet = r.trial.Soaked(r.th)
	return nil
}

// limit returns the thrust beyond which nothing holds, N, and false where all
// does as far as it was followed.
func (r *throttleReport) limit() (float64, bool) { return r.th.Limit() }

// no reports whether the answer is no: at full throttle or before, nothing
// holds or a place to keep dry is under.
func (r *throttleReport) no() bool {
	if !r.th.Holds() {
		return true
	}
	first, wet := r.firstDry()
	return wet && first.Share <= 1
}

// firstDry returns the first place to keep dry that goes under.
func (r *throttleReport) firstDry() (design.Soaking, bool) {
	for _, s := range r.wet {
		if s.KeepDry {
			return s, true
		}
	}
	return design.Soaking{}, false
}

// step is the craft at one share of the throttle.
type step struct {
	share        float64
	steady, free *hydro.Point // with drag equal to thrust, and with none; nil where nothing holds
}

// steps returns the craft from rest to the share most in equal steps, and at
// the limit where that comes before; one step goes beyond it.
func (r *throttleReport) steps(most float64, count int) []step {
	limit, lost := r.limit()
	limit /= r.th.Most
	var out []step
	for i := range count + 1 {
		share := most * float64(i) / float64(count)
		if beyond := lost && share > limit; beyond {
			return append(out, r.at(limit), r.at(share))
		}
		out = append(out, r.at(share))
	}
	return out
}

// curve returns the craft along a smooth curve to the share that curves are
// shown to: equal steps, and the closer to a limit the smaller, since the
// attitude goes as the root of the distance from it.
func (r *throttleReport) curve(count int) []step {
	to := r.reach()
	limit, lost := r.limit()
	limit /= r.th.Most
	if !lost || limit > to {
		return r.steps(to, count)
	}
	var out []step
	for i := range count + 1 {
		u := 1 - float64(i)/float64(count)
		out = append(out, r.at(limit*(1-u*u)))
	}
	return append(out, r.at((limit+to)/2), r.at(to))
}

// at returns the craft at one share of the throttle.
func (r *throttleReport) at(share float64) step {
	if s, ok := r.known[share]; ok {
		return s
	}
	s := step{share: share}
	if p, ok := r.th.Steady.At(share); ok {
		s.steady = &p
	} else if limit, _ := r.limit(); math.Abs(share*r.th.Most-limit) < 1e-9*limit {
		p := r.th.Steady.Loss()
		s.steady = &p
	}
	if r.th.Free != nil {
		if p, ok := r.th.Free.At(share); ok {
			s.free = &p
		}
	}
	if r.known == nil {
		r.known = map[float64]step{}
	}
	r.known[share] = s
	return s
}

// reach is the share that a curve is shown to: a little beyond full throttle,
// where that is where the limit lies.
func (r *throttleReport) reach() float64 {
	limit, lost := r.limit()
	if share := limit / r.th.Most; lost && share > 1 && share < 1.5 {
		return math.Floor(share*10+1) / 10
	}
	return 1
}

// happens says what a limit does as a clause.
func happens(s hydro.Stop) string {
	switch s {
	case hydro.NoseUnder, hydro.TailUnder:
		return "its " + s.String()
	}
	return "it " + s.String()
}

// throttleLeftOut is what the numbers of a throttle do not have in them.
var throttleLeftOut = []string{
	"the lift of planing",
	"the bow wave and the trim it makes",
	"the propeller's wash over the tail and the deck, and its loss of thrust when it meets water",
	"the overshoot when the throttle is slammed open: up to twice the change shown",
}
