package design

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// floodRows are the results of opening compartments to the sea, one at a time
// unless they say otherwise, each with what then floods through points that go
// under.
var floodRows = []Result{
	{Key: "floodings survived", Label: "compartments it survives flooding of, one at a time", Kind: unit.Share, Curve: true, get: survived((*Trial).Floods)},
	{Key: "double floodings survived", Label: "pairs of compartments it survives flooding of", Kind: unit.Share, Curve: true, get: survived((*Trial).FloodPairs)},
	{Key: "worst flooded heel", Label: "worst heel with a compartment flooded", Kind: unit.Angle, Curve: true, get: worst(func(_ *Trial, s *hydro.Stage) float64 { return math.Abs(s.State.Heel()) }, 1)},
	{Key: "worst flooded trim", Label: "worst trim with a compartment flooded", Kind: unit.Angle, Curve: true, get: worst(func(_ *Trial, s *hydro.Stage) float64 { return math.Abs(s.State.Trim()) }, 1)},
	{Key: "worst flooded reserve", Label: "least reserve buoyancy with a compartment flooded", Kind: unit.Share, Curve: true, get: worst((*Trial).FloodedReserve, -1)},
	{Key: "flooded heel of *", Label: "heel with * flooded", Kind: unit.Angle, Of: OfSpace, Curve: true, get: flooded(func(_ *Trial, s *hydro.Stage) float64 { return s.State.Heel() })},
	{Key: "flooded trim of *", Label: "trim with * flooded", Kind: unit.Angle, Of: OfSpace, Curve: true, get: flooded(func(_ *Trial, s *hydro.Stage) float64 { return s.State.Trim() })},
	{Key: "flooded reserve of *", Label: "reserve buoyancy with * flooded", Kind: unit.Share, Of: OfSpace, Curve: true, get: flooded((*Trial).FloodedReserve)},
	{Key: "fresh reserve buoyancy", Label: "reserve buoyancy of the flotation in fresh water", Kind: unit.Share, get: freshReserve},
}

// survived makes the getter of the share of floodings that leave the craft
// afloat and upright.
func survived(cases func(*Trial) ([]*FloodCase, error)) func(*Trial, int) (float64, error) {
	return func(t *Trial, _ int) (float64, error) {
		all, err := cases(t)
		if err != nil {
			return 0, err
		}
		if len(all) == 0 {
			return 0, fmt.Errorf("%s has one compartment only, so that no two can flood", t.Craft.Name)
		}
		well := 0
		for _, f := range all {
			if f.Last().Fate == hydro.Afloat {
				well++
			}
		}
		return float64(well) / float64(len(all)), nil
	}
}

// worst makes the getter of the largest value, times sign, over all
// compartments flooded one at a time. There is none when one of them is the
// end of the craft.
func worst(of func(*Trial, *hydro.Stage) float64, sign float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, _ int) (float64, error) {
		all, err := t.Floods()
		if err != nil {
			return 0, err
		}
		most := math.Inf(-1)
		for _, f := range all {
			if err := t.Lost(f); err != nil {
				return 0, err
			}
			most = max(most, sign*of(t, f.Last()))
		}
		return sign * most, nil
	}
}

// flooded makes the getter of a value with one compartment flooded.
func flooded(of func(*Trial, *hydro.Stage) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, i int) (float64, error) {
		all, err := t.Floods()
		if err != nil {
			return 0, err
		}
		if err := t.Lost(all[i]); err != nil {
			return 0, err
		}
		return of(t, all[i].Last()), nil
	}
}

// freshReserve is the reserve buoyancy in fresh water, whatever the craft's own
// water: what rules on floats are written for.
func freshReserve(t *Trial, _ int) (float64, error) {
	v := t.Craft.FlotationVolume()
	if v == 0 {
		return 0, fmt.Errorf("no part is marked as flotation")
	}
	return v*hydro.FreshWater/t.Body.Mass - 1, nil
}
