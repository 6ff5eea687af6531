package main

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// figure draws trim and heel against thrust, and the heights of the watched
// places.
func (r *throttleReport) figure() *plots.UnderLoad {
	t, style := r.trial, styleOf(r.trial)
	fig := &plots.UnderLoad{
		Title: craftTitle(t.Craft) + " under throttle in " + t.Craft.Water.Name,
		Note:  plots.Caution + " No planing lift, bow wave, wash or overshoot.",
		Load:  plots.Label("Thrust", "N"),
	}
	steps := r.curve(50)
	thrust := make([]float64, len(steps))
	for i, s := range steps {
		thrust[i] = s.share * r.th.Most
	}
	of := func(point func(step) *hydro.Point, value func(*hydro.Point) float64) []float64 {
		out := make([]float64, len(steps))
		for i, s := range steps {
			out[i] = math.NaN()
			if p := point(s); p != nil {
				out[i] = value(p)
			}
		}
		return out
	}
	steady := func(s step) *hydro.Point { return s.steady }
	free := func(s step) *hydro.Point { return s.free }
	trim := func(p *hydro.Point) float64 { return p.Trim() * 180 / math.Pi }
	heel := func(p *hydro.Point) float64 { return p.Heel() * 180 / math.Pi }
	fig.Angles = []plots.LoadCurve{
		{Name: "trim, nose up: drag equal to thrust", Loads: thrust, Value: of(steady, trim)},
		{Name: "heel, starboard down", Loads: thrust, Value: of(steady, heel)},
	}
	if r.th.Free != nil {
		a, b := of(steady, trim), of(free, trim)
		low, high := make([]float64, len(a)), make([]float64, len(a))
		for i := range a {
			low[i], high[i] = math.Min(a[i], b[i]), math.Max(a[i], b[i])
		}
		fig.Band = &plots.LoadBand{Name: "trim: from no drag yet to drag equal to thrust", Loads: thrust, Low: low, High: high}
	}
	fig.Heights, fig.Unit = heightCurves(t, style, thrust, func(i int) *hydro.Point { return steps[i].steady })
	fig.Limits = append(fig.Limits, plots.LoadLimit{Load: r.th.Most, Label: "full throttle"})
	if limit, lost := r.limit(); lost && limit <= r.reach()*r.th.Most {
		fig.Limits = append(fig.Limits, plots.LoadLimit{Load: limit, Label: r.th.Steady.Stop.String(), Bound: true})
	}
	for _, s := range r.wet {
		if s.KeepDry && s.Share > 0 && s.Share <= r.reach() {
			fig.Limits = append(fig.Limits, plots.LoadLimit{Load: s.Share * r.th.Most, Label: fmt.Sprintf("%s wet", s.Name)})
		}
	}
	return fig
}

// heightCurves returns the heights of the watched places over loads, and the
// unit they are in.
func heightCurves(t *design.Trial, style unit.Style, loads []float64, at func(int) *hydro.Point) ([]plots.LoadCurve, string) {
	show := style.Display(unit.Length, 1)
	var out []plots.LoadCurve
	for _, w := range t.Watched() {
		k := plots.LoadCurve{Name: w.Name, Loads: loads}
		for i := range loads {
			v := math.NaN()
			if p := at(i); p != nil {
				h, _ := w.Clearance(p.Attitude)
				v = show.Unit.FromSI(h)
			}
			k.Value = append(k.Value, v)
		}
		out = append(out, k)
	}
	return out, show.Unit.Name
}
