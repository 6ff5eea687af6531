package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// seaplane returns a craft with everything a craft can have, k times as large
// and k³ as heavy.
func seaplane(t testing.TB, k float64) *craft.Craft {
	t.Helper()
	float := shape.Float{
		Forebody: 440, Afterbody: 380, Beam: 86, Depth: 74, Step: 10, Deadrise: 20 * deg, BowDeadrise: 42 * deg,
		AfterbodyAngle: 4 * deg, Straight: 0.36, BowRise: 64, Sheer: 12, Transom: 48, Edge: 9,
	}
	at := func(x, y, z float64) r3.Vec { return r3.Vec{X: k * x / 1e3, Y: k * y / 1e3, Z: k * z / 1e3} }
	drawn := mesh.Scaling(k/1e3, k/1e3, k/1e3)
	c := &craft.Craft{
		Name: "seaplane",
		Parts: []craft.Part{
			{Name: "float", Solid: solid(t, float.Mesh(3000)), Drawn: drawn, Fit: craft.Fit{At: at(0, 190, 0), Pitch: 1 * deg}, Mirrored: true},
			{Name: "wing", Role: craft.Buoyant, Solid: solid(t, shape.BoxBetween(r3.Vec{X: -200, Y: -800}, r3.Vec{Y: 800, Z: 30})), Drawn: drawn, Fit: craft.Fit{At: at(95, 0, 294), Pitch: 2.5 * deg}, KeepDry: true},
		},
		Points: []craft.Point{
			{Name: "propeller tip", At: at(375, 0, 82.6), KeepDry: true, On: -1},
			{Name: "stern deck", At: at(-380, 190, 74), KeepDry: true, On: 0},
		},
		Lines:    []craft.Line{{Name: "wing chord", From: at(-105, 0, 290), To: at(95, 0, 294), Chord: true, On: 1}},
		Stations: []craft.Station{{Name: "step", At: at(0, 190, 0), On: 0}},
		Stated:   &craft.Mass{Mass: 3.3 * k * k * k, At: at(10, 2, 185)},
		Water:    craft.Water{Name: "fresh water", Density: 1000},
	}
	for i := range c.Parts {
		c.Parts[i].Base = c.Parts[i].Fit
	}
	return c
}

// power is the power of length that a kind of result grows with, where all
// lengths grow alike and masses as their cube.
var power = map[unit.Kind]float64{
	unit.Length: 1, unit.Area: 2, unit.Volume: 3, unit.Mass: 3, unit.Angle: 0, unit.Share: 0, unit.Density: 0,
}

// scaled compares every result of a craft with that of one k times as large.
func scaled(t *testing.T, what string, small, large *craft.Craft, k float64) {
	t.Helper()
	a, err := design.New(small)
	if err != nil {
		t.Fatal(err)
	}
	b, err := design.New(large)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, r := range design.All(small) {
		p, known := power[r.Kind]
		if !known {
			continue
		}
		x, errX := r.Value(a)
		y, errY := r.Value(b)
		if (errX == nil) != (errY == nil) {
			t.Errorf("%s by %g: %s: %v, and %v", what, k, r.Text(), errX, errY)
			continue
		}
		if errX != nil {
			continue
		}
		compared++
		if want := x * math.Pow(k, p); !(math.Abs(y-want) <= 1e-8*max(math.Abs(want), math.Pow(k, p)*1e-2)) {
			t.Errorf("%s by %g: %s = %.12g, want %.12g", what, k, r.Text(), y, want)
		}
	}
	if compared < 25 {
		t.Errorf("%s by %g: %d results compared, want 25 at least", what, k, compared)
	}
}

// All lengths by k and the mass by k³: same angles and shares, lengths by k,
// over the whole result; and so for every design of a sweep.
func TestScalingLaw(t *testing.T) {
	for _, k := range []float64{0.3, 1.7, 10} {
		scaled(t, "all lengths", seaplane(t, 1), seaplane(t, k), k)
		for _, name := range []string{"plug height of float", "plug length of float", "drop of float"} {
			small, large := seaplane(t, 1), seaplane(t, k)
			v, w := vary(t, small, name), vary(t, large, name)
			if v.IsPlug() {
				v, w = vary(t, small, name, 0.06), vary(t, large, name, 0.06*k)
			}
			if err := v.Set(small, 0.025); err != nil {
				t.Fatal(err)
			}
			if err := w.Set(large, 0.025*k); err != nil {
				t.Fatal(err)
			}
			scaled(t, name, small, large, k)
		}
	}
}

// Scaling a part alone in all three ways is drawing it larger.
func TestScaleVariablesAreADrawing(t *testing.T) {
	const k = 1.2
	got, want := seaplane(t, 1), seaplane(t, 1)
	for _, name := range []string{"length scale of float", "beam scale of float", "height scale of float"} {
		if err := vary(t, got, name).Set(got, k); err != nil {
			t.Fatal(err)
		}
	}
	want.Parts[0].Drawn = mesh.Scaling(k/1e3, k/1e3, k/1e3)
	// What is on the float goes with it.
	back, _ := seaplane(t, 1).Parts[0].Place().Inverse()
	place := want.Parts[0].Place()
	for _, p := range []*r3.Vec{&want.Points[1].At, &want.Stations[0].At} {
		*p = place.Point(back.Point(*p))
	}
	scaled(t, "the float", got, want, 1)
}
