package hydro

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// End says what puts an end to adding mass.
type End int

const (
	// GoesUnder: a watched place reaches the water.
	GoesUnder End = iota
	// Capsizes: the attitude the body has been in ends and it turns to
	// another one.
	Capsizes
	// Sinks: the hull is wholly used up.
	Sinks
)

func (e End) String() string {
	return [...]string{"goes under", "capsizes", "sinks"}[e]
}

// FirstWet is how much mass a body at rest can take on.
type FirstWet struct {
	// Mass that can be added until the end, kg; negative when a place is
	// under to begin with and that much must come off.
	Mass  float64
	End   End
	Place int    // index of the place that goes under first; -1 for the other ends
	At    r3.Vec // where on that place, body axes
	State State  // at that moment
}

// turnLimit is the turn between two steps of added mass that is no longer the
// same attitude. It is looked at on a step already halved to a millionth.
const turnLimit = 15 * math.Pi / 180

// FirstWet returns how much mass can be added at the body point at (the CG,
// where at is nil) until the first of the places goes under, the body sinking
// and trimming and heeling freely from its state of rest. With no places the
// end is sinking or capsizing.
func (s *State) FirstWet(at *r3.Vec, places []Place) (FirstWet, error) {
	w := wetting{start: s, at: at, places: places}
	here := w.look(*s, 0)
	// The far end: all the hull can carry, or with a place under already,
	// nearly no mass at all.
	far := s.body.Hull.volume*s.body.Density - s.body.Mass
	if here.height < 0 {
		far = -s.body.Mass * (1 - 1e-3)
	}
	const steps = 16
	for i := 1; i <= steps; i++ {
		next, err := w.step(here, far*float64(i)/steps)
		switch {
		case errors.Is(err, errTurned):
			return FirstWet{Mass: next.mass, End: Capsizes, Place: -1, State: next.state}, nil
		case errors.As(err, new(*SinksError)):
			return FirstWet{Mass: far, End: Sinks, Place: -1, State: here.state}, nil
		case err != nil:
			return FirstWet{}, err
		}
		if here.height < 0 != (next.height < 0) {
			return w.narrow(here, next)
		}
		here = next
	}
	return FirstWet{Mass: far, End: Sinks, Place: -1, State: here.state}, nil
}

// errTurned reports that a step of mass led to another attitude.
var errTurned = errors.New("turned over")

// wetting is one search for the first place to go under.
type wetting struct {
	start  *State
	at     *r3.Vec
	places []Place
}

// loaded is the body with some mass added, and its lowest watched place.
type loaded struct {
	state  State
	mass   float64 // added
	height float64
	place  int
	spot   r3.Vec
}

func (w *wetting) look(s State, mass float64) loaded {
	l := loaded{state: s, mass: mass, height: math.Inf(1), place: -1}
	for i, p := range w.places {
		if h, at := p.Clearance(s.Attitude); h < l.height {
			l.height, l.place, l.spot = h, i, at
		}
	}
	return l
}

// solve returns the rest with mass added, followed from another one.
func (w *wetting) solve(from loaded, mass float64) (loaded, error) {
	b := w.start.body.With(mass, w.at)
	if err := b.check(); err != nil {
		return loaded{}, err
	}
	rest, err := b.RestFrom(w.ahead(from, mass))
	if err != nil {
		return loaded{}, err
	}
	return w.look(rest.State, mass), nil
}

// answer returns how a load's rest moves per kilogram more.
func (w *wetting) answer(l *loaded) Change {
	at := l.state.body.CG
	if w.at != nil {
		at = *w.at
	}
	return l.state.Added(at)
}

// ahead returns the attitude that the exact response expects at a mass, from
// which the solve has a cut or two to go; where that is far it returns the
// present one.
func (w *wetting) ahead(from loaded, mass float64) Attitude {
	c, more := w.answer(&from), mass-from.mass
	turn := r3.Scale(more, c.Up)
	if !(r3.Norm(turn) < firstRadius) {
		return from.state.Attitude
	}
	return Attitude{Up: r3.Unit(r3.Add(from.state.Up, turn)), Height: from.state.Height + more*c.Height}
}

// step goes on to the given mass. Where the attitude turns too far at once the
// step is halved, to find whether it was a jump.
func (w *wetting) step(from loaded, mass float64) (loaded, error) {
	for {
		next, err := w.solve(from, mass)
		if err != nil {
			return loaded{}, err
		}
		turned := math.Acos(max(-1, min(1, r3.Dot(from.state.Up, next.state.Up))))
		if turned < turnLimit {
			return next, nil
		}
		half, err := w.step2(from, (from.mass+mass)/2)
		if err != nil {
			return half, err
		}
		from = half
	}
}

// step2 is step for the first half of a step that turned too far.
func (w *wetting) step2(from loaded, mass float64) (loaded, error) {
	if math.Abs(mass-from.mass) < 1e-6*w.start.body.Mass {
		return from, errTurned
	}
	return w.step(from, mass)
}

// narrow closes in on the mass at which the lowest place meets the water,
// between two loads on either side of it.
func (w *wetting) narrow(a, b loaded) (FirstWet, error) {
	fa, fb := a.height, b.height
	inside := func(mass float64) bool { return mass > min(a.mass, b.mass) && mass < max(a.mass, b.mass) }
	for i := range 100 {
		if math.Abs(b.mass-a.mass) <= 1e-12*w.start.body.Mass || a.height == 0 {
			break
		}
		// Regula falsi with the Illinois change: keep the bracket, halve
		// the weight of an end that stays. Every other time Newton's step
		// from the nearer end, with the exact slope, which is there at once
		// where one place stays the lowest.
		mass := (a.mass*fb - b.mass*fa) / (fb - fa)
		if i%2 == 0 {
			near := &a
			if math.Abs(b.height) < math.Abs(a.height) {
				near = &b
			}
			if slope := w.answer(near).HeightOf(near.spot); inside(near.mass - near.height/slope) {
				mass = near.mass - near.height/slope
			}
		}
		if !inside(mass) {
			mass = (a.mass + b.mass) / 2
		}
		mid, err := w.step(a, mass)
		if errors.Is(err, errTurned) {
			return FirstWet{Mass: mid.mass, End: Capsizes, Place: -1, State: mid.state}, nil
		}
		if err != nil {
			return FirstWet{}, err
		}
		if math.Abs(mid.height) <= 1e-12*w.start.body.Hull.size {
			a, b = mid, mid
			break
		}
		if mid.height < 0 == (a.height < 0) {
			a, fa = mid, mid.height
			fb /= 2
		} else {
			b, fb = mid, mid.height
			fa /= 2
		}
	}
	wet := b
	if a.height < 0 {
		wet = a
	}
	return FirstWet{Mass: wet.mass, End: GoesUnder, Place: wet.place, At: wet.spot, State: wet.state}, nil
}

// With returns the body with mass added at the point at (its CG where at is
// nil). The hull is shared.
func (b *Body) With(mass float64, at *r3.Vec) *Body {
	c := *b
	c.Mass += mass
	if at != nil {
		c.CG = r3.Add(b.CG, r3.Scale(mass/(c.Mass-b.liquid()), r3.Sub(*at, b.CG)))
	}
	return &c
}
