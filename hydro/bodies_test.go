package hydro_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// craft returns twin floats without symmetry fore and aft, a wing over them,
// and a CG off the middle.
func craft(t testing.TB, triangles int) hydro.Body {
	t.Helper()
	float := solid(t, shape.Float{
		Forebody: 0.44, Afterbody: 0.38, Beam: 0.086, Depth: 0.074, Step: 0.01, Deadrise: 20 * degree, BowDeadrise: 42 * degree,
		AfterbodyAngle: 4 * degree, Straight: 0.36, BowRise: 0.064, Sheer: 0.012, Transom: 0.048, Edge: 0.009,
	}.Mesh(triangles/3))
	wing := solid(t, shape.Wing{
		Span: 1.6, Root: 0.26, Tip: 0.2, Sweep: 0.02, Dihedral: 3 * degree, Thickness: 0.12, Camber: 0.02, CamberAt: 0.4,
	}.Mesh(triangles/3))
	h, err := hydro.NewHull([]hydro.Term{
		{Placed: mesh.Placed{Solid: float, Place: mesh.Translation(r3.Vec{Y: 0.21})}, Weight: 1},
		{Placed: mesh.Placed{Solid: float, Place: mesh.Translation(r3.Vec{Y: -0.21})}, Weight: 1},
		{Placed: mesh.Placed{Solid: wing, Place: mesh.Translation(r3.Vec{X: 0.12, Z: 0.32})}, Weight: 1, Part: 1},
	})
	if err != nil {
		t.Fatal(err)
	}
	return hydro.Body{Hull: h, Mass: 4, CG: r3.Vec{X: 0.01, Y: 0.004, Z: 0.18}, Density: 1000}
}

// fine returns a craft of 200,000 triangles.
func fine(b *testing.B) hydro.Body {
	body := craft(b, 200000)
	n := 0
	for _, t := range body.Hull.Terms() {
		n += t.Solid.Triangles()
	}
	if n < 195000 {
		b.Fatalf("%d triangles", n)
	}
	return body
}
