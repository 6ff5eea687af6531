package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// keelBox returns a box hull with its keel at z = 0 and its middle at x = y = 0.
func keelBox(t testing.TB, l, b, h float64) *hydro.Hull {
	t.Helper()
	return hullOf(t, solid(t, shape.BoxBetween(r3.Vec{X: -l / 2, Y: -b / 2}, r3.Vec{X: l / 2, Y: b / 2, Z: h})))
}

func rest(t testing.TB, b hydro.Body) hydro.Rest {
	t.Helper()
	r, err := b.Rest()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// near reports a value that is not within a relative tolerance of what a
// source says.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(1, math.Abs(want))) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// Level boxes of the textbooks. SSMM: D. R. Derrett and C. B. Barrass, Ship
// Stability for Masters and Mates. NIC: Nicholls's Seamanship and Nautical
// Knowledge. Where a book rounds, the closed form KB = d/2, BM = B²/12d is
// held and the book's figure stands beside.
func TestTextbookBoxes(t *testing.T) {
	const salt = 1025
	for _, c := range []struct {
		source           string
		l, b, h, d, kg   float64
		density          float64
		mass, kb, bm, gm float64
	}{
		{"SSMM p. 130 ex. 2", 65, 12, 8, 4, 4, salt, 3198e3, 2, 3, 1},
		{"SSMM 6th ed. ex. 15.5", 55, 7.5, 6, 4, 2.7, salt, 1691.25e3, 2, 1.171875, 0.471875},
		{"SSMM p. 111, prints BM 2.38", 100, 10, 8, 3.5, 3, salt, 3587.5e3, 1.75, 2.380952381, 1.130952381},
		{"NIC p. 527, in feet", 100, 36, 30, 18, 9, 1000, 64.8e6, 9, 6, 6},
		{"NIC p. 536 no. 43, prints KM 18.33 ft", 200, 40, 20, 10, 10, 1000, 80e6, 5, 13.333333333, 8.333333333},
		{"Stokoe, Reed's Naval Architecture ex. 5.3: GM = d/4 with KG = d", 60, 12, 8, 4, 4, 1000, 2880e3, 2, 3, 1},
	} {
		r := rest(t, hydro.Body{Hull: keelBox(t, c.l, c.b, c.h), Mass: c.mass, CG: r3.Vec{Z: c.kg}, Density: c.density})
		near(t, c.source+": draft", r.Draft(), c.d, 1e-9)
		near(t, c.source+": KB", r.CB.Z, c.kb, 1e-9)
		near(t, c.source+": BM", r.GMTransverse()+r.BG(), c.bm, 1e-9)
		near(t, c.source+": GM", r.GMTransverse(), c.gm, 1e-9)
	}
}

// Drafts of boxes in other water: stability problem slides in several copies,
// print 1.016 m and 7.361 m.
func TestDraftAndDensity(t *testing.T) {
	r := rest(t, hydro.Body{Hull: keelBox(t, 24, 6, 4), Mass: 150e3, CG: r3.Vec{Z: 1}, Density: 1025})
	near(t, "24 x 6 m box of 150 t in salt water: draft", r.Draft(), 1.01626, 1e-5)
	r = rest(t, hydro.Body{Hull: keelBox(t, 100, 20, 12), Mass: 7.5 * 2000 * 1006, CG: r3.Vec{Z: 3}, Density: 1025})
	near(t, "7.5 m in 1.006 taken to 1.025: draft", r.Draft(), 7.360976, 1e-6)
}

// Reserve buoyancy in the aviation sense, excess over displacement: a box of
// depth 2 m at 1.4 m in fresh water, taken to salt water. A page of solutions
// prints the other ratio, 31.75 % of the whole volume; 46.43 % is the same
// water by this denominator.
func TestReserve(t *testing.T) {
	r := rest(t, hydro.Body{Hull: keelBox(t, 18, 5, 2), Mass: 18 * 5 * 1.4 * 1000, CG: r3.Vec{Z: 0.5}, Density: 1025})
	near(t, "draft", r.Draft(), 1.365854, 1e-6)
	near(t, "reserve over displacement", r.Reserve(), 0.464286, 1e-6)
}

// A weight of 50 t moved 30 m aft on a 60 x 10 m box at 4 m: the wall-sided
// listing equation tan a (GM + BM/2 tan² a) = g lengthwise gives 0.472087 deg,
// 0.494380 m over the length (the linear rule of the textbooks, MCT, 0.494397).
func TestTrimByMovedWeight(t *testing.T) {
	const mass = 60 * 10 * 4 * 1025.0
	g := 50e3 * 30 / mass
	r := rest(t, hydro.Body{Hull: keelBox(t, 60, 10, 8), Mass: mass, CG: r3.Vec{X: -g, Z: 3}, Density: 1025})
	near(t, "GM lengthwise, level", func() float64 {
		level := rest(t, hydro.Body{Hull: keelBox(t, 60, 10, 8), Mass: mass, CG: r3.Vec{Z: 3}, Density: 1025})
		return level.GMLongitudinal()
	}(), 74, 1e-9)
	near(t, "trim by the stern, deg", deg(r.Trim()), 0.472087, 1e-6)
	near(t, "trim over 60 m", 60*math.Tan(r.Trim()), 0.494380, 1e-6)
}

// List from a moved weight, the wall-sided value for a hull with GM 0.4 m and
// BM 1 m (KB 2.1, KG 2.7, KM 3.1 m): SSMM 6th ed. ex. 14.4 prints 9° 27′ by
// tan a = GG1/GM; with the wall-sided term it is 9.1690 deg. A box of beam b and
// draft 4.2 m has BM = b²/50.4 = 1.
func TestListByMovedWeight(t *testing.T) {
	beam := math.Sqrt(50.4)
	mass := 100 * beam * 4.2 * 1025
	r := rest(t, hydro.Body{Hull: keelBox(t, 100, beam, 8), Mass: mass, CG: r3.Vec{Y: -10 * 10 / 1500.0, Z: 2.7}, Density: 1025})
	near(t, "list to starboard, deg", deg(r.Heel()), 9.1690, 1e-5)
}

// Angle of loll: tan² a = -2 GM/BM on a wall-sided hull (SSMM p. 229). A box of
// beam 12 m at 4 m has BM 3 m; with KG 5.326164 m GM is -0.326164 m and the loll
// 25 deg.
func TestLoll(t *testing.T) {
	r := rest(t, hydro.Body{Hull: keelBox(t, 100, 12, 10), Mass: 4800e3, CG: r3.Vec{Z: 5.326164}, Density: 1000})
	near(t, "angle of loll, deg", math.Abs(deg(r.Heel())), 25, 1e-6)
	if len(r.Also) != 1 {
		t.Errorf("%d other rests, want the loll to the other side", len(r.Also))
	}
}

// Twin floats after W. S. Diehl, NACA TN 183 (1924): I = (L/12)(6 s² b + 2 b³),
// here L 24, b 3, s 9.5 ft and 5000 lb in sea water of 64 lb/ft3.
func TestTwinFloatsOfTN183(t *testing.T) {
	s := solid(t, shape.BoxBetween(r3.Vec{X: -12, Y: -1.5}, r3.Vec{X: 12, Y: 1.5, Z: 3}))
	var terms []hydro.Term
	for _, y := range []float64{4.75, -4.75} {
		terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: y})}, Weight: 1})
	}
	h, err := hydro.NewHull(terms)
	if err != nil {
		t.Fatal(err)
	}
	r := rest(t, hydro.Body{Hull: h, Mass: 5000, CG: r3.Vec{Z: 4}, Density: 64})
	near(t, "volume, ft3", r.Volume, 78.125, 1e-12)
	near(t, "BM, ft", r.GMTransverse()+r.BG(), 42.9696, 1e-6)
}

// Twin box floats of several lengths at 6 kg, KG 0.25 m: d = V/A, BM = I/V.
func TestFloatLengths(t *testing.T) {
	for _, c := range []struct{ l, d, gmT, gmL, excess float64 }{
		{0.7, 0.042857143, 0.724206, 0.724206, 1.333333},
		{0.8, 0.0375, 0.857639, 1.190972, 1.666667},
		{0.9, 0.033333333, 0.991667, 1.791667, 2},
		{1.0, 0.03, 1.126111, 2.542778, 2.333333},
		{1.1, 0.027272727, 1.260859, 3.460859, 2.666667},
	} {
		s := solid(t, shape.BoxBetween(r3.Vec{X: -c.l / 2, Y: -0.05}, r3.Vec{X: c.l / 2, Y: 0.05, Z: 0.1}))
		h, err := hydro.NewHull([]hydro.Term{
			{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: 0.2})}, Weight: 1},
			{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: -0.2})}, Weight: 1}})
		if err != nil {
			t.Fatal(err)
		}
		r := rest(t, hydro.Body{Hull: h, Mass: 6, CG: r3.Vec{Z: 0.25}, Density: 1000})
		near(t, "draft", r.Draft(), c.d, 1e-9)
		near(t, "GM transverse", r.GMTransverse(), c.gmT, 1e-6)
		near(t, "GM longitudinal", r.GMLongitudinal(), c.gmL, 1e-6)
		near(t, "excess buoyancy", r.Reserve(), c.excess, 1e-6)
	}
}

// Off both ways: corner drafts measured along the body's z axis, found by an
// independent numerical method and by the wall-sided theory within 0.3 %.
func TestCornerDrafts(t *testing.T) {
	r := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 8, CG: r3.Vec{X: 0.015, Y: 0.02, Z: 0.25}, Density: 1000})
	for _, c := range []struct{ x, y, want float64 }{
		{-0.45, -0.25, 0.031987}, {0.45, -0.25, 0.042440}, {-0.45, 0.25, 0.046449}, {0.45, 0.25, 0.056902},
	} {
		got := -r.HeightOf(r3.Vec{X: c.x, Y: c.y}) / r.Up.Z
		if math.Abs(got-c.want) > 1e-6 {
			t.Errorf("draft at x %g, y %g = %.7f, want %.6f", c.x, c.y, got, c.want)
		}
	}
}

// A sphere of radius 0.05 m: t² - t³/3 = (4/3) f for the draft t R. A latitude
// and longitude mesh of 360 x 180 is 1e-4 small, so the draft is compared at
// the mesh's own fraction f by taking the mass from its volume.
func TestSphereDraft(t *testing.T) {
	s := solid(t, shape.Sphere(0.05, 360, 180))
	h := hullOf(t, s)
	exact := 4.0 / 3 * math.Pi * 0.05 * 0.05 * 0.05
	for _, c := range []struct{ mass, draft, kb, wet float64 }{
		{0.1, 0.0279744, 0.0181151, 0.00878840},
		{0.2617994, 0.05, 0.03125, 0.0157080},
		{0.4, 0.0684311, 0.0408366, 0.0214983},
	} {
		r := rest(t, hydro.Body{Hull: h, Mass: c.mass * h.Volume() / exact, CG: r3.Vec{Z: -0.01}, Density: 1000})
		near(t, "draft, in radii", r.Draft()/0.05, c.draft/0.05, 2e-4)
		near(t, "KB, in radii", (r.CB.Z+0.05)/0.05, c.kb/0.05, 2e-4)
		near(t, "wetted area, relative", r.WetArea()/c.wet, 1, 3e-4)
		near(t, "GM = depth of G below the center", r.GMTransverse(), 0.01, 2e-5)
	}
}

// An ellipsoid of semi-axes 0.4, 0.06, 0.05 m carrying 2 kg: the affine image of
// a sphere, q = 3 (2-t)²/(4(3-t)), BM_T = q b²/c, BM_L = q a²/c, KB = c (1-q).
func TestEllipsoid(t *testing.T) {
	s := solid(t, shape.Ellipsoid(0.4, 0.06, 0.05, 360, 180))
	h := hullOf(t, s)
	exact := 4.0 / 3 * math.Pi * 0.4 * 0.06 * 0.05
	r := rest(t, hydro.Body{Hull: h, Mass: 2 * h.Volume() / exact, CG: r3.Vec{Z: -0.005}, Density: 1000})
	near(t, "draft", r.Draft()/0.0431496, 1, 2e-4)
	near(t, "KB", (r.CB.Z+0.05)/0.0273143, 1, 3e-4)
	near(t, "BM transverse", (r.GMTransverse()+r.BG())/0.0326674, 1, 3e-4)
	near(t, "BM longitudinal", (r.GMLongitudinal()+r.BG())/1.451884, 1, 3e-4)
	near(t, "waterplane area", r.Area/0.0739829, 1, 2e-4)
}

// Wigley's hull in closed form (J. Wigley, Trans. INA 1934, from memory, for
// the shape; the integrals are those of its polynomials): BM_T = 3 B²/35T,
// BM_L = 3 L²/40T, KB = 5T/8.
func TestWigley(t *testing.T) {
	const l, b, d = 0.8, 0.12, 0.05
	h := hullOf(t, solid(t, shape.Wigley(l, b, d, 160, 60)))
	v := 4.0 / 9 * l * b * d
	// Just below the deck the waterplane is the design one to 1e-4.
	r := rest(t, hydro.Body{Hull: h, Mass: 0.9999 * 1000 * h.Volume(), CG: r3.Vec{Z: 0.01}, Density: 1000})
	near(t, "volume", h.Volume()/v, 1, 2e-4)
	near(t, "KB", r.CB.Z/(5*d/8), 1, 1e-3)
	near(t, "BM transverse", (r.GMTransverse()+r.BG())/(3*b*b/(35*d)), 1, 1e-3)
	near(t, "BM longitudinal", (r.GMLongitudinal()+r.BG())/(3*l*l/(40*d)), 1, 1e-3)
}
