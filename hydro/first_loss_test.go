package hydro_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// A body with the righting moment We sin x of a pendulum, under a couple of We
// times the share of 1 + a exp(-((x-c)/w)²): it bears sin x over that, which
// has a first top before the hump at c, falls there and rises higher beyond.
// What holds ends at the first top, however narrow the fall.
func TestFirstLossBeforeAHump(t *testing.T) {
	const e = 0.2
	b := drum(t, 1440, e)
	full := b.Mass * hydro.Gravity * e
	rest := restOf(t, b)
	r := rand.New(rand.NewPCG(9, 2))
	for range 40 {
		a, w := 0.05+0.3*r.Float64(), (0.5+2.5*r.Float64())*rad
		c := (10 + 50*r.Float64()) * rad
		bears := func(x float64) float64 { return math.Sin(x) / (1 + a*math.Exp(-(x-c)*(x-c)/(w*w))) }
		x, dx := 0.0, 1e-5
		for bears(x+dx) > bears(x) {
			x += dx
		}
		load := hydro.LoadFunc(func(p hydro.Pose) hydro.Wrench {
			m := full * (1 + a*math.Exp(-(p.Heel()-c)*(p.Heel()-c)/(w*w)))
			ahead, _ := p.Headings()
			return hydro.Wrench{Moment: r3.Scale(m, ahead)}
		})
		p, err := rest.Follow(hydro.Course{Load: load, Most: 3})
		if err != nil {
			t.Fatal(err)
		}
		if at := p.Loss(); p.Stop != hydro.RollsOver || math.Abs(at.Share/bears(x)-1) > 1e-4 {
			t.Errorf("hump of %.3f at %.2f deg, %.2f deg wide: lost at %.6f, heel %.3f deg: %v; want %.6f, %.3f, %v",
				a, deg(c), deg(w), at.Share, deg(at.Heel()), p.Stop, bears(x), deg(x), hydro.RollsOver)
		}
	}
}

// Random bodies under random thrusts and couples lose their stability where steps a tenth
// as long say.
func TestFirstLossOfRandomBodies(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 7))
	lost := 0
	for i := range 60 {
		b := starBody(t, r, uint64(1000+i))
		rest := restOf(t, b)
		if rest.Neutral {
			continue
		}
		var load hydro.Load
		if weight := b.Mass * hydro.Gravity; i%2 == 0 {
			load = hydro.NewThrust(b, []hydro.ThrustLine{{
				At:     r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()},
				Along:  r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}),
				Most:   weight * r.Float64(),
				Torque: weight * 0.1 * r.NormFloat64(),
			}}, hydro.Reaction{Answer: hydro.AtHeight, Height: -0.1}, 1)
		} else {
			load = hydro.Couple{Pitch: weight * r.NormFloat64(), Roll: weight * r.NormFloat64()}
		}
		c := hydro.Course{Load: load, Most: 2}
		p, err := rest.Follow(c)
		if err != nil {
			t.Fatalf("body %d: %v", i, err)
		}
		fine, err := rest.FollowFiner(c, 10)
		if err != nil {
			t.Fatalf("body %d: %v", i, err)
		}
		at, want := p.Loss(), fine.Loss()
		if p.Stop == hydro.Unfollowed && math.Abs(at.Up.X) > 0.999 && math.Abs(want.Up.X) > 0.999 {
			continue // upright, a couple about ahead means nothing
		}
		if p.Stop != fine.Stop || math.Abs(at.Share/want.Share-1) > 1e-6 {
			t.Errorf("body %d: %v at %.7f, %.3f deg; with steps a tenth as long %v at %.7f, %.3f deg", i,
				p.Stop, at.Share, deg(hydro.Turned(rest.Up, at.Up)), fine.Stop, want.Share, deg(hydro.Turned(rest.Up, want.Up)))
		}
		if p.Lost() {
			lost++
		}
	}
	if lost < 20 {
		t.Errorf("only %d bodies lost their stability", lost)
	}
}
