package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// Arms of the textbooks' boxes. Wall-sided, sin a (GM + BM/2 tan² a), they are
// exact while deck edge and bilge stay clear. D. R. Derrett and C. B. Barrass,
// Ship Stability for Masters and Mates, p. 130 ex. 2 (prints 0.0872 m at 5
// deg, without the tan² term) and 6th ed. ex. 15.5 (prints 404.498 t m at 24
// deg, 83.42 at 6 deg without the term).
func TestRightingOfTextbookBoxes(t *testing.T) {
	box := hydro.Body{Hull: keelBox(t, 65, 12, 8), Mass: 3198e3, CG: r3.Vec{Z: 4}, Density: 1025}
	c := righting(t, box, hydro.RightingOptions{})
	near(t, "p. 130 ex. 2: GM", c.GM, 1, 1e-9)
	near(t, "p. 130 ex. 2: GZ at 5 deg", gzAt(t, c, 5), 0.0881564, 1e-7)
	near(t, "p. 130 ex. 2: GZ at 25 deg", gzAt(t, c, 25), 0.560461, 1e-6)
	near(t, "p. 130 ex. 2: GZ at -25 deg", gzAt(t, c, -25), -0.560461, 1e-6)
	p, err := c.At(5 * degree)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "p. 130 ex. 2: moment at 5 deg, t m", p.Moment/hydro.Gravity/1000, 281.924, 1e-5)
	// Area in closed form: GM (1 - cos a) + BM/2 (sec a + cos a - 2). The
	// rule's error falls as the fourth power of the step.
	for step, tol := range map[float64]float64{2: 1e-7, 0.5: 5e-10} {
		c := righting(t, box, hydro.RightingOptions{Step: step * degree, From: -degree, To: 40 * degree})
		area, err := c.Area(30 * degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "p. 130 ex. 2: area to 30 deg, m rad", area, 0.165063509, tol)
	}

	box = hydro.Body{Hull: keelBox(t, 55, 7.5, 6), Mass: 1691.25e3, CG: r3.Vec{Z: 2.7}, Density: 1025}
	c = righting(t, box, hydro.RightingOptions{})
	near(t, "ex. 15.5: GZ at 24 deg", gzAt(t, c, 24), 0.239171, 1e-6)
	near(t, "ex. 15.5: moment at 24 deg, t m", gzAt(t, c, 24)*1691.25, 404.498, 2e-6)
	near(t, "ex. 15.5: moment at 6 deg, t m", gzAt(t, c, 6)*1691.25, 84.564, 1e-5)
}

// boxArm returns the righting arm of a long box of breadth b and depth h, its
// keel's middle at the origin, floating with the share full of its section
// under and G at (0, g), heeled by a: the section is clipped by the waterline
// and its centroid taken, a method of its own.
func boxArm(b, h, full, g, a float64) float64 {
	corners := [][2]float64{{-b / 2, 0}, {b / 2, 0}, {b / 2, h}, {-b / 2, h}}
	sin, cos := math.Sincos(a)
	height := func(p [2]float64) float64 { return p[0]*sin + p[1]*cos }
	under := func(level float64) (area, y, z float64) {
		var poly [][2]float64
		for i, p := range corners {
			q := corners[(i+1)%4]
			hp, hq := height(p)-level, height(q)-level
			if hp <= 0 {
				poly = append(poly, p)
			}
			if hp*hq < 0 {
				s := hp / (hp - hq)
				poly = append(poly, [2]float64{p[0] + s*(q[0]-p[0]), p[1] + s*(q[1]-p[1])})
			}
		}
		for i, p := range poly {
			q := poly[(i+1)%len(poly)]
			w := p[0]*q[1] - q[0]*p[1]
			area += w / 2
			y += w * (p[0] + q[0]) / 6
			z += w * (p[1] + q[1]) / 6
		}
		return area, y / area, z / area
	}
	lo, hi := -(b + h), b+h
	for range 100 {
		mid := (lo + hi) / 2
		if area, _, _ := under(mid); area < full*b*h {
			lo = mid
		} else {
			hi = mid
		}
	}
	_, y, z := under(lo)
	return (0-y)*cos - (g-z)*sin
}

// The whole curve of a box, past deck edge and bilge and over to 180 deg,
// against its section clipped.
func TestRightingOfBoxAllAround(t *testing.T) {
	for _, c := range []struct{ b, h, full, g float64 }{
		{12, 8, 0.5, 4}, {12, 8, 0.5, 3}, {1, 1, 0.2, 0.5}, {1, 1, 0.8, 0.3}, {3, 1, 0.4, 1.2},
	} {
		l := 20 * c.b
		body := hydro.Body{Hull: keelBox(t, l, c.b, c.h), Mass: 1000 * l * c.b * c.h * c.full, CG: r3.Vec{Z: c.g}, Density: 1000}
		curve := righting(t, body, hydro.RightingOptions{Step: 5 * degree})
		if n := len(curve.Points); n < 73 {
			t.Fatalf("%+v: %d points", c, n)
		}
		for _, p := range curve.Points {
			if want := boxArm(c.b, c.h, c.full, c.g, p.Angle); math.Abs(p.GZ-want) > 1e-9*c.b {
				t.Errorf("%+v: GZ at %.1f deg = %.10f, want %.10f (trim %g)", c, deg(p.Angle), p.GZ, want, deg(p.Free))
			}
		}
		if len(curve.Jumps) > 0 {
			t.Errorf("%+v: jumps %+v", c, curve.Jumps)
		}
	}
}

// The long square log at relative densities 0.5 and 0.8 with its flat side up,
// side 1: an independent numerical method.
func TestRightingOfSquareLog(t *testing.T) {
	log := hullOf(t, solid(t, shape.BoxBetween(r3.Vec{X: -10, Y: -0.5}, r3.Vec{X: 10, Y: 0.5, Z: 1})))
	for rho, want := range map[float64][4]float64{
		0.5: {-0.0140208, -0.0247259, -0.0277778, -0.0158507},
		0.8: {0.00100473, 0.00378492, 0.00570632, 0.00236468},
	} {
		c := righting(t, hydro.Body{Hull: log, Mass: 20e3 * rho, CG: r3.Vec{Z: 0.5}, Density: 1000}, hydro.RightingOptions{})
		for i, w := range want {
			if got := gzAt(t, c, 10*float64(i+1)); math.Abs(got-w) > 1e-7 {
				t.Errorf("log at rho %g: GZ at %d deg = %.8f, want %.8f", rho, 10*(i+1), got, w)
			}
		}
		if rho == 0.8 {
			// Flat is stable, and by symmetry corner down is where it ends.
			falling, rising, err := c.Sides()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "log at rho 0.8: vanishing angle, deg", deg(rising.Vanishing), 45, 1e-7)
			near(t, "log at rho 0.8: vanishing angle to port, deg", deg(falling.Vanishing), -45, 1e-7)
		}
	}
}

// Two box floats, 9 kg, from closed forms: wall-sided arms in roll up to 11.31
// deg, and in pitch the bow-down couple of a thrust line M = W sin a (GM + BM/2
// tan² a), with the drafts at bow and stern along the body's z.
func TestRightingOfTwinBoxes(t *testing.T) {
	body := hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	c := righting(t, body, hydro.RightingOptions{From: -12 * degree, To: 12 * degree})
	near(t, "twin boxes: GZ at 5 deg", gzAt(t, c, 5), 0.0518396, 1e-7)
	near(t, "twin boxes: GZ at 10 deg", gzAt(t, c, 10), 0.104946, 1e-6)

	c = righting(t, body, hydro.RightingOptions{Axis: hydro.PitchAxis})
	near(t, "twin boxes: GM in pitch", c.GM, 1.125, 1e-9)
	for _, m := range []struct{ moment, trim, bow, stern float64 }{
		{3, -1.730440, 0.0635950, 0.0364050}, {6, -3.456781, 0.0771825, 0.0228175}, {9, -5.174972, 0.0907550, 0.00924498},
	} {
		p, err := c.At(m.trim * degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "twin boxes: couple at bow down", p.Moment, -m.moment, 1e-6)
		near(t, "twin boxes: bow draft", -p.HeightOf(r3.Vec{X: 0.45})/p.Up.Z, m.bow, 1e-6)
		near(t, "twin boxes: stern draft", -p.HeightOf(r3.Vec{X: -0.45})/p.Up.Z, m.stern, 1e-6)
	}
	// The largest couple before the bow's deck edge goes under.
	deck, _, err := c.Under(hydro.Spot{X: 0.45, Z: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "twin boxes: bow down until the deck is wet, deg", deg(deck.Angle), -math.Atan(0.05/0.45)/degree, 1e-7)
	near(t, "twin boxes: couple then", deck.Moment, -9*hydro.Gravity*math.Sin(math.Atan(1./9))*(1.125+1.35/2/81), 1e-9)
}

// Loll, wall-sided: an exercise of a tutorial prints BM 3.84 m and 33.31 deg
// for I = 7.5e4 m4, 20,000 t, GM -0.83 m; another GM 0.33 m negative for a box
// of 12 x 4 m that lolls to 25 deg. tan a = sqrt(-2 GM/BM): Derrett and
// Barrass, p. 229. The arm between upright and loll is the wall-sided one.
func TestRightingOfLollingBoxes(t *testing.T) {
	const volume = 20000e3 / 1025
	beam, draft := 24.0, 24*24/(12*3.84375)
	for _, c := range []struct {
		l, b, d, h, gm, bm, loll float64
	}{
		{volume / beam / draft, beam, draft, draft + 9, -0.83, 3.84375, 33.3116},
		{65, 12, 4, 8, -0.326164, 3, 25},
	} {
		kg := c.d/2 + c.bm - c.gm
		body := hydro.Body{Hull: keelBox(t, c.l, c.b, c.h), Mass: c.l * c.b * c.d * 1025, CG: r3.Vec{Z: kg}, Density: 1025}
		r := rest(t, body)
		if got := math.Abs(deg(r.Heel())); math.Abs(got-c.loll) > 1e-4 {
			t.Errorf("box of GM %g: lolls to %.5f deg, want %.4f", c.gm, got, c.loll)
		}
		curve := righting(t, body, hydro.RightingOptions{})
		for _, a := range []float64{-20, -10, 10, 20} {
			s, k := math.Sincos(a * degree)
			near(t, "arm of a lolling box", gzAt(t, curve, a), s*(c.gm+c.bm/2*s*s/k/k), 1e-6)
		}
	}
}
