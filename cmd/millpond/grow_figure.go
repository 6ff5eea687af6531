package main

import (
	"math"
	"strings"

	"gonum.org/v1/plot"

	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// figure returns the picture of the report.
func (r *growReport) figure() *plots.Growth {
	return &plots.Growth{
		Title:  r.trial.Craft.Name + ": what mass growth and a CG shift do",
		Causes: r.columns(), Note: plots.Caution,
	}
}

// columns returns the charts of each cause.
func (r *growReport) columns() []plots.Swept {
	var out []plots.Swept
	for i := range r.causes {
		c := &r.causes[i]
		out = append(out, plots.Swept{Over: r.axis(c), Charts: r.charts(c)})
	}
	return out
}

// axis returns the variable of a cause as drawn: mass as the mass all up, with
// its growth under it.
func (r *growReport) axis(c *growCause) plots.Variable {
	today := r.trial.Body.Mass
	of := func(v float64) float64 { return v }
	if c.key == "mass" {
		of = func(v float64) float64 { return today + v }
	}
	d := styleOf(r.trial).Display(c.kind, of(c.values[0]), of(c.values[len(c.values)-1]))
	at := func(v float64) float64 { return d.Unit.FromSI(of(v)) }
	zero := at(0)
	v := plots.Variable{Name: c.title, Unit: figureUnit(d.Unit), Today: &zero}
	if c.key == "mass" {
		v.Name = "Mass"
		most := c.values[len(c.values)-1]
		for _, t := range (plots.Ticks{Want: 4}).Ticks(0, 100*most/today) {
			label := "+" + t.Label + " %"
			if t.Value == 0 {
				label = "today"
			}
			m := d.Unit.FromSI(today * (1 + t.Value/100))
			v.Ticks = append(v.Ticks, plot.Tick{Value: m, Label: plots.Number(m, max(d.Decimals-1, 0)) + "\n" + label})
		}
	}
	if c.key != "mass" {
		v.Ticks = foreAftTicks(at(c.values[0]), at(c.values[len(c.values)-1]))
	}
	for _, x := range c.drawn {
		v.Values = append(v.Values, at(x.value))
	}
	if len(r.asked) > 0 {
		v.Holds = []plots.Interval{}
	}
	for _, s := range c.stretches {
		span := plots.Interval{From: at(s.From), To: at(s.To)}
		switch {
		case s.No != "":
			v.Gaps = append(v.Gaps, plots.Gap{Interval: span, Why: s.No})
		case s.Holds() && len(r.asked) > 0:
			v.Holds = append(v.Holds, span)
		}
	}
	return v
}

// foreAftTicks are the ticks of a shift, with words for its ends and its middle.
func foreAftTicks(lo, hi float64) []plot.Tick {
	ticks := (plots.Ticks{Want: 5}).Ticks(lo, hi)
	for i := range ticks {
		switch t := &ticks[i]; {
		case t.Value == 0:
			t.Label += "\ntoday"
		case i == 0:
			t.Label += "\naft"
		case i == len(ticks)-1:
			t.Label += "\nforward"
		}
	}
	return ticks
}

// charts returns a chart of each result over a cause.
func (r *growReport) charts(c *growCause) []plots.Chart {
	var out []plots.Chart
	for _, a := range r.show {
		var values []float64
		for _, x := range c.drawn {
			values = append(values, r.value(a, x.trial))
		}
		now := r.value(a, r.trial)
		d := styleOf(r.trial).Display(a.Kind, append(values, now)...)
		trace := plots.Trace{}
		for _, v := range values {
			trace.Values = append(trace.Values, d.Unit.FromSI(v))
		}
		if !math.IsNaN(now) {
			y := d.Unit.FromSI(now)
			trace.Today, trace.TodayText = &y, figureText(d.Format(now))
		}
		trace.AtLeast, trace.AtMost = r.bounds(a, d)
		out = append(out, plots.Chart{
			Name: sentence(a.Title()), Unit: figureUnit(d.Unit), Traces: []plots.Trace{trace},
			Water: a.Key == "clearance of *",
		})
	}
	return out
}

// bounds returns the bounds that requirements set on a result, the narrowest of
// several. Those in percent of something that changes too have no line.
func (r *growReport) bounds(a design.Asked, d unit.Display) (least, most *plots.Bound) {
	for _, q := range r.asked {
		if q.Text() != a.Text() || q.Percent {
			continue
		}
		if q.AtLeast != nil {
			if v := d.Unit.FromSI(*q.AtLeast); least == nil || v > least.Value {
				least = &plots.Bound{Value: v, Text: figureText("at least " + d.Format(*q.AtLeast))}
			}
		}
		if q.AtMost != nil {
			if v := d.Unit.FromSI(*q.AtMost); most == nil || v < most.Value {
				most = &plots.Bound{Value: v, Text: figureText("at most " + d.Format(*q.AtMost))}
			}
		}
	}
	return least, most
}

// figureUnit returns the sign of a unit as figures write it.
func figureUnit(u unit.Unit) string {
	if u.Name == "deg" {
		return "°"
	}
	return u.Name
}

// figureText writes numbers as figures do: with a degree sign and a true minus.
func figureText(s string) string {
	s = strings.ReplaceAll(s, " deg", "°")
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		s = "−" + rest
	}
	return s
}
