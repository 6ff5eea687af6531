package main

import (
	"fmt"
	"io"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// json returns the report as one JSON object.
func (r *floodReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	o.add("loading", loadingName(r.trial.Craft))
	o.number("mass", unit.Mass, r.trial.Body.Mass)
	o.add("survives", !r.lost())
	o.add("compartments", r.spacesJSON())
	o.add("as_it_is", r.caseJSON(r.intact))
	list := []object{}
	for _, b := range r.blocks {
		for _, f := range b.cases {
			one := object{{"way", wayNames[b.way]}}
			list = append(list, append(one, r.caseJSON(f)...))
		}
	}
	o.add("floodings", list)
	return o
}

func (r *floodReport) spacesJSON() []object {
	out := []object{}
	spaces, err := r.trial.Spaces()
	if err != nil {
		return out
	}
	for i := range spaces {
		s := &spaces[i]
		var o object
		o.add("name", s.Name)
		o.add("part", r.trial.Craft.Parts[s.Part].Name)
		o.number("volume", unit.Volume, s.Volume())
		o.number("permeability", unit.Share, s.Permeability)
		o.vector("centroid_m", s.Centroid())
		out = append(out, o)
	}
	return out
}

func (r *floodReport) caseJSON(f *design.FloodCase) object {
	names := r.trial.Craft.SpaceNames()
	asked := []string{}
	for _, in := range f.In {
		asked = append(asked, names[in.Space])
	}
	stages := []object{}
	for i := range f.Stages {
		stages = append(stages, r.stageJSON(f, i))
	}
	return object{{"flooded", asked}, {"fate", fateKeys[f.Last().Fate]}, {"stages", stages}}
}

// fateKeys are the fates in JSON, by hydro.Fate.
var fateKeys = []string{"survives", "capsizes", "sinks"}

func (r *floodReport) stageJSON(f *design.FloodCase, i int) object {
	s := &f.Stages[i]
	names := r.trial.Craft.SpaceNames()
	spaces, err := r.trial.Spaces()
	if err != nil {
		return nil
	}
	var o object
	through := []string{}
	through = append(through, r.through(s)...)
	o.add("through", through)
	in := []object{}
	for _, w := range s.In {
		one := object{{"compartment", names[w.Space]}, {"way", wayNames[w.Way]}}
		if w.Way != hydro.Open {
			one.number("share", unit.Share, w.Share)
		}
		if s.Fate != hydro.Sunk {
			one.number("water", unit.Mass, r.trial.Body.Density*spaces[w.Space].Water(w, s.State.Attitude))
		}
		in = append(in, one)
	}
	o.add("water", in)
	o.add("fate", fateKeys[s.Fate])
	o.number("reserve_buoyancy", unit.Share, r.trial.FloodedReserve(s))
	o.number("remaining_flotation", unit.Volume, r.trial.Remaining(s))
	o.number("mass", unit.Mass, s.Body.Mass)
	if s.Fate == hydro.Sunk {
		return o
	}
	o = append(o, attitudeJSON(&s.State)...)
	o.number("lean", unit.Angle, s.State.Lean())
	o.number("gm_transverse", unit.Length, s.State.GMTransverse())
	o.number("gm_longitudinal", unit.Length, s.State.GMLongitudinal())
	o.vector("cg_m", s.State.CG)
	under := []string{}
	o.add("under_water", append(under, r.under(&s.State)...))
	return o
}

// floodLoadings is what `flood` has to say about several loadings.
type floodLoadings []*floodReport

func (all floodLoadings) lost() bool {
	for _, r := range all {
		if r.lost() {
			return true
		}
	}
	return false
}

func (all floodLoadings) text(w io.Writer) {
	t := all[0].trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s flooded, in %s%s\n\n", t.Craft.Name, t.Craft.Water.Name, marginNote(t))
	for b, block := range all[0].blocks {
		var tab table
		head := []string{"flooded"}
		for _, r := range all {
			head = append(head, loadingName(r.trial.Craft))
		}
		tab.row(head...)
		for i, f := range block.cases {
			row := []string{t.FloodedNames(f.In)}
			for _, r := range all {
				row = append(row, r.brief(r.blocks[b].cases[i], style))
			}
			tab.row(row...)
		}
		title := wayTitles[block.way]
		if block.note != "" {
			title += ": " + block.note
		}
		tab.print(w, title)
	}
	for _, r := range all {
		fmt.Fprintf(w, "%s: %s\n", loadingName(r.trial.Craft), r.verdict())
	}
}

// brief is a flooding's end in one cell.
func (r *floodReport) brief(f *design.FloodCase, style unit.Style) string {
	last := f.Last()
	switch last.Fate {
	case hydro.Sunk:
		return "SINKS"
	case hydro.Capsized:
		return "CAPSIZES"
	}
	return fmt.Sprintf("heel %s, reserve %s", style.Format(unit.Angle, last.State.Heel()), unit.Format(unit.Share, r.trial.FloodedReserve(last)))
}

func (all floodLoadings) json() object {
	list := []object{}
	for _, r := range all {
		list = append(list, r.json())
	}
	return object{{"name", all[0].trial.Craft.Name}, {"survives", !all.lost()}, {"loadings", list}}
}

// figure draws the first flooding at its end, or for one that sinks, where it
// was last afloat.
func (r *floodReport) figure() *plots.Profile {
	t := r.trial
	f := r.blocks[0].cases[0]
	rest, err := t.Rest()
	if err != nil {
		panic(err) // the verb has asked before
	}
	state, how := &rest.State, "before it sinks"
	for i := range f.Stages {
		if s := &f.Stages[i]; s.Fate != hydro.Sunk {
			state = &s.State
			if i == len(f.Stages)-1 {
				how = s.Fate.String()
			}
		}
	}
	fig := profileAt(t, state)
	fig.Title = fmt.Sprintf("%s, %s %s: %s", craftTitle(t.Craft), t.FloodedNames(f.In), r.blocks[0].way, how)
	fig.CG = state.CG
	style := styleOf(t)
	last := f.Last()
	fig.Facts = []plots.Fact{
		{Name: "mass, water shut in included", Value: style.Format(unit.Mass, state.Body().Mass)},
		{Name: "draft", Value: style.Format(unit.Length, state.Draft())},
		{Name: "reserve of what remains", Value: unit.Format(unit.Share, t.FloodedReserve(last))},
	}
	if last.Fate != hydro.Sunk {
		fig.Facts = append(fig.Facts, plots.Fact{Name: "water inside", Value: style.Format(unit.Mass, r.water(last))})
	}
	return fig
}
