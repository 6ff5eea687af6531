package main

import (
	"millpond/hydro"
	"millpond/hydro/unit"
)

func (r *tubReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	reading := func(k unit.Kind, name string, q hydro.Reading) object {
		var v object
		v.number(name, k, q.Value)
		v.number(name+"_sigma", k, q.Sigma)
		return v
	}
	if r.fit != nil {
		v := reading(unit.Mass, "mass", r.fit.Mass)
		v.vector("cg_m", r.fit.CG)
		v.vector("cg_sigma_m", r.fit.Sigma)
		v.number("trim", unit.Angle, r.fit.Trim())
		v.number("heel", unit.Angle, r.fit.Heel())
		v.number("gm_least", unit.Length, r.fit.GM)
		v.number("mass_per_sinkage", unit.MassPerLength, r.fit.MassPerMM*1000)
		v.add("chi_square", r.fit.ChiSquare)
		v.add("degrees_of_freedom", r.fit.Freedom)
		marks := []object{}
		for i, m := range r.readings.Marks {
			var q object
			q.add("name", m.Name)
			q.number("off", unit.Length, r.fit.Off[i])
			q.add("suspect", r.suspect != nil && r.suspect.Mark == i)
			marks = append(marks, q)
		}
		v.add("marks", marks)
		o.add("tub", v)
	}
	if r.incline != nil {
		v := reading(unit.Length, "gm_transverse", r.incline.GM)
		v = append(v, reading(unit.Length, "gm_by_straight_line", r.incline.Plain)...)
		v = append(v, reading(unit.Length, "cg_z", r.incline.CGZ)...)
		o.add("incline", append(v, reading(unit.Length, "cg_y", r.incline.CGY)...))
	}
	if r.weighed != nil {
		v := reading(unit.Mass, "mass", r.weighed.Mass)
		for _, c := range []struct {
			name     string
			at, with float64
		}{{"cg_x", r.weighed.CG.X, r.weighed.Sigma.X}, {"cg_y", r.weighed.CG.Y, r.weighed.Sigma.Y}, {"cg_z", r.weighed.CG.Z, r.weighed.Sigma.Z}} {
			v = append(v, reading(unit.Length, c.name, hydro.Reading{Value: c.at, Sigma: c.with})...)
		}
		o.add("scales", v)
	}
	mass, cg := r.best()
	built := r.trial.Craft.Built()
	o.number("mass", unit.Mass, mass)
	o.vector("cg_m", cg)
	o.number("planned_mass", unit.Mass, built.Mass)
	o.vector("planned_cg_m", built.At)
	o.add("causes", append([]string{}, r.causes()...))
	return o
}
