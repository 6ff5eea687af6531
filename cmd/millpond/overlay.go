package main

import (
	"strings"

	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// overlayOf returns the picture of two designs at rest, one over the other.
// Both must have a rest.
func overlayOf(before, after *design.Trial, beforeName, afterName string) (*plots.Overlay, error) {
	was, err := before.Rest()
	if err != nil {
		return nil, err
	}
	is, err := after.Rest()
	if err != nil {
		return nil, err
	}
	return &plots.Overlay{
		Title:  after.Craft.Name + " at rest in " + after.Craft.Water.Name + ", before and after",
		Before: profileAt(before, &was.State), After: profileAt(after, &is.State),
		BeforeName: beforeName, AfterName: afterName,
		Changes: changesOf(before, after), Note: plots.Caution,
	}, nil
}

// compared are the results of the craft as a whole that tell two designs apart.
var compared = []string{"mass", "trim", "angle of attack", "draft", "reserve buoyancy", "mass to first wet", "gm least"}

// changesOf lists the results of two designs side by side.
func changesOf(before, after *design.Trial) []plots.Change {
	var out []plots.Change
	for _, key := range compared {
		a, err := design.Find(after.Craft, key)
		if err != nil {
			panic(err) // a key of our own that is no row
		}
		was, err := a.Value(before)
		if err != nil {
			continue
		}
		is, err := a.Value(after)
		if err != nil {
			continue
		}
		d := styleOf(after).Display(a.Kind, was, is)
		difference := figureText(d.Format(is - was))
		if d.Unit.FromSI(is-was) > 0 && d.Number(is-was) != d.Number(0) {
			difference = "+" + difference
		}
		if a.Kind == unit.Share {
			difference = strings.TrimSuffix(difference, " %") + " points"
		}
		out = append(out, plots.Change{
			Name: a.Title(), Before: figureText(d.Format(was)), After: figureText(d.Format(is)), Difference: difference,
		})
	}
	return out
}
