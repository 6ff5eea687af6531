package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

func deg(x float64) float64 { return x * 180 / math.Pi }

// twinBoxes returns two box floats, each 0.9 x 0.1 x 0.1 m, 0.4 m apart, keel
// at z = 0 and amidships at x = 0.
func twinBoxes(t testing.TB) *hydro.Hull {
	t.Helper()
	s := solid(t, shape.BoxBetween(r3.Vec{X: -0.45, Y: -0.05}, r3.Vec{X: 0.45, Y: 0.05, Z: 0.1}))
	var terms []hydro.Term
	for _, y := range []float64{0.2, -0.2} {
		terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: y})}, Weight: 1})
	}
	h, err := hydro.NewHull(terms)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// The long square log of relative density rho. Level below rho = 0.2113, then
// tan² = 12 rho (1-rho) - 2 up to 1/4, one corner under up to 9/32, then 45
// deg; the same at 1 - rho. The algebra is that of a wall-sided log; the
// qualitative picture is E. Reid, "Floating of a long square bar", Am. J. Phys.
// 31 (1963) 565.
func TestSquareLog(t *testing.T) {
	log := hullOf(t, solid(t, shape.BoxBetween(r3.Vec{X: -10, Y: -0.5}, r3.Vec{X: 10, Y: 0.5, Z: 1})))
	for _, c := range []struct{ rho, heel float64 }{
		{0.20, 0}, {0.22, 13.674945}, {0.23, 19.485619}, {0.24, 23.485487}, {0.25, 26.565051},
		{0.26, 29.630476}, {0.27, 33.690068}, {0.28, 41.185925}, {0.30, 45}, {0.5, 45}, {0.7, 45},
		{0.74, 29.630476}, {0.78, 13.674945},
	} {
		b := hydro.Body{Hull: log, Mass: 20 * c.rho * 1000, CG: r3.Vec{Z: 0.5}, Density: 1000}
		r, err := b.Rest()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(deg(r.Heel())-c.heel) > 1e-6 || math.Abs(deg(r.Trim())) > 1e-9 {
			t.Errorf("Rest at rho %g: heel %.7f, trim %g; want %.6f, 0", c.rho, deg(r.Heel()), deg(r.Trim()), c.heel)
		}
		// Level is unstable for all but the first: both ways down are told.
		if c.heel != 0 {
			if len(r.Also) != 1 || math.Abs(r.Also[0].Heel()+r.Heel()) > 1e-8 {
				t.Errorf("Rest at rho %g: %d other rests, want the one on the other side", c.rho, len(r.Also))
			}
		}
	}
}

// Twin box floats, from closed forms: BM = I/V for GM, and the wall-sided
// listing equation tan a (GM + BM/2 tan² a) = g for the trim of a CG g ahead of
// the middle. The last row, off both ways, was found by an independent
// numerical method.
func TestTwinBoxes(t *testing.T) {
	for _, c := range []struct {
		mass       float64
		cg         r3.Vec
		trim, heel float64 // deg
		gmT, gmL   float64 // NaN: not compared
	}{
		{9, r3.Vec{Z: 0.25}, 0, 0, 0.5916666667, 1.125},
		{9, r3.Vec{X: 0.02, Z: 0.25}, -1.018291, 0, math.NaN(), math.NaN()},
		{8, r3.Vec{X: 0.015, Y: 0.02, Z: 0.25}, -0.665169, -1.656781, math.NaN(), math.NaN()},
	} {
		b := hydro.Body{Hull: twinBoxes(t), Mass: c.mass, CG: c.cg, Density: 1000}
		r, err := b.Rest()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(deg(r.Trim())-c.trim) > 1e-6 || math.Abs(deg(r.Heel())-c.heel) > 1e-6 {
			t.Errorf("Rest(%g kg, %v): trim %.7f, heel %.7f; want %.6f, %.6f", c.mass, c.cg, deg(r.Trim()), deg(r.Heel()), c.trim, c.heel)
		}
		if !math.IsNaN(c.gmT) && (math.Abs(r.GMTransverse()-c.gmT) > 1e-9 || math.Abs(r.GMLongitudinal()-c.gmL) > 1e-9) {
			t.Errorf("Rest(%g kg, %v): GM %.9f and %.9f, want %.9f and %.9f", c.mass, c.cg, r.GMTransverse(), r.GMLongitudinal(), c.gmT, c.gmL)
		}
	}
}
