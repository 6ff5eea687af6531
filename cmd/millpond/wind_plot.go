package main

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// figure draws trim and heel against wind speed from the worst direction, and
// the heights of the watched places.
func (r *windReport) figure() *plots.UnderLoad {
	t, b := r.trial, r.worst()
	points := b.curve(60)
	var speeds, heel, trim []float64
	for i := range points {
		speeds = append(speeds, hydro.Speed(points[i].Share))
		heel = append(heel, points[i].Heel()*180/math.Pi)
		trim = append(trim, points[i].Trim()*180/math.Pi)
	}
	fig := &plots.UnderLoad{
		Title: fmt.Sprintf("%s in a steady wind from %s", craftTitle(t.Craft), design.Beam(b.from)),
		Note:  "Statics of the geometry given, heading held; waves, spray, leaks and soaked foam take from the reserve.",
		Load:  plots.Label("Wind speed", "m/s") + " at " + styleOf(t).Format(unit.Length, t.Craft.Wind.Measured()),
		Angles: []plots.LoadCurve{
			// In the order of the figure of the throttle, for the same colors.
			{Name: "trim, nose up", Loads: speeds, Value: trim},
			{Name: "heel, starboard down", Loads: speeds, Value: heel},
		},
	}
	fig.Heights, fig.Unit = heightCurves(t, styleOf(t), speeds, func(i int) *hydro.Point { return &points[i] })
	last := speeds[len(speeds)-1]
	if !math.IsInf(b.over, 1) {
		fig.Limits = append(fig.Limits, plots.LoadLimit{Load: b.over, Label: b.gale.Ways[hydro.Drifting].Stop.String(), Bound: true})
	}
	if b.gustOver <= last {
		fig.Limits = append(fig.Limits, plots.LoadLimit{Load: b.gustOver, Label: "a gust throws it over"})
	}
	if d, ok := b.firstWet(gustSpeed); ok && d.Gust > 0 && d.Gust <= last {
		fig.Limits = append(fig.Limits, plots.LoadLimit{Load: d.Gust, Label: "a gust wets " + d.Name})
	}
	return fig
}
