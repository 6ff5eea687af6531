package main

import (
	"fmt"

	"millpond/hydro/unit"
)

// assumed lists what the numbers of a wind are reckoned with, so that they can
// be reckoned again.
func (r *windReport) assumed(style unit.Style) []string {
	load := r.blows[0].gale.Load
	half := style.Format(unit.Length, -load.AnsweredAt())
	out := []string{
		fmt.Sprintf("air of %g kg/m3, as fast at all heights", load.Density),
		"drag is level and acts at the center of the area above the water",
		"a steady wind finds the craft drifting: the water answers level, " + half + " down, half the draft at rest, however it leans",
		"a gust sets in at once and stays; without damping it throws the craft to where the wind's work has become energy (equal areas under the two moments); " +
			"it is answered by the water as above, or at its onset by the craft's inertia through the CG: the worse of the two counts",
	}
	if w := load.Wing; w != nil {
		out = append(out, fmt.Sprintf("each half of the wing lifts at its quarter chord, half way out, by the air that crosses its span: %.3g per rad of attack (2 pi/(1 + 2/A), A the aspect ratio) to a coefficient of %.3g, from there falling as a cosine to none at 90 deg",
			w.LiftSlope(), w.Most()))
	}
	return out
}

// assumedJSON gives the same as numbers.
func (r *windReport) assumedJSON(o *object) {
	load := r.blows[0].gale.Load
	o.number("air_density", unit.Density, load.Density)
	o.number("water_answers_at", unit.Length, load.AnsweredAt())
	if w := load.Wing; w != nil {
		o.add("wing_lift_slope_per_rad", w.LiftSlope())
		o.add("wing_most_lift", w.Most())
	}
	o.add("assumptions", r.assumed(styleOf(r.trial)))
}
