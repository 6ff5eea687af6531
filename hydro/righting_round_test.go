package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

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
