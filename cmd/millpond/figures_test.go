package main

import (
	"context"
	"math"
	"testing"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/plots"
)

func TestFigureText(t *testing.T) {
	for in, want := range map[string]string{
		"4.6 deg": "4.6°", "-6 mm": "−6 mm", "-1.5 deg": "−1.5°", "3.0 deg to 6.0 deg": "3.0° to 6.0°",
		"at least -2 mm": "at least −2 mm", "wing-tip": "wing-tip",
	} {
		if got := figureText(in); got != want {
			t.Errorf("figureText(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestRoundStep(t *testing.T) {
	for v, want := range map[float64]float64{0.0042: 0.005, 0.005: 0.005, 0.0051: 0.01, 0.018: 0.02, 1: 1, 1.1: 2, 0.1: 0.1} {
		if got := roundStep(v); math.Abs(got-want) > 1e-12*want {
			t.Errorf("roundStep(%g) = %g, want %g", v, got, want)
		}
	}
}

// The requirement that binds is the one that most mass must come off for; where
// all hold, the one that is missed first. What no mass changes binds only when
// it is missed.
func TestBinding(t *testing.T) {
	v := func(pass bool) design.Verdict { return design.Verdict{Pass: pass} }
	m := func(mass float64) design.Room { return design.Room{Mass: mass} }
	never := design.Room{Mass: 1, Never: true}
	for _, c := range []struct {
		name string
		r    checkReport
		want int
	}{
		{"first missed", checkReport{verdicts: []design.Verdict{v(true), v(true), v(true)}, rooms: []design.Room{m(2), m(0.5), m(3)}}, 1},
		{"never missed", checkReport{verdicts: []design.Verdict{v(true), v(true)}, rooms: []design.Room{never, m(3)}}, 1},
		{"most must come off", checkReport{verdicts: []design.Verdict{v(false), v(true), v(false)}, rooms: []design.Room{m(-1), m(0.1), m(-2)}, missed: 2}, 2},
		{"nothing coming off helps", checkReport{verdicts: []design.Verdict{v(false), v(false)}, rooms: []design.Room{m(-1), never}, missed: 2}, 1},
		{"no room known", checkReport{verdicts: []design.Verdict{v(false), v(true)}, rooms: []design.Room{m(math.NaN()), m(1)}, missed: 1}, 0},
		{"none", checkReport{}, -1},
	} {
		if got := c.r.binding(); got != c.want {
			t.Errorf("%s: binding %d, want %d", c.name, got, c.want)
		}
	}
}

// The good demo has something to say in every section but that of warnings.
func TestReviewSections(t *testing.T) {
	f, err := craftfile.Read(demo("craft.toml"))
	if err != nil {
		t.Fatal(err)
	}
	trial, err := design.New(f.Craft)
	if err != nil {
		t.Fatal(err)
	}
	r, err := newReviewed(context.Background(), f, trial, "")
	if err != nil {
		t.Fatal(err)
	}
	p, err := r.page()
	if err != nil {
		t.Fatal(err)
	}
	if got, want := len(p.Sections), len(reviewSections)-1; got != want {
		t.Errorf("%d sections, want %d", got, want)
	}
	for _, s := range p.Sections {
		if len(s.Blocks) == 0 || s.Title == "" {
			t.Errorf("section %q has %d blocks", s.Title, len(s.Blocks))
		}
	}
}

// The changes of an overlay are the differences of its two columns.
func TestChangesOf(t *testing.T) {
	f, err := craftfile.Read(demo("craft.toml"))
	if err != nil {
		t.Fatal(err)
	}
	before, err := design.New(f.Craft)
	if err != nil {
		t.Fatal(err)
	}
	got := changesOf(before, before.With(0.335, nil))
	if len(got) != len(compared) {
		t.Fatalf("%d changes, want %d", len(got), len(compared))
	}
	if want := (plots.Change{Name: "mass", Before: "3.350 kg", After: "3.685 kg", Difference: "+0.335 kg"}); got[0] != want {
		t.Errorf("mass: %+v, want %+v", got[0], want)
	}
	// Reserve falls from V rho/m - 1 to V rho/(m + dm) - 1: 6.517/3.350 less
	// 6.517/3.685 is 0.177.
	if c := got[4]; c.Name != "reserve buoyancy of the flotation" || c.Difference != "−18 points" {
		t.Errorf("reserve: %+v, want a difference of −18 points", c)
	}
}
