package design_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// trial returns the trial of a box of 0.9 x 0.1 x 0.1 m, keel at z = 0, of 4.5
// kg with its CG at the given height, that watches a deck edge.
func trial(t testing.TB, cg float64) *design.Trial {
	t.Helper()
	m := shape.BoxBetween(r3.Vec{X: -0.45, Y: -0.05}, r3.Vec{X: 0.45, Y: 0.05, Z: 0.1})
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	out, err := design.New(&craft.Craft{
		Name:   "box",
		Parts:  []craft.Part{{Name: "hull", Solid: s, Drawn: mesh.Identity()}},
		Points: []craft.Point{{Name: "deck edge", At: r3.Vec{Y: 0.05, Z: 0.1}, On: -1}, {Name: "keel", On: -1}},
		Stated: &craft.Mass{Mass: 4.5, At: r3.Vec{Z: cg}},
		Water:  craft.Water{Name: "fresh water", Density: 1000},
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The rows of the righting curve on a box at half its depth, KG 20 mm: wall-
// sided up to 45 deg, GZ = sin a (GM + BM/2 tan² a) with GM 65/3 mm and BM 50/3
// mm, and self-righting. All closed form but for the largest arm.
func TestRightingRows(t *testing.T) {
	box := trial(t, 0.02)
	arm := func(a float64) float64 {
		s, c := math.Sincos(a * math.Pi / 180)
		return s * (0.065/3 + 0.05/3/2*s*s/c/c)
	}
	for _, c := range []struct {
		text string
		want float64
	}{
		{"gz at 25 deg", arm(25)},
		{"GZ  at 0.5236 rad", arm(0.5236 * 180 / math.Pi)},
		{"gz at 44 deg", arm(44)},
		{"vanishing heel", math.Pi},
		{"wet heel of deck edge", math.Pi / 4},
		{"wet heel of keel", 0},
	} {
		a, err := design.Find(box.Craft, c.text)
		if err != nil {
			t.Fatal(err)
		}
		got, err := a.Value(box)
		if err != nil {
			t.Fatalf("%s: %v", c.text, err)
		}
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s = %.10f, want %.10f", c.text, got, c.want)
		}
	}
}

// A name of an angle reads back, and is a key of its own.
func TestAngleRowNames(t *testing.T) {
	box := trial(t, 0.02)
	for text, want := range map[string]string{
		"gz at 30 deg": "gz at 30 deg", "gz at 22.5deg": "gz at 22.5 deg", "GZ at  0.1 rad": "gz at 5.729577951 deg",
	} {
		a, err := design.Find(box.Craft, text)
		if err != nil {
			t.Fatal(err)
		}
		if a.Text() != want {
			t.Errorf("Find(%q).Text() = %q, want %q", text, a.Text(), want)
		}
		again, err := design.Find(box.Craft, a.Text())
		if err != nil || again.Text() != a.Text() {
			t.Errorf("Find(%q) reads back as %q, %v", a.Text(), again.Text(), err)
		}
	}
	a, err := design.Find(box.Craft, "gz at 30 deg")
	if err != nil {
		t.Fatal(err)
	}
	if a.JSONKey() != "gz_at_30_deg_m" || a.Title() != "GZ at 30 deg of heel" || a.Kind != unit.Length {
		t.Errorf("gz at 30 deg: key %q, title %q", a.JSONKey(), a.Title())
	}
	for text, want := range map[string]string{
		"gz at 30":       "unit",
		"gz at":          "no result",
		"gz at 0 deg":    "outside 0 to 180 deg",
		"gz at -10 deg":  "outside 0 to 180 deg",
		"gz at 200 deg":  "outside 0 to 180 deg",
		"gz at 3 mm":     "length",
		"gz at sunrise":  "gz at 30 deg",
		"vanishing heal": "vanishing heel",
	} {
		if _, err := design.Find(box.Craft, text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Find(%q): %v, want a word of %q", text, err, want)
		}
	}
	// They take a curve, so nobody gets them without asking.
	for _, a := range design.All(box.Craft) {
		if a.Curve {
			t.Errorf("All lists %q", a.Text())
		}
	}
}

// A craft that does not stay upright has no such results, and misses what is
// required of them.
func TestRightingOfTopHeavy(t *testing.T) {
	box := trial(t, 0.09)
	a, err := design.Find(box.Craft, "vanishing heel")
	if err != nil {
		t.Fatal(err)
	}
	if v, err := a.Value(box); err == nil || !strings.Contains(err.Error(), "does not rest upright") {
		t.Errorf("vanishing heel of a top-heavy box = %g, %v", v, err)
	}
	least := 0.1
	if v := (design.Requirement{Asked: a, AtLeast: &least}).Judge(box); v.Pass || v.Err == nil {
		t.Errorf("a top-heavy box passes: %+v", v)
	}
	// Ballast low down would help; mass at the CG does not.
	least = math.Pi / 2
	room, err := design.Requirement{Asked: a, AtLeast: &least}.Room(trial(t, 0.02))
	if err != nil {
		t.Fatal(err)
	}
	if !(room.Mass > 0) {
		t.Errorf("room of a stable box is %+v", room)
	}
}

// What stands on a mirrored part is watched on both sides: heeled to
// starboard, the starboard one goes under.
func TestMirroredPlaces(t *testing.T) {
	m := shape.BoxBetween(r3.Vec{X: -0.45, Y: -0.05}, r3.Vec{X: 0.45, Y: 0.05, Z: 0.1})
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	at := craft.Fit{At: r3.Vec{Y: 0.2}}
	twin, err := design.New(&craft.Craft{
		Name:   "twin",
		Parts:  []craft.Part{{Name: "float", Solid: s, Drawn: mesh.Identity(), Fit: at, Base: at, Mirrored: true}},
		Points: []craft.Point{{Name: "hatch", At: r3.Vec{Y: 0.25, Z: 0.1}, KeepDry: true, On: 0}},
		Stated: &craft.Mass{Mass: 9, At: r3.Vec{Z: 0.25}},
		Water:  craft.Water{Name: "fresh water", Density: 1000},
	})
	if err != nil {
		t.Fatal(err)
	}
	c, err := twin.Righting(hydro.HeelAxis)
	if err != nil {
		t.Fatal(err)
	}
	falling, rising, err := c.Under(twin.Watched()[0])
	if err != nil {
		t.Fatal(err)
	}
	// Wall-sided, the outer deck edge meets the water at atan(0.05/0.25).
	want := math.Atan(0.2)
	if falling == nil || rising == nil || math.Abs(falling.Angle+want) > 1e-9 || math.Abs(rising.Angle-want) > 1e-9 {
		t.Errorf("the hatch goes under at %+v and %+v, want %g rad to both sides", falling, rising, want)
	}
}
