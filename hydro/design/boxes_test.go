package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/mesh"
	"millpond/mesh/shape"
)

const deg = math.Pi / 180

func solid(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	s, err := mesh.NewSolid(append([]r3.Vec(nil), m.Vertices...), append([][3]uint32(nil), m.Triangles...))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// twins returns a craft on two box floats, their middles 0.4 m apart, the
// origin amidships at their bottom, in fresh water of 1000 kg/m3.
func twins(t testing.TB, length, breadth, height, mass, kg float64) *craft.Craft {
	t.Helper()
	float := craft.Part{
		Name: "float", Solid: solid(t, shape.Box(length, breadth, height)), Drawn: mesh.Identity(),
		Fit: craft.Fit{At: r3.Vec{Y: 0.2}}, Mirrored: true,
	}
	float.Base = float.Fit
	return &craft.Craft{
		Name: "twins", Parts: []craft.Part{float},
		Stated: &craft.Mass{Mass: mass, At: r3.Vec{Z: kg}},
		Water:  craft.Water{Name: "fresh water", Density: 1000},
	}
}

// vary finds a variable, a plug at the given place.
func vary(t testing.TB, c *craft.Craft, text string, at ...float64) design.Varied {
	t.Helper()
	var place *float64
	if len(at) > 0 {
		place = &at[0]
	}
	v, err := design.Vary(c, text, place)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func find(t testing.TB, c *craft.Craft, text string) design.Asked {
	t.Helper()
	a, err := design.Find(c, text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// require returns a requirement; NaN leaves a bound out.
func require(t testing.TB, c *craft.Craft, text string, least, most float64) design.Requirement {
	t.Helper()
	q := design.Requirement{Asked: find(t, c, text)}
	if !math.IsNaN(least) {
		q.AtLeast = &least
	}
	if !math.IsNaN(most) {
		q.AtMost = &most
	}
	return q
}

var none = math.NaN()

// worked returns all rows of a grid.
func worked(t testing.TB, g *design.Grid, workers int) []design.Row {
	t.Helper()
	var rows []design.Row
	if err := g.Run(t.Context(), workers, func(r design.Row) error { rows = append(rows, r); return nil }); err != nil {
		t.Fatal(err)
	}
	return rows
}

func grid(t testing.TB, c *craft.Craft, show []string) *design.Grid {
	t.Helper()
	g := &design.Grid{Craft: c}
	for _, s := range show {
		g.Show = append(g.Show, find(t, c, s))
	}
	return g
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// trimOf solves sin φ (GM + ½ BM tan²φ) = d cos φ for the trim of a wall-sided
// body whose CG lies d ahead of the middle of its waterplane (wall-sided
// formula: Derrett & Barrass, Ship Stability for Masters and Mates).
func trimOf(gm, bm, d float64) float64 {
	lo, hi := -0.5, 0.5
	for range 200 {
		mid := (lo + hi) / 2
		if tan := math.Tan(mid); tan*(gm+bm*tan*tan/2) < d {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
