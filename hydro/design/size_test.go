package design_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

func span(t testing.TB, c *craft.Craft, text string) design.Span {
	t.Helper()
	s, err := design.ParseSpan(c, nil, text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func solve(t testing.TB, s design.Sizing) *design.Sized {
	t.Helper()
	s.Workers = 2
	got, err := s.Solve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// built is twins whose floats are built up of foam and skin, with an item that
// makes the rest of the mass.
func built(t testing.TB, length, breadth, height float64) *craft.Craft {
	c := twins(t, length, breadth, height, 0, 0)
	c.Stated = nil
	c.Parts[0].Makeup = craft.Makeup{Core: 30, Skin: []craft.Cloth{{Name: "glass", Areal: 0.2}}}
	c.Items = []craft.Item{{Name: "the rest", Mass: 6, On: -1}}
	c.Items[0].At.Z = 0.2
	return c
}

// The smallest height of a box float for a reserve: of a stated mass
// h = (1+r) m / (2 ρ l b); and where the float's own mass grows with it, from
// 2 ρ l b h = (1+r) (m0 + 2 (core l b h + skin 2 (lb + lh + bh))).
func TestSmallestHeightForAReserve(t *testing.T) {
	const l, b, h, reserve = 0.9, 0.10, 0.05, 0.8
	stated := 1.8 * 7 / (2 * 1000 * l * b)
	const core, skin, rest = 30, 0.2, 6.
	grown := (1 + reserve) * (rest + 4*skin*l*b) / (2*1000*l*b - (1+reserve)*(2*core*l*b+4*skin*(l+b)))
	for _, tt := range []struct {
		name  string
		craft *craft.Craft
		vary  string
		want  float64
		tol   float64
	}{
		{"stated", twins(t, l, b, h, 7, 0.2), "plug height of float=0mm..60mm", stated - h, 1e-8},
		{"built up", built(t, l, b, h), "plug height of float=0mm..60mm", grown - h, 1e-8},
		{"in steps", twins(t, l, b, h, 7, 0.2), "plug height of float=0mm..60mm/3mm", 0.021, 1e-12},
		{"of sheets", twins(t, l, b, h, 7, 0.2), "plug height of float=0mm,5mm,15mm,25mm,40mm", 0.025, 0},
		{"scaled", twins(t, l, b, h, 7, 0.2), "height scale of float=100%..200%", stated / h, 1e-7},
		{"longer", twins(t, l, b, 0.10, 7, 0.2), "length scale of float=50%..200%", 1.8 * 7 / (2 * 1000 * b * 0.10) / l, 1e-7},
	} {
		got := solve(t, design.Sizing{
			Craft: tt.craft, Vary: []design.Span{span(t, tt.craft, tt.vary)},
			Requirements: []design.Requirement{
				require(t, tt.craft, "draft", none, 0.2),
				require(t, tt.craft, "reserve buoyancy", reserve, none),
			},
		})
		near(t, tt.name, got.Values[0], tt.want, tt.tol)
		if got.Values[0] < tt.want-1e-12 || !got.Fits() {
			t.Errorf("%s: %.15g does not hold the reserve, which takes %.15g", tt.name, got.Values[0], tt.want)
		}
		if got.Binds != 1 {
			t.Errorf("%s: bound by requirement %d, want 1, the reserve", tt.name, got.Binds)
		}
	}
}

// What fits already has no limit, or today's value for the nearest.
func TestNothingBinds(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 6, 0.2)
	q := []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none)}
	got := solve(t, design.Sizing{Craft: c, Vary: []design.Span{span(t, c, "plug height of float=0mm..60mm")}, Requirements: q})
	if got.Values[0] != 0 || got.Binds != -1 {
		t.Errorf("plug of a float that is tall enough = %g, bound by %d", got.Values[0], got.Binds)
	}
	got = solve(t, design.Sizing{Craft: c, Vary: []design.Span{span(t, c, "plug height of float=-20mm..60mm at 20mm")}, Requirements: q, Nearest: true})
	if got.Values[0] != 0 {
		t.Errorf("nearest plug to today's 0 = %g", got.Values[0])
	}
}

// A window that is narrower than the search's first look is found: trim
// between two angles over the place of the CG, by the wall-sided formula. Only
// the near side of the window is the smallest, or the nearest to today.
func TestNarrowWindow(t *testing.T) {
	const l, b, mass, kg = 0.9, 0.10, 9, 0.25
	c := twins(t, l, b, 0.10, mass, kg)
	d := mass / 1000. / (2 * l * b)
	bm := l * l / 12 / d
	gm := d/2 + bm - kg
	lever := func(trim float64) float64 { tan := math.Tan(trim); return tan * (gm + bm*tan*tan/2) }
	q := []design.Requirement{require(t, c, "trim", 1*deg, 1.01*deg)}
	vary := []design.Span{span(t, c, "cg x=-50mm..50mm")}
	smallest := solve(t, design.Sizing{Craft: c, Vary: vary, Requirements: q})
	near(t, "the smallest cg x", smallest.Values[0], -lever(1.01*deg), 1e-8)
	nearest := solve(t, design.Sizing{Craft: c, Vary: vary, Requirements: q, Nearest: true})
	near(t, "the cg x nearest to today's", nearest.Values[0], -lever(1*deg), 1e-8)
	if smallest.Binds != 0 || nearest.Binds != 0 {
		t.Errorf("bound by %d and %d, want 0", smallest.Binds, nearest.Binds)
	}
}

// Of several variables the lightest float that holds a reserve: of all boxes of
// one breadth and volume the one as long as it is high has the least skin.
func TestLightestFloat(t *testing.T) {
	const b, skin, rest = 0.20, 0.4, 6.
	c := built(t, 0.1, b, 0.1)
	c.Parts[0].Makeup = craft.Makeup{Skin: []craft.Cloth{{Areal: skin}}}
	c.Items[0].At.Z = 0.02
	// Length and height s: 2 ρ b s² = 1.8 (rest + 2 skin (2 s² + 4 b s)).
	p, q, r := 2*1000*b-1.8*4*skin, -1.8*8*skin*b, -1.8*rest
	s := (-q + math.Sqrt(q*q-4*p*r)) / (2 * p)
	mass := rest + 2*skin*(2*s*s+4*b*s)
	sizing := design.Sizing{
		Craft:        c,
		Vary:         []design.Span{span(t, c, "plug height of float=0mm..200mm"), span(t, c, "plug length of float=0mm..300mm")},
		Requirements: []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none)},
	}
	got := solve(t, sizing)
	near(t, "the least mass", got.Trial.Body.Mass, mass, 1e-6*mass)
	near(t, "its height", 0.1+got.Values[0], s, 2e-3*s)
	near(t, "its length", 0.1+got.Values[1], s, 2e-3*s)
	if !got.Fits() || got.Binds != 0 || got.Agree < 2 {
		t.Errorf("fits %t, bound by %d, %d of %d searches agree", got.Fits(), got.Binds, got.Agree, got.Starts)
	}

	// Held to sheets, the least of all combinations, counted here one by one.
	sizing.Vary = []design.Span{span(t, c, "plug height of float=0mm..200mm/20mm"), span(t, c, "plug length of float=0mm..300mm/30mm")}
	got = solve(t, sizing)
	least := math.Inf(1)
	for h := 0.1; h < 0.3001; h += 0.02 {
		for l := 0.1; l < 0.4001; l += 0.03 {
			m := rest + 4*skin*(l*b+l*h+b*h)
			if 2*1000*l*b*h/m-1 >= 0.8 {
				least = min(least, m)
			}
		}
	}
	near(t, "the least mass of sheets", got.Trial.Body.Mass, least, 1e-9)
	if got.Binds != 0 {
		t.Errorf("of sheets: bound by %d, want 0", got.Binds)
	}

	// The least volume holds the reserve of the least mass it carries.
	sizing.Volume = true
	got = solve(t, sizing)
	for i, h := range got.Trial.Craft.Parts[0].Placed() {
		if i == 0 && h.Volume() <= 0 {
			t.Error("no volume")
		}
	}
	if !got.Fits() {
		t.Error("the least volume does not fit")
	}
}

// Any number of workers finds the same.
func TestSizingWorkersAgree(t *testing.T) {
	c := built(t, 0.5, 0.1, 0.05)
	var want string
	for _, workers := range []int{1, 3} {
		s := design.Sizing{
			Craft: c, Workers: workers,
			Vary:         []design.Span{span(t, c, "plug height of float=0mm..100mm"), span(t, c, "plug length of float=0mm..500mm")},
			Requirements: []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none), require(t, c, "length of float", none, 0.8)},
		}
		got, err := s.Solve(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		text := fmt.Sprintf("%x %d %d %d", got.Values, got.Binds, got.Agree, got.Tried)
		if want == "" {
			want = text
		}
		if text != want {
			t.Errorf("%d workers: %s, one worker: %s", workers, text, want)
		}
	}
}

// When nothing fits, the design that comes nearest and what it misses.
func TestNothingFits(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.05, 7, 0.2)
	q := []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none), require(t, c, "draft", none, 0.2)}
	for _, vary := range [][]design.Span{
		{span(t, c, "plug height of float=0mm..10mm")},
		{span(t, c, "plug height of float=0mm..10mm/1mm")},
		{span(t, c, "plug height of float=0mm..10mm"), span(t, c, "plug length of float=0mm..20mm")},
		{span(t, c, "plug height of float=0mm..10mm/1mm"), span(t, c, "plug length of float=0mm..20mm/2mm")},
	} {
		s := design.Sizing{Craft: c, Vary: vary, Requirements: q, Workers: 2}
		_, err := s.Solve(t.Context())
		var nothing *design.NothingFitsError
		if !errors.As(err, &nothing) {
			t.Errorf("%v: %v, want that nothing fits", vary[0].Words(), err)
			continue
		}
		// The largest float comes nearest.
		for i, v := range nothing.Nearest.Values {
			near(t, "the nearest "+vary[i].Text(), v, vary[i].To, 2e-4)
		}
		if m := nothing.Nearest.Missed(); len(m) != 1 || m[0] != 0 {
			t.Errorf("the nearest misses %v, want the reserve alone", m)
		}
	}
	// A craft that sinks whatever is done.
	heavy := twins(t, 0.9, 0.10, 0.05, 70, 0.2)
	s := design.Sizing{Craft: heavy, Vary: []design.Span{span(t, heavy, "plug height of float=0mm..10mm")}, Requirements: []design.Requirement{require(t, heavy, "reserve buoyancy", 0.8, none)}}
	_, err := s.Solve(t.Context())
	var nothing *design.NothingFitsError
	if !errors.As(err, &nothing) || nothing.Nearest.No == nil || nothing.Nearest.Values[0] != 0.01 {
		t.Errorf("of a craft that sinks: %v", err)
	}
}

// Requirements that contradict each other are refused before any work.
func TestContradiction(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.05, 7, 0.2)
	q := []design.Requirement{require(t, c, "trim", 3*deg, none), require(t, c, "draft", none, 0.1), require(t, c, "trim", none, 2*deg)}
	err := design.Contradiction(q)
	if err == nil || !strings.Contains(err.Error(), "trim is to be at least 3.0 deg and at most 2.0 deg") {
		t.Errorf("Contradiction = %v", err)
	}
	s := design.Sizing{Craft: c, Vary: []design.Span{span(t, c, "cg x=0mm..10mm")}, Requirements: q}
	if _, got := s.Solve(t.Context()); got == nil || got.Error() != err.Error() {
		t.Errorf("Solve = %v, want %v", got, err)
	}
	if err := design.Contradiction(q[:2]); err != nil {
		t.Errorf("Contradiction = %v, want none", err)
	}
}

// Stopped, a search says so and not that nothing fits.
func TestStoppedSizing(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.05, 7, 0.2)
	for _, vary := range [][]design.Span{
		{span(t, c, "plug height of float=0mm..10mm")},
		{span(t, c, "plug height of float=0mm..10mm"), span(t, c, "plug length of float=0mm..20mm")},
		{span(t, c, "plug height of float=0mm..10mm/1mm"), span(t, c, "plug length of float=0mm..20mm/1mm")},
	} {
		ctx, cancel := context.WithCancel(t.Context())
		s := design.Sizing{
			Craft: c, Vary: vary, Workers: 2, Requirements: []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none)},
			Progress: func(done, _ int) {
				if done == 5 {
					cancel()
				}
			},
		}
		if _, err := s.Solve(ctx); !errors.Is(err, context.Canceled) {
			t.Errorf("stopped: %v", err)
		}
		cancel()
	}
}
