package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

// Twin boxes heeled by a CG that lies 8 mm to one side: the station, drawn on
// the port one, is as deep as the deeper of both keels, and so is its
// derivative. By the height of the drawn point and its mirror image.
func TestDraftAtTheDeeperSide(t *testing.T) {
	for _, y := range []float64{0.008, -0.008} {
		c := twins(t, 0.9, 0.1, 0.1, 9, 0.05)
		c.Stated.At.Y = y
		c.Stations = []craft.Station{{Name: "step", At: r3.Vec{Y: 0.2}, On: 0}}
		// A station on no part is where it is.
		c.Stations = append(c.Stations, craft.Station{Name: "post", At: r3.Vec{Y: 0.2}, On: -1})
		trial, err := design.New(c)
		if err != nil {
			t.Fatal(err)
		}
		r, err := trial.Rest()
		if err != nil {
			t.Fatal(err)
		}
		port, starboard := -r.HeightOf(r3.Vec{Y: 0.2}), -r.HeightOf(r3.Vec{Y: -0.2})
		if math.Abs(port-starboard) < 0.003 {
			t.Fatalf("drafts %g and %g, want it to heel", port, starboard)
		}
		for name, want := range map[string]float64{"step": max(port, starboard), "post": port} {
			got, err := find(t, c, "draft at "+name).Value(trial)
			if err != nil || got != want {
				t.Errorf("CG %g m to port: draft at %s = %g, %v; want %g", y, name, got, err, want)
			}
		}
	}
}

// The exact derivative of a heeled craft's draft is that of the deeper side, as
// differences of whole solves have it.
func TestSlopeOfTheDeeperSide(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.05)
	c.Stated.At.Y = -0.008
	c.Stations = []craft.Station{{Name: "step", At: r3.Vec{Y: 0.2}, On: 0}}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	exact, difference, ok := design.BothSlopes(trial, vary(t, c, "cg y"), find(t, c, "draft at step"), 1e-5)
	if !ok {
		t.Fatal("no exact slope")
	}
	if math.Abs(exact-difference) > 1e-4*math.Abs(difference) || exact >= 0 {
		t.Errorf("%g by the waterplane, %g by differences", exact, difference)
	}
}
