package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// restReport is what `rest` has to say about a trial that rests.
type restReport struct {
	trial    *design.Trial
	warnings []string
	addAt    *r3.Vec // another place to add mass at, craft axes
}

// rest returns the trial's rest, which is known to exist.
func (r *restReport) rest() *hydro.Rest {
	rest, err := r.trial.Rest()
	if err != nil {
		panic(err) // the verb has asked before
	}
	return rest
}

// styleOf returns the resolution that the craft's size deserves: 0.1 mm for
// one under half a meter.
func styleOf(t *design.Trial) unit.Style { return unit.StyleFor(2 * t.Body.Hull.Size()) }

// marginNote says how much growth is in the mass.
func marginNote(t *design.Trial) string {
	if t.Craft.Growth.Share == 0 {
		return ""
	}
	return fmt.Sprintf(" (growth margin of %s included)", unit.Format(unit.Share, t.Craft.Growth.Share))
}

// remark returns what stands beside a result: what it is measured against.
func (r *restReport) remark(key string, style unit.Style) string {
	t, rest := r.trial, r.rest()
	mass := func(v float64) string { return style.Format(unit.Mass, v) }
	switch key {
	case "reserve buoyancy":
		full := t.Craft.FlotationVolume() * t.Body.Density
		return fmt.Sprintf("(%s carried when wholly under - %s displaced) / %s displaced", mass(full), mass(t.Body.Mass), mass(t.Body.Mass))
	case "whole reserve buoyancy":
		full := t.Body.Hull.Volume() * t.Body.Density
		if math.Abs(full/t.Body.Density/t.Craft.FlotationVolume()-1) < 1e-9 {
			return "nothing else displaces"
		}
		return fmt.Sprintf("wing and all: (%s - %s) / %s", mass(full), mass(t.Body.Mass), mass(t.Body.Mass))
	case "mass to first wet":
		return r.firstWetNote(style)
	case "heel":
		if !design.Upright(&rest.State) {
			return "NOT UPRIGHT: it lies " + lies(rest.Up)
		}
	case "angle of attack":
		chord, _ := t.Craft.Chord()
		return chord.Name
	case "gm least":
		_, axis := rest.GMLeast()
		return "about " + axisName(rest.Up, axis)
	case "draft":
		return "at " + pointText(t.Body.Hull.Lowest(rest.Up), style)
	}
	return ""
}

// firstWetNote names what ends the adding of mass, and the share of the mass.
func (r *restReport) firstWetNote(style unit.Style) string {
	w, err := r.trial.FirstWet()
	if err != nil {
		return ""
	}
	share := unit.Format(unit.Share, w.Mass/r.trial.Body.Mass)
	switch w.End {
	case hydro.GoesUnder:
		name := r.trial.DryPlaces()[w.Place].Name
		if w.Mass < 0 {
			return fmt.Sprintf("%s: %s is under already, so much must come off", share, name)
		}
		return fmt.Sprintf("%s of the mass; then %s goes under, at %s", share, name, pointText(w.At, style))
	case hydro.Capsizes:
		return share + " of the mass; then it " + goesOver(w.After) + ", with every place still dry until then"
	}
	return share + " of the mass; then it sinks with every place still dry until then"
}

// pointText writes a point in craft axes.
func pointText(p r3.Vec, style unit.Style) string {
	d := style.Display(unit.Length, p.X, p.Y, p.Z)
	return fmt.Sprintf("x %s, y %s, z %s %s", d.Number(p.X), d.Number(p.Y), d.Number(p.Z), d.Unit.Name)
}

// axisName describes a horizontal axis by its angle from the body's x axis.
func axisName(up, axis r3.Vec) string {
	ahead := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(up.X, up)))
	angle := math.Atan2(r3.Dot(up, r3.Cross(ahead, axis)), r3.Dot(ahead, axis)) * 180 / math.Pi
	// An axis has no sense: fold to within 90 deg of ahead.
	if angle > 90 {
		angle -= 180
	} else if angle <= -90 {
		angle += 180
	}
	switch a := math.Abs(angle); {
	case a < 0.5:
		return "the fore-and-aft axis"
	case a > 89.5:
		return "the axis across"
	default:
		side := "port"
		if angle < 0 {
			side = "starboard"
		}
		return fmt.Sprintf("an axis %.0f deg to %s of ahead", a, side)
	}
}

// each returns the values of all results of the given key over what the craft
// has of them.
func (r *restReport) each(key string, add func(design.Asked, float64)) {
	for _, a := range design.All(r.trial.Craft) {
		if a.Key != key {
			continue
		}
		if v, err := a.Value(r.trial); err == nil {
			add(a, v)
		}
	}
}

func (r *restReport) stations(style unit.Style) *table {
	var tab table
	for i, st := range r.trial.Craft.Stations {
		place := r.trial.Station(i)
		h, _ := place.Clearance(r.rest().Attitude)
		note := ""
		if side := sideOf(place, r.rest().Attitude); side.name != "" {
			note = fmt.Sprintf("%s, %s %s", side.name, side.other, style.Format(unit.Length, -side.height))
		}
		tab.row(st.Name, style.Format(unit.Length, -h), note)
	}
	return &tab
}

// clearances lists the points, and the parts that are to stay dry with the
// place on them that lies lowest.
func (r *restReport) clearances(style unit.Style) *table {
	var tab table
	c := r.trial.Craft
	for i, p := range c.Points {
		place := r.trial.Place(i)
		h, _ := place.Clearance(r.rest().Attitude)
		tab.row(p.Name, style.Format(unit.Length, h), commas(dryNote(h, p.KeepDry), sideOf(place, r.rest().Attitude).name))
	}
	for i := range c.Parts {
		if !c.Parts[i].KeepDry {
			continue
		}
		h, at := r.trial.Place(len(c.Points) + i).Clearance(r.rest().Attitude)
		tab.row(c.Parts[i].Name, style.Format(unit.Length, h), commas(dryNote(h, true), "lowest at "+pointText(at, style)))
	}
	return &tab
}

// dryNote says when a place is wet or nearly so.
func dryNote(h float64, keepDry bool) string {
	switch {
	case h < 0 && keepDry:
		return "UNDER WATER, to keep dry"
	case h < 0:
		return "under water"
	case h < design.WaterSkin:
		return "within the water's skin"
	case keepDry:
		return "to keep dry"
	}
	return ""
}

func (r *restReport) angles(style unit.Style) *table {
	var tab table
	r.each("angle of *", func(a design.Asked, v float64) { tab.row(a.Name, style.Format(unit.Angle, v)) })
	return &tab
}

func (r *restReport) parts(style unit.Style) *table {
	var tab table
	c := r.trial.Craft
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Role == craft.NonBuoyant {
			tab.row(p.Name, p.Role.String())
			continue
		}
		v := r.trial.Body.Hull.PartVolume(i, r.rest().Attitude)
		tab.row(partTitle(p), p.Role.String(), style.Format(unit.Volume, v)+" under", "of "+style.Format(unit.Volume, r.trial.Body.Hull.PartWhole(i)), r.partReserve(i, v))
	}
	return &tab
}

func (r *restReport) partReserve(i int, under float64) string {
	if under <= 0 {
		return "out of the water"
	}
	return "reserve " + unit.Format(unit.Share, r.trial.Body.Hull.PartWhole(i)/under-1)
}

// partTitle names a part and says when there are two of it.
func partTitle(p *craft.Part) string {
	if p.Mirrored {
		return p.Name + " (2)"
	}
	return p.Name
}

func (r *restReport) others(style unit.Style) *table {
	var tab table
	for i := range r.rest().Also {
		s := &r.rest().Also[i]
		tab.row("trim "+style.Format(unit.Angle, s.Trim()), "heel "+style.Format(unit.Angle, s.Heel()), "draft "+style.Format(unit.Length, s.Draft()))
	}
	return &tab
}
