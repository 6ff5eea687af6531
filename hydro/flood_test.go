package hydro_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// slot returns the compartment of a body that is the box between two corners.
func slot(t testing.TB, lo, hi r3.Vec, permeability float64) hydro.Space {
	t.Helper()
	return hydro.Space{
		Solids:       []mesh.Placed{{Solid: solid(t, shape.BoxBetween(lo, hi)), Place: mesh.Identity()}},
		Permeability: permeability,
	}
}

// flooded lets spaces open to the sea and returns how the body ends.
func flooded(t testing.TB, b hydro.Body, spaces []hydro.Space, vents []hydro.Vent, in ...hydro.Flooding) hydro.Flooded {
	t.Helper()
	f, err := b.Flood(hydro.Attitude{Up: r3.Vec{Z: 1}}, spaces, vents, in)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Bilged amidships, by lost buoyancy: a box of the draft d with a compartment
// of length a of the permeability p comes to d L/(L - p a), since the
// permeability acts on the volume and on the waterplane alike. SSMM: Derrett
// and Barrass, Ship Stability for Masters and Mates. NIC: Nicholls's Seamanship
// and Nautical Knowledge.
func TestBilgedAmidships(t *testing.T) {
	for _, c := range []struct {
		source           string
		l, b, h, d, kg   float64
		a, permeability  float64
		draft, gm, wants float64 // gm NaN where the source has none
	}{
		{"NIC p. 528, in feet: 7.5", 60, 15, 12, 5, 5, 20, 1, 7.5, math.NaN(), 1e-9},
		{"SSMM exercise: 2.67 and GM 0.558", 40, 6, 5, 2, 1.9, 10, 1, 8.0 / 3, 0.558333333, 1e-8},
		{"SSMM p. 206, GM by its formulas", 150, 24, 12, 5, 11.2, 20, 1, 5 * 15.0 / 13, 0.004615385, 1e-8},
		// Timber of relative density 0.8 stowed at 1.5 m3/t leaves a sixth.
		{"stability problem of a nautical course: 5.085", 150, 20, 12, 5, 8, 15, 1.0 / 6, 5.084745763, math.NaN(), 1e-9},
		// Here a published solution divides by the whole lost area and gets
		// 5.1389: the cargo's share of the waterplane is then lost as well.
		{"SSMM ex. 22.1 with the permeability on the waterplane too", 100, 15, 8, 5, 5, 10, 0.25, 5.128205128, math.NaN(), 1e-9},
		// As above: the published sinkage is 0.26167.
		{"SSMM ex. 22.3 with the permeability on the waterplane too", 60, 15, 6, 3, 4, 12, 0.34895833333, 3.225084, math.NaN(), 3e-7},
	} {
		hull := keelBox(t, c.l, c.b, c.h)
		body := hydro.Body{Hull: hull, Mass: c.l * c.b * c.d * 1025, CG: r3.Vec{Z: c.kg}, Density: 1025}
		space := slot(t, r3.Vec{X: -c.a / 2, Y: -c.b / 2}, r3.Vec{X: c.a / 2, Y: c.b / 2, Z: c.h}, c.permeability)
		f := flooded(t, body, []hydro.Space{space}, nil, hydro.Flooding{Way: hydro.Open})
		last := f.Last()
		if last.Fate != hydro.Afloat || len(f.Stages) != 1 {
			t.Errorf("%s: %v after %d stages", c.source, last.Fate, len(f.Stages))
			continue
		}
		near(t, c.source+": draft", last.State.Draft(), c.draft, c.wants)
		near(t, c.source+": closed form", last.State.Draft(), c.d*c.l/(c.l-c.permeability*c.a), 1e-9)
		if !math.IsNaN(c.gm) {
			near(t, c.source+": GM", last.State.GMTransverse(), c.gm, c.wants)
		}
	}
}

// The end compartment of a box open to the sea: what is left is a shorter box
// with G off its middle, for which the wall-sided listing equation
// tan t (GM + BM tan²t / 2) = g is exact (Derrett and Barrass give the linear
// estimate of the method, drafts 5.3502 and 3.3543).
func TestBilgedEnd(t *testing.T) {
	body := hydro.Body{Hull: keelBox(t, 60, 10, 8), Mass: 60 * 10 * 4 * 1000, CG: r3.Vec{Z: 3}, Density: 1000}
	bow := slot(t, r3.Vec{X: 26, Y: -5}, r3.Vec{X: 30, Y: 5, Z: 8}, 1)
	f := flooded(t, body, []hydro.Space{bow}, nil, hydro.Flooding{Way: hydro.Open})
	s := f.Last().State
	near(t, "trim, deg", s.Trim()*180/math.Pi, -1.904258, 1e-6)
	draft := func(x float64) float64 { return -s.HeightOf(r3.Vec{X: x}) / math.Cos(s.Trim()) } // along the body's z
	near(t, "draft forward", draft(30), 5.349644, 1e-6)
	near(t, "draft aft", draft(-30), 3.354776, 1e-6)
	near(t, "draft amid the rest", draft(-2), 30.0/7, 1e-9)
	tan, bm := math.Tan(-s.Trim()), 56*56/(12*30.0/7)
	near(t, "listing equation", tan*(bm+15.0/7-3+bm*tan*tan/2), 2, 1e-9)
}

// Two box floats, the forward quarter of the port one open to the sea. The
// values were found by an independent method: meshes clipped by a plane,
// signed tetrahedra, root finding (there with port and bow down positive).
func TestTwinFloatsQuarterFlooded(t *testing.T) {
	var floats []*mesh.Solid
	for _, y := range []float64{-0.2, 0.2} {
		floats = append(floats, solid(t, shape.BoxBetween(r3.Vec{X: -0.45, Y: y - 0.05}, r3.Vec{X: 0.45, Y: y + 0.05, Z: 0.1})))
	}
	body := hydro.Body{Hull: hullOf(t, floats...), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	quarter := slot(t, r3.Vec{X: 0.225, Y: 0.15}, r3.Vec{X: 0.45, Y: 0.25, Z: 0.1}, 1)
	f := flooded(t, body, []hydro.Space{quarter}, nil, hydro.Flooding{Way: hydro.Open})
	s := f.Last().State
	near(t, "heel, deg", s.Heel()*180/math.Pi, -5.274686, 1e-5)
	near(t, "trim, deg", s.Trim()*180/math.Pi, -4.719527, 1e-5)
	near(t, "height", s.Height, -0.0633159, 1e-6)
	near(t, "B, x", s.CB.X, 0.0179460, 1e-6)
	near(t, "B, y", s.CB.Y, 0.0199833, 1e-6)
	near(t, "B, z", s.CB.Z, 0.0335466, 1e-6)
	for _, c := range []struct{ y, draft float64 }{{-0.25, 0.003412}, {-0.15, 0.012644}, {0.15, 0.040341}, {0.25, 0.049573}} {
		p := r3.Vec{X: -0.45, Y: c.y}
		near(t, "draft at the stern's corner", -s.HeightOf(p)/s.Up.Z, c.draft, 2e-6)
	}
	// The reserve is that of the hull less the quarter.
	near(t, "reserve", s.Reserve(), (0.018-0.00225)/0.009-1, 1e-12)
}

// What soaks in, or fills a closed compartment to the brim, is a weight there.
func TestSoakedAndFull(t *testing.T) {
	body := hydro.Body{Hull: keelBox(t, 1, 0.3, 0.2), Mass: 20, CG: r3.Vec{Z: 0.08}, Density: 1000}
	space := slot(t, r3.Vec{X: 0.2, Y: -0.15}, r3.Vec{X: 0.5, Y: 0.15, Z: 0.2}, 0.5)
	soaked := flooded(t, body, []hydro.Space{space}, nil, hydro.Flooding{Way: hydro.Soaked, Share: 0.1})
	// 10 % of 18 L: 1.8 kg at x = 0.35, exactly as a weight put there.
	at := r3.Vec{X: 0.35, Z: 0.1}
	same, err := body.With(1.8, &at).Rest()
	if err != nil {
		t.Fatal(err)
	}
	got := soaked.Last().State
	near(t, "soaked: trim", got.Trim(), same.Trim(), 1e-12)
	near(t, "soaked: draft", got.Draft(), same.Draft(), 1e-12)
	near(t, "soaked: mass", got.Body().Mass, 21.8, 1e-12)

	// A closed compartment flooded to the brim is a weight there too.
	full := flooded(t, body, []hydro.Space{space}, nil, hydro.Flooding{Way: hydro.Trapped, Share: 1})
	heavy, err := body.With(9, &at).Rest()
	if err != nil {
		t.Fatal(err)
	}
	got = full.Last().State
	near(t, "full: trim", got.Trim(), heavy.Trim(), 1e-12)
	near(t, "full: GM", got.GMTransverse(), heavy.GMTransverse(), 1e-12)
}

// A row of compartments, each with a hatch above it: opening the first drags
// the next hatch under until all are in or the water stops, by hand for a box
// that sinks level: it has one compartment in the middle, flooded first, and
// two hatches that lie lower than the new waterline.
func TestProgressiveFlooding(t *testing.T) {
	// Draft 0.1; with the middle 0.2 of the length open, 0.125; with 0.6 of it
	// open, 0.25: over the depth of 0.2, so it sinks.
	body := hydro.Body{Hull: keelBox(t, 1, 0.8, 0.2), Mass: 80, CG: r3.Vec{Z: 0.05}, Density: 1000}
	box := func(x0, x1 float64) hydro.Space {
		return slot(t, r3.Vec{X: x0, Y: -0.4}, r3.Vec{X: x1, Y: 0.4, Z: 0.2}, 1)
	}
	spaces := []hydro.Space{box(-0.1, 0.1), box(0.1, 0.3), box(-0.3, -0.1), box(0.3, 0.5)}
	vent := func(x, z float64, space int) hydro.Vent {
		return hydro.Vent{At: r3.Vec{X: x, Z: z}, Space: space}
	}
	for _, c := range []struct {
		name   string
		vents  []hydro.Vent
		fate   hydro.Fate
		stages [][]int // the vents through which each stage came
		draft  float64
	}{
		{"hatches dry", []hydro.Vent{vent(0.2, 0.13, 1), vent(-0.2, 0.13, 2)}, hydro.Afloat, [][]int{nil}, 0.125},
		{"its own hatch", []hydro.Vent{vent(0, 0.11, 0)}, hydro.Afloat, [][]int{nil}, 0.125},
		{"two at once, two into one", []hydro.Vent{vent(0.2, 0.12, 1), vent(-0.2, 0.12, 2), vent(0.2, 0.124, 1)}, hydro.Sunk, [][]int{nil, {0, 1, 2}}, 0},
	} {
		f := flooded(t, body, spaces, c.vents, hydro.Flooding{Space: 0, Way: hydro.Open})
		var stages [][]int
		for _, s := range f.Stages {
			stages = append(stages, s.Vents)
		}
		if diff := cmp.Diff(c.stages, stages); diff != "" || f.Last().Fate != c.fate {
			t.Errorf("%s: %v, stages (-want +got):\n%s", c.name, f.Last().Fate, diff)
			continue
		}
		if c.fate == hydro.Afloat {
			near(t, c.name+": draft", f.Last().State.Draft(), c.draft, 1e-9)
		}
	}
	// Trapped water whose hatch goes under joins the sea.
	f := flooded(t, body, spaces, []hydro.Vent{vent(0, 0.105, 0)}, hydro.Flooding{Space: 0, Way: hydro.Trapped, Share: 0.5})
	want := []hydro.Flooding{{Space: 0, Way: hydro.Open}}
	if diff := cmp.Diff(want, f.Last().In); diff != "" {
		t.Errorf("trapped under a wet hatch (-want +got):\n%s", diff)
	}
	near(t, "trapped under a wet hatch: draft", f.Last().State.Draft(), 0.125, 1e-9)
}

// Twin floats with the whole of the port one open: the other could carry the
// weight, but nothing holds it upright.
func TestFloodedCapsizes(t *testing.T) {
	var floats []*mesh.Solid
	for _, y := range []float64{-0.2, 0.2} {
		floats = append(floats, solid(t, shape.BoxBetween(r3.Vec{X: -0.45, Y: y - 0.05}, r3.Vec{X: 0.45, Y: y + 0.05, Z: 0.1})))
	}
	port := slot(t, r3.Vec{X: -0.45, Y: 0.15}, r3.Vec{X: 0.45, Y: 0.25, Z: 0.1}, 1)
	for _, c := range []struct {
		mass float64
		want hydro.Fate
	}{{6, hydro.Capsized}, {9.1, hydro.Sunk}} {
		body := hydro.Body{Hull: hullOf(t, floats...), Mass: c.mass, CG: r3.Vec{Z: 0.25}, Density: 1000}
		f := flooded(t, body, []hydro.Space{port}, nil, hydro.Flooding{Way: hydro.Open})
		if got := f.Last(); got.Fate != c.want || c.want == hydro.Capsized && !(got.State.Heel() < -math.Pi/3) {
			t.Errorf("%g kg, port float open: %v at heel %.1f deg, want %v to port", c.mass, got.Fate, got.State.Heel()*180/math.Pi, c.want)
		}
	}
}

func TestFloodRefuses(t *testing.T) {
	body := hydro.Body{Hull: keelBox(t, 1, 0.3, 0.2), Mass: 20, CG: r3.Vec{Z: 0.05}, Density: 1000}
	good := slot(t, r3.Vec{X: 0.2, Y: -0.15}, r3.Vec{X: 0.5, Y: 0.15, Z: 0.2}, 1)
	bad := good
	bad.Permeability = 1.4
	for _, c := range []struct {
		name  string
		space hydro.Space
		in    hydro.Flooding
	}{
		{"a permeability of 1.4", bad, hydro.Flooding{}},
		{"no such space", good, hydro.Flooding{Space: 1}},
		{"more than it holds", good, hydro.Flooding{Way: hydro.Trapped, Share: 1.2}},
		{"not a number", good, hydro.Flooding{Way: hydro.Soaked, Share: math.NaN()}},
	} {
		if f, err := body.Flood(hydro.Attitude{Up: r3.Vec{Z: 1}}, []hydro.Space{c.space}, nil, []hydro.Flooding{c.in}); err == nil {
			t.Errorf("%s: Flood gave %v, want an error", c.name, f.Last().Fate)
		}
	}
}

// Water that stands inside as high as outside may as well be shut in: the same
// amount, trapped, leaves the body where it is. So the two ways, one a hole in
// the hull and one a weight that runs, must agree at rest, whatever the forms.
func TestOpenIsTrappedAtSeaLevel(t *testing.T) {
	compared := 0
	for seed := range uint64(30) {
		hull := hullOf(t, solid(t, shape.Star(seed, 3)))
		inner := mesh.Placed{
			Solid: solid(t, shape.Star(seed+500, 3)),
			Place: mesh.Scaling(0.3, 0.25, 0.2).Then(mesh.Translation(r3.Add(hull.Center(), r3.Vec{X: 0.1 * math.Sin(float64(seed)), Y: 0.05}))),
		}
		spaces := []hydro.Space{{Solids: []mesh.Placed{inner}, Permeability: 0.3 + 0.02*float64(seed)}}
		body := hydro.Body{Hull: hull, Mass: 450 * hull.Volume(), CG: r3.Add(hull.Center(), r3.Vec{Z: -0.2 * hull.Size()}), Density: 1000}
		open := flooded(t, body, spaces, nil, hydro.Flooding{Way: hydro.Open})
		s := open.Last().State
		share := spaces[0].Water(hydro.Flooding{Way: hydro.Open}, s.Attitude) / (spaces[0].Permeability * spaces[0].Volume())
		if share < 0.01 || share > 0.99 {
			continue // the hole is dry, or drowned
		}
		in := []hydro.Flooding{{Way: hydro.Trapped, Share: share}}
		shut, err := body.Flood(s.Attitude, spaces, nil, in)
		if err != nil {
			t.Fatal(err)
		}
		compared++
		got := shut.Last().State
		if r3.Norm(r3.Sub(got.Up, s.Up)) > 1e-8 || math.Abs(got.Height-s.Height) > 1e-8*hull.Size() {
			t.Errorf("seed %d: open it lies with %v up at %.9g, shut in at the same level with %v at %.9g", seed, s.Up, s.Height, got.Up, got.Height)
		}
		// GM times displacement is the same as well: the hole takes its
		// waterplane off, the free surface its second moment about itself, and
		// the shut one has the waterplane of the hull but no heave with it. Only
		// the stiffness in heave differs, so that the shut one is no softer.
		gm, _ := s.GMLeast()
		other, _ := got.GMLeast()
		if gm*s.Volume > other*got.Volume+1e-9 {
			t.Errorf("seed %d: open has GM x volume %g, shut in %g, which cannot be less", seed, gm*s.Volume, other*got.Volume)
		}
	}
	if compared < 15 {
		t.Errorf("only %d bodies had water to a level inside", compared)
	}
}
