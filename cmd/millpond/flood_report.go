package main

import (
	"fmt"
	"io"
	"strings"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// floodReport is what `flood` has to say about a craft in one loading.
type floodReport struct {
	trial  *design.Trial
	intact *design.FloodCase // nothing flooded but through points that are under at rest
	blocks []floodBlock
}

// floodBlock is the floodings of one way.
type floodBlock struct {
	way   hydro.Way
	note  string
	cases []*design.FloodCase
}

// lost reports whether the craft capsizes or sinks in any of the floodings.
func (r *floodReport) lost() bool {
	for _, b := range r.blocks {
		for _, f := range b.cases {
			if f.Last().Fate != hydro.Afloat {
				return true
			}
		}
	}
	return r.intact.Last().Fate != hydro.Afloat
}

// wayTitles say over each table what its way means.
var wayTitles = []string{
	"Open to the sea (holed: water stands inside as high as outside)",
	"Trapped (shut in, free to run to the low side)",
	"Soaked (held by the foam)",
}

func (r *floodReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s flooded, in %s, %s%s\n\n", craftTitle(t.Craft), t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	for i := range r.blocks {
		ends, course := r.tables(i, style)
		ends.print(w, r.title(i))
		course.print(w, "How the water goes on")
	}
	fmt.Fprintf(w, "%s\n", floodedReserveNote)
	fmt.Fprintln(w, r.verdict())
}

// floodedReserveNote says what the reserve of a flooding is a share of.
const floodedReserveNote = "reserve: what remains of the flotation, wholly under, over what it then carries, less one"

// title says what the way of a block means and how much water it takes.
func (r *floodReport) title(block int) string {
	b := &r.blocks[block]
	if b.note == "" {
		return wayTitles[b.way]
	}
	return wayTitles[b.way] + ": " + b.note
}

// tables returns how the floodings of a block end, and how the water goes on.
// The first block has the craft with nothing flooded too.
func (r *floodReport) tables(block int, style unit.Style) (ends, course *table) {
	ends, course = &table{}, &table{}
	ends.row("flooded", "takes in", "trim", "heel", "draft", "reserve", "least GM", "", "under water")
	if block == 0 {
		ends.row(r.row(r.intact, "nothing", style)...)
		r.course(course, r.intact, "nothing")
	}
	for _, f := range r.blocks[block].cases {
		name := r.trial.FloodedNames(f.In)
		ends.row(r.row(f, name, style)...)
		r.course(course, f, name)
	}
	return ends, course
}

// verdict sums up in one line.
func (r *floodReport) verdict() string {
	all, well := 0, 0
	for _, b := range r.blocks {
		for _, f := range b.cases {
			all++
			if f.Last().Fate == hydro.Afloat {
				well++
			}
		}
	}
	switch {
	case well == all && all == 1:
		return "it stays afloat and upright"
	case well == all:
		return fmt.Sprintf("it stays afloat and upright in all %d floodings", all)
	case all == 1:
		return "it is lost"
	}
	return fmt.Sprintf("it is lost in %d of %d floodings", all-well, all)
}

// row is one flooding at its end.
func (r *floodReport) row(f *design.FloodCase, name string, style unit.Style) []string {
	last := f.Last()
	out := []string{name}
	if last.Fate == hydro.Sunk {
		return append(out, "", "", "", "", unit.Format(unit.Share, r.trial.FloodedReserve(last)), "", "SINKS")
	}
	s := &last.State
	gm, _ := s.GMLeast()
	water := "-"
	if len(last.In) > 0 {
		water = style.Format(unit.Mass, r.water(last))
	}
	fate := ""
	if last.Fate == hydro.Capsized {
		fate = "CAPSIZES, " + lies(s.Up)
	}
	return append(out, water,
		style.Format(unit.Angle, s.Trim()), style.Format(unit.Angle, s.Heel()), style.Format(unit.Length, s.Draft()),
		unit.Format(unit.Share, r.trial.FloodedReserve(last)), style.Format(unit.Length, gm), fate, strings.Join(r.under(s), ", "))
}

// water returns the mass of the water inside at a stage.
func (r *floodReport) water(s *hydro.Stage) float64 {
	spaces, err := r.trial.Spaces()
	if err != nil {
		return 0
	}
	sum := 0.0
	for _, in := range s.In {
		sum += r.trial.Body.Density * spaces[in.Space].Water(in, s.State.Attitude)
	}
	return sum
}

// under names the points, and the parts to keep dry, that are under water.
func (r *floodReport) under(s *hydro.State) []string {
	var out []string
	c := r.trial.Craft
	for i, p := range c.Points {
		if h, _ := r.trial.Place(i).Clearance(s.Attitude); h < 0 {
			out = append(out, p.Name)
		}
	}
	for i := range c.Parts {
		if !c.Parts[i].KeepDry {
			continue
		}
		if h, _ := r.trial.Place(len(c.Points) + i).Clearance(s.Attitude); h < 0 {
			out = append(out, c.Parts[i].Name)
		}
	}
	return out
}

// course adds a row for each further stage of a flooding.
func (r *floodReport) course(tab *table, f *design.FloodCase, name string) {
	for i := 1; i < len(f.Stages); i++ {
		before, stage := &f.Stages[i-1], &f.Stages[i]
		first := ""
		if i == 1 {
			first = name + ":"
		}
		tab.row(first, strings.Join(r.through(stage), ", ")+" under", strings.Join(r.opened(before, stage), ", ")+" open to the sea", r.after(stage))
	}
}

// through names the points through which a stage's water came.
func (r *floodReport) through(s *hydro.Stage) []string {
	vents := r.trial.Craft.Vents()
	var out []string
	for _, v := range s.Vents {
		out = append(out, vents[v].Name)
	}
	return out
}

// opened names the spaces that are open to the sea at a stage and were not
// before.
func (r *floodReport) opened(before, s *hydro.Stage) []string {
	names := r.trial.Craft.SpaceNames()
	was := map[int]bool{}
	for _, in := range before.In {
		was[in.Space] = in.Way == hydro.Open
	}
	var out []string
	for _, in := range s.In {
		if in.Way == hydro.Open && !was[in.Space] {
			out = append(out, names[in.Space])
		}
	}
	return out
}

// after says in a few words how the craft lies at a stage.
func (r *floodReport) after(s *hydro.Stage) string {
	if s.Fate == hydro.Sunk {
		return "sinks"
	}
	text := fmt.Sprintf("trim %s, heel %s", unit.Format(unit.Angle, s.State.Trim()), unit.Format(unit.Angle, s.State.Heel()))
	if s.Fate == hydro.Capsized {
		text = "capsizes: " + text
	}
	return text
}
