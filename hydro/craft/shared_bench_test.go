package craft_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// crossedFloats returns a craft of two floats of 100,000 triangles each, the second
// turned by 16 degrees and set across the first, or beside it.
func crossedFloats(t testing.TB, across bool) *craft.Craft {
	t.Helper()
	m := shape.Float{
		Forebody: 0.440, Afterbody: 0.380, Beam: 0.086, Depth: 0.074, Step: 0.010, Deadrise: 0.35, BowDeadrise: 0.73,
		AfterbodyAngle: 0.07, Straight: 0.36, BowRise: 0.064, Sheer: 0.012, Transom: 0.048, Edge: 0.009,
	}.Mesh(100_000)
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	c := &craft.Craft{
		Parts: []craft.Part{
			{Name: "one", Solid: s, Drawn: mesh.Identity()},
			{Name: "two", Solid: s, Drawn: mesh.Identity(), Fit: craft.Fit{Yaw: 0.28}},
		},
		Water:  craft.Water{Density: 1000},
		Stated: &craft.Mass{Mass: 3, At: r3.Vec{X: 0.03, Z: 0.03}},
	}
	if !across {
		c.Parts[1].Fit.At.Y = 0.5
		c.Stated.At.Y = 0.25
	}
	return c
}

// BenchmarkOverlap sets up floats that cross, lets them rest, and lets floats
// that do not cross rest.
func BenchmarkOverlap(b *testing.B) {
	crossed := crossedFloats(b, true)
	b.Run("prepare", func(b *testing.B) {
		for b.Loop() {
			if _, err := crossed.Hull(); err != nil {
				b.Fatal(err)
			}
		}
	})
	for _, c := range []struct {
		name  string
		craft *craft.Craft
	}{{"rest crossed", crossed}, {"rest apart", crossedFloats(b, false)}} {
		body, err := c.craft.Body()
		if err != nil {
			b.Fatal(err)
		}
		body.Hull.Prepare(100)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := body.Rest(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
