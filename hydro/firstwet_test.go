package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// Level twin boxes of 0.18 m2 waterplane at 9 kg: 1 mm is 180 g, and a hatch
// at 70 mm with the water at 50 mm goes under at 3.6 kg.
func TestFirstWetOfABox(t *testing.T) {
	at := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.1}, Density: 1000})
	w, err := at.FirstWet(nil, []hydro.Place{hydro.Spot{X: 0.2, Z: 0.09}, hydro.Spot{X: -0.1, Z: 0.07}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass to first wet", w.Mass, 3.6, 1e-9)
	if w.Place != 1 || w.End != hydro.GoesUnder {
		t.Errorf("place %d %v, want place 1 goes under", w.Place, w.End)
	}
}

// A place under to begin with: what must come off. At 9 kg the water is at
// 50 mm; a place at 30 mm needs 3.6 kg off.
func TestFirstWetOfAWetPlace(t *testing.T) {
	at := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.1}, Density: 1000})
	w, err := at.FirstWet(nil, []hydro.Place{hydro.Spot{Z: 0.03}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass to first wet", w.Mass, -3.6, 1e-9)
}

// With nothing to watch, a low CG and no other end it takes on mass until it
// sinks: 18 kg carried, 9 kg used.
func TestFirstWetUntilItSinks(t *testing.T) {
	at := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: -0.3}, Density: 1000})
	w, err := at.FirstWet(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass", w.Mass, 9, 1e-9)
	if w.End != hydro.Sinks {
		t.Errorf("it %v, want sinks", w.End)
	}
}

// A square log with G off center by half a millimeter turns with growing mass,
// smoothly up to where its rest meets the unstable one beside it and ends; then
// it turns over to the far side at once, with a place above still dry.
func TestFirstWetCapsizes(t *testing.T) {
	h := hullOf(t, solid(t, shape.BoxBetween(r3.Vec{X: -1.5, Y: -0.05}, r3.Vec{X: 1.5, Y: 0.05, Z: 0.1})))
	at := rest(t, hydro.Body{Hull: h, Mass: 4.5, CG: r3.Vec{Y: 0.0005, Z: 0.05}, Density: 1000})
	w, err := at.FirstWet(nil, []hydro.Place{hydro.Spot{Z: 0.25}})
	if err != nil {
		t.Fatal(err)
	}
	if w.End != hydro.Capsizes {
		t.Fatalf("it %v at %g kg, want it to capsize", w.End, w.Mass)
	}
	// Just before, the rest still exists and hardly resists; just after, it
	// is gone.
	gm, _ := w.State.GMLeast()
	if gm < 0 || gm > 0.002 {
		t.Errorf("GM at the end is %g, want nearly none left", gm)
	}
	after, err := at.Body().With(w.Mass+1e-4, nil).RestFrom(w.State.Attitude)
	if err != nil {
		t.Fatal(err)
	}
	if turn := math.Abs(deg(after.Heel() - w.State.Heel())); turn < 20 {
		t.Errorf("0.1 g more turns it by %g deg, want a jump", turn)
	}
}

// A part to be kept dry is as low as its lowest point, trimmed as it is.
func TestSurfaceClearance(t *testing.T) {
	s := solid(t, shape.BoxBetween(r3.Vec{X: -1, Y: -1, Z: 0.2}, r3.Vec{X: 1, Y: 1, Z: 0.3}))
	wing := hydro.Surface{{Solid: s, Place: mesh.Identity()}}
	a := hydro.Attitude{Up: hydro.UpVector(0.1, 0.05), Height: -0.02}
	h, at := wing.Clearance(a)
	want := r3.Vec{X: -1, Y: -1, Z: 0.2}
	if at != want {
		t.Errorf("lowest at %v, want %v: the stern's starboard corner, bottom", at, want)
	}
	near(t, "clearance", h, a.HeightOf(want), 1e-15)
}

// A hatch 2 mm below the deck edge goes under 360 g before it all sinks, in the
// last part of the way.
func TestFirstWetShortlyBeforeSinking(t *testing.T) {
	at := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: -0.3}, Density: 1000})
	w, err := at.FirstWet(nil, []hydro.Place{hydro.Spot{Z: 0.098}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass to first wet", w.Mass, 18*0.98-9, 1e-9)
	if w.Place != 0 || w.End != hydro.GoesUnder {
		t.Errorf("place %d %v, want place 0 goes under", w.Place, w.End)
	}
}

// Bodies that grow narrower upward keep less and less waterplane as they sink.
func TestFirstWetOfNarrowingBodies(t *testing.T) {
	for name, m := range map[string]*mesh.Mesh{
		"cone":   shape.Cone(0.1, 0.3, 64),
		"sphere": shape.Sphere(0.1, 64, 32),
	} {
		h := hullOf(t, solid(t, m))
		at := rest(t, hydro.Body{Hull: h, Mass: 500 * h.Volume(), CG: r3.Vec{Z: -0.5}, Density: 1000})
		w, err := at.FirstWet(nil, nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if w.End != hydro.Sinks {
			t.Errorf("%s: it %v, want sinks", name, w.End)
		}
		near(t, name+": mass", w.Mass, 500*h.Volume(), 1e-9)
	}
}

// skewLog is a square log with G off center by half a millimeter: with growing
// mass it turns, smoothly, up to where its rest meets the unstable one beside it
// and ends.
func skewLog(t *testing.T) hydro.Rest {
	h := hullOf(t, solid(t, shape.BoxBetween(r3.Vec{X: -1.5, Y: -0.05}, r3.Vec{X: 1.5, Y: 0.05, Z: 0.1})))
	return rest(t, hydro.Body{Hull: h, Mass: 4.5, CG: r3.Vec{Y: 0.0005, Z: 0.05}, Density: 1000})
}

// A place that goes under a little before the log turns over is the first end,
// however near the two are.
func TestFirstWetShortlyBeforeCapsizing(t *testing.T) {
	log := skewLog(t)
	end, err := log.FirstWet(nil, nil)
	if err != nil || end.End != hydro.Capsizes {
		t.Fatalf("it %v, %v; want it to capsize", end.End, err)
	}
	for _, part := range []float64{0.9, 0.99, 0.9999} {
		mass := part * end.Mass
		before, err := log.Body().With(mass, nil).RestFrom(log.Attitude)
		if err != nil {
			t.Fatal(err)
		}
		// On the middle of the log, as high as the water then.
		spot := r3.Vec{Z: -before.Height / before.Up.Z}
		w, err := log.FirstWet(nil, []hydro.Place{hydro.Spot(spot)})
		if err != nil {
			t.Fatal(err)
		}
		if w.End != hydro.GoesUnder || w.Mass > mass*(1+1e-9) {
			t.Errorf("at %g of the way: it %v at %g kg, want goes under at %g kg at the latest", part, w.End, w.Mass, mass)
		}
		for part := 0.05; part < 1; part += 0.05 {
			then, err := log.Body().With(part*w.Mass, nil).RestFrom(log.Attitude)
			if err != nil {
				t.Fatal(err)
			}
			if h := then.HeightOf(spot); h < 0 {
				t.Errorf("%g m under at %g of the mass to first wet", -h, part)
			}
		}
		near(t, "height of the place", w.State.HeightOf(spot), 0, 1e-12)
	}
}
