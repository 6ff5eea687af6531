package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/design"
)

func required(t *testing.T, of *design.Trial, text string, atLeast, atMost float64) design.Requirement {
	t.Helper()
	a, err := design.Find(of.Craft, text)
	if err != nil {
		t.Fatal(err)
	}
	r := design.Requirement{Asked: a}
	if !math.IsNaN(atLeast) {
		r.AtLeast = &atLeast
	}
	if !math.IsNaN(atMost) {
		r.AtMost = &atMost
	}
	return r
}

// A box of 0.9 x 0.1 x 0.1 m of mass m floats m/90 m deep and sinks above 9 kg.
// Its GM is draft/2 + 0.1²/(12 draft) - KG, with KG 20 mm over zero at any
// draft, so mass alone does not turn it over.
func TestStretchesOfBox(t *testing.T) {
	box := trial(t, 0.02)
	none := math.NaN()
	asked := []design.Requirement{
		required(t, box, "draft", none, 0.06),
		required(t, box, "reserve buoyancy", 0.5, none), // up to 6 kg
		required(t, box, "clearance of deck edge", 0.045, none),
	}
	var masses []float64
	for m := 4.0; m <= 10; m += 0.75 {
		masses = append(masses, m)
	}
	got := design.Stretches(masses, func(m float64) design.Standing {
		return design.Stand(box.With(m-box.Body.Mass, nil), asked)
	})
	want := []design.Stretch{
		{4, 4.95, design.Standing{}},
		{4.95, 5.4, design.Standing{Missed: "clearance of deck edge"}},
		{5.4, 9, design.Standing{Missed: "draft of the deepest point"}},
		{9, 10, design.Standing{No: "sinks"}},
	}
	if len(got) != len(want) {
		t.Fatalf("stretches %+v, want %+v", got, want)
	}
	for i, w := range want {
		g := got[i]
		if g.Standing != w.Standing || math.Abs(g.From-w.From) > 2e-4 || math.Abs(g.To-w.To) > 2e-4 {
			t.Errorf("stretch %d is %+v, want %+v", i, g, w)
		}
	}
}

// Of two changes between neighboring values both are found.
func TestStretchesBetween(t *testing.T) {
	got := design.Stretches([]float64{0, 1}, func(x float64) design.Standing {
		switch {
		case x < 0.3:
			return design.Standing{}
		case x < 0.301:
			return design.Standing{Missed: "a"}
		}
		return design.Standing{Missed: "b"}
	})
	if len(got) != 3 || got[1].Missed != "a" || math.Abs(got[1].From-0.3) > 1e-4 || math.Abs(got[1].To-0.301) > 1e-4 {
		t.Errorf("stretches %+v, want a from 0.3 to 0.301", got)
	}
	if got := design.Stretches(nil, nil); got != nil {
		t.Errorf("stretches of nothing: %+v", got)
	}
}

// Moving the CG of a box forward by d trims it until G stands over B: for a
// wall-sided box tan(trim) = -d/(GM lengthwise + BM/2 tan²), from the
// wall-sided formula.
func TestShifted(t *testing.T) {
	box := trial(t, 0.02)
	for _, d := range []float64{-0.03, -0.01, 0, 0.02} {
		r, err := box.Shifted(r3.Vec{X: d}).Rest()
		if err != nil {
			t.Fatal(err)
		}
		bm := 0.9 * 0.9 / 12 / 0.05
		gm := 0.025 + bm - 0.02
		tan := math.Tan(-r.Trim())
		if got := tan * (gm + bm/2*tan*tan); math.Abs(got-d) > 1e-9 {
			t.Errorf("CG %g m forward: trim %g rad, which balances %g m", d, r.Trim(), got)
		}
	}
	if box.Body.CG.X != 0 {
		t.Error("the trial itself has moved")
	}
}

func TestTelling(t *testing.T) {
	var got []string
	box := trial(t, 0.02)
	for _, a := range design.Telling(box) {
		got = append(got, a.Text())
	}
	if len(got) != 2 || got[0] != "trim" || got[1] != "draft" {
		t.Errorf("a box with nothing to keep dry tells %q", got)
	}
	box.Craft.Points[0].KeepDry, box.Craft.Points[1].KeepDry = true, true
	a := design.Telling(box)
	if len(a) != 2 || a[1].Text() != "clearance of keel" {
		t.Errorf("a box with two places to keep dry tells of %q", a[len(a)-1].Text())
	}
}

// The rows of a grid stand as their trials do, margins are to the bounds, and
// the ends of stretches lie between the rows: a box of m kg floats m/90 m deep,
// so a draft of 60 mm at most holds up to 5.4 kg and it sinks above 9 kg.
func TestGridStretches(t *testing.T) {
	box := trial(t, 0.02)
	asked := []design.Requirement{required(t, box, "draft", math.NaN(), 0.06), required(t, box, "reserve buoyancy", 0.5, math.NaN())}
	mass, err := design.Vary(box.Craft, "mass", nil)
	if err != nil {
		t.Fatal(err)
	}
	g := design.Grid{Craft: box.Craft, Vary: []design.Varied{mass}, Values: [][]float64{{4, 5, 6, 7, 10}}, Requirements: asked, AllMargins: true}
	var rows []design.Row
	if err := g.Run(t.Context(), 2, func(r design.Row) error { rows = append(rows, r); return nil }); err != nil {
		t.Fatal(err)
	}
	for i, m := range g.Values[0] {
		want := []float64{0.06 - m/90, 9/m - 1 - 0.5}
		if m > 9 {
			want = []float64{math.NaN(), math.NaN()}
		}
		for k, w := range want {
			if got := rows[i].Margins[k]; math.Abs(got-w) > 1e-9 || math.IsNaN(got) != math.IsNaN(w) {
				t.Errorf("%g kg: margin %d is %g, want %g", m, k, got, w)
			}
		}
	}
	got := g.Stretches(rows)
	want := []design.Stretch{
		{4, 5.4, design.Standing{}},
		{5.4, 9, design.Standing{Missed: "draft of the deepest point"}},
		{9, 10, design.Standing{No: "sinks"}},
	}
	if len(got) != len(want) {
		t.Fatalf("stretches %+v, want %+v", got, want)
	}
	for i, w := range want {
		if got[i].Standing != w.Standing || math.Abs(got[i].From-w.From) > 1e-3 || math.Abs(got[i].To-w.To) > 1e-3 {
			t.Errorf("stretch %d is %+v, want %+v", i, got[i], w)
		}
	}
}
