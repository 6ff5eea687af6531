package main

import (
	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// json returns the report as one JSON object. Its flat keys are the rows of
// the table of results.
func (r *restReport) json() object {
	t, rest := r.trial, r.rest()
	var o object
	o.add("name", t.Craft.Name)
	o.add("loading", loadingName(t.Craft))
	o.add("stable", true) // the solver gives no other answer
	o.add("neutral", rest.Neutral)
	for _, a := range design.All(t.Craft) {
		if a.Of != design.OfCraft {
			continue
		}
		if v, err := a.Value(t); err == nil {
			o.add(a.JSONKey(), a.Kind.ToEdge(v))
		}
	}
	o.vector("cg_m", t.Body.CG)
	o.vector("up", rest.Up)
	o.vector("cb_m", rest.CB)
	if rest.Area > 0 {
		o.vector("center_of_flotation_m", rest.CF)
	} else {
		lo, hi := rest.HeaveRange()
		o.add("origin_height_range_m", [2]float64{lo, hi})
	}
	_, axis := rest.GMLeast()
	o.vector("gm_least_axis", axis)
	o.number("growth_margin", unit.Share, t.Craft.Growth.Share)
	o.add("points", r.pointsJSON())
	o.add("keep_dry_parts", r.dryPartsJSON())
	o.add("lines", r.namedJSON("angle of *"))
	o.add("stations", r.stationsJSON())
	o.add("parts", r.partsJSON())
	o.add("overlaps", overlapsJSON(t.Craft))
	if w, err := t.FirstWet(); err == nil && len(t.DryPlaces()) > 0 {
		o.add("first_wet", firstWetJSON(t, w))
	}
	o.add("moves", r.movesJSON())
	also := []object{}
	for i := range rest.Also {
		also = append(also, attitudeJSON(&rest.Also[i]))
	}
	o.add("also", also)
	o.add("cuts", rest.Cuts)
	o.add("residual", rest.Residual)
	return o
}

func attitudeJSON(s *hydro.State) object {
	var o object
	o.number("trim", unit.Angle, s.Trim())
	o.number("heel", unit.Angle, s.Heel())
	o.vector("up", s.Up)
	o.number("origin_height", unit.Length, s.Height)
	o.number("draft", unit.Length, s.Draft())
	gm, _ := s.GMLeast()
	o.number("gm_least", unit.Length, gm)
	return o
}

func (r *restReport) pointsJSON() []object {
	out := []object{}
	for i, p := range r.trial.Craft.Points {
		h, at := r.trial.Place(i).Clearance(r.rest().Attitude)
		var o object
		o.add("name", p.Name)
		o.number("clearance", unit.Length, h)
		o.vector("position_m", at)
		o.add("keep_dry", p.KeepDry)
		out = append(out, o)
	}
	return out
}

func (r *restReport) dryPartsJSON() []object {
	out := []object{}
	c := r.trial.Craft
	for i := range c.Parts {
		if !c.Parts[i].KeepDry {
			continue
		}
		h, at := r.trial.Place(len(c.Points) + i).Clearance(r.rest().Attitude)
		var o object
		o.add("name", c.Parts[i].Name)
		o.number("clearance", unit.Length, h)
		o.vector("position_m", at)
		out = append(out, o)
	}
	return out
}

// stationsJSON lists the drafts at stations; of one on a mirrored part the draft
// is that of the deeper side, and both are there.
func (r *restReport) stationsJSON() []object {
	out := []object{}
	for i, st := range r.trial.Craft.Stations {
		place := r.trial.Station(i)
		h, at := place.Clearance(r.rest().Attitude)
		o := object{{"name", st.Name}}
		o.number("draft_at", unit.Length, -h)
		o.vector("position_m", at)
		if twin, ok := place.(hydro.Spots); ok {
			for _, p := range twin {
				o.number(sideName(p)+"_draft", unit.Length, -r.rest().HeightOf(p))
			}
		}
		out = append(out, o)
	}
	return out
}

// namedJSON lists one result over everything the craft has it of.
func (r *restReport) namedJSON(key string) []object {
	out := []object{}
	r.each(key, func(a design.Asked, v float64) {
		var o object
		o.add("name", a.Name)
		o.add(a.JSONKey(), a.Kind.ToEdge(v))
		out = append(out, o)
	})
	return out
}

func (r *restReport) partsJSON() []object {
	out := []object{}
	c := r.trial.Craft
	for i := range c.Parts {
		p := &c.Parts[i]
		var o object
		o.add("name", p.Name)
		o.add("role", p.Role.String())
		o.add("count", p.Count())
		o.number("volume", unit.Volume, p.Volume())
		if p.Role != craft.NonBuoyant {
			v, whole := r.trial.Body.Hull.PartVolume(i, r.rest().Attitude), r.trial.Body.Hull.PartWhole(i)
			o.number("displaced_volume", unit.Volume, v)
			if v > 0 {
				o.number("reserve_buoyancy", unit.Share, whole/v-1)
			}
			o.number("counted_volume", unit.Volume, whole)
		}
		out = append(out, o)
	}
	return out
}

func firstWetJSON(t *design.Trial, w *hydro.FirstWet) object {
	var o object
	o.number("mass", unit.Mass, w.Mass)
	o.add("end", w.End.String())
	if w.Place >= 0 {
		o.add("name", t.DryPlaces()[w.Place].Name)
		o.vector("position_m", w.At)
	}
	o.number("trim", unit.Angle, w.State.Trim())
	o.number("heel", unit.Angle, w.State.Heel())
	if w.After != nil {
		o.add("goes_over", goesOverJSON(w.After))
	}
	return o
}

// movesJSON gives, for each cause, the change of every effect.
func (r *restReport) movesJSON() []object {
	out := []object{}
	for _, c := range r.causes() {
		var changes object
		for _, e := range r.effects() {
			changes.number(jsonWords(e.title), e.kind, c.amount*e.of(c.change))
		}
		out = append(out, object{{"cause", c.key}, {"changes", changes}})
	}
	return out
}
