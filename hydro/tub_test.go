package hydro_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// onSurface returns the body points straight above the given ones (along the
// body's z) that lie on the water at a.
func onSurface(a hydro.Attitude, places ...r3.Vec) []r3.Vec {
	var out []r3.Vec
	for _, p := range places {
		p.Z -= a.HeightOf(p) / a.Up.Z
		out = append(out, p)
	}
	return out
}

func marksAt(sigma float64, at ...r3.Vec) []hydro.WaterMark {
	var out []hydro.WaterMark
	for _, p := range at {
		out = append(out, hydro.WaterMark{At: p, Sigma: sigma})
	}
	return out
}

// Twin box floats with a bow draft of 0.060 and a stern draft of 0.040 m, KG
// 0.25 m: 9.000 kg, trim 1.273030 deg by the bow, CG 0.0250074 m ahead of the
// middle by the wall-sided formula tan a (GM + BM/2 tan² a); the CG's height
// matters by tan a.
func TestTubOfTwinBoxes(t *testing.T) {
	tub := hydro.Tub{
		Hull:     twinBoxes(t),
		Marks:    marksAt(1e-3, r3.Vec{X: 0.45, Y: 0.2, Z: 0.060}, r3.Vec{X: 0.45, Y: -0.2, Z: 0.060}, r3.Vec{X: -0.45, Y: 0.2, Z: 0.040}, r3.Vec{X: -0.45, Y: -0.2, Z: 0.040}),
		Density:  hydro.Reading{Value: 1000, Sigma: 1e-6},
		CGHeight: hydro.Reading{Value: 0.25, Sigma: 1e-9},
	}
	fit, err := tub.Fit()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass", fit.Mass.Value, 9, 1e-9)
	near(t, "trim, deg", deg(fit.Trim()), -1.273030, 1e-6)
	near(t, "CG ahead", fit.CG.X, 0.0250074, 1e-6)
	near(t, "CG aside", fit.CG.Y, 0, 1e-12)
	// A millimeter on 0.18 m2 is 180 g; four marks halve it.
	near(t, "mass per mm", fit.MassPerMM, 0.18/math.Cos(fit.Trim()), 1e-6)
	near(t, "sigma of mass", fit.Mass.Sigma, 0.09, 1e-3)
	higher := tub
	higher.CGHeight.Value += 0.01
	other, err := higher.Fit()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "what 10 mm of CG height does", other.CG.X-fit.CG.X, 0.01*math.Tan(-fit.Trim())*-1, 1e-6)
}

// Synthetic readings of known bodies give the mass and CG back; with noise the
// stated 2-sigma intervals cover the truth in some 95 % of cases (a share of
// 400 outside 91.5 to 98 % comes by chance in fewer than 1 of 500 runs; the
// seed is fixed).
func TestTubRoundTrip(t *testing.T) {
	h := twinBoxes(t)
	r := rand.New(rand.NewPCG(5, 6))
	const runs = 400
	inside := [3]int{}
	for range runs {
		b := hydro.Body{Hull: h, Mass: 7 + 4*r.Float64(), CG: r3.Vec{X: 0.03 * (r.Float64() - 0.5), Y: 0.02 * (r.Float64() - 0.5), Z: 0.2}, Density: 1000}
		at := rest(t, b)
		sigma := 0.0005
		marks := onSurface(at.Attitude, r3.Vec{X: 0.4, Y: 0.25}, r3.Vec{X: 0.4, Y: -0.25}, r3.Vec{X: -0.4, Y: 0.25}, r3.Vec{X: -0.4, Y: -0.25}, r3.Vec{Y: 0.25})
		clean := hydro.Tub{Hull: h, Marks: marksAt(sigma, marks...), Density: hydro.Reading{Value: 1000, Sigma: 0.5}, CGHeight: hydro.Reading{Value: 0.2, Sigma: 0.01}}
		fit, err := clean.Fit()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mass without noise", fit.Mass.Value, b.Mass, 1e-9)
		near(t, "CG x without noise", fit.CG.X, b.CG.X, 1e-9)
		near(t, "CG y without noise", fit.CG.Y, b.CG.Y, 1e-9)
		noisy := clean
		noisy.Marks = append([]hydro.WaterMark(nil), clean.Marks...)
		for i := range noisy.Marks {
			noisy.Marks[i].At.Z += sigma * r.NormFloat64()
		}
		noisy.Density.Value += 0.5 * r.NormFloat64()
		noisy.CGHeight.Value += 0.01 * r.NormFloat64()
		noisy.Scale = &hydro.Reading{Value: b.Mass + 0.05*r.NormFloat64(), Sigma: 0.05}
		fit, err = noisy.Fit()
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range []struct{ got, want, sigma float64 }{
			{fit.Mass.Value, b.Mass, fit.Mass.Sigma}, {fit.CG.X, b.CG.X, fit.Sigma.X}, {fit.CG.Y, b.CG.Y, fit.Sigma.Y},
		} {
			if math.Abs(c.got-c.want) < 1.96*c.sigma {
				inside[i]++
			}
		}
	}
	for i, name := range []string{"mass", "CG x", "CG y"} {
		if share := float64(inside[i]) / runs; share < 0.915 || share > 0.98 {
			t.Errorf("%s: %.1f %% of the 95 %% intervals hold the truth", name, 100*share)
		}
	}
}

// A mark misread by 5 mm among readings good to 1 mm is found.
func TestTubFindsTheMisreadMark(t *testing.T) {
	h := twinBoxes(t)
	at := rest(t, hydro.Body{Hull: h, Mass: 9, CG: r3.Vec{X: 0.01, Z: 0.2}, Density: 1000})
	marks := onSurface(at.Attitude, r3.Vec{X: 0.4, Y: 0.25}, r3.Vec{X: 0.4, Y: -0.25}, r3.Vec{X: -0.4, Y: 0.25}, r3.Vec{X: -0.4, Y: -0.25}, r3.Vec{Y: 0.25}, r3.Vec{Y: -0.25})
	marks[2].Z += 0.005
	tub := hydro.Tub{Hull: h, Marks: marksAt(1e-3, marks...), Density: hydro.Reading{Value: 1000, Sigma: 0.5}, CGHeight: hydro.Reading{Value: 0.2, Sigma: 0.01}}
	s, ok := tub.Misread()
	if !ok || s.Mark != 2 || math.Abs(s.Error-0.005) > 1e-3 {
		t.Errorf("Misread() = %+v, %v; want mark 2 read 5 mm too high", s, ok)
	}
	tub.Marks[2].At.Z -= 0.005
	if s, ok := tub.Misread(); ok {
		t.Errorf("Misread() = %+v with all marks right", s)
	}
}

func TestTubNeedsAPlane(t *testing.T) {
	h := twinBoxes(t)
	base := hydro.Tub{Hull: h, Density: hydro.Reading{Value: 1000, Sigma: 1}, CGHeight: hydro.Reading{Value: 0.2, Sigma: 0.01}}
	for _, c := range []struct {
		name  string
		marks []r3.Vec
		ok    bool
		level bool
	}{
		{"two marks", []r3.Vec{{X: 0.4, Z: 0.05}, {X: -0.4, Z: 0.05}}, false, false},
		{"three in one line", []r3.Vec{{X: 0.4, Z: 0.05}, {Z: 0.05}, {X: -0.4, Z: 0.05}}, false, false},
		{"two marks and a level across", []r3.Vec{{X: 0.4, Z: 0.05}, {X: -0.4, Z: 0.05}}, true, true},
		{"three", []r3.Vec{{X: 0.4, Z: 0.05}, {X: -0.4, Z: 0.05}, {Y: 0.2, Z: 0.05}}, true, false},
	} {
		tub := base
		tub.Marks = marksAt(1e-3, c.marks...)
		if c.level {
			tub.Levels = []hydro.SlopeReading{{Direction: r3.Vec{Y: 1}, Sigma: 0.002}}
		}
		_, err := tub.Fit()
		if (err == nil) != c.ok || err != nil && !errors.Is(err, hydro.ErrMarks) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Inclining the twin boxes at 8 kg, GM 0.690972 m: the plain formula is high by
// 0.02 to 1.36 % as the heel grows (wall-sided closed form), the fit is not.
func TestIncline(t *testing.T) {
	body := hydro.Body{Hull: twinBoxes(t), Mass: 8, CG: r3.Vec{Z: 0.25}, Density: 1000}
	for _, c := range []struct{ moment, heel, plain float64 }{
		{0.1, 1.036168, 0.691122}, {0.2, 2.070312, 0.691573}, {0.4, 4.124602, 0.693361}, {0.6, 6.147736, 0.696302}, {0.8, 8.126229, 0.700338},
	} {
		var shifts []hydro.Shift
		for _, sign := range []float64{-1, 1} {
			shifts = append(shifts, hydro.Shift{Weight: 0.5, Port: sign * c.moment / 0.5, Heel: hydro.Reading{Value: -sign * c.heel * math.Pi / 180, Sigma: 0.001}})
		}
		start := body
		start.CG = r3.Vec{Y: 0.003, Z: 0.2}
		got, err := start.Incline(shifts)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "plain GM", got.Plain.Value, c.plain, 2e-6)
		near(t, "fitted GM", got.GM.Value, 0.690972, 2e-6)
		near(t, "height of the CG", got.CGZ.Value, 0.25, 2e-6)
		near(t, "CG aside", got.CGY.Value, 0, 1e-7)
	}
}

// The plain formula on the textbooks' own numbers: Nicholls's Seamanship, p.
// 532 no. 19 (2600 tons, 3 tons moved 40 ft, 2 in on 29 ft 6 in: 8.17 ft) and
// no. 18 (9000 tons, 100 tons moved 30 ft, 8 deg: 2.37 ft).
func TestPlainIncliningFormula(t *testing.T) {
	for _, c := range []struct{ mass, weight, distance, tan, want float64 }{
		{2600, 3, 40, 2.0 / (29.5 * 12), 8.16923},
		{9000, 100, 30, math.Tan(8 * math.Pi / 180), 2.37179},
	} {
		// Half to each side: the same line through the origin.
		heel := math.Atan(c.tan)
		got := hydro.PlainGM([]hydro.Shift{
			{Weight: c.weight, Port: -c.distance, Heel: hydro.Reading{Value: heel}},
			{Weight: c.weight, Port: c.distance, Heel: hydro.Reading{Value: -heel}},
		}, c.mass)
		near(t, "GM", got.Value, c.want, 1e-5)
	}
}

func TestInclineCoverage(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	inside, runs := 0, 200
	body := hydro.Body{Hull: twinBoxes(t), Mass: 8, CG: r3.Vec{X: 0.01, Y: 0.004, Z: 0.25}, Density: 1000}
	sigma := 0.1 * math.Pi / 180
	for range runs {
		var shifts []hydro.Shift
		for _, port := range []float64{-0.4, -0.2, 0, 0.2, 0.4} {
			c := body
			c.CG.Y += 0.5 * port / body.Mass
			at := rest(t, c)
			shifts = append(shifts, hydro.Shift{Weight: 0.5, Port: port, Heel: hydro.Reading{Value: at.Heel() + sigma*r.NormFloat64(), Sigma: sigma}})
		}
		got, err := body.Incline(shifts)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.CGZ.Value-0.25) < 1.96*got.CGZ.Sigma {
			inside++
		}
	}
	if share := float64(inside) / float64(runs); share < 0.91 || share > 1 {
		t.Errorf("%.1f %% of the 95 %% intervals hold the CG's height", 100*share)
	}
}

func TestInclineErrors(t *testing.T) {
	body := hydro.Body{Hull: twinBoxes(t), Mass: 8, CG: r3.Vec{Z: 0.25}, Density: 1000}
	s := hydro.Shift{Weight: 0.5, Port: 0.2, Heel: hydro.Reading{Value: -0.01, Sigma: 0.001}}
	for _, shifts := range [][]hydro.Shift{nil, {s}, {s, s}, {s, {Weight: 0.5, Port: -0.2, Heel: hydro.Reading{Value: 0.01}}}} {
		if got, err := body.Incline(shifts); err == nil {
			t.Errorf("Incline(%v) = %+v, want an error", shifts, got)
		}
	}
}

// Loads worked out by the lever rule for a known CG come back as it: level on
// three scales, and tilted 20 deg nose up for the height.
func TestWeigh(t *testing.T) {
	cg := r3.Vec{X: 0.02, Y: -0.01, Z: 0.18}
	places := []r3.Vec{{X: 0.3, Y: 0.2}, {X: 0.3, Y: -0.2}, {X: -0.4}}
	stand := func(up r3.Vec) hydro.Weighing {
		// Barycentric loads of the CG's projection along the vertical onto
		// the supports' plane z = 0.
		p := r3.Sub(cg, r3.Scale(cg.Z/up.Z, up))
		c := 3.2 * (0.3 - p.X) / 0.7
		a := (3.2 - c) / 2
		d := 3.2 * p.Y / 0.4
		loads := []float64{a + d, a - d, c}
		w := hydro.Weighing{Up: up, Place: 0.001}
		for i := range places {
			w.Supports = append(w.Supports, hydro.Support{At: places[i], Load: hydro.Reading{Value: loads[i], Sigma: 0.002}})
		}
		return w
	}
	level := stand(r3.Vec{Z: 1})
	got, err := hydro.Weigh([]hydro.Weighing{level})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass", got.Mass.Value, 3.2, 1e-12)
	near(t, "x", got.CG.X, cg.X, 1e-9)
	near(t, "y", got.CG.Y, cg.Y, 1e-9)
	if got.HasHeight || !math.IsNaN(got.CG.Z) {
		t.Errorf("a level weighing gives z = %g", got.CG.Z)
	}
	got, err = hydro.Weigh([]hydro.Weighing{level, stand(hydro.UpVector(20*math.Pi/180, 0))})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "z", got.CG.Z, cg.Z, 1e-9)
	if !got.HasHeight || !(got.Sigma.Z > got.Sigma.X) {
		t.Errorf("tilted: height %v, sigma %v", got.HasHeight, got.Sigma)
	}
	for _, bad := range [][]hydro.Weighing{nil, {{Up: r3.Vec{Z: 1}, Place: 0.001, Supports: level.Supports[:1]}}, {{Up: r3.Vec{Z: 1}, Supports: level.Supports}}} {
		if got, err := hydro.Weigh(bad); err == nil {
			t.Errorf("Weigh(%v) = %+v, want an error", bad, got)
		}
	}
}
