package design

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// WaterSkin is the clearance below which still water wets a place by itself:
// it climbs some 2 to 4 mm up a wetted wall (meniscus; common practice, no
// source).
const WaterSkin = 0.005

// Doubts returns what a builder should know before trusting a rest: warnings
// of the answer, not of the input.
func Doubts(t *Trial) []string {
	r, err := t.Rest()
	if err != nil {
		return nil
	}
	out := Slips(t)
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	length := func(v float64) string { return unit.Style{Fine: true}.Format(unit.Length, v) }
	gm, _ := r.GMLeast()
	switch size := t.Body.Hull.Size(); {
	case r.Neutral:
		say("it is neutral: it stays at any heel or trim along one direction, nothing brings it back")
	case gm < 0.005*size:
		say("the least GM is only %s: a small weight off center will turn it far", length(gm))
	}
	if len(r.Also) > 0 {
		say("level is balanced but unstable: it falls to one of %d sides", len(r.Also)+1)
	}
	if !Upright(&r.State) {
		say("it does not stay upright: it rests at trim %s, heel %s",
			unit.Format(unit.Angle, r.Trim()), unit.Format(unit.Angle, r.Heel()))
	}
	if r.Area == 0 {
		lo, hi := r.HeaveRange()
		say("nothing pierces the surface: it is neutral in heave over %s", length(hi-lo))
	}
	for i, p := range t.Craft.Points {
		if p.KeepDry {
			out = append(out, wetDoubt(p.Name, t, i)...)
		}
	}
	for i := range t.Craft.Parts {
		if p := &t.Craft.Parts[i]; p.KeepDry {
			out = append(out, wetDoubt(p.Name, t, len(t.Craft.Points)+i)...)
		}
	}
	if len(t.Craft.Compartments) > 0 {
		names := t.Craft.SpaceNames()
		for _, v := range t.Craft.Vents() {
			if h := r.HeightOf(v.At); h < 0 {
				say("%s lies %s under water and lets it into %s: these results are for a dry one, see millpond flood", v.Name, length(-h), names[v.Space])
			}
		}
	}
	return out
}

// Upright reports whether a builder would call a craft upright: heeled by at
// most 90 deg and trimmed by at most 45 deg, beyond which it stands on its nose
// or its tail.
func Upright(s *hydro.State) bool {
	return math.Abs(s.Heel()) <= math.Pi/2 && math.Abs(s.Trim()) <= math.Pi/4
}

// wetDoubt warns of a place to keep dry that is wet or nearly so.
func wetDoubt(name string, t *Trial, place int) []string {
	h, err := clearance(t, place)
	switch {
	case err != nil || h >= WaterSkin:
		return nil
	case h < 0:
		return []string{fmt.Sprintf("%s is to keep dry but lies %s under water", name, unit.Format(unit.Length, -h))}
	}
	return []string{fmt.Sprintf("%s is only %s above the water: within the water's own skin", name, unit.Style{Fine: true}.Format(unit.Length, h))}
}
