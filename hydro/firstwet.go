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
	After *State // for Capsizes: where it comes to rest then
}

const (
	// steady is the turn between two steps of added mass up to which nothing
	// says that the attitude has leaped, and leaping the one from which on a
	// step is always halved. Between them it is looked at whether the way
	// leads back.
	steady  = 2 * math.Pi / 180
	leaping = 15 * math.Pi / 180
	// atOnce is the step, as a share of the mass, on which a turn is a leap.
	atOnce = 1e-6
	// nearly is how far from sinking the last step ends, as a share of what can
	// be added: at sinking itself there is no rest.
	nearly = 1e-6
)

// FirstWet returns how much mass can be added at the body point at (the CG,
// where at is nil) until the first of the places goes under, the body sinking
// and trimming and heeling freely from its state of rest. With no places the
// end is sinking or capsizing. Where one is under to begin with, what must come
// off is what keeps all dry in the rest from level, as a lighter body would be
// set in the water.
func (s *State) FirstWet(at *r3.Vec, places []Place) (FirstWet, error) {
	w := wetting{start: s, at: at, places: places}
	return w.first()
}

// first works the search through.
func (w *wetting) first() (FirstWet, error) {
	s := w.start
	here := w.look(*s, 0)
	// The far end: all the hull can carry, or with a place under already,
	// nearly no mass at all.
	far := s.body.Hull.volume*s.body.Density - s.body.Mass
	if here.height < 0 {
		far, w.off = -s.body.Mass*(1-1e-3), true
	}
	const steps = 16
	for i := 1; i <= steps; i++ {
		mass := far * float64(i) / steps
		if i == steps && !w.off {
			mass = far * (1 - nearly)
		}
		next, err := w.step(here, mass)
		switch {
		case errors.Is(err, errTurned):
			if !w.off {
				return w.leaped(next)
			}
			if next, err = w.over(next); err != nil {
				return FirstWet{}, err
			}
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
	off    bool               // mass comes off
	alike  func(*loaded) bool // whether a load's rest counts as the same attitude; nil for any
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

// solve returns the rest with mass added, followed from another one, or from
// level where mass comes off.
func (w *wetting) solve(from loaded, mass float64) (loaded, error) {
	b := w.start.body.With(mass, w.at)
	if err := b.check(); err != nil {
		return loaded{}, err
	}
	start := Attitude{Up: r3.Vec{Z: 1}, Height: from.state.Height}
	if !w.off {
		start = w.ahead(from, mass)
	}
	rest, err := b.RestFrom(start)
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

// step goes on to the given mass, or to where the lowest place meets the water
// on the way. Where the attitude turns too far at once the step is halved, to
// find whether it was a leap.
func (w *wetting) step(from loaded, mass float64) (loaded, error) {
	for {
		next, err := w.solve(from, mass)
		if err != nil {
			return loaded{}, err
		}
		if same, err := w.same(&from, &next); same || err != nil {
			return next, err
		}
		half, err := w.step2(from, (from.mass+mass)/2)
		if err != nil || half.height < 0 != (from.height < 0) {
			return half, err
		}
		from = half
	}
}

// step2 is step for the first half of a step that turned too far.
func (w *wetting) step2(from loaded, mass float64) (loaded, error) {
	if math.Abs(mass-from.mass) < atOnce*w.start.body.Mass {
		return from, errTurned
	}
	return w.step(from, mass)
}

// same reports whether one rest is the other one, moved steadily by the mass
// between them. After a leap the way back does not end where it began: the rest
// that was left lies beside the one that was reached.
func (w *wetting) same(from, next *loaded) (bool, error) {
	switch turned := angleBetween(from.state.Up, next.state.Up); {
	case turned >= leaping:
		return false, nil
	case turned >= steady:
		back, err := w.solve(*next, from.mass)
		if err != nil {
			return false, err
		}
		if angleBetween(back.state.Up, from.state.Up) > 0.1*turned {
			return false, nil
		}
	}
	return w.alike == nil || w.alike(next), nil
}

// over returns the rest beyond a leap.
func (w *wetting) over(last loaded) (loaded, error) {
	more := 2 * atOnce * w.start.body.Mass
	if w.off {
		more = -more
	}
	return w.solve(last, last.mass+more)
}

// leaped is the answer where the attitude leaps after the given load: it ends
// there; where mass comes off the lowest place is dry beyond.
func (w *wetting) leaped(last loaded) (FirstWet, error) {
	next, err := w.over(last)
	switch {
	case w.off:
		return FirstWet{Mass: next.mass, End: GoesUnder, Place: last.place, At: last.spot, State: next.state}, err
	case errors.As(err, new(*SinksError)):
		return FirstWet{Mass: last.mass, End: Sinks, Place: -1, State: last.state}, nil
	}
	return FirstWet{Mass: last.mass, End: Capsizes, Place: -1, State: last.state, After: &next.state}, err
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
			return w.leaped(mid)
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
