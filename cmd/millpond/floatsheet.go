package main

import (
	"fmt"
	"io"
	"math"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// floatSheetText prints the geometry of each flotation part, with what common
// practice makes of it beside. It prints nothing for a craft without mass: a
// mesh looked at alone.
func floatSheetText(w io.Writer, c *craft.Craft) {
	for _, s := range c.FloatSheets() {
		floatLines(&s).print(w, "Lines of "+s.Part+", "+linesNote)
		floatAdvice(c, &s).print(w, "Rules of thumb for "+s.Part+" "+adviceNote)
	}
}

// Notes on what the two tables of a float are worth.
const (
	linesNote  = "read from its sections (state `lines` on the part to overrule)"
	adviceNote = "(they disagree with each other: an advisory, no verdict)"
)

// floatLines is the table of a float's geometry.
func floatLines(s *craft.FloatSheet) *table {
	style := unit.StyleFor(s.Length)
	length := func(v float64) string { return known(v, style.Format(unit.Length, v)) }
	angle := func(v float64) string { return known(v, style.Format(unit.Angle, v)) }
	var lines table
	lines.row("length", length(s.Length), fmt.Sprintf("from x %s to %s", length(s.Stern), length(s.Bow)))
	lines.row("depth", length(s.Depth))
	if s.Count == 2 {
		lines.row("spacing", length(s.Spacing), "between the middles of the two")
	}
	if math.IsNaN(s.StepX) {
		lines.row("step", "none")
		lines.row("beam", length(s.Beam))
		lines.row("deadrise", angle(s.Deadrise))
		lines.row("keel", angle(s.Forebody), "front end up")
		return &lines
	}
	lines.row("step", length(s.StepDepth)+" deep", "at x "+length(s.StepX))
	lines.row("beam", length(s.Beam), "ahead of the step")
	lines.row("deadrise", angle(s.Deadrise))
	lines.row("forebody keel", angle(s.Forebody), "front end up")
	lines.row("afterbody keel", angle(s.Afterbody), "rises aft")
	return &lines
}

// floatAdvice is the table of what common practice makes of a float, empty for
// a craft without mass.
func floatAdvice(c *craft.Craft, s *craft.FloatSheet) *table {
	var advice table
	m := c.Built()
	if m.Mass == 0 {
		return &advice
	}
	style := unit.StyleFor(s.Length)
	advice.row("", "here", "common practice")
	for _, a := range s.Advise(m.At, c.PropellerX, c.TailX) {
		if math.IsNaN(a.Value) {
			continue
		}
		mark := ""
		if !a.Within {
			mark = "outside"
		}
		advice.row(a.What, adviceText(a, style), a.Practice, mark)
	}
	return &advice
}

// known returns a text, or a dash for a value that could not be read.
func known(v float64, text string) string {
	if math.IsNaN(v) {
		return "-"
	}
	return text
}

func adviceText(a craft.Advice, style unit.Style) string {
	switch a.Kind {
	case craft.Length:
		return style.Format(unit.Length, a.Value)
	case craft.Angle:
		return style.Format(unit.Angle, a.Value)
	}
	return unit.Decimal(a.Value, 3)
}

// floatSheetJSON returns the sheets.
func floatSheetJSON(c *craft.Craft) []object {
	out := []object{}
	m := c.Built()
	for _, s := range c.FloatSheets() {
		var o object
		o.add("name", s.Part)
		o.add("count", s.Count)
		for _, q := range []struct {
			key  string
			kind unit.Kind
			v    float64
		}{
			{"length", unit.Length, s.Length}, {"bow_x", unit.Length, s.Bow}, {"stern_x", unit.Length, s.Stern}, {"depth", unit.Length, s.Depth},
			{"spacing", unit.Length, s.Spacing}, {"step_x", unit.Length, s.StepX}, {"step_depth", unit.Length, s.StepDepth}, {"beam", unit.Length, s.Beam},
			{"deadrise", unit.Angle, s.Deadrise}, {"forebody_keel", unit.Angle, s.Forebody}, {"afterbody_keel", unit.Angle, s.Afterbody},
			{"rotation_to_stern", unit.Angle, s.Rotation()},
		} {
			o.number(q.key, q.kind, q.v)
		}
		advice := []object{}
		if m.Mass > 0 {
			for _, a := range s.Advise(m.At, c.PropellerX, c.TailX) {
				if math.IsNaN(a.Value) {
					continue
				}
				var q object
				q.add("what", a.What)
				q.number("value", adviceKinds[a.Kind], a.Value)
				q.add("common_practice", a.Practice)
				q.add("within", a.Within)
				advice = append(advice, q)
			}
		}
		o.add("advisory", advice)
		out = append(out, o)
	}
	return out
}

var adviceKinds = map[craft.AdviceKind]unit.Kind{craft.Share: unit.None, craft.Length: unit.Length, craft.Angle: unit.Angle}
