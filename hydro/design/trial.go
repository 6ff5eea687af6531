package design

import (
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
)

// Trial is one craft worked through: each answer is computed when it is first
// asked for and kept. It is for use by one goroutine at a time.
type Trial struct {
	Craft *craft.Craft
	Body  *hydro.Body

	rest     memo[*hydro.Rest]
	firstWet memo[*hydro.FirstWet]
	leap     memo[hydro.Leap]
	wetArea  memo[float64]
	draft    memo[float64]
	righting [2]memo[*hydro.Righting] // by axis
	throttle memo[*hydro.Throttle]
	gales    map[float64]*hydro.Gale // by direction
	exposed  hydro.Exposed           // to the wind

	spaces             memo[[]craft.Space]
	floods, floodPairs memo[[]*FloodCase]
}

// memo keeps an answer, or the error that there is none.
type memo[T any] struct {
	done  bool
	value T
	err   error
}

func (m *memo[T]) get(compute func() (T, error)) (T, error) {
	if !m.done {
		m.value, m.err = compute()
		m.done = true
	}
	return m.value, m.err
}

// New returns the trial of a craft. It fails when the craft has no mass or
// nothing that displaces; that it sinks is an answer of [Trial.Rest].
func New(c *craft.Craft) (*Trial, error) {
	body, err := c.Body()
	if err != nil {
		return nil, err
	}
	return &Trial{Craft: c, Body: body}, nil
}

// With returns the trial of the same craft with mass added at the point at, or
// at the CG where at is nil. The craft's parts keep their masses.
func (t *Trial) With(mass float64, at *r3.Vec) *Trial {
	return &Trial{Craft: t.Craft, Body: t.Body.With(mass, at)}
}

// Rest returns how the craft rests, or a *hydro.SinksError.
func (t *Trial) Rest() (*hydro.Rest, error) {
	return t.rest.get(func() (*hydro.Rest, error) {
		r, err := t.Body.Rest()
		return &r, err
	})
}

// DryPlace is a point or a whole part that is to stay dry.
type DryPlace struct {
	Name string
	hydro.Place
}

// Watched is a point, or a whole part that is to stay dry.
type Watched struct {
	Name    string
	KeepDry bool
	hydro.Place
}

// Watched returns every place that is watched: all points first, then the
// parts that are to stay dry.
func (t *Trial) Watched() []Watched {
	var out []Watched
	for i, p := range t.Craft.Points {
		out = append(out, Watched{p.Name, p.KeepDry, t.Place(i)})
	}
	for i := range t.Craft.Parts {
		if p := &t.Craft.Parts[i]; p.KeepDry {
			out = append(out, Watched{p.Name, true, t.Place(len(t.Craft.Points) + i)})
		}
	}
	return out
}

// DryPlaces returns what the craft is to keep dry: points first, then parts.
func (t *Trial) DryPlaces() []DryPlace {
	var out []DryPlace
	for _, w := range t.Watched() {
		if w.KeepDry {
			out = append(out, DryPlace{w.Name, w.Place})
		}
	}
	return out
}

// firstWetCuts is about how many cuts a search for the first wet place takes.
const firstWetCuts = 64

// FirstWet returns how much mass can be added at the CG until the first place
// to be kept dry goes under.
func (t *Trial) FirstWet() (*hydro.FirstWet, error) {
	return t.firstWet.get(func() (*hydro.FirstWet, error) {
		t.Body.Hull.Prepare(firstWetCuts)
		rest, err := t.Rest()
		if err != nil {
			return nil, err
		}
		var places []hydro.Place
		for _, p := range t.DryPlaces() {
			places = append(places, p.Place)
		}
		w, err := rest.FirstWet(nil, places)
		return &w, err
	})
}

// Leap returns how much mass can be added at the CG until the craft leaps to
// another attitude, or sinks.
func (t *Trial) Leap() (hydro.Leap, error) {
	return t.leap.get(func() (hydro.Leap, error) {
		t.Body.Hull.Prepare(2 * firstWetCuts)
		rest, err := t.Rest()
		if err != nil {
			return hydro.Leap{}, err
		}
		return rest.Leap(nil)
	})
}

// WetArea returns the wetted area at rest, m2.
func (t *Trial) WetArea() (float64, error) {
	return t.wetArea.get(func() (float64, error) {
		rest, err := t.Rest()
		if err != nil {
			return 0, err
		}
		return rest.WetArea(), nil
	})
}

// Draft returns the depth of the deepest point at rest, m.
func (t *Trial) Draft() (float64, error) {
	return t.draft.get(func() (float64, error) {
		rest, err := t.Rest()
		if err != nil {
			return 0, err
		}
		return rest.Draft(), nil
	})
}
