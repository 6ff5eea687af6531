package main

import (
	"math"
	"strings"

	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// nan stands for a result that does not exist.
var nan = math.NaN()

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
	s = strings.ReplaceAll(s, " -", " −")
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		s = "−" + rest
	}
	return s
}

// inUnit returns values in the unit of a display.
func inUnit(d unit.Display, values []float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = d.Unit.FromSI(v)
	}
	return out
}

// upright returns a result for a trial, NaN where the craft has no answer: one
// that has turned over has an attitude, but not one to design for.
func upright(a design.Asked, t *design.Trial) float64 {
	if s := design.Stand(t, nil); s.No != "" {
		return math.NaN()
	}
	v, err := a.Value(t)
	if err != nil {
		return math.NaN()
	}
	return v
}

// chartOf returns the chart of a result over the values of some variable, with
// today's design, the bounds of its requirements, and a band of two standard
// deviations to either side; nil for none.
func chartOf(a design.Asked, values, sigmas []float64, today *design.Trial, asked []design.Requirement) plots.Chart {
	now := upright(a, today)
	d := styleOf(today).Display(a.Kind, append(values[:len(values):len(values)], now)...)
	trace := plots.Trace{Values: inUnit(d, values)}
	for i, sigma := range sigmas {
		trace.Low = append(trace.Low, d.Unit.FromSI(values[i]-2*sigma))
		trace.High = append(trace.High, d.Unit.FromSI(values[i]+2*sigma))
	}
	if !math.IsNaN(now) {
		y := d.Unit.FromSI(now)
		trace.Today, trace.TodayText = &y, figureText(d.Format(now))
	}
	trace.AtLeast, trace.AtMost = figureBounds(a, asked, d)
	return plots.Chart{
		Name: sentence(a.Title()), Unit: figureUnit(d.Unit), Traces: []plots.Trace{trace},
		Water: a.Key == "clearance of *",
	}
}

// figureBounds returns the bounds that requirements set on a result, the
// narrowest of several. Those in percent of something that changes too have no
// line.
func figureBounds(a design.Asked, asked []design.Requirement, d unit.Display) (least, most *plots.Bound) {
	for _, q := range asked {
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

// standingSpans returns where all requirements hold and where there is no
// answer, in the numbers of a figure. Without requirements nothing holds.
func standingSpans(stretches []design.Stretch, asked int, at func(float64) float64) (holds []plots.Interval, gaps []plots.Gap) {
	if asked > 0 {
		holds = []plots.Interval{}
	}
	for _, s := range stretches {
		span := plots.Interval{From: at(s.From), To: at(s.To)}
		switch {
		case s.No != "":
			gaps = append(gaps, plots.Gap{Interval: span, Why: s.No})
		case s.Holds() && asked > 0:
			holds = append(holds, span)
		}
	}
	return holds, gaps
}
