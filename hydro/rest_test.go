package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
)

func box(t testing.TB, l, b, h float64) *mesh.Solid {
	t.Helper()
	var v []r3.Vec
	for i := range 8 {
		v = append(v, r3.Vec{X: l * (float64(i&1) - 0.5), Y: b * (float64(i>>1&1) - 0.5), Z: h * float64(i>>2)})
	}
	s, err := mesh.NewSolid(v, [][3]uint32{
		{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
		{2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5},
	})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func deg(x float64) float64 { return x * 180 / math.Pi }

func TestLog(t *testing.T) {
	for _, c := range []struct{ rho, want float64 }{{0.2, 0}, {0.22, 13.674945}, {0.25, 26.565051}, {0.26, 29.630476}, {0.27, 33.690068}, {0.28, 41.185925}, {0.3, 45}, {0.5, 45}, {0.74, 29.630476}, {0.78, 13.674945}} {
		hull, err := hydro.NewHull([]hydro.Term{{Placed: mesh.Placed{Solid: box(t, 20, 1, 1), Place: mesh.Identity()}, Weight: 1}})
		if err != nil {
			t.Fatal(err)
		}
		b := hydro.Body{Hull: hull, Mass: 20 * c.rho * 1000, CG: r3.Vec{Z: 0.5}, Density: 1000}
		r, err := b.Rest()
		if err != nil {
			t.Fatal(err)
		}
		gm, _ := r.GMLeast()
		t.Logf("rho %g heel %.7f want %.6f  trim %g cuts %d res %g gm %g also %d neutral %v", c.rho, deg(r.Heel()), c.want, deg(r.Trim()), r.Cuts, r.Residual, gm, len(r.Also), r.Neutral)
	}
}

func TestTwin(t *testing.T) {
	s := box(t, 0.9, 0.1, 0.1)
	hull, err := hydro.NewHull([]hydro.Term{
		{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: 0.2})}, Weight: 1},
		{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: -0.2})}, Weight: 1}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		m          float64
		g          r3.Vec
		trim, heel float64
	}{{9, r3.Vec{Z: 0.25}, 0, 0}, {9, r3.Vec{X: 0.02, Z: 0.25}, -1.018291, 0}, {8, r3.Vec{X: 0.015, Y: 0.02, Z: 0.25}, -0.665169, -1.656781}} {
		b := hydro.Body{Hull: hull, Mass: c.m, CG: c.g, Density: 1000}
		r, err := b.Rest()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("trim %.6f %.6f heel %.6f %.6f gmT %.6f gmL %.6f cuts %d", deg(r.Trim()), c.trim, deg(r.Heel()), c.heel, r.GMTransverse(), r.GMLongitudinal(), r.Cuts)
	}
}
