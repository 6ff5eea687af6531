package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

const degree = math.Pi / 180

// righting returns a body's righting curve.
func righting(t testing.TB, b hydro.Body, o hydro.RightingOptions) *hydro.Righting {
	t.Helper()
	r := rest(t, b)
	c, err := r.Righting(o)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// gzAt returns the righting arm at an angle in degrees.
func gzAt(t testing.TB, c *hydro.Righting, angle float64) float64 {
	t.Helper()
	p, err := c.At(angle * degree)
	if err != nil {
		t.Fatalf("At(%g deg): %v", angle, err)
	}
	return p.GZ
}

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

// Bodies whose arm is known in closed form all the way around. The ball and the
// cylinder on its side with G a distance e under the axis: e sin a. The
// ellipsoid with semi-axes a, b, c and z the height of G over its center: q
// (b² - c²) sin a cos a / w - z sin a, w = sqrt(b² sin² a + c² cos² a), q =
// 0.453714 for 2 kg, lowest point w t = 0.862993 w under water.
func TestRightingOfRoundBodies(t *testing.T) {
	check := func(name string, b hydro.Body, o hydro.RightingOptions, tol float64, arm func(a float64) float64) *hydro.Righting {
		t.Helper()
		c := righting(t, b, o)
		for _, p := range c.Points {
			if want := arm(p.Angle); math.Abs(p.GZ-want) > tol {
				t.Errorf("%s: GZ at %.1f deg = %.7f, want %.7f", name, deg(p.Angle), p.GZ, want)
			}
		}
		return c
	}
	sine := func(e float64) func(float64) float64 { return func(a float64) float64 { return e * math.Sin(a) } }

	ball := hullOf(t, solid(t, shape.Icosphere(0.05, 5)))
	low := hydro.Body{Hull: ball, Mass: 0.3, CG: r3.Vec{Z: -0.01}, Density: 1000}
	for _, axis := range []hydro.Axis{hydro.HeelAxis, hydro.PitchAxis} {
		c := check("ball", low, hydro.RightingOptions{Axis: axis, Step: 10 * degree}, 2e-5, sine(0.01))
		near(t, "ball: GM", c.GM, 0.01, 5e-5)
		_, rising, err := c.Sides()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ball: largest arm", rising.Max, 0.01, 5e-5)
		if math.Abs(deg(rising.MaxAngle)-90) > 3 || math.Abs(deg(rising.Vanishing)-180) > 0.5 {
			t.Errorf("ball: largest arm at %.2f deg, vanishing at %.2f deg; want 90 and 180", deg(rising.MaxAngle), deg(rising.Vanishing))
		}
	}

	onItsSide := mesh.Rotation(r3.Vec{Y: 1}, math.Pi/2).Then(mesh.Translation(r3.Vec{X: -0.3}))
	log := hullOf(t, solid(t, shape.Transformed(shape.Cylinder(0.05, 0.6, 360), onItsSide)))
	check("cylinder", hydro.Body{Hull: log, Mass: log.Volume() * 300, CG: r3.Vec{Z: -0.02}, Density: 1000},
		hydro.RightingOptions{Step: 10 * degree}, 3e-6, sine(0.02))

	egg := hullOf(t, solid(t, shape.Ellipsoid(0.4, 0.06, 0.05, 180, 120)))
	const b, c, z, q, depth = 0.06, 0.05, -0.005, 0.453714, 0.862993
	width := func(a float64) float64 { s, k := math.Sincos(a); return math.Sqrt(b*b*s*s + c*c*k*k) }
	curve := check("ellipsoid", hydro.Body{Hull: egg, Mass: 2, CG: r3.Vec{Z: z}, Density: 1000}, hydro.RightingOptions{Step: 10 * degree}, 2e-5,
		func(a float64) float64 { s, k := math.Sincos(a); return q*(b*b-c*c)*s*k/width(a) - z*s })
	for _, p := range curve.Points {
		if want := depth * width(p.Angle); math.Abs(p.Draft-want) > 1e-3*want {
			t.Errorf("ellipsoid: draft at %.1f deg = %.6f, want %.6f", deg(p.Angle), p.Draft, want)
		}
	}
}

// The V-bottom prism of beam 0.1 and deadrise 20 deg at a draft of 0.04, its
// sides 0.1 high: arms by an independent numerical method.
func TestRightingOfVBottom(t *testing.T) {
	v := hullOf(t, solid(t, shape.VBottom(0.8, 0.1, 20*degree, 0.1+0.05*math.Tan(20*degree))))
	c := righting(t, hydro.Body{Hull: v, Mass: 2.47206, CG: r3.Vec{Z: 0.03}, Density: 1000}, hydro.RightingOptions{})
	for angle, want := range map[float64]float64{5: 0.00184546, 10: 0.00373176, 20: 0.00781769} {
		if got := gzAt(t, c, angle); math.Abs(got-want) > 2e-8 {
			t.Errorf("V bottom: GZ at %g deg = %.9f, want %.9f", angle, got, want)
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

// Followed only as far as asked, a curve says the same as when it is followed
// all around, with fewer cuts.
func TestRightingAsAsked(t *testing.T) {
	body := craft(t, 2100)
	r := rest(t, body)
	whole, err := r.Righting(hydro.RightingOptions{Step: 5 * degree})
	if err != nil {
		t.Fatal(err)
	}
	asked, err := r.Righting(hydro.RightingOptions{Step: 5 * degree, AsAsked: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(asked.Points) > 0 {
		t.Errorf("%d points before anything is asked", len(asked.Points))
	}
	for _, a := range []float64{3, -7, 12, -90, 150} {
		near(t, "GZ as asked", gzAt(t, asked, a), gzAt(t, whole, a), 1e-9)
	}
	f1, r1, err := whole.Sides()
	if err != nil {
		t.Fatal(err)
	}
	f2, r2, err := asked.Sides()
	if err != nil {
		t.Fatal(err)
	}
	f3, r3, err := asked.Vanishing()
	if err != nil {
		t.Fatal(err)
	}
	if f1 != f2 || r1 != r2 || f3 != f1.Vanishing || r3 != r1.Vanishing {
		t.Errorf("as asked: sides %+v and %+v, vanishing %g and %g; all around: %+v and %+v", f2, r2, f3, r3, f1, r1)
	}
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

// nearJump reports whether the angle is within a step of a jump.
func nearJump(c *hydro.Righting, angle float64) bool {
	for _, j := range c.Jumps {
		if math.Abs(j.Angle-angle) < 1.01*degree {
			return true
		}
	}
	return false
}

// Along the curve of a craft without symmetry: the energy put in is the
// integral of W GZ cos(trim) over the heel, between jumps; at jumps it falls;
// every point is a minimum over the free angle; the slope is the arm's
// difference; and the curve does not leap but where it says so.
func TestRightingHoldsTogether(t *testing.T) {
	body := craft(t, 3000)
	weight := body.Mass * hydro.Gravity
	for _, axis := range []hydro.Axis{hydro.HeelAxis, hydro.PitchAxis} {
		c := righting(t, body, hydro.RightingOptions{Axis: axis, Step: degree})
		if c.Cuts > 4*len(c.Points) {
			t.Errorf("%s: %d cuts for %d points", axis, c.Cuts, len(c.Points))
		}
		for i, p := range c.Points {
			if p.Residual > 1e-9 {
				t.Errorf("%s %.2f deg: residual %g", axis, deg(p.Angle), p.Residual)
			}
			for _, d := range []float64{-0.3, 0.3} {
				up := hydro.UpVector(p.Free+d*degree, p.Angle)
				if axis == hydro.PitchAxis {
					s, k := math.Sincos(p.Angle)
					fs, fk := math.Sincos(p.Free + d*degree)
					up = r3.Vec{X: fk * s, Y: fs, Z: fk * k}
				}
				near, err := body.Level(up)
				if err != nil {
					t.Fatal(err)
				}
				if near.Energy < p.Energy-1e-12 {
					t.Errorf("%s %.2f deg, free %.3f deg: energy falls by %g J within %g deg", axis, deg(p.Angle), deg(p.Free), p.Energy-near.Energy, d)
				}
			}
			if i == 0 {
				continue
			}
			q := c.Points[i-1]
			if p.Angle == q.Angle {
				continue
			}
			if math.Abs(p.Free-q.Free) > 8*degree {
				t.Errorf("%s %.2f deg: the free angle leaps from %.2f to %.2f deg", axis, deg(p.Angle), deg(q.Free), deg(p.Free))
			}
			// Simpson's rule on GZ cos b over one degree: edges that go
			// under leave a rest, and where a branch ends the arm has the
			// end of a parabola on its side.
			mid, err := c.At((p.Angle + q.Angle) / 2)
			if err != nil {
				t.Fatal(err)
			}
			lever := func(p hydro.RightingPoint) float64 { return p.GZ * math.Cos(p.Free) }
			want := weight * (p.Angle - q.Angle) * (lever(p) + 4*lever(mid) + lever(q)) / 6
			if math.Abs(p.Work-q.Work-want) > 3e-5 && !nearJump(c, p.Angle) {
				t.Errorf("%s %.2f deg: work grows by %.7f J, its integral by %.7f", axis, deg(p.Angle), p.Work-q.Work, want)
			}
		}
		for _, a := range []float64{-150.3, -60.3, -8.3, 3.3, 9.3, 44.3, 120.3} {
			p, err := c.At(a * degree)
			if err != nil {
				t.Fatal(err)
			}
			const step = 0.002
			slope := (gzAt(t, c, a+step) - gzAt(t, c, a-step)) / (2 * step * degree)
			if math.Abs(slope-p.Slope) > 2e-3*math.Max(0.1, math.Abs(slope)) {
				t.Errorf("%s %.2f deg: GZ grows by %.6f m/rad, its slope is %.6f", axis, a, slope, p.Slope)
			}
		}
		for _, j := range c.Jumps {
			if j.Lost < 0 {
				t.Errorf("%s: a jump at %.2f deg gains %g J", axis, deg(j.Angle), -j.Lost)
			}
		}
	}
}

// The start of the curve: a craft even from side to side has the slope cos
// trim GM there, and the exact derivative agrees with small steps of the arm.
func TestRightingStartsWithGM(t *testing.T) {
	body := craft(t, 3000)
	body.CG.Y = 0
	c := righting(t, body, hydro.RightingOptions{})
	near(t, "slope at rest", c.Start.Slope, c.GM*math.Cos(c.Start.Free), 1e-9)
	near(t, "GM", c.GM, c.Start.GMTransverse(), 1e-12)
	const step = 0.02
	near(t, "difference at rest", (gzAt(t, c, step)-gzAt(t, c, -step))/(2*step*degree), c.Start.Slope, 1e-5)

	body.CG.Y = 0.02
	c = righting(t, body, hydro.RightingOptions{})
	start := deg(c.Start.Angle)
	near(t, "difference at rest off center", (gzAt(t, c, start+step)-gzAt(t, c, start-step))/(2*step*degree), c.Start.Slope, 1e-4)
	near(t, "arm at rest", c.Start.GZ, 0, 1e-10)
}

// Mass of exactly one float: heeled until one is wholly under and the other
// out, the level is free. Then GZ is that of a mass hung on the float's middle:
// with G 0.15 m under it and 0.2 m inboard, 0.2 cos a + 0.15 sin a, stable in
// trim while tan a < 0.75; the range of levels is 0.3 sin a - 0.1 cos a. All
// closed form.
func TestRightingWithoutWaterplane(t *testing.T) {
	body := hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: -0.1}, Density: 1000}
	c := righting(t, body, hydro.RightingOptions{})
	seen := 0
	for _, p := range c.Points {
		a := deg(p.Angle)
		if a < 18.5 || a > 36.8 {
			continue
		}
		seen++
		s, k := math.Sincos(p.Angle)
		near(t, "GZ without waterplane", p.GZ, 0.2*k+0.15*s, 1e-9)
		near(t, "range of levels", p.Slack, 0.3*s-0.1*k, 1e-6)
		near(t, "draft when just awash", p.Draft, 0.1*s+0.1*k, 1e-6)
	}
	if seen < 9 {
		t.Errorf("%d points without waterplane, want 9", seen)
	}
	ended := false
	for _, j := range c.Jumps {
		ended = ended || math.Abs(deg(math.Abs(j.Angle))-math.Atan(0.75)/degree) < 0.05
	}
	if !ended {
		t.Errorf("the branch does not end at %.3f deg, where trim turns unstable: %+v", math.Atan(0.75)/degree, c.Jumps)
	}
}

// Places going under. A deck edge of the box of 12 x 8 m at 4 m goes under at
// atan(4/6), a point on the middle of its deck at 90 deg less nothing: by
// symmetry half of it is under there. The same on both sides.
func TestPlacesGoUnder(t *testing.T) {
	c := righting(t, hydro.Body{Hull: keelBox(t, 65, 12, 8), Mass: 3198e3, CG: r3.Vec{Z: 4}, Density: 1025}, hydro.RightingOptions{})
	for _, p := range []struct {
		at             r3.Vec
		falling, risen float64 // deg, NaN for never, 0 for wet at rest
	}{
		{r3.Vec{Y: -6, Z: 8}, math.NaN(), 33.690068},
		{r3.Vec{Y: 6, Z: 8}, -33.690068, math.NaN()},
		{r3.Vec{Y: 0, Z: 8}, -90, 90},
		{r3.Vec{Y: -5, Z: 1}, 0, 0},
	} {
		falling, rising, err := c.Under(hydro.Spot(p.at))
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range []struct {
			got  *hydro.RightingPoint
			want float64
		}{{falling, p.falling}, {rising, p.risen}} {
			switch {
			case side.got == nil && math.IsNaN(side.want):
			case side.got == nil || math.Abs(deg(side.got.Angle)-side.want) > 1e-6:
				t.Errorf("point %v goes under at %+v, want %g deg", p.at, side.got, side.want)
			}
		}
	}
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

func BenchmarkAttitudes(b *testing.B) {
	body := fine(b)
	b.ReportAllocs()
	cuts := 0
	for b.Loop() {
		a, err := body.Attitudes()
		if err != nil {
			b.Fatal(err)
		}
		cuts = a.Cuts
	}
	b.ReportMetric(float64(cuts), "cuts/op")
}
