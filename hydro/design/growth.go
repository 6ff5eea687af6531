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
}

// roomCuts is about how many cuts a search for the room takes: four a rest.
const roomCuts = 200

// errTooLong says that an answer is not worth its wait.
var errTooLong = errors.New("not worked out for a result that takes many curves")

// Room returns how much mass can be added at the CG, sinking and trimming
// freely, before the requirement is missed; where it is missed already, how
// much must come off before it holds, as a negative number.
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
	holds := func(mass float64) bool { return r.Judge(t.With(mass, nil)).Pass }
	far := t.Body.Hull.Volume()*t.Body.Density - t.Body.Mass
	if !here.Pass {
		far = -0.98 * t.Body.Mass
	}
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
		if holds(mass) == here.Pass {
			last = mass
			continue
		}
		for math.Abs(mass-last) > fine*t.Body.Mass {
			if mid := (mass + last) / 2; holds(mid) == here.Pass {
				last = mid
			} else {
				mass = mid
			}
		}
		return Room{Mass: last}, nil
	}
	return Room{Mass: far, Never: true}, nil
}
