package craft_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"
)

// block returns a part between two corners in meters.
func block(t testing.TB, name string, role craft.Role, lo, hi r3.Vec) craft.Part {
	t.Helper()
	m := shape.BoxBetween(lo, hi)
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	return craft.Part{Name: name, Role: role, Solid: s, Drawn: mesh.Identity()}
}

// assembly is two mirrored floats that reach 1 into a slab, a pod through the
// slab flush with its end, and a keel flush under the pod. The floats' shared
// volume counts as theirs, though the slab comes first.
func assembly(t testing.TB) *craft.Craft {
	v := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	c := &craft.Craft{
		Name: "assembly",
		Parts: []craft.Part{
			block(t, "slab", craft.Buoyant, v(0, -10, 4), v(6, 10, 6)),
			block(t, "float", craft.Flotation, v(-5, 4, 0), v(10, 6, 5)),
			block(t, "pod", craft.Buoyant, v(0, -1, 3), v(4, 1, 7)),
			block(t, "keel", craft.Buoyant, v(0, -1, 1), v(4, 1, 3)),
			block(t, "hatch", craft.NonBuoyant, v(0, -1, 1), v(4, 1, 9)),
		},
		Water: craft.Water{Density: 1000},
	}
	c.Parts[1].Mirrored = true
	return c
}

func TestHullCountsOnce(t *testing.T) {
	c := assembly(t)
	h, err := c.Hull()
	if err != nil {
		t.Fatal(err)
	}
	slab, float, pod, keel := 240.0, 2*150.0, 32.0, 16.0
	inSlab, podInSlab := 2*12.0, 16.0
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12*want {
			t.Errorf("%s = %.17g, want %g", what, got, want)
		}
	}
	near("volume", h.Volume(), slab+float+pod+keel-inSlab-podInSlab)
	near("flotation", c.FlotationVolume(), float)
	near("float", h.PartWhole(1), float)
	near("slab", h.PartWhole(0), slab-inSlab)
	near("pod", h.PartWhole(2), pod-podInSlab)
	near("keel", h.PartWhole(3), keel)

	// Wholly under, what is wet is the surface of the union.
	a := hydro.Attitude{Up: r3.Vec{Z: 1}, Height: -100}
	sides := func(x, y, z float64) float64 { return 2 * (x*y + y*z + z*x) }
	areas := sides(6, 20, 2) + 2*sides(15, 2, 5) + sides(4, 2, 4) + sides(4, 2, 2)
	// Each float in the slab: 6 x 2 of its top and 2 (6 + 0) x 1 of its sides
	// within, 6 x 2 of the slab's bottom and 2 (2 x 1) of its ends.
	areas -= 2 * (6*2 + 2*6*1 + 6*2 + 2*2*1)
	// The pod in the slab: its two sides and front end 4 x 2 twice and 2 x 2,
	// the slab's top and bottom 4 x 2 each, and one of two ends at x = 0.
	areas -= 2*4*2 + 2*2 + 2*4*2 + 2*2
	// The keel under the pod: both faces.
	areas -= 2 * 4 * 2
	near("wetted area", h.WetArea(a), areas)
	at := h.PartVolume(1, hydro.Attitude{Up: r3.Vec{Z: 1}, Height: -4.5})
	near("float under to 4.5", at, 2*15*2*4.5)

	pairs, err := c.Overlapping()
	if err != nil {
		t.Fatal(err)
	}
	want := []craft.Overlap{{A: 0, B: 1, Volume: inSlab, Share: inSlab / slab}, {A: 0, B: 2, Volume: podInSlab, Share: podInSlab / pod}}
	if len(pairs) != len(want) {
		t.Fatalf("Overlapping = %v, want %v", pairs, want)
	}
	for i, w := range want {
		got := pairs[i]
		if got.A != w.A || got.B != w.B || math.Abs(got.Volume-w.Volume) > 1e-12*w.Volume || math.Abs(got.Share-w.Share) > 1e-12 {
			t.Errorf("overlap %d = %v, want %v", i, got, w)
		}
	}
}

// The order of parts changes whose a shared volume is, and nothing else.
func TestOrderOfParts(t *testing.T) {
	c := assembly(t)
	first, err := c.Hull()
	if err != nil {
		t.Fatal(err)
	}
	c.Parts[0], c.Parts[3] = c.Parts[3], c.Parts[0]
	c.Parts[1], c.Parts[2] = c.Parts[2], c.Parts[1]
	second, err := c.Hull()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range []hydro.Attitude{
		{Up: hydro.UpVector(0.1, 0.2), Height: -4.3},
		{Up: hydro.UpVector(-0.3, 0.9), Height: -3},
		{Up: hydro.UpVector(0, 3), Height: 5},
	} {
		sum := func(h *hydro.Hull) float64 {
			v := 0.0
			for i := range c.Parts {
				v += h.PartVolume(i, a)
			}
			return v
		}
		if v, w := sum(first), sum(second); math.Abs(v-w) > 1e-12*first.Volume() {
			t.Errorf("volume %.17g in one order, %.17g in another", v, w)
		}
		if v, w := first.WetArea(a), second.WetArea(a); math.Abs(v-w) > 1e-12*600 {
			t.Errorf("wetted area %.17g in one order, %.17g in another", v, w)
		}
	}
}

// A part with a plug shares what its longer self does, and its inner faces are
// no surface.
func TestPlugInSlab(t *testing.T) {
	c := assembly(t)
	c.Overlaps = &overlap.Cache{}
	c.Parts[1].Fit.Longer = craft.Plug{At: 2, Add: 3}
	got, err := c.Hull()
	if err != nil {
		t.Fatal(err)
	}
	v := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	plain := assembly(t)
	long := block(t, "float", craft.Flotation, v(-5, 4, 0), v(13, 6, 5))
	long.Mirrored = true
	plain.Parts[1] = long
	want, err := plain.Hull()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.Volume()-want.Volume()) > 1e-12*want.Volume() {
		t.Errorf("volume %.17g, want %.17g", got.Volume(), want.Volume())
	}
	a := hydro.Attitude{Up: hydro.UpVector(0.1, 0.2), Height: -4.3}
	if g, w := got.WetArea(a), want.WetArea(a); math.Abs(g-w) > 1e-12*w {
		t.Errorf("wetted area %.17g, want %.17g", g, w)
	}
	again, err := c.Hull()
	if err != nil {
		t.Fatal(err)
	}
	for i, term := range again.Terms() {
		if term.Weight < 0 && term.Solid != got.Terms()[i].Solid {
			t.Error("what a part with a plug shares was worked out anew")
		}
	}
}

// A sweep that moves one part works out anew only what that part shares.
func TestOnlyWhatChanged(t *testing.T) {
	c := assembly(t)
	c.Overlaps = &overlap.Cache{}
	shared := func(c *craft.Craft) map[int][]*mesh.Solid {
		t.Helper()
		h, err := c.Hull()
		if err != nil {
			t.Fatal(err)
		}
		out := make(map[int][]*mesh.Solid)
		for _, term := range h.Terms() {
			if term.Weight < 0 {
				out[term.Part] = append(out[term.Part], term.Solid)
			}
		}
		return out
	}
	before := shared(c)
	moved := *c
	moved.Parts = append([]craft.Part(nil), c.Parts...)
	moved.Parts[2].Fit.At.X = 0.5 // the pod
	after := shared(&moved)
	if len(before[0]) != 1 || len(before[2]) != 1 || len(before[3]) != 1 {
		t.Fatalf("terms by part %v, want one each of slab, pod and keel", before)
	}
	if after[0][0] != before[0][0] {
		t.Error("what the slab shares with the floats was worked out anew when the pod moved")
	}
	if after[2][0] == before[2][0] || after[3][0] == before[3][0] {
		t.Error("what the pod shares with the slab, or the keel with the pod, is as before though the pod moved")
	}
	if again := shared(c); again[2][0] != before[2][0] {
		t.Error("back where it was the pod was worked out anew")
	}
}
