package design_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

func aim(t testing.TB, c *craft.Craft, what string, want float64) design.Aim {
	t.Helper()
	return design.Aim{Asked: find(t, c, what), Want: want}
}

// Twin boxes trim by the wall-sided listing equation, exact while no deck or
// bottom edge is cut: with g the distance of G ahead of the middle,
// tan p (GM + BM tan²p / 2) = g bow down, for the mass that then floats.
func TestBallast(t *testing.T) {
	const length, width, mass, kg = 0.9, 0.2, 9.0, 0.25 // width of both floats together
	c := twins(t, length, width/2, 0.1, mass, kg)
	c.Stated = nil
	c.Items = []craft.Item{
		{Name: "airframe", Mass: 8, At: r3.Vec{Z: kg}, On: -1},
		{Name: "battery", Mass: 1, At: r3.Vec{Z: kg}, On: -1},
	}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	// lever returns how far G must be ahead of the middle.
	lever := func(mass, kg, trim float64) float64 {
		draft := mass / (1000 * length * width)
		bm := length * length / (12 * draft)
		tan := math.Tan(-trim)
		return tan * (draft/2 + bm - kg + bm*tan*tan/2)
	}
	for _, trim := range []float64{-3 * deg, -1 * deg, 0.5 * deg, 2 * deg} {
		to := aim(t, c, "trim", trim)

		// A battery of 1 kg of 9 moves G by a ninth.
		got, err := to.Move(trial, 1, -0.8, 0.8)
		if want := 9 * lever(9, kg, trim); err != nil || math.Abs(got.Value-want) > 1e-8 {
			t.Errorf("trim %.1f deg: Move to x = %.9g, %v; want %.9g", trim/deg, got.Value, err, want)
		}

		// 0.5 kg at the height of G.
		at := r3.Vec{X: 0.1, Z: kg}
		got, err = to.AddAt(trial, 0.5, at, -2, 2)
		if want := 9.5 / 0.5 * lever(9.5, kg, trim); err != nil || math.Abs(got.Value-want) > 1e-8 {
			t.Errorf("trim %.1f deg: AddAt x = %.9g, %v; want %.9g", trim/deg, got.Value, err, want)
		}

		// A mass at an end: m at x makes G go to m x/(9+m).
		x := math.Copysign(0.4, -trim)
		got, err = to.AddMass(trial, r3.Vec{X: x, Z: kg})
		if err != nil {
			t.Errorf("trim %.1f deg: AddMass: %v", trim/deg, err)
			continue
		}
		m := got.Value
		if off := m*x/(9+m) - lever(9+m, kg, trim); !(m > 0) || math.Abs(off) > 1e-9 {
			t.Errorf("trim %.1f deg: AddMass = %g kg, of which the lever is off by %g m", trim/deg, m, off)
		}
		// The trial that comes with it has it.
		if v, err := to.Value(got.Trial); err != nil || math.Abs(v-trim) > 1e-9 || math.Abs(got.Trial.Body.Mass-9-m) > 1e-12 {
			t.Errorf("trim %.1f deg: the answer's trial trims by %.9g deg, %v, at %g kg", trim/deg, v/deg, err, got.Trial.Body.Mass)
		}
	}
}

func TestBallastOutOfReach(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	c.Stated = nil
	c.Items = []craft.Item{{Name: "all", Mass: 8.5, At: r3.Vec{Z: 0.25}, On: -1}, {Name: "battery", Mass: 0.5, At: r3.Vec{Z: 0.25}, On: -1}}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	var no *design.OutOfReachError
	// 0.5 kg over +-0.2 m shifts G by 11 mm: about 0.5 deg.
	if got, err := aim(t, c, "trim", 2*deg).Move(trial, 1, -0.2, 0.2); !errors.As(err, &no) || no.Hi > 0.7*deg || no.Hi < 0.4*deg {
		t.Errorf("Move for 2 deg gives %g, %v; want that it is out of reach from about 0.5 deg", got.Value, err)
	}
	// A mass ahead of the middle does not lift the bow.
	if got, err := aim(t, c, "trim", 2*deg).AddMass(trial, r3.Vec{X: 0.3, Z: 0.1}); !errors.As(err, &no) || !no.Away {
		t.Errorf("AddMass ahead for the bow up gives %g kg, %v", got.Value, err)
	}
	// It capsizes long before.
	if got, err := aim(t, c, "trim", 45*deg).AddAt(trial, 0.5, r3.Vec{Z: 0.1}, -0.4, 0.4); !errors.As(err, &no) {
		t.Errorf("AddAt for 45 deg gives %g, %v", got.Value, err)
	}
	// There already: no mass is the answer.
	if got, err := aim(t, c, "trim", 0).AddMass(trial, r3.Vec{X: 0.3}); err != nil || got.Value != 0 {
		t.Errorf("AddMass for the trim it has = %g kg, %v; want none", got.Value, err)
	}
}
