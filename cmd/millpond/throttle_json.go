package main

import (
	"millpond/hydro"
	"millpond/hydro/unit"
)

// json returns the report as one JSON object.
func (r *throttleReport) json() object {
	t := r.trial
	var o object
	o.add("name", t.Craft.Name)
	if t.Craft.Loading != "" {
		o.add("loading", t.Craft.Loading)
	}
	o.number("mass", unit.Mass, t.Body.Mass)
	o.number("most", unit.Force, r.th.Most)
	o.add("holds", r.th.Holds())
	if limit, lost := r.limit(); lost {
		o.number("limit", unit.Force, limit)
		o.add("limit_cause", r.th.Steady.Stop.String())
	}
	if l := r.th.Landing; l != nil {
		o.add("landing", landingJSON(l))
	}
	if f := r.th.Free; f != nil && f.Lost() {
		at := f.Loss()
		o.number("free_limit", unit.Force, at.Share*r.th.Most)
		o.add("free_limit_cause", f.Stop.String())
	}
	wet := []object{}
	for _, s := range r.wet {
		var one object
		one.add("name", s.Name)
		one.add("keep_dry", s.KeepDry)
		one.number("thrust", unit.Force, s.Share*r.th.Most)
		one.number("throttle", unit.Share, s.Share)
		wet = append(wet, one)
	}
	o.add("goes_under", wet)
	o.number("yaw_moment", unit.Torque, r.yaw())
	steps := r.curve(40)
	o.add("reaction", [...]string{"lateral area", "height", "point", "tether"}[t.Craft.Reaction.Answer])
	o.add("curve", r.curveJSON(steps, func(s step) *hydro.Point { return s.steady }))
	if r.th.Free != nil {
		o.add("free_curve", r.curveJSON(steps, func(s step) *hydro.Point { return s.free }))
	}
	o.add("assumptions", r.assumed())
	o.add("left_out", throttleLeftOut)
	return o
}

// curveJSON lists the attitudes that hold.
func (r *throttleReport) curveJSON(steps []step, of func(step) *hydro.Point) []object {
	out := []object{}
	for _, s := range steps {
		p := of(s)
		if p == nil {
			continue
		}
		var o object
		o.number("thrust", unit.Force, s.share*r.th.Most)
		o.number("throttle", unit.Share, s.share)
		o = append(o, lieJSON(r.trial, p)...)
		height, area := r.th.Load.Drag(p.Attitude)
		o.number("drag_height", unit.Length, height)
		if area > 0 {
			o.number("wetted_lateral_area", unit.Area, area)
		}
		out = append(out, o)
	}
	return out
}

func landingJSON(l *hydro.Landing) object {
	var o object
	o.add("found", l.Found)
	o.add("sinks", l.Sinks)
	if l.Found {
		o.number("trim", unit.Angle, l.Trim())
		o.number("heel", unit.Angle, l.Heel())
		o.vector("up", l.Up)
		o.add("lies", lies(l.Up))
	}
	if l.Released != nil {
		o.add("released", attitudeJSON(&l.Released.State))
	}
	return o
}
