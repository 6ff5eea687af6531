package design

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// auxiliaryRows are the results on floats that hold the craft upright.
var auxiliaryRows = []Result{
	{Key: "auxiliary float moment", Label: "righting moment of the auxiliary floats over what upsets", Kind: unit.Share, Curve: true, get: auxiliaryMoment},
}

// auxiliaryMoment is the lesser one, over both sides, of the righting moment of
// the auxiliary floats on that side, wholly under in fresh water, over the
// moment that upsets the craft at the heel at which they are, floating on its
// other parts (14 CFR 23.757 as it stood until 2017).
func auxiliaryMoment(t *Trial, _ int) (float64, error) {
	var parts []int
	for i := range t.Craft.Parts {
		if t.Craft.Parts[i].Auxiliary {
			parts = append(parts, i)
		}
	}
	if len(parts) == 0 {
		return 0, fmt.Errorf("no part is marked as an auxiliary float: set auxiliary = true on the tip floats or sponsons")
	}
	rest, err := t.Rest()
	if err != nil {
		return 0, err
	}
	main := *t.Body
	if main.Hull, err = t.Body.Hull.Apart(parts...); err != nil {
		return 0, fmt.Errorf("without its auxiliary floats %w", err)
	}
	least := math.Inf(1)
	for _, side := range []float64{1, -1} {
		var terms []hydro.Term
		for _, i := range parts {
			for _, p := range t.Craft.Parts[i].Placed() {
				if p.Centroid().Y*side < 0 { // heel to starboard puts y < 0 down
					terms = append(terms, hydro.Term{Placed: p, Weight: 1, Part: i})
				}
			}
		}
		if len(terms) == 0 {
			return 0, fmt.Errorf("there is no auxiliary float to %s", map[float64]string{1: "starboard", -1: "port"}[side])
		}
		a, err := main.Auxiliary(terms, rest.Trim(), side, hydro.FreshWater)
		if err != nil {
			return 0, err
		}
		least = min(least, a.Share())
	}
	return least, nil
}
