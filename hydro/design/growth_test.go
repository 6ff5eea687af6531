package design_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// demo returns the trial of a craft of the demo.
func demo(t *testing.T, name string) *design.Trial {
	t.Helper()
	f, err := craftfile.Read("../../testdata/demo/" + name)
	if err != nil {
		t.Fatal(err)
	}
	out, err := design.New(f.Craft)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func atLeast(t *testing.T, trial *design.Trial, text string, least float64) design.Requirement {
	t.Helper()
	a, err := design.Find(trial.Craft, text)
	if err != nil {
		t.Fatal(err)
	}
	return design.Requirement{Asked: a, AtLeast: &least}
}

// Overloaded, the demo falls onto its tail, with the propeller high in the air
// again: its tip has no room left beyond. Rests from level, which follow
// nothing, tell the mass.
func TestRoomEndsWhereItLeaps(t *testing.T) {
	for _, name := range []string{"craft.toml", "heavy.toml"} {
		trial := demo(t, name)
		room, err := atLeast(t, trial, "clearance of propeller tip", 0.03).Room(trial)
		if err != nil {
			t.Fatal(err)
		}
		stays := func(more float64) bool {
			r, err := trial.With(more, nil).Rest()
			if err != nil {
				t.Fatal(err)
			}
			return design.Upright(&r.State)
		}
		lo, hi := 0.0, 5.0
		for hi-lo > 1e-7 {
			if mid := (lo + hi) / 2; stays(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		if room.Mass > lo || room.Mass < lo-2e-5 {
			t.Errorf("%s: %.7g kg of room, want the %.7g kg with which it is upright last", name, room.Mass, lo)
		}
		if room.Never || room.Over == nil || design.Upright(room.Over) || room.Over.Trim() < 1 {
			t.Errorf("%s: %+v, want it to go over onto its tail", name, room)
		}
	}
}

// A bound that is reached before it leaps is not touched by it.
func TestRoomBeforeALeap(t *testing.T) {
	trial := demo(t, "craft.toml")
	v := atLeast(t, trial, "reserve buoyancy", 0.8)
	room, err := v.Room(trial)
	if err != nil {
		t.Fatal(err)
	}
	// Flotation carries 1.8 times what it displaces then.
	want := trial.Craft.FlotationVolume()*1000/1.8 - trial.Body.Mass
	if d := room.Mass - want; d > 0 || d < -1e-5 || room.Over != nil {
		t.Errorf("%.7g kg of room, want %.7g", room.Mass, want)
	}
}

// A raft with a low CG keeps level: 1 mm is 270 g of it.
func TestRoomOfARaft(t *testing.T) {
	trial := raft(t, func(c *craft.Craft) { c.Stated.At = r3.Vec{Z: -0.1} })
	room, err := atLeast(t, trial, "clearance of deck", 0.02).Room(trial)
	if err != nil {
		t.Fatal(err)
	}
	if d := room.Mass - 30*0.27; d > 0 || d < -2e-5 || room.Never || room.Over != nil {
		t.Errorf("%+v, want 8.1 kg", room)
	}
	room, err = atLeast(t, trial, "mass", 1).Room(trial)
	if err != nil {
		t.Fatal(err)
	}
	if !room.Never || room.Over != nil {
		t.Errorf("%+v, want that it holds until it sinks", room)
	}
}

// Of a craft that lies on its tail enough must come off for it to stay upright,
// though the propeller is as dry there.
func TestRoomOfACraftOnItsTail(t *testing.T) {
	trial := demo(t, "craft.toml")
	leap, err := trial.Leap()
	if err != nil {
		t.Fatal(err)
	}
	over := trial.With(3, nil)
	room, err := atLeast(t, over, "clearance of rear hatch", 0).Room(over)
	if err != nil {
		t.Fatal(err)
	}
	if !(room.Mass < leap.Mass-3) {
		t.Errorf("%.6g kg to come off, want more than %.6g", -room.Mass, 3-leap.Mass)
	}
	r, err := over.With(room.Mass, nil).Rest()
	if err != nil || !design.Upright(&r.State) {
		t.Errorf("with %.6g kg off it does not stay upright", -room.Mass)
	}
	// What must come off until the first place is dry is found beyond the
	// leap as well.
	w, err := over.FirstWet()
	if err != nil {
		t.Fatal(err)
	}
	if !(w.Mass < 0) || w.Place < 0 {
		t.Fatalf("mass to first wet %.6g kg, it %v; want what must come off", w.Mass, w.End)
	}
	if h, _ := over.DryPlaces()[w.Place].Clearance(w.State.Attitude); h < -1e-9 {
		t.Errorf("%g m under with %.6g kg off", -h, -w.Mass)
	}
}
