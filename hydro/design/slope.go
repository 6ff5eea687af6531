package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
)

// slopeOf returns the derivative of a result by a variable at today's design.
// Where the variable moves mass and CG alone and the result is one of the
// attitude's, it comes exactly from the waterplane; else from whole solves a
// fifth of a standard deviation to either side.
func slopeOf(today *Trial, t Tolerance, now float64, a Asked) (slope float64, exact bool, err error) {
	if s, ok := exactSlope(today, t.Varied, now, t.sigma()/5, a); ok {
		return s, true, nil
	}
	s, err := differenceSlope(today, t.Varied, now, t.sigma()/5, a)
	return s, false, err
}

// differenceSlope takes a central difference of whole solves, with steps h.
func differenceSlope(today *Trial, v Varied, now, h float64, a Asked) (float64, error) {
	var ends [2]float64
	for i, sign := range []float64{1, -1} {
		c := today.Craft.Copy()
		if err := v.Set(c, now+sign*h); err != nil {
			return 0, err
		}
		t, err := New(c)
		if err != nil {
			return 0, err
		}
		if ends[i], err = a.Value(t); err != nil {
			return 0, err
		}
		if leaped(today, t) {
			return 0, errNoSlope
		}
	}
	s := (ends[0] - ends[1]) / (2 * h)
	if math.IsNaN(s) {
		return 0, errNoSlope
	}
	return s, nil
}

// leaped reports whether a craft that is upright today is not with a change.
func leaped(today, changed *Trial) bool {
	now, err := today.Rest()
	if err != nil || overturned(now) != nil {
		return false
	}
	then, err := changed.Rest()
	return err == nil && overturned(then) != nil
}

// exactSlope returns the derivative from the waterplane, and false where the
// variable changes more than mass and CG or the result is of another sort.
func exactSlope(today *Trial, v Varied, now, h float64, a Asked) (float64, bool) {
	effect, ok := effectOf(today, a)
	if !ok {
		return 0, false
	}
	var ends [2]craft.Mass
	for i, sign := range []float64{1, -1} {
		c := today.Craft.Copy()
		if v.Set(c, now+sign*h) != nil || !sameHull(today.Craft, c) {
			return 0, false
		}
		ends[i] = c.Loaded()
	}
	rest, err := today.Rest()
	if err != nil {
		return 0, false
	}
	// The mass build-up is linear in these variables, or nearly so: its own
	// difference is as good as a derivative.
	mass := (ends[0].Mass - ends[1].Mass) / (2 * h)
	shift := r3.Scale(1/(2*h), r3.Sub(ends[0].At, ends[1].At))
	return mass*effect(rest.Added(today.Body.CG)) + effect(rest.Shifted(shift)), true
}

// sameHull reports whether two crafts displace alike, in the same water.
func sameHull(a, b *craft.Craft) bool {
	if a.Water.Density != b.Water.Density || len(a.Parts) != len(b.Parts) {
		return false
	}
	for i := range a.Parts {
		if a.Parts[i].Fit != b.Parts[i].Fit || a.Parts[i].Role != b.Parts[i].Role {
			return false
		}
	}
	return true
}

// effectOf returns how a change of attitude changes a result, and false for a
// result that is more than the attitude.
func effectOf(t *Trial, a Asked) (func(hydro.Change) float64, bool) {
	rest, err := t.Rest()
	if err != nil {
		return nil, false
	}
	switch a.Key {
	case "trim":
		return hydro.Change.Trim, true
	case "heel":
		return hydro.Change.Heel, true
	case "origin height":
		return func(c hydro.Change) float64 { return c.Height }, true
	case "draft":
		low := t.Body.Hull.Lowest(rest.Up)
		return func(c hydro.Change) float64 { return -c.HeightOf(low) }, true
	case "angle of attack":
		chord, ok := t.Craft.Chord()
		if !ok {
			return nil, false
		}
		return func(c hydro.Change) float64 { return c.Slope(chord.Direction()) }, true
	case "angle of *":
		line := t.Craft.LineNow(a.index).Direction()
		return func(c hydro.Change) float64 { return c.Slope(line) }, true
	case "draft at *":
		_, at := t.Station(a.index).Clearance(rest.Attitude)
		return func(c hydro.Change) float64 { return -c.HeightOf(at) }, true
	case "clearance of *":
		_, at := t.Place(a.index).Clearance(rest.Attitude)
		return func(c hydro.Change) float64 { return c.HeightOf(at) }, true
	}
	return nil, false
}
