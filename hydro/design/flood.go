package design

import (
	"fmt"
	"strings"

	"millpond/hydro"
	"millpond/hydro/craft"
)

// FloodCase is one flooding and its course.
type FloodCase struct {
	In []hydro.Flooding // as asked for; none for the craft as it is
	hydro.Flooded
}

// NoSpaceError says that a craft has no compartments.
type NoSpaceError struct{ Craft string }

func (e *NoSpaceError) Error() string {
	return fmt.Sprintf("%s has no compartments: write a [[compartment]] for each room that can fill, or for each float as a whole", e.Craft)
}

// LostError is the answer no of a flooded craft: it capsizes or sinks.
type LostError struct {
	Fate hydro.Fate
	With string // what is flooded
}

func (e *LostError) Error() string { return fmt.Sprintf("it %s with %s flooded", e.Fate, e.With) }

// Spaces returns the craft's compartments, side by side.
func (t *Trial) Spaces() ([]craft.Space, error) {
	return t.spaces.get(func() ([]craft.Space, error) {
		if len(t.Craft.Compartments) == 0 {
			return nil, &NoSpaceError{t.Craft.Name}
		}
		return t.Craft.Spaces(), nil
	})
}

// Flood returns the course of a flooding that begins at rest.
func (t *Trial) Flood(in []hydro.Flooding) (*FloodCase, error) {
	spaces, err := t.Spaces()
	if err != nil {
		return nil, err
	}
	rest, err := t.Rest()
	if err != nil {
		return nil, err
	}
	plain := make([]hydro.Space, len(spaces))
	for i := range spaces {
		plain[i] = spaces[i].Space
	}
	var vents []hydro.Vent
	for _, v := range t.Craft.Vents() {
		vents = append(vents, v.Vent)
	}
	f, err := t.Body.Flood(rest.Attitude, plain, vents, in)
	if err != nil {
		return nil, err
	}
	return &FloodCase{In: in, Flooded: f}, nil
}

// Floods returns the course of opening each compartment to the sea, one at a
// time.
func (t *Trial) Floods() ([]*FloodCase, error) {
	return t.floods.get(func() ([]*FloodCase, error) {
		spaces, err := t.Spaces()
		if err != nil {
			return nil, err
		}
		return t.each(Singles(len(spaces), hydro.Open, 0))
	})
}

// FloodPairs returns the course of opening every two compartments to the sea.
func (t *Trial) FloodPairs() ([]*FloodCase, error) {
	return t.floodPairs.get(func() ([]*FloodCase, error) {
		spaces, err := t.Spaces()
		if err != nil {
			return nil, err
		}
		if err := CheckPairs(len(spaces)); err != nil {
			return nil, err
		}
		return t.each(Pairs(len(spaces), hydro.Open, 0))
	})
}

// floodCuts is about how many cuts one flooding takes.
const floodCuts = 20

// each returns the courses of floodings.
func (t *Trial) each(all [][]hydro.Flooding) ([]*FloodCase, error) {
	t.Body.Hull.Prepare(floodCuts * len(all))
	var out []*FloodCase
	for _, in := range all {
		f, err := t.Flood(in)
		if err != nil {
			return nil, err
		}
		out = append(out, f)
	}
	return out, nil
}

// Singles lists the floodings of one of n spaces each.
func Singles(n int, way hydro.Way, share float64) [][]hydro.Flooding {
	var out [][]hydro.Flooding
	for i := range n {
		out = append(out, []hydro.Flooding{{Space: i, Way: way, Share: share}})
	}
	return out
}

// mostSpaces is how many compartments, counted on both sides, are flooded two
// by two: 300 pairs of 25.
const mostSpaces = 25

// TooManySpacesError says that there are more pairs of compartments than can be
// gone through while somebody waits.
type TooManySpacesError struct{ Spaces int }

func (e *TooManySpacesError) Error() string {
	return fmt.Sprintf("%d compartments make %d pairs, more than are gone through; name those to be flooded together", e.Spaces, e.Spaces*(e.Spaces-1)/2)
}

// CheckPairs returns a *TooManySpacesError for more than so many spaces.
func CheckPairs(n int) error {
	if n > mostSpaces {
		return &TooManySpacesError{n}
	}
	return nil
}

// Pairs lists the floodings of every two of n spaces.
func Pairs(n int, way hydro.Way, share float64) [][]hydro.Flooding {
	var out [][]hydro.Flooding
	for i := range n {
		for j := i + 1; j < n; j++ {
			out = append(out, []hydro.Flooding{{Space: i, Way: way, Share: share}, {Space: j, Way: way, Share: share}})
		}
	}
	return out
}

// FloodedReserve returns the reserve buoyancy of what remains of the flotation
// at a stage: its volume less what the sea has taken, over the displacement
// that it carries with the water shut in, less one.
func (t *Trial) FloodedReserve(s *hydro.Stage) float64 {
	return t.Remaining(s)/s.Body.Need() - 1
}

// Remaining returns the volume of the flotation less what is open to the sea
// at a stage, m3.
func (t *Trial) Remaining(s *hydro.Stage) float64 {
	v := t.Craft.FlotationVolume()
	spaces, err := t.Spaces()
	if err != nil {
		return v
	}
	for _, in := range s.In {
		if k := &spaces[in.Space]; in.Way == hydro.Open && t.Craft.Parts[k.Part].Role == craft.Flotation {
			v -= k.Permeability * k.Volume()
		}
	}
	return v
}

// FloodedNames names the spaces that a flooding was asked for.
func (t *Trial) FloodedNames(in []hydro.Flooding) string {
	if len(in) == 0 {
		return "nothing"
	}
	spaces, err := t.Spaces()
	if err != nil {
		return ""
	}
	var names []string
	for _, f := range in {
		names = append(names, spaces[f.Space].Name)
	}
	return strings.Join(names, " and ")
}

// Lost returns a *LostError when a flooding ends badly.
func (t *Trial) Lost(f *FloodCase) error {
	if last := f.Last(); last.Fate != hydro.Afloat {
		return &LostError{Fate: last.Fate, With: t.FloodedNames(f.In)}
	}
	return nil
}
