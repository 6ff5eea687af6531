package main

import (
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// cause is something small that moves the craft, in the amount that a builder
// thinks in.
type cause struct {
	title, key string
	amount     float64 // kg or m, what change is multiplied by
	change     hydro.Change
}

// causes returns what `rest` shows the effect of.
func (r *restReport) causes() []cause {
	s := &r.rest().State
	const gram10, mm = 0.010, 0.001
	out := []cause{
		{"10 g at the CG", "10_g_at_cg", gram10, s.Added(s.Body().CG)},
	}
	if r.addAt != nil {
		out = append(out, cause{"10 g at --add-at", "10_g_at_place", gram10, s.Added(*r.addAt)})
	}
	return append(out,
		cause{"CG 1 mm forward", "cg_1_mm_forward", mm, s.Shifted(r3.Vec{X: 1})},
		cause{"CG 1 mm to port", "cg_1_mm_to_port", mm, s.Shifted(r3.Vec{Y: 1})},
		cause{"CG 1 mm up", "cg_1_mm_up", mm, s.Shifted(r3.Vec{Z: 1})},
	)
}

// effect is what the causes change: a title and the change per unit of a cause.
type effect struct {
	title string
	kind  unit.Kind
	of    func(hydro.Change) float64
	side  string // of what is on both sides of a craft that leans
}

// effects returns trim, heel, every station's draft and every place's
// clearance. The lowest place on a part and the lower of two sides are those at
// rest.
func (r *restReport) effects() []effect {
	t := r.trial
	out := []effect{
		{"trim", unit.Angle, hydro.Change.Trim, ""},
		{"heel", unit.Angle, hydro.Change.Heel, ""},
	}
	if chord, ok := t.Craft.Chord(); ok {
		out = append(out, effect{"angle of attack", unit.Angle, func(c hydro.Change) float64 { return c.Slope(chord.Direction()) }, ""})
	}
	for i, s := range t.Craft.Stations {
		_, at := t.Station(i).Clearance(r.rest().Attitude)
		out = append(out, effect{"draft at " + s.Name, unit.Length, func(c hydro.Change) float64 { return -c.HeightOf(at) }, sideOf(t.Station(i), r.rest().Attitude).name})
	}
	for i, p := range t.Craft.Points {
		_, at := t.Place(i).Clearance(r.rest().Attitude)
		out = append(out, effect{"clearance of " + p.Name, unit.Length, func(c hydro.Change) float64 { return c.HeightOf(at) }, sideOf(t.Place(i), r.rest().Attitude).name})
	}
	for i := range t.Craft.Parts {
		if p := &t.Craft.Parts[i]; p.KeepDry {
			_, at := t.Place(len(t.Craft.Points) + i).Clearance(r.rest().Attitude)
			out = append(out, effect{"clearance of " + p.Name, unit.Length, func(c hydro.Change) float64 { return c.HeightOf(at) }, ""})
		}
	}
	return out
}

// moves returns the table of effects against causes, with one more decimal
// than the results themselves since the changes are small.
func (r *restReport) moves(unit.Style) *table {
	var tab table
	causes := r.causes()
	head := []string{""}
	for _, c := range causes {
		head = append(head, c.title)
	}
	tab.row(head...)
	for _, e := range r.effects() {
		show := unit.Display{Unit: mustUnit(e.kind), Decimals: 2}
		cells := []string{e.title}
		if e.side != "" {
			cells[0] += ", " + e.side
		}
		for _, c := range causes {
			cells = append(cells, show.Format(c.amount*e.of(c.change)))
		}
		tab.row(cells...)
	}
	return &tab
}

// mustUnit returns the unit that small changes of a kind are shown in.
func mustUnit(k unit.Kind) unit.Unit {
	name := "mm"
	if k == unit.Angle {
		name = "deg"
	}
	u, err := unit.Lookup(k, name)
	if err != nil {
		panic(err) // a unit of our own table
	}
	return u
}
