package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// growReport is what `grow` has to say.
type growReport struct {
	file   *craftfile.File
	trial  *design.Trial
	asked  []design.Requirement
	show   []design.Asked
	at     *r3.Vec
	causes []growCause
}

// growCause is one thing that happens to a build, in equal steps.
type growCause struct {
	key, column string
	heading     string // of the table
	kind        unit.Kind
	title       string // of the axis
	values      []float64
	every       int // how many values lie between rows of the table
	with        func(float64) *design.Trial
	trials      []*design.Trial
	stretches   []design.Stretch
	drawn       []drawnAt // for the figure: also where the standing changes
}

// drawnAt is a value of a cause and its trial.
type drawnAt struct {
	value float64
	trial *design.Trial
}

// The steps of each cause: fine for a smooth curve, and rows of the table at
// round values of the usual ranges.
const (
	massSteps  = 30
	massEvery  = 5
	shiftSteps = 20 // an even number, so that today's CG is one of the values
	shiftEvery = 2
)

func newGrowReport(f *craftfile.File, t *design.Trial, o growth) *growReport {
	r := &growReport{file: f, trial: t, asked: requirements(f), show: o.show, at: o.at}
	most := o.mass
	if o.share > 0 {
		most = o.share * t.Body.Mass
	}
	where := "at the CG"
	if o.at != nil {
		where = "at " + pointText(*o.at, styleOf(t))
	}
	mass := growCause{
		key: "mass", column: "mass added", heading: "Mass added " + where, kind: unit.Mass, title: "Mass added", every: massEvery,
		with: func(m float64) *design.Trial { return t.With(m, o.at) },
	}
	for i := range massSteps + 1 {
		mass.values = append(mass.values, most*float64(i)/massSteps)
	}
	shift := growCause{
		key: "shift", column: "CG forward", heading: "CG moved fore and aft", kind: unit.Length, title: "CG forward of today's", every: shiftEvery,
		with: func(d float64) *design.Trial { return t.Shifted(r3.Vec{X: d}) },
	}
	for i := range shiftSteps + 1 {
		shift.values = append(shift.values, o.shift*float64(2*i-shiftSteps)/shiftSteps)
	}
	r.causes = []growCause{mass, shift}
	for i := range r.causes {
		c := &r.causes[i]
		for _, v := range c.values {
			c.trials = append(c.trials, c.with(v))
		}
		c.stretches = design.Stretches(c.values, func(v float64) design.Standing {
			for k, known := range c.values {
				if known == v {
					return design.Stand(c.trials[k], r.asked)
				}
			}
			return design.Stand(c.with(v), r.asked)
		})
		c.draw()
	}
	return r
}

// draw puts together what the figure shows: all values, and the ends of the
// stretches, next to which a curve can be steep.
func (c *growCause) draw() {
	for i, v := range c.values {
		c.drawn = append(c.drawn, drawnAt{v, c.trials[i]})
	}
	for _, s := range c.stretches {
		for _, v := range []float64{s.From, s.To} {
			if !slices.Contains(c.values, v) {
				c.drawn = append(c.drawn, drawnAt{v, c.with(v)})
			}
		}
	}
	slices.SortStableFunc(c.drawn, func(a, b drawnAt) int { return cmp.Compare(a.value, b.value) })
}

func (r *growReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s in %s, %s%s\n\n", t.Craft.Name, t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	for i := range r.causes {
		c := &r.causes[i]
		r.table(c, style).print(w, c.heading)
	}
	for i := range r.causes {
		for _, line := range r.words(&r.causes[i], style) {
			fmt.Fprintln(w, line)
		}
	}
}

// table lists a cause's values with the results and how the craft stands.
func (r *growReport) table(c *growCause, style unit.Style) *table {
	var tab table
	head := []string{c.column}
	if c.key == "mass" {
		head = append(head, "mass")
	}
	for _, a := range r.show {
		head = append(head, a.Title())
	}
	if len(r.asked) > 0 {
		head = append(head, "requirements")
	}
	tab.row(head...)
	for k := 0; k < len(c.values); k += c.every {
		t := c.trials[k]
		cells := []string{r.amount(c, c.values[k], style)}
		if c.key == "mass" {
			cells = append(cells, style.Format(unit.Mass, t.Body.Mass))
		}
		for _, a := range r.show {
			cells = append(cells, show(a.Kind, upright(a, t)))
		}
		tab.row(append(cells, r.stands(t))...)
	}
	return &tab
}

// amount writes a value of a cause.
func (r *growReport) amount(c *growCause, v float64, style unit.Style) string {
	switch {
	case c.key != "mass":
		return signed(c.kind, v)
	case v == 0:
		return "today's"
	}
	return fmt.Sprintf("+%s (%s)", style.Format(unit.Mass, v), unit.Format(unit.Share, v/r.trial.Body.Mass))
}

// stands says how a trial stands.
func (r *growReport) stands(t *design.Trial) string {
	s := design.Stand(t, r.asked)
	switch {
	case s.No != "":
		return s.No
	case s.Missed != "":
		return "misses " + s.Missed
	case len(r.asked) == 0:
		return ""
	}
	return "hold"
}

// words sums up between which values all requirements hold and what ends it,
// and where there is no answer.
func (r *growReport) words(c *growCause, style unit.Style) []string {
	amount := func(v float64) string { return r.amount(c, v, style) }
	var out []string
	say := func(format string, args ...any) { out = append(out, c.heading+": "+fmt.Sprintf(format, args...)+".") }
	for i, s := range c.stretches {
		switch {
		case s.No != "":
			say("it %s from %s to %s", s.No, amount(s.From), amount(s.To))
		case s.Holds() && len(r.asked) > 0:
			ends := ""
			if i > 0 && c.stretches[i-1].Missed != "" {
				ends += "; before that " + c.stretches[i-1].Missed + " is missed"
			}
			if i+1 < len(c.stretches) && c.stretches[i+1].Missed != "" {
				ends += "; after that " + c.stretches[i+1].Missed + " is missed"
			}
			say("all requirements hold from %s to %s%s", amount(s.From), amount(s.To), ends)
		}
	}
	if len(r.asked) > 0 && !anyHolds(c.stretches) {
		say("at no amount shown do all requirements hold")
	}
	return out
}

func anyHolds(ss []design.Stretch) bool {
	for _, s := range ss {
		if s.Holds() {
			return true
		}
	}
	return false
}

func (r *growReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	o.number("mass", unit.Mass, r.trial.Body.Mass)
	o.vector("cg_m", r.trial.Body.CG)
	for i := range r.causes {
		c := &r.causes[i]
		var one object
		rows := []object{}
		for k, v := range c.values {
			t := c.trials[k]
			var row object
			row.number(jsonWords(c.column), c.kind, v)
			if c.key == "mass" {
				row.number("mass", unit.Mass, t.Body.Mass)
			}
			for _, a := range r.show {
				row.number(jsonWords(a.Text()), a.Kind, upright(a, t))
			}
			rows = append(rows, append(row, standingJSON(design.Stand(t, r.asked))...))
		}
		stretches := []object{}
		for _, s := range c.stretches {
			var st object
			st.number("from", c.kind, s.From)
			st.number("to", c.kind, s.To)
			stretches = append(stretches, append(st, standingJSON(s.Standing)...))
		}
		one.add("rows", rows)
		one.add("stretches", stretches)
		o.add(jsonWords(c.column), one)
	}
	return o
}

// standingJSON says whether all requirements hold, and why not.
func standingJSON(s design.Standing) object {
	o := object{{"holds", s.Holds()}}
	if s.No != "" {
		o.add("no", s.No)
	}
	if s.Missed != "" {
		o.add("missed", s.Missed)
	}
	return o
}
