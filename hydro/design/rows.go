package design

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// restRows are the results of a craft at rest.
var restRows = []Result{
	{Key: "mass", Label: "mass", Kind: unit.Mass, get: func(t *Trial, _ int) (float64, error) { return t.Body.Mass, nil }},
	{Key: "water density", Label: "water density", Kind: unit.Density, get: func(t *Trial, _ int) (float64, error) { return t.Body.Density, nil }},
	{Key: "trim", Label: "trim, nose up", Kind: unit.Angle, get: atRest(func(r *hydro.Rest) float64 { return r.Trim() })},
	{Key: "heel", Label: "heel, starboard down", Kind: unit.Angle, get: atRest(func(r *hydro.Rest) float64 { return r.Heel() })},
	{Key: "angle of attack", Label: "angle of attack", Kind: unit.Angle, get: angleOfAttack},
	{Key: "origin height", Label: "height of the origin above water", Kind: unit.Length, get: atRest(func(r *hydro.Rest) float64 { return r.Height })},
	{Key: "draft", Label: "draft of the deepest point", Kind: unit.Length, get: func(t *Trial, _ int) (float64, error) { return t.Draft() }},
	{Key: "displaced volume", Label: "displaced volume", Kind: unit.Volume, get: atRest(func(r *hydro.Rest) float64 { return r.Volume })},
	{Key: "total volume", Label: "volume of all that displaces", Kind: unit.Volume, get: func(t *Trial, _ int) (float64, error) { return t.Body.Hull.Volume(), nil }},
	{Key: "reserve buoyancy", Label: "reserve buoyancy of the flotation", Kind: unit.Share, get: reserve},
	{Key: "whole reserve buoyancy", Label: "reserve buoyancy of the whole craft", Kind: unit.Share, get: atRest(func(r *hydro.Rest) float64 { return r.Reserve() })},
	{Key: "mass to first wet", Label: "mass to first wet, added at the CG", Kind: unit.Mass, Share: ofMass, get: massToFirstWet},
	{Key: "waterplane area", Label: "waterplane area", Kind: unit.Area, get: atRest(func(r *hydro.Rest) float64 { return r.Area })},
	{Key: "wetted area", Label: "wetted area", Kind: unit.Area, get: func(t *Trial, _ int) (float64, error) { return t.WetArea() }},
	{Key: "gm transverse", Label: "GM, transverse", Kind: unit.Length, get: atRest(func(r *hydro.Rest) float64 { return r.GMTransverse() })},
	{Key: "gm longitudinal", Label: "GM, longitudinal", Kind: unit.Length, get: atRest(func(r *hydro.Rest) float64 { return r.GMLongitudinal() })},
	{Key: "gm least", Label: "GM, least over all axes", Kind: unit.Length, get: atRest(func(r *hydro.Rest) float64 { gm, _ := r.GMLeast(); return gm })},
	{Key: "clearance of *", Label: "clearance of *", Kind: unit.Length, Of: OfPlace, get: clearance},
	{Key: "angle of *", Label: "angle of * to the water", Kind: unit.Angle, Of: OfLine, get: angleOfLine},
	{Key: "draft at *", Label: "draft at *", Kind: unit.Length, Of: OfStation, get: draftAt},
	{Key: "displaced volume of *", Label: "volume displaced by *", Kind: unit.Volume, Of: OfFloating, get: partVolume},
	{Key: "reserve buoyancy of *", Label: "reserve buoyancy of *", Kind: unit.Share, Of: OfFloating, get: partReserve},
}

// atRest makes a getter from what a rest says by itself.
func atRest(f func(*hydro.Rest) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, _ int) (float64, error) {
		r, err := t.Rest()
		if err != nil {
			return 0, err
		}
		return f(r), nil
	}
}

func angleOfAttack(t *Trial, _ int) (float64, error) {
	chord, ok := t.Craft.Chord()
	if !ok {
		return 0, fmt.Errorf("the craft has no wing chord: mark a line with chord = true")
	}
	r, err := t.Rest()
	if err != nil {
		return 0, err
	}
	return r.Slope(chord.Direction()), nil
}

func angleOfLine(t *Trial, i int) (float64, error) {
	r, err := t.Rest()
	if err != nil {
		return 0, err
	}
	return r.Slope(t.Craft.LineNow(i).Direction()), nil
}

func draftAt(t *Trial, i int) (float64, error) {
	r, err := t.Rest()
	if err != nil {
		return 0, err
	}
	h, _ := t.Station(i).Clearance(r.Attitude)
	return -h, nil
}

func clearance(t *Trial, i int) (float64, error) {
	r, err := t.Rest()
	if err != nil {
		return 0, err
	}
	h, _ := t.Place(i).Clearance(r.Attitude)
	return h, nil
}

// Place returns place i as results count them: points first, then parts.
func (t *Trial) Place(i int) hydro.Place {
	if n := len(t.Craft.Points); i >= n {
		return hydro.Surface(t.Craft.Parts[i-n].Placed())
	}
	p := t.Craft.Points[i]
	return t.spots(p.On, p.At)
}

// Station returns station i as a place: on a mirrored part the deeper side
// counts.
func (t *Trial) Station(i int) hydro.Place {
	s := t.Craft.Stations[i]
	return t.spots(s.On, s.At)
}

// spots returns a point that is set on a part, or on none for -1, as a place:
// what is on a mirrored part is there twice.
func (t *Trial) spots(on int, drawn r3.Vec) hydro.Place {
	at := t.Craft.Follow(on, drawn)
	if on >= 0 && t.Craft.Parts[on].Mirrored {
		return hydro.Spots{at, {X: at.X, Y: -at.Y, Z: at.Z}}
	}
	return hydro.Spot(at)
}

// reserve is the excess of the flotation's buoyancy, wholly under, over the
// displacement, as a share of the displacement (the sense of 14 CFR 23.2310).
func reserve(t *Trial, _ int) (float64, error) {
	v := t.Craft.FlotationVolume()
	if v == 0 {
		return 0, fmt.Errorf("no part is marked as flotation")
	}
	return v/t.Body.Need() - 1, nil
}

func partVolume(t *Trial, i int) (float64, error) {
	r, err := t.Rest()
	if err != nil {
		return 0, err
	}
	return t.Body.Hull.PartVolume(i, r.Attitude), nil
}

// partReserve is how much more the part could displace, as a share of what it
// displaces at rest.
func partReserve(t *Trial, i int) (float64, error) {
	if t.Craft.Parts[i].Role == craft.NonBuoyant {
		return 0, fmt.Errorf("%s does not displace water", t.Craft.Parts[i].Name)
	}
	v, err := partVolume(t, i)
	if err != nil {
		return 0, err
	}
	if v < 1e-9*t.Body.Need() {
		return 0, fmt.Errorf("%s is out of the water", t.Craft.Parts[i].Name)
	}
	return t.Body.Hull.PartWhole(i)/v - 1, nil
}

func massToFirstWet(t *Trial, _ int) (float64, error) {
	if len(t.DryPlaces()) == 0 {
		return 0, fmt.Errorf("nothing is marked to keep dry: set keep_dry = true on a point or a part")
	}
	w, err := t.FirstWet()
	if err != nil {
		return 0, err
	}
	return w.Mass, nil
}

func ofMass(t *Trial) (float64, error) { return t.Body.Mass, nil }
