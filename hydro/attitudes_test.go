package hydro_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// homogeneous returns a body of the mesh's shape and one relative density
// throughout, in water of 1000 kg/m3.
func homogeneous(t testing.TB, m *mesh.Mesh, rho float64) *hydro.Body {
	t.Helper()
	s := solid(t, m)
	h := hullOf(t, s)
	return &hydro.Body{Hull: h, Mass: 1000 * rho * h.Volume(), CG: s.Centroid(), Density: 1000}
}

// attitudes returns every attitude of b, which must be complete.
func attitudes(t testing.TB, b *hydro.Body) hydro.Attitudes {
	t.Helper()
	a, err := b.Attitudes()
	if err != nil {
		t.Fatal(err)
	}
	if !a.Complete {
		t.Errorf("Attitudes: %d lows, %d passes, %d tops are not complete", a.Lows, a.Passes, a.Tops)
	}
	return a
}

// axes, edges and corners are the directions through the faces, edges and
// corners of a cube.
func axes() []r3.Vec {
	return []r3.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}}
}

func corners() (out []r3.Vec) {
	for i := range 8 {
		s := func(bit int) float64 { return float64(i>>bit&1)*2 - 1 }
		out = append(out, r3.Unit(r3.Vec{X: s(0), Y: s(1), Z: s(2)}))
	}
	return out
}

// around returns directions at the given heels about the x axis, deg.
func around(heels ...float64) (out []r3.Vec) {
	for _, h := range heels {
		out = append(out, hydro.UpVector(0, h*math.Pi/180))
	}
	return out
}

// sameDirections reports what is missing from or too much in the list, within
// the angle tol in degrees.
func sameDirections(list []hydro.Standing, want []r3.Vec, tol float64) error {
	if len(list) != len(want) {
		return fmt.Errorf("%d attitudes, want %d", len(list), len(want))
	}
	for _, w := range want {
		best := math.Inf(1)
		for i := range list {
			best = min(best, deg(2*math.Asin(r3.Norm(r3.Sub(list[i].Up, w))/2)))
		}
		if best > tol {
			return fmt.Errorf("none within %g deg of %.4f, the nearest is %.3g deg off", tol, w, best)
		}
	}
	return nil
}

// The whole list for the long square log: level, tilted, one corner under,
// corner down, by its relative density. Closed forms: tan² = 12 rho (1-rho) - 2
// up to 1/4; legs a, b of the wet corner the roots of t² - 1.5 t + 2 rho = 0,
// tan = b/a, up to 9/32; then 45 deg. The picture is that of E. Reid, "Floating
// of a long square bar", Am. J. Phys. 31 (1963) 565. GM: level
// rho/2 + 1/(12 rho) - 1/2, corner down (4/3) sqrt(rho) - 1/sqrt 2.
func TestAttitudesOfSquareLog(t *testing.T) {
	log := shape.BoxBetween(r3.Vec{X: -10, Y: -0.5}, r3.Vec{X: 10, Y: 0.5, Z: 1})
	tilted := func(a float64) []r3.Vec {
		return around(a, -a, 90-a, 90+a, 180-a, 180+a, 270-a, 270+a)
	}
	for _, c := range []struct {
		rho  float64
		want []r3.Vec
		gm   float64 // of each, NaN where there is no closed form
	}{
		{0.10, around(0, 90, 180, 270), 0.05 + 1/1.2 - 0.5},
		{0.20, around(0, 90, 180, 270), 0.1 + 1/2.4 - 0.5},
		{0.22, tilted(13.674945), math.NaN()},
		{0.24, tilted(23.485487), math.NaN()},
		{0.27, tilted(33.690068), math.NaN()},
		{0.30, around(45, 135, 225, 315), 4./3*math.Sqrt(0.3) - math.Sqrt2/2},
		{0.50, around(45, 135, 225, 315), 4./3*math.Sqrt(0.5) - math.Sqrt2/2},
		{0.78, tilted(13.674945), math.NaN()},
		{0.80, around(0, 90, 180, 270), (0.1 + 1/2.4 - 0.5) / 4}, // V GM as at 0.2
	} {
		a := attitudes(t, homogeneous(t, log, c.rho))
		if err := sameDirections(a.List, c.want, 1e-5); err != nil {
			t.Errorf("Attitudes at rho %g: %v", c.rho, err)
		}
		for i := range a.List {
			if gm, _ := a.List[i].GMLeast(); !math.IsNaN(c.gm) && math.Abs(gm-c.gm) > 1e-9 {
				t.Errorf("Attitudes at rho %g: least GM %.9f, want %.9f", c.rho, gm, c.gm)
			}
		}
	}
}

// The whole list for the cube. Faces up are stable below rho =
// (1 - 1/sqrt 3)/2 = 0.2113 and above 0.7887 (closed form), corners up from 1/6
// to 5/6, edges never; corner GM at 0.2 and 0.25 by an independent numerical
// method, at 1/2 the hexagon's sqrt(3)/48.
func TestAttitudesOfCube(t *testing.T) {
	cube := shape.BoxBetween(r3.Vec{}, r3.Vec{X: 1, Y: 1, Z: 1})
	face := func(rho float64) float64 { return rho/2 + 1/(12*rho) - 0.5 }
	for _, c := range []struct {
		rho            float64
		faces, corners bool
		faceGM, corner float64
		tol            float64
	}{
		{0.10, true, false, face(0.1), 0, 0},
		{0.20, true, true, face(0.2), 0.037514, 1e-6},
		{0.25, false, true, 0, 0.054268, 1e-6},
		{0.30, false, true, 0, 0.054556, 1e-6},
		{0.40, false, true, 0, 0.044870, 1e-6},
		{0.50, false, true, 0, math.Sqrt(3) / 48, 1e-9},
		{0.75, false, true, 0, 0.054268 / 3, 1e-6}, // V GM as at 0.25
		{0.90, true, false, face(0.9), 0, 0},
	} {
		a := attitudes(t, homogeneous(t, cube, c.rho))
		var want []r3.Vec
		if c.faces {
			want = append(want, axes()...)
		}
		if c.corners {
			want = append(want, corners()...)
		}
		if err := sameDirections(a.List, want, 1e-5); err != nil {
			t.Errorf("Attitudes at rho %g: %v", c.rho, err)
		}
		for i := range a.List {
			gm, _ := a.List[i].GMLeast()
			up := a.List[i].Up
			if max(math.Abs(up.X), math.Abs(up.Y), math.Abs(up.Z)) > 0.9 {
				if math.Abs(gm-c.faceGM) > 1e-9 {
					t.Errorf("Attitudes at rho %g: GM on a face %.9f, want %.9f", c.rho, gm, c.faceGM)
				}
			} else if math.Abs(gm-c.corner) > c.tol {
				t.Errorf("Attitudes at rho %g: GM on a corner %.7f, want %.7f", c.rho, gm, c.corner)
			}
		}
	}
}

// The circular cylinder of relative density 1/2: with its axis vertical it is
// stable where (D/H)² > 8 rho (1-rho) = 2, with its axis level where H > D, and
// in between neither (closed forms, from KB = rho H/2, BM = R²/(4 rho H) and
// BM = H²/(3 pi R), BG = 4R/(3 pi)). At 0.3 the first limit is D/H = 1.296148.
func TestAttitudesOfCylinder(t *testing.T) {
	const n = 96
	for _, c := range []struct {
		rho, ratio float64 // D/H
		upright    bool
		level      bool
	}{
		{0.5, 1.45, true, false},
		{0.5, 1.38, false, false},
		{0.5, 1.1, false, false},
		{0.5, 0.95, false, true},
		{0.5, 0.3, false, true},
		{0.3, 1.32, true, false},
		{0.7, 1.32, true, false},
	} {
		h := 1 / c.ratio
		b := homogeneous(t, shape.Cylinder(0.5, h, n), c.rho)
		a := attitudes(t, b)
		upright, level := 0, 0
		for i := range a.List {
			s := &a.List[i]
			switch z := math.Abs(s.Up.Z); {
			case z > 1-1e-12:
				upright++
				gm, _ := s.GMLeast()
				// The polygon's second moment over its area is that of
				// the circle times (2 + cos(2 pi/n))/3.
				want := 0.25/(4*c.rho*h)*(2+math.Cos(2*math.Pi/n))/3 - (1-c.rho)*h/2
				if math.Abs(gm-want) > 1e-9 {
					t.Errorf("Cylinder rho %g, D/H %g: GM upright %.9f, want %.9f", c.rho, c.ratio, gm, want)
				}
			case z < 1e-6:
				level++
				if !s.Neutral {
					t.Errorf("Cylinder rho %g, D/H %g: level but not told to be neutral", c.rho, c.ratio)
				}
			case !s.Neutral:
				t.Errorf("Cylinder rho %g, D/H %g: tilted at %v but not told to be neutral", c.rho, c.ratio, s.Up)
			}
		}
		if want := map[bool]int{true: 2}[c.upright]; upright != want {
			t.Errorf("Cylinder rho %g, D/H %g: upright %d times, want %d", c.rho, c.ratio, upright, want)
		}
		if want := map[bool]int{true: 1}[c.level]; level != want {
			t.Errorf("Cylinder rho %g, D/H %g: level %d times, want %d", c.rho, c.ratio, level, want)
		}
		if !c.upright && !c.level && len(a.List) != 2 {
			t.Errorf("Cylinder rho %g, D/H %g: %d attitudes, want one ring above and one below", c.rho, c.ratio, len(a.List))
		}
	}
}

// Which way up a cone and a paraboloid stay. The cone of half angle a, apex
// down: rho > cos⁶a; apex up: rho < 1 - cos⁶a (closed form: h = rho^(1/3), KB =
// 3h/4, BM = KB tan²a; apex up V GM is that of apex down at 1 - rho). The
// paraboloid z = r²/(2a), apex down: H (1 - sqrt rho) < 3a/2, as Archimedes
// found (On Floating Bodies II, propositions 2, 4 and 10, in T. L. Heath's
// summary); GM = a - 2/3 H (1 - sqrt rho).
func TestAttitudesOfConeAndParaboloid(t *testing.T) {
	tan := math.Tan(math.Pi / 6)
	gmCone := func(rho float64) float64 { h := math.Cbrt(rho); return 0.75*h*(1+tan*tan) - 0.75 }
	gmParaboloid := func(h, rho float64) float64 { return 0.1 - 2./3*h*(1-math.Sqrt(rho)) }
	for _, c := range []struct {
		name       string
		mesh       *mesh.Mesh
		rho        float64
		down, up   bool // stays apex down, apex up (cones only)
		downGM, gm float64
	}{
		{"cone", shape.ConeDown(tan, 1, 64), 0.45, true, true, gmCone(0.45), gmCone(0.55) * 0.55 / 0.45},
		{"cone", shape.ConeDown(tan, 1, 64), 0.40, false, true, 0, 0},
		{"cone", shape.ConeDown(tan, 1, 64), 0.44, true, true, gmCone(0.44), 0},
		{"cone", shape.ConeDown(tan, 1, 64), 0.60, true, false, gmCone(0.6), 0},
		{"paraboloid", shape.Paraboloid(0.1, 0.25, 64, 40), 0.17, true, false, gmParaboloid(0.25, 0.17), 0},
		{"paraboloid", shape.Paraboloid(0.1, 0.25, 64, 40), 0.15, false, false, 0, 0},
		{"paraboloid", shape.Paraboloid(0.1, 0.40, 64, 40), 0.40, true, false, gmParaboloid(0.4, 0.4), 0},
		{"paraboloid", shape.Paraboloid(0.1, 0.40, 64, 40), 0.38, false, false, 0, 0},
		{"paraboloid", shape.Paraboloid(0.1, 0.14, 64, 40), 0.05, true, false, gmParaboloid(0.14, 0.05), 0},
	} {
		a := attitudes(t, homogeneous(t, c.mesh, c.rho))
		down, up := false, false
		for i := range a.List {
			s := &a.List[i]
			gm, _ := s.GMLeast()
			down = down || s.Up.Z > 1-1e-9
			up = up || s.Up.Z < -1+1e-9
			// The facets and belts make some parts in a thousand of BM.
			if s.Up.Z > 1-1e-9 && math.Abs(gm-c.downGM) > 1.5e-3 {
				t.Errorf("%s at rho %g: GM apex down %.6f, want %.6f", c.name, c.rho, gm, c.downGM)
			}
			if s.Up.Z < -1+1e-9 && c.gm != 0 && math.Abs(gm-c.gm) > 1.5e-3 {
				t.Errorf("%s at rho %g: GM apex up %.6f, want %.6f", c.name, c.rho, gm, c.gm)
			}
		}
		if down != c.down {
			t.Errorf("%s at rho %g: stays apex down %v, want %v", c.name, c.rho, down, c.down)
		}
		if c.name == "cone" && up != c.up {
			t.Errorf("%s at rho %g: stays apex up %v, want %v", c.name, c.rho, up, c.up)
		}
	}
}

// At relative density 1/2 the cone of half angle 30 deg has GM 0.0437005 either
// way up (closed form). Level on its side it is just neutral then, so that the
// list of all its attitudes cannot be counted complete.
func TestConeHalfUnder(t *testing.T) {
	b := homogeneous(t, shape.ConeDown(math.Tan(math.Pi/6), 1, 180), 0.5)
	for _, z := range []float64{1, -1} {
		r, err := b.RestFrom(hydro.Attitude{Up: r3.Vec{Z: z}, Height: math.NaN()})
		if err != nil {
			t.Fatal(err)
		}
		if gm, _ := r.GMLeast(); math.Abs(gm-0.0437005) > 1e-4 || math.Abs(r.Up.Z-z) > 1e-12 {
			t.Errorf("cone with up %g: rests at %v with GM %.7f, want 0.0437005", z, r.Up, gm)
		}
	}
	a, err := b.Attitudes()
	if err != nil {
		t.Fatal(err)
	}
	if a.Cuts > 30000 || len(a.List) < 2 {
		t.Errorf("cone half under: %d attitudes in %d cuts", len(a.List), a.Cuts)
	}
}

// A homogeneous ellipsoid is the affine image of a ball: it stays only with its
// least axis upright, either way up, and the way from one to the other leads
// over the middle axis upright. G lies q c above B with the axis c upright, q =
// 3/8 at half under, so the pass rises by q (b - c). An off-center ball
// stays one way up, with GM = e; a ball lies anywhere.
func TestAttitudesOfEllipsoidAndBall(t *testing.T) {
	b := homogeneous(t, shape.Ellipsoid(0.4, 0.1, 0.06, 96, 64), 0.5)
	a := attitudes(t, b)
	if err := sameDirections(a.List, []r3.Vec{{Z: 1}, {Z: -1}}, 1e-4); err != nil {
		t.Fatalf("Attitudes of the ellipsoid: %v", err)
	}
	if a.Passes != 2 || a.Tops != 2 {
		t.Errorf("Attitudes of the ellipsoid: %d passes and %d tops, want 2 and 2", a.Passes, a.Tops)
	}
	for i := range a.List {
		if i == a.Upright {
			continue
		}
		s := &a.List[i]
		if want := 3. / 8 * 0.04; math.Abs(s.Rise-want) > 2e-3*want || math.Abs(s.TipRise-want) > 2e-3*want {
			t.Errorf("Attitudes of the ellipsoid: rises %.6f and %.6f to the pass, want %.6f", s.Rise, s.TipRise, want)
		}
		if want := s.Rise * b.Mass * hydro.Gravity; math.Abs(s.Pass-want) > 1e-12 {
			t.Errorf("Attitudes of the ellipsoid: %.9f J to the pass, want %.9f", s.Pass, want)
		}
		if s.At == nil || math.Abs(math.Abs(s.At.Up.Y)-1) > 1e-6 {
			t.Errorf("Attitudes of the ellipsoid: the pass is not over the middle axis: %+v", s.At)
		}
	}

	ball := homogeneous(t, shape.Icosphere(0.1, 5), 0.3)
	a = attitudes(t, ball)
	if len(a.List) != 1 || !a.List[0].Neutral {
		t.Errorf("Attitudes of a ball: %d, the first neutral %v; want one, neutral", len(a.List), a.List[0].Neutral)
	}
	ball.CG.Z -= 0.02
	a = attitudes(t, ball)
	if err := sameDirections(a.List, []r3.Vec{{Z: 1}}, 1e-3); err != nil {
		t.Errorf("Attitudes of a weighted ball: %v", err)
	}
	// Facets change BM, the ball's whole KM - KB, by parts in a thousand.
	if gm, _ := a.List[0].GMLeast(); math.Abs(gm-0.02) > 2e-4 {
		t.Errorf("Attitudes of a weighted ball: GM %.6f, want 0.02", gm)
	}
}

// A homogeneous body at rho and the same body at 1 - rho turned upside down
// have the same energy up to a constant, so their attitudes are each other's
// opposites, with equal V GM and equal passes. (E. N. Gilbert, "How things
// float", Am. Math. Monthly 98 (1991) 201, from memory; it follows from the
// first moments of the two parts adding up to zero about G.)
func TestAttitudesOfComplement(t *testing.T) {
	for seed := range uint64(25) {
		m := shape.Star(seed, 2)
		rho := 0.15 + 0.3*float64(seed)/25
		a, c := attitudes(t, homogeneous(t, m, rho)), attitudes(t, homogeneous(t, m, 1-rho))
		var want []r3.Vec
		for i := range a.List {
			want = append(want, r3.Scale(-1, a.List[i].Up))
		}
		if err := sameDirections(c.List, want, 1e-5); err != nil {
			t.Errorf("body %d at rho %g and %g: %v", seed, rho, 1-rho, err)
			continue
		}
		if a.Passes != c.Passes || a.Tops != c.Tops {
			t.Errorf("body %d at rho %g and %g: %d and %d passes, %d and %d tops", seed, rho, 1-rho, a.Passes, c.Passes, a.Tops, c.Tops)
		}
		for i := range a.List {
			for k := range c.List {
				if r3.Norm(r3.Add(a.List[i].Up, c.List[k].Up)) > 1e-6 {
					continue
				}
				ga, _ := a.List[i].GMLeast()
				gc, _ := c.List[k].GMLeast()
				if math.Abs(rho*ga-(1-rho)*gc) > 1e-7 {
					t.Errorf("body %d at rho %g and %g: V GM %.9f and %.9f", seed, rho, 1-rho, rho*ga, (1-rho)*gc)
				}
			}
		}
	}
}

// Random bodies with the CG anywhere near: the list is complete, its rests are
// minima, every one has a pass to upright, and a body put down at any of 40
// directions falls to one of the list.
func TestAttitudesOfRandomBodies(t *testing.T) {
	for seed := range uint64(20) {
		b := homogeneous(t, shape.Star(100+seed, 2), 0.1+0.8*float64(seed)/20)
		b.CG = r3.Add(b.CG, r3.Vec{X: 0.02 * float64(seed%5), Y: 0.03 * float64(seed%3), Z: -0.1 + 0.02*float64(seed%7)})
		a := attitudes(t, b)
		for i := range a.List {
			s := &a.List[i]
			if gm, _ := s.GMLeast(); gm <= 0 {
				t.Errorf("body %d: least GM %g of a stable attitude", seed, gm)
			}
			if i > 0 && s.Energy < a.List[i-1].Energy-1e-9*b.Mass {
				t.Errorf("body %d: energy falls along the list", seed)
			}
			if i != a.Upright && !(s.Rise > 0 && s.TipRise > 0) {
				t.Errorf("body %d: rises %g and %g to the pass", seed, s.Rise, s.TipRise)
			}
		}
		for k := range 40 {
			// Directions spread by the golden angle.
			z := 1 - 2*(float64(k)+0.5)/40
			sin, cos := math.Sincos(float64(k) * math.Pi * (3 - math.Sqrt(5)))
			r := math.Sqrt(1 - z*z)
			rest, err := b.RestFrom(hydro.Attitude{Up: r3.Vec{X: r * cos, Y: r * sin, Z: z}, Height: math.NaN()})
			if err != nil {
				t.Fatal(err)
			}
			known := false
			for i := range a.List {
				known = known || r3.Norm(r3.Sub(rest.Up, a.List[i].Up)) < 1e-5
			}
			if !known {
				t.Errorf("body %d: falls to %v from direction %d, which is not in the list", seed, rest.Up, k)
			}
		}
	}
}

// Two plain box floats, 9 kg, CG 0.25 m up: upright, and on its back the same
// since the floats are symmetric top to bottom but for the CG, which then lies
// 0.15 m under the decks' plane. GM on its back by the wall-sided closed form:
// KB = 0.025, BM = 0.816667, KG = -0.15.
func TestAttitudesOfTwinBoxes(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	a := attitudes(t, b)
	if err := sameDirections(a.List, []r3.Vec{{Z: 1}, {Z: -1}}, 1e-6); err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0.025 + 0.81666666667 + 0.15, 0.5916666667} {
		if gm, _ := a.List[i].GMLeast(); math.Abs(gm-want) > 1e-9 {
			t.Errorf("twin boxes, attitude %d: GM %.9f, want %.9f", i, gm, want)
		}
	}
	if a.Upright != 1 {
		t.Errorf("twin boxes: upright is number %d, want 1: on its back lies lower", a.Upright)
	}
	// The energy falls by twice the CG's distance from the floats' middle.
	if fall := a.List[0].Rise - a.List[0].TipRise; math.Abs(fall-0.4) > 1e-9 {
		t.Errorf("twin boxes: on its back lies %.9f m lower, want 0.4", fall)
	}
}

// Twin floats and a wing of coarse facets, from light to nearly sinking, with
// the CG where few would put it. Valleys are narrow and passes shallow there:
// samples alone miss some. The count must still come out, every attitude must
// have a way to upright, and the search must stay within bounds.
func TestAttitudesOfCrafts(t *testing.T) {
	body := craft(t, 2100)
	reach := body.Hull.Volume() * 1000
	for i, c := range []struct{ mass, x, y, z float64 }{
		{4, 0.01, 0, 0.18}, {4, 0.01, 0.02, 0.18}, {0.8, -0.023, 0, 0.274}, {6.2, 0.009, -0.006, 0.123},
		{9, 0.03, 0, 0.05}, {2.1, 0.006, 0, 0.296}, {5.1, 0.07, -0.016, 0.235}, {0.9 * reach, 0.01, 0.002, 0.2},
	} {
		b := body
		b.Mass, b.CG = c.mass, r3.Vec{X: c.x, Y: c.y, Z: c.z}
		a := attitudes(t, &b)
		if t.Failed() {
			t.Fatalf("craft %d: %+v", i, c)
		}
		for k := range a.List {
			if s := &a.List[k]; k != a.Upright && s.At == nil {
				t.Errorf("craft %d: no way from attitude %d to upright", i, k)
			}
		}
		if a.Cuts > 15000 {
			t.Errorf("craft %d: %d cuts", i, a.Cuts)
		}
	}
}
