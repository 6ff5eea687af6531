package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A V-bottom prism, beam 0.10, deadrise 20 deg, 0.8 long: with the chine dry
// A = d²/tan b, w = 2d/tan b; with it wet A = B d - B² tan b/4. Closed forms of
// the section.
func TestTableOfAVBottom(t *testing.T) {
	h := hullOf(t, solid(t, shape.VBottom(0.8, 0.10, 20*math.Pi/180, 0.1182)))
	b := &hydro.Body{Hull: h, Mass: 1, CG: r3.Vec{Z: 0.03}, Density: 1000}
	rows, err := b.Table(0, []float64{0.015, 0.04})
	if err != nil {
		t.Fatal(err)
	}
	tan := math.Tan(20 * math.Pi / 180)
	dry, wet := rows[0], rows[1]
	near(t, "volume, chine dry", dry.Volume, 4.94546e-4, 1e-8)
	near(t, "KB, chine dry", dry.KB, 0.01, 1e-9)
	near(t, "BM transverse, chine dry", dry.BMTransverse, 0.0754863, 1e-6)
	near(t, "BM longitudinal, chine dry", dry.BMLongitudinal, 7.111111, 1e-6)
	near(t, "breadth, chine dry", dry.Breadth, 2*0.015/tan, 1e-12)
	near(t, "length", dry.Length, 0.8, 1e-12)
	near(t, "midship section, chine dry", dry.Midship, 6.18182e-4, 1e-8)
	near(t, "block coefficient of a triangle", dry.Block, 0.5, 1e-12)
	near(t, "prismatic coefficient of a prism", dry.Prismatic, 1, 1e-12)
	near(t, "volume, chine wet", wet.Volume, 0.00247206, 1e-7)
	near(t, "KB, chine wet", wet.KB, 0.0241031, 1e-6)
	near(t, "BM transverse, chine wet", wet.BMTransverse, 0.0269681, 1e-6)
	near(t, "BM longitudinal, chine wet", wet.BMLongitudinal, 1.725956, 1e-6)
	near(t, "wetted area: girth and two ends", wet.Wetted, 0.8*0.1500208+2*0.00309007, 1e-7)
	near(t, "kg per mm", wet.MassPerSinkage/1000, 0.08, 1e-12)
	near(t, "moment per rad", wet.MomentPerTrim, wet.Mass*hydro.Gravity*(wet.KMLongitudinal-0.03), 1e-12)
}

// Wigley's hull at its design draft: block 4/9, prismatic 2/3, midship 2/3,
// waterplane 2/3 (the integrals of its polynomial).
func TestTableOfWigley(t *testing.T) {
	const l, beam, d = 0.8, 0.12, 0.05
	h := hullOf(t, solid(t, shape.Wigley(l, beam, d, 200, 80)))
	b := &hydro.Body{Hull: h, Mass: 1, Density: 1000}
	rows, err := b.Table(0, []float64{d * (1 - 1e-6)})
	if err != nil {
		t.Fatal(err)
	}
	r := rows[0]
	near(t, "block", r.Block, 4.0/9, 3e-4)
	near(t, "prismatic", r.Prismatic, 2.0/3, 3e-4)
	near(t, "midship", r.MidshipForm, 2.0/3, 3e-4)
	near(t, "waterplane", r.Waterplane, 2.0/3, 3e-4)
	near(t, "wetted area", r.Wetted, 0.109793484, 1e-4)
}

// The section curve integrates to the volume, trimmed and heeled: 400 stations
// by the trapezoid rule leave an error of their squared spacing.
func TestSectionCurveHoldsTheVolume(t *testing.T) {
	for seed := range uint64(8) {
		h := hullOf(t, solid(t, shape.Star(seed, 3)))
		b := &hydro.Body{Hull: h, Mass: 450 * h.Volume(), Density: 1000}
		s, err := b.Level(hydro.UpVector(0.2, -0.4))
		if err != nil {
			t.Fatal(err)
		}
		at, area := h.SectionCurve(s.Attitude, 400)
		sum := 0.0
		for i := 1; i < len(at); i++ {
			sum += (at[i] - at[i-1]) * (area[i] + area[i-1]) / 2
		}
		near(t, "integral over volume", sum/s.Volume, 1, 1e-4)
	}
}

// Deeper than the hull is wholly under, and a draft of nothing is refused.
func TestTableEnds(t *testing.T) {
	b := &hydro.Body{Hull: keelBox(t, 1, 0.2, 0.1), Density: 1000}
	rows, err := b.Table(0, []float64{0.15})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "volume", rows[0].Volume, 0.02, 1e-12)
	if rows[0].Area != 0 || rows[0].BMTransverse != 0 || !math.IsNaN(rows[0].Block) {
		t.Errorf("under water: area %g, BM %g, block %g; want none", rows[0].Area, rows[0].BMTransverse, rows[0].Block)
	}
	for _, d := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := b.Table(0, []float64{d}); err == nil {
			t.Errorf("Table at draft %g: no error", d)
		}
	}
	near(t, "depth", b.Hull.Depth(0), 0.1, 1e-12)
}

// A cone stood on its base has its waterplane's center on its axis, up to where
// the tip is just awash: what rounding leaves of a waterplane has no center.
func TestTableJustAwash(t *testing.T) {
	const radius, height = 0.1, 0.3
	cone := shape.Transformed(shape.Cone(radius, height, 48), mesh.Translation(r3.Vec{X: 0.4, Y: 0.05}))
	b := &hydro.Body{Hull: hullOf(t, solid(t, cone)), Density: 1000}
	for _, c := range []struct {
		dry    float64 // share of the height
		center bool
	}{{0.5, true}, {1e-3, true}, {1e-4, true}, {1e-8, false}, {3e-9, false}, {0, false}} {
		rows, err := b.Table(0, []float64{height * (1 - c.dry)})
		if err != nil {
			t.Fatal(err)
		}
		switch r := rows[0]; {
		case c.center && math.Hypot(r.CF.X-0.4, r.CF.Y-0.05) > 1e-6:
			t.Errorf("with %g of it dry: CF at %v, want the axis", c.dry, r.CF)
		case !c.center && !math.IsNaN(r.CF.X):
			t.Errorf("with %g of it dry, %g m2 of waterplane: CF at %v, want none", c.dry, r.Area, r.CF)
		}
	}
}
