package main

import (
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// json returns the report as one JSON object.
func (r *windReport) json() object {
	t := r.trial
	c := t.Craft
	var o object
	o.add("name", c.Name)
	if c.Loading != "" {
		o.add("loading", c.Loading)
	}
	o.number("mass", unit.Mass, t.Body.Mass)
	o.number("speed", unit.Speed, r.speed)
	o.number("speed_at_10_m", unit.Speed, r.aloft(r.speed))
	o.number("wind_height", unit.Length, c.Wind.Measured())
	o.number("roughness", unit.Length, c.Wind.Rough())
	o.add("drag_coefficient", c.Wind.Drag())
	_, ignores := t.WindSource()
	o.add("ignores_wing", ignores)
	o.add("stands", !r.no())
	list := []object{}
	for i := range r.blows {
		list = append(list, r.blowJSON(&r.blows[i]))
	}
	o.add("directions", list)
	worst := r.worst()
	o.number("curve_from", unit.Angle, worst.from)
	curve := []object{}
	for _, p := range worst.curve(40) {
		var one object
		one.number("speed", unit.Speed, hydro.Speed(p.Share))
		curve = append(curve, append(one, lieJSON(t, &p)...))
	}
	o.add("curve", curve)
	r.assumedJSON(&o)
	o.add("left_out", windLeftOut)
	return o
}

func (r *windReport) blowJSON(b *blow) object {
	var o object
	o.number("from", unit.Angle, b.from)
	if b.steadyOK {
		o.add("steady", lieJSON(r.trial, &b.steady))
		drag, area, height := b.gale.Load.Drag(b.steady.Attitude)
		o.number("drag", unit.Force, drag*hydro.Share(r.speed))
		o.number("exposed_area", unit.Area, area)
		o.number("exposed_height", unit.Length, height)
		lift, roll := b.gale.Load.Lift(b.steady.Attitude)
		o.number("wing_lift", unit.Force, lift*hydro.Share(r.speed))
		o.number("wing_roll", unit.Torque, roll*hydro.Share(r.speed))
	}
	if b.gustOK {
		o.add("gust", lieJSON(r.trial, &b.gust))
	}
	if !math.IsInf(b.over, 1) {
		o.number("over", unit.Speed, b.over)
		o.add("over_cause", b.gale.Ways[hydro.Drifting].Stop.String())
	}
	if !math.IsInf(b.gustOver, 1) {
		o.number("gust_over", unit.Speed, b.gustOver)
	}
	wet := []object{}
	for _, d := range b.wet {
		var one object
		one.add("name", d.Name)
		one.add("whole", d.Whole)
		one.add("keep_dry", d.KeepDry)
		one.number("speed", unit.Speed, d.Steady)
		one.number("gust", unit.Speed, d.Gust)
		wet = append(wet, one)
	}
	o.add("goes_under", wet)
	return o
}

// curve returns the craft in steady winds of growing speed up to the one that
// turns it over, closer together there.
func (b *blow) curve(count int) []hydro.Point {
	way := b.gale.Ways[hydro.Drifting]
	last := way.Loss()
	var out []hydro.Point
	for i := range count {
		u := 1 - float64(i)/float64(count)
		// Even steps of speed to begin with: the share is its square.
		if p, ok := way.At(last.Share * (1 - u*u) * (1 - u*u)); ok {
			out = append(out, p)
		}
	}
	return append(out, last)
}
