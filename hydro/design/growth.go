package design

import (
	"errors"
	"math"

	"millpond/hydro"
)

// Room is how much mass can be added at the CG before a requirement is missed.
type Room struct {
	Mass float64 // kg; negative when it is missed already and that much must come off
	// Never says that no mass in reach (from nearly none to sinking) changes
	// whether it holds.
	Never bool
	// Over says where the craft comes to rest when the requirement holds up
	// to Mass and the craft then leaps to another attitude; else nil. What it
	// does there is no room left.
	Over *hydro.State
}

// roomCuts is about how many cuts a search for the room takes: four a rest.
const roomCuts = 200

// errTooLong says that an answer is not worth its wait.
var errTooLong = errors.New("not worked out for a result that takes many curves")

// Room returns how much mass can be added at the CG, sinking and trimming
// freely, before the requirement is missed; where it is missed already, how
// much must come off before it holds, as a negative number. It ends where the
// craft leaps to another attitude, whatever the requirement's value is there.
//
// For a result that is slow it is not worked out.
func (r Requirement) Room(t *Trial) (Room, error) {
	if r.Slow {
		return Room{}, errTooLong
	}
	here := r.Judge(t)
	if here.Err != nil {
		var sinks *hydro.SinksError
		if !errors.As(here.Err, &sinks) {
			return Room{}, here.Err
		}
	}
	t.Body.Hull.Prepare(roomCuts)
	if !here.Pass {
		return r.relief(t), nil
	}
	leap, err := t.Leap()
	if err != nil {
		return Room{}, err
	}
	mass, _, ends := r.change(t, leap.Mass, func(t *Trial) bool { return !r.Judge(t).Pass })
	switch {
	case ends:
		return Room{Mass: mass}, nil
	case leap.Sinks:
		return Room{Mass: mass, Never: true}, nil
	}
	return Room{Mass: mass, Over: leap.After}, nil
}

// relief returns how much must come off before a requirement that is missed
// holds, in a craft that stays upright then.
func (r Requirement) relief(t *Trial) Room {
	least := -0.98 * t.Body.Mass
	_, mass, holds := r.change(t, least, func(t *Trial) bool {
		rest, err := t.Rest()
		return err == nil && overturned(rest) == nil && r.Judge(t).Pass
	})
	return Room{Mass: mass, Never: !holds}
}

// change returns two masses next to each other on the way to far, added at the
// CG, the first one before something is so and the second one with which it is;
// false where it never comes to be so.
func (r Requirement) change(t *Trial, far float64, so func(*Trial) bool) (before, with float64, ok bool) {
	// March in equal steps so that a bound crossed and met again further on
	// is not jumped, then halve.
	const steps = 24
	fine := 1e-6
	if r.Curve {
		fine = 1e-4 // each trial takes a curve, and nobody weighs nearer
	}
	last := 0.0
	for i := 1; i <= steps; i++ {
		mass := far * float64(i) / steps
		if !so(t.With(mass, nil)) {
			last = mass
			continue
		}
		for math.Abs(mass-last) > fine*t.Body.Mass {
			if mid := (mass + last) / 2; so(t.With(mid, nil)) {
				mass = mid
			} else {
				last = mid
			}
		}
		return last, mass, true
	}
	return far, far, false
}
