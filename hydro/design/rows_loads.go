package design

import (
	"millpond/hydro"
	"millpond/hydro/unit"
)

// loadRows are the results of a craft under throttle and in the wind.
var loadRows = []Result{
	{Key: "throttle limit", Label: "thrust beyond which no attitude holds", Kind: unit.Force, Curve: true, Slow: true, Share: fullThrust, get: throttleLimit},
	{Key: "throttle to first wet", Label: "thrust to first wet", Kind: unit.Force, Curve: true, Slow: true, Share: fullThrust, get: throttleToFirstWet},
	{Key: "trim at full throttle", Label: "trim at full throttle, nose up", Kind: unit.Angle, Curve: true, Slow: true, get: atFull(func(_ *Trial, at *hydro.Point, _ int) float64 { return at.Trim() })},
	{Key: "heel at full throttle", Label: "heel at full throttle, starboard down", Kind: unit.Angle, Curve: true, Slow: true, get: atFull(func(_ *Trial, at *hydro.Point, _ int) float64 { return at.Heel() })},
	{Key: "clearance at full throttle of *", Label: "clearance at full throttle of *", Kind: unit.Length, Of: OfPlace, Curve: true, Slow: true, get: atFull(func(t *Trial, at *hydro.Point, i int) float64 {
		h, _ := t.Place(i).Clearance(at.Attitude)
		return h
	})},
	{Key: "wind limit", Label: "steady wind that turns it over", Kind: unit.Speed, Curve: true, Slow: true, get: overAll(windLimit)},
	{Key: "wind to first wet", Label: "steady wind to first wet", Kind: unit.Speed, Curve: true, Slow: true,
		get: overAll(firstDrenched(func(d Drenching) float64 { return d.Steady }, windLimit))},
	{Key: "gust limit", Label: "gust that turns it over", Kind: unit.Speed, Curve: true, Slow: true, get: overAll(gustLimit)},
	{Key: "gust to first wet", Label: "gust to first wet", Kind: unit.Speed, Curve: true, Slow: true,
		get: overAll(firstDrenched(func(d Drenching) float64 { return d.Gust }, gustLimit))},
}
