package main

import (
	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// lieJSON returns how a craft lies at a point of a loaded way: attitude,
// drafts, and the heights of the watched places.
func lieJSON(t *design.Trial, p *hydro.Point) object {
	var o object
	o.number("trim", unit.Angle, p.Trim())
	o.number("heel", unit.Angle, p.Heel())
	o.vector("up", p.Up)
	o.number("origin_height", unit.Length, p.Height)
	o.number("draft", unit.Length, p.Draft())
	o.number("stiffness", unit.Length, p.Least)
	stations := []object{}
	for i, s := range t.Craft.Stations {
		h, at := t.Station(i).Clearance(p.Attitude)
		var one object
		one.add("name", s.Name)
		one.number("draft", unit.Length, -h)
		one.vector("position_m", at)
		stations = append(stations, one)
	}
	o.add("stations", stations)
	points := []object{}
	for _, w := range t.Watched() {
		h, at := w.Clearance(p.Attitude)
		var one object
		one.add("name", w.Name)
		one.number("clearance", unit.Length, h)
		one.vector("position_m", at)
		points = append(points, one)
	}
	o.add("points", points)
	return o
}
