package hydro_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// tank returns a liquid in the box between two corners.
func tank(t testing.TB, lo, hi r3.Vec, share, density float64) hydro.Liquid {
	t.Helper()
	space := slot(t, lo, hi, 1)
	return hydro.Liquid{
		Space:   []hydro.Term{{Placed: space.Solids[0], Weight: 1}},
		Volume:  share * space.Volume(),
		Density: density,
	}
}

// armAt returns the righting arm of a body held at a heel, free to sink, with
// the trim held at zero.
func armAt(t testing.TB, b *hydro.Body, heel float64) float64 {
	t.Helper()
	s, err := b.Level(hydro.UpVector(0, heel))
	if err != nil {
		t.Fatal(err)
	}
	sin, cos := math.Sincos(heel)
	return r3.Dot(r3.Vec{Y: cos, Z: -sin}, r3.Sub(s.CG, s.CB))
}

// A box afloat with a box tank in it, both wall-sided: the center of either
// wanders by (I/v) tan t to the side and half of that times tan t up, so that
//
//	GZ = sin t (GM + (I - k i)/V tan²t / 2),  GM = KB + (I - k i)/V - KG
//
// with i the tank's own second moment and k the liquid's density over that of
// the water: the textbooks' free surface correction k i/V (Derrett and
// Barrass, Ship Stability for Masters and Mates, on the effect of free surface
// of liquids; formula from memory), exact here as long as only walls are cut.
func TestFreeSurface(t *testing.T) {
	const (
		length, beam, height = 2.0, 0.6, 0.4
		dry                  = 150.0
		kg                   = 0.16
	)
	for _, c := range []struct {
		name           string
		x0, x1, y0, y1 float64 // of the tank; its floor at 0.02, its lid at 0.38
		share, density float64
		divided        bool // a bulkhead lengthwise in the middle
	}{
		{"across the beam", -0.3, 0.3, -0.3, 0.3, 0.4, 1000, false},
		{"half the beam, to one side", 0.1, 0.7, 0, 0.3, 0.5, 1000, false},
		{"fuel", -0.3, 0.3, -0.2, 0.2, 0.5, 740, false},
		{"brine in salt water", -0.3, 0.3, -0.2, 0.2, 0.5, 1200, false},
		{"divided: a quarter of the loss", -0.3, 0.3, -0.3, 0.3, 0.4, 1000, true},
	} {
		body := &hydro.Body{Hull: keelBox(t, length, beam, height), Mass: dry, CG: r3.Vec{Z: kg}, Density: 1025}
		edges := [][2]float64{{c.y0, c.y1}}
		if c.divided {
			mid := (c.y0 + c.y1) / 2
			edges = [][2]float64{{c.y0, mid}, {mid, c.y1}}
		}
		second, mass, moment := 0.0, 0.0, r3.Vec{}
		for _, e := range edges {
			l := tank(t, r3.Vec{X: c.x0, Y: e[0], Z: 0.02}, r3.Vec{X: c.x1, Y: e[1], Z: 0.38}, c.share, c.density)
			body = body.WithLiquid(l)
			at := r3.Vec{X: (c.x0 + c.x1) / 2, Y: (e[0] + e[1]) / 2, Z: 0.02 + 0.36*c.share/2}
			mass += l.Mass()
			moment = r3.Add(moment, r3.Scale(l.Mass(), at))
			second += c.density * (c.x1 - c.x0) * math.Pow(e[1]-e[0], 3) / 12
		}
		total := dry + mass
		g := r3.Scale(1/total, r3.Add(r3.Vec{Z: dry * kg}, moment)) // with the tank upright
		volume := total / 1025
		draft := volume / (length * beam)
		bm := (length*math.Pow(beam, 3)/12 - second/1025) / volume
		gm := draft/2 + bm - g.Z
		level, err := body.Level(r3.Vec{Z: 1})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name+": GM", level.GMTransverse(), gm, 1e-10)
		near(t, c.name+": G, y", level.CG.Y, g.Y, 1e-12)
		near(t, c.name+": G, z", level.CG.Z, g.Z, 1e-12)
		for _, deg := range []float64{-15, -3, 5, 10, 20} {
			heel := deg * math.Pi / 180
			sin, cos := math.Sincos(heel)
			want := sin*(gm+bm*math.Pow(math.Tan(heel), 2)/2) + g.Y*cos
			near(t, fmt.Sprintf("%s: GZ at %g deg", c.name, deg), armAt(t, body, heel), want, 1e-10)
		}
		if g.X == 0 && g.Y == 0 { // the trim stays zero of itself: the curve is the same
			curve := righting(t, *body, hydro.RightingOptions{})
			sin, tan := math.Sin(math.Pi/18), math.Tan(math.Pi/18)
			near(t, c.name+": righting curve at 10 deg", gzAt(t, curve, 10), sin*(gm+bm*tan*tan/2), 1e-9)
		}
	}
}

// A liquid in a round tank weighs on its middle whatever its level: the
// surface's pressure goes through there. So a ball of any filling is a weight
// at its center, at every attitude, but for the facets.
func TestRoundTank(t *testing.T) {
	body := &hydro.Body{Hull: keelBox(t, 1, 0.5, 0.4), Mass: 60, CG: r3.Vec{X: 0.02, Y: -0.015, Z: 0.1}, Density: 1000}
	ball := mesh.Placed{Solid: solid(t, shape.Icosphere(0.12, 5)), Place: mesh.Translation(r3.Vec{X: 0.15, Y: 0.1, Z: 0.2})}
	for _, share := range []float64{0.05, 0.5, 0.9} {
		l := hydro.Liquid{Space: []hydro.Term{{Placed: ball, Weight: 0.9}}, Density: 1000}
		l.Volume = share * l.Room()
		loose, err := body.WithLiquid(l).Rest()
		if err != nil {
			t.Fatal(err)
		}
		at := r3.Vec{X: 0.15, Y: 0.1, Z: 0.2}
		fixed, err := body.With(l.Mass(), &at).Rest()
		if err != nil {
			t.Fatal(err)
		}
		const facets = 5e-4 // of 20,480 facets the sphere is off by 1.2e-4 in radius
		near(t, fmt.Sprintf("filled %g: trim", share), loose.Trim(), fixed.Trim(), facets)
		near(t, fmt.Sprintf("filled %g: heel", share), loose.Heel(), fixed.Heel(), facets)
		near(t, fmt.Sprintf("filled %g: GM", share), loose.GMTransverse(), fixed.GMTransverse(), facets)
	}
}

// Random bodies with random tanks: the solve ends in balance, at the least
// energy nearby, and the exact response is what a small weight does. The
// response comes from the energy's second derivatives, the difference of two
// rests only from the first.
func TestLiquidResponds(t *testing.T) {
	compared := 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 5))
		hull := hullOf(t, solid(t, shape.Star(seed, 3)))
		inner := mesh.Placed{
			Solid: solid(t, shape.Star(seed+1000, 3)),
			Place: mesh.Scaling(0.4, 0.3, 0.25).Then(mesh.Rotation(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: 1}, 6*r.Float64())).Then(mesh.Translation(r3.Add(hull.Center(), r3.Vec{X: 0.1 * r.NormFloat64()}))),
		}
		l := hydro.Liquid{Space: []hydro.Term{{Placed: inner, Weight: 1}}, Density: 800}
		l.Volume = r.Float64() * l.Room()
		mass := (0.3 + 0.4*r.Float64()) * hull.Volume() * 1000
		body := (&hydro.Body{Hull: hull, Mass: mass - min(l.Mass(), mass/2), CG: r3.Add(hull.Center(), r3.Vec{Z: -0.1 * hull.Size()}), Density: 1000}).WithLiquid(l)
		rest, err := body.Rest()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if rest.Residual > 1e-9 {
			t.Errorf("seed %d: residual %g", seed, rest.Residual)
		}
		gm, _ := rest.GMLeast()
		if gm < 0.01*hull.Size() {
			continue // too soft for a difference to tell
		}
		compared++
		at := r3.Add(rest.CG, r3.Vec{X: 0.3, Y: 0.2, Z: 0.1})
		change := rest.Added(at)
		step := 1e-5 * body.Mass
		plus, err1 := body.With(step, &at).RestFrom(rest.Attitude)
		minus, err2 := body.With(-step, &at).RestFrom(rest.Attitude)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		difference := r3.Scale(1/(2*step), r3.Sub(plus.Up, minus.Up))
		if off := r3.Norm(r3.Sub(difference, change.Up)); off > 1e-4*r3.Norm(change.Up) {
			t.Errorf("seed %d: Added turns by %v per kg, two rests differ by %v", seed, change.Up, difference)
		}
	}
	if compared < 20 {
		t.Errorf("only %d bodies were stiff enough to compare", compared)
	}
}

func TestLiquidRefuses(t *testing.T) {
	body := &hydro.Body{Hull: keelBox(t, 1, 0.3, 0.2), Mass: 20, CG: r3.Vec{Z: 0.05}, Density: 1000}
	for _, c := range []struct {
		name            string
		volume, density float64
	}{
		{"more than fits", 1, 1000},
		{"less than none", -0.001, 1000},
		{"not a number", math.NaN(), 1000},
		{"weightless", 0.001, 0},
	} {
		l := tank(t, r3.Vec{Z: 0.05}, r3.Vec{X: 0.1, Y: 0.1, Z: 0.1}, 1, c.density)
		l.Volume = c.volume
		b := *body
		b.Liquids = []hydro.Liquid{l}
		if _, err := b.Rest(); err == nil {
			t.Errorf("%s: Rest gave no error", c.name)
		}
	}
}
