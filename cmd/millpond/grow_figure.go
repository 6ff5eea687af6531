package main

import (
	"gonum.org/v1/plot"

	"millpond/hydro/craft"
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
	v.Holds, v.Gaps = standingSpans(c.stretches, len(r.asked), at)
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
		default:
			t.Label += "\n " // keeps its first line level with theirs
		}
	}
	return ticks
}

// charts returns a chart of each result over a cause.
func (r *growReport) charts(c *growCause) []plots.Chart {
	sigmas := r.scatter(c)
	var out []plots.Chart
	for k, a := range r.show {
		var values, sigma []float64
		for _, x := range c.drawn {
			values = append(values, upright(a, x.trial))
		}
		if sigmas != nil {
			sigma = sigmas[k]
		}
		out = append(out, chartOf(a, values, sigma, r.trial, r.asked))
	}
	return out
}

// scatter returns how the results scatter over a cause, with the mass or the CG
// held at each of its values; nil where there are no tolerances, or the mass is
// added elsewhere.
func (r *growReport) scatter(c *growCause) [][]float64 {
	if c.key == "mass" && r.at != nil {
		return nil
	}
	var values []float64
	for _, x := range c.drawn {
		values = append(values, x.value)
	}
	return scatterOver(r.file, r.show, values, func(v float64) (*craft.Craft, error) {
		held := r.trial.Craft.Copy()
		if c.key == "mass" {
			v += r.trial.Body.Mass
			held.Held.Mass = &v
		} else {
			v += r.trial.Body.CG.X
			held.Held.CG[0] = &v
		}
		return held, nil
	})
}
