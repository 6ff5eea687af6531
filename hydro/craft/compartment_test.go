package craft_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// floats is a craft on two box floats of 0.9 x 0.1 x 0.1 m, with a bow ahead of
// x = 0.2 and a stern behind x = -0.2, in millimeters as drawn.
func floats(t testing.TB) *craft.Craft {
	t.Helper()
	box := solid(t, shape.BoxBetween(r3.Vec{X: -450, Y: -50}, r3.Vec{X: 450, Y: 50, Z: 100}))
	fit := craft.Fit{At: r3.Vec{Y: 0.2}}
	c := &craft.Craft{
		Parts: []craft.Part{{Name: "float", Solid: box, Drawn: mesh.Scaling(1e-3, 1e-3, 1e-3), Fit: fit, Base: fit, Mirrored: true}},
		Compartments: []craft.Compartment{
			{Name: "bow", Walls: []craft.Bulkhead{{At: r3.Vec{X: 0.2}, Toward: r3.Vec{X: 1}}}, Permeability: 1},
			{Name: "stern", Walls: []craft.Bulkhead{{At: r3.Vec{X: -0.2}, Toward: r3.Vec{X: -2}}}, Permeability: 0.5},
		},
		Points: []craft.Point{
			{Name: "hatch", At: r3.Vec{X: -0.3, Y: 0.2, Z: 0.1}, On: 0, Feeds: "stern"},
			{Name: "cap", At: r3.Vec{X: 0.3, Y: 0.2, Z: 0.1}, On: 0, Feeds: "port bow"},
		},
	}
	for i := range c.Compartments {
		if err := c.Compartments[i].Divide(&c.Parts[0]); err != nil {
			t.Fatal(err)
		}
	}
	return c
}

// Compartments go along with what is done to their part: bulkheads stay where
// they were drawn, and a slice let into one makes it longer by that much.
func TestCompartmentsFollow(t *testing.T) {
	for _, c := range []struct {
		name       string
		fit        func(*craft.Fit)
		bow, stern float64 // length, of a section of 0.01 m2 before any stretch
		section    float64
	}{
		{"as drawn", func(*craft.Fit) {}, 0.25, 0.25, 0.01},
		{"longer in the bow", func(f *craft.Fit) { f.Longer = craft.Plug{At: 0.3, Add: 0.1} }, 0.35, 0.25, 0.01},
		{"longer amidships", func(f *craft.Fit) { f.Longer = craft.Plug{At: 0, Add: 0.1} }, 0.25, 0.25, 0.01},
		{"deeper", func(f *craft.Fit) { f.Deeper = craft.Plug{At: 0.05, Add: 0.02} }, 0.25, 0.25, 0.012},
		{"stretched", func(f *craft.Fit) { f.Stretch.Length, f.Stretch.Beam = 2, 1.5 }, 0.5, 0.5, 0.015},
		{"turned", func(f *craft.Fit) { f.Pitch, f.Yaw, f.Roll = 0.1, 0.2, -0.3 }, 0.25, 0.25, 0.01},
	} {
		k := floats(t)
		c.fit(&k.Parts[0].Fit)
		spaces := k.Spaces()
		for i, want := range []struct {
			name   string
			length float64
		}{{"port bow", c.bow}, {"starboard bow", c.bow}, {"port stern", c.stern}, {"starboard stern", c.stern}} {
			if got := spaces[i].Volume(); spaces[i].Name != want.name || math.Abs(got-want.length*c.section) > 1e-12 {
				t.Errorf("%s: space %d is %q with %.6f L, want %q with %.6f L", c.name, i, spaces[i].Name, got*1e3, want.name, want.length*c.section*1e3)
			}
		}
		near, far := spaces[0].Centroid(), spaces[1].Centroid()
		if r3.Norm(r3.Sub(near, r3.Vec{X: far.X, Y: -far.Y, Z: far.Z})) > 1e-12 {
			t.Errorf("%s: port bow at %v and starboard bow at %v do not mirror", c.name, near, far)
		}
	}
}

// A point that names no side stands for its mirror image too.
func TestVents(t *testing.T) {
	type vent struct {
		name  string
		y     float64
		space int
	}
	want := []vent{{"hatch", 0.2, 2}, {"hatch, other side", -0.2, 3}, {"cap", 0.2, 0}}
	got := floats(t).Vents()
	if len(got) != len(want) {
		t.Fatalf("Vents() = %+v, want %+v", got, want)
	}
	for i, v := range got {
		if v.Name != want[i].name || math.Abs(v.At.Y-want[i].y) > 1e-12 || v.Space != want[i].space {
			t.Errorf("vent %d = %+v, want %+v", i, v, want[i])
		}
	}
}

// What lies to the two sides of one plane makes up the body, whatever its form.
func TestDivideAddsUp(t *testing.T) {
	for seed := range uint64(30) {
		p := craft.Part{Solid: solid(t, shape.Star(seed, 3)), Drawn: mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 0.5}, float64(seed)).Then(mesh.Scaling(0.1, 0.1, 0.1))}
		at := r3.Add(mesh.Placed{Solid: p.Solid, Place: p.Drawn}.Centroid(), r3.Vec{X: 0.01 * float64(seed%5)})
		toward := r3.Vec{X: math.Sin(float64(seed)), Y: math.Cos(3 * float64(seed)), Z: 0.3}
		sides := [2]craft.Compartment{{Walls: []craft.Bulkhead{{at, toward}}}, {Walls: []craft.Bulkhead{{at, r3.Scale(-1, toward)}}}}
		volume, moment := 0.0, r3.Vec{}
		for i := range sides {
			if err := sides[i].Divide(&p); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			s := sides[i].Solid
			volume += s.Volume()
			moment = r3.Add(moment, r3.Scale(s.Volume(), s.Centroid()))
			// All of it is on its own side.
			in := mesh.Placed{Solid: s, Place: p.Drawn}
			dir := sides[i].Walls[0].Toward
			if low := r3.Dot(dir, r3.Sub(in.Lowest(dir), at)); low < -1e-9 {
				t.Errorf("seed %d: side %d reaches %g m beyond its bulkhead", seed, i, low)
			}
		}
		if math.Abs(volume/p.Solid.Volume()-1) > 1e-12 || r3.Norm(r3.Sub(r3.Scale(1/volume, moment), p.Solid.Centroid())) > 1e-10 {
			t.Errorf("seed %d: two sides have %g about %v, all of it %g about %v", seed, volume, r3.Scale(1/volume, moment), p.Solid.Volume(), p.Solid.Centroid())
		}
		if share, err := sides[0].Shares(&sides[1], &p); err != nil || share > 1e-12 {
			t.Errorf("seed %d: the two sides share %g, %v", seed, share, err)
		}
	}
}

func TestDivideMisses(t *testing.T) {
	p := &floats(t).Parts[0]
	for _, c := range []struct {
		name  string
		walls []craft.Bulkhead
		wall  int
	}{
		{"beyond the bow", []craft.Bulkhead{{r3.Vec{X: 0.5}, r3.Vec{X: 1}}}, 0},
		{"before the bow, looking aft", []craft.Bulkhead{{r3.Vec{X: 0.5}, r3.Vec{X: -1}}}, 0},
		{"at the bow", []craft.Bulkhead{{r3.Vec{X: 0.45}, r3.Vec{X: 1}}}, 0},
		{"two that leave nothing", []craft.Bulkhead{{r3.Vec{X: 0.1}, r3.Vec{X: 1}}, {r3.Vec{X: 0}, r3.Vec{X: -1}}}, 1},
	} {
		k := craft.Compartment{Walls: c.walls}
		var miss *craft.MissError
		if err := k.Divide(p); !errors.As(err, &miss) || miss.Wall != c.wall {
			t.Errorf("%s: Divide = %v, want that bulkhead %d misses", c.name, err, c.wall)
		}
	}
	if err := (&craft.Compartment{Walls: []craft.Bulkhead{{}}}).Divide(p); err == nil {
		t.Error("a bulkhead without a direction is accepted")
	}
}
