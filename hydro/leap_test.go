package hydro_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// The log keeps its attitude up to the leap and not a trace further: rests from
// level, which follow nothing, change by little on the near side and by far
// across.
func TestLeap(t *testing.T) {
	log := skewLog(t)
	leap, err := log.Leap(nil)
	if err != nil {
		t.Fatal(err)
	}
	if leap.Sinks || leap.After == nil {
		t.Fatalf("it keeps its attitude until it sinks, want a leap")
	}
	heel := func(mass float64) float64 { return deg(rest(t, *log.Body().With(mass, nil)).Heel()) }
	last := heel(0)
	for part := 0.0; part <= 1; part += 1.0 / 64 {
		now := heel(part * leap.Mass)
		if math.Abs(now-last) > 3 {
			t.Errorf("at %g of the mass it has leaped already, from %g to %g deg", part, last, now)
		}
		last = now
	}
	const trace = 1e-4 // kg
	before, after := heel(leap.Mass-trace), heel(leap.Mass+trace)
	if math.Abs(after-before) < 20 {
		t.Errorf("from %g to %g deg at the leap, want far", before, after)
	}
	near(t, "heel after", deg(leap.After.Heel()), after, 0.01)
	if gm, _ := leap.Before.GMLeast(); gm < 0 || gm > 0.002 {
		t.Errorf("GM before the leap is %g, want nearly none left", gm)
	}
}

// With a low CG twin boxes keep level until they sink.
func TestNoLeap(t *testing.T) {
	at := rest(t, hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: -0.3}, Density: 1000})
	leap, err := at.Leap(nil)
	if err != nil {
		t.Fatal(err)
	}
	if !leap.Sinks || leap.After != nil {
		t.Errorf("it leaps at %g kg, want it to sink", leap.Mass)
	}
	near(t, "mass", leap.Mass, 9, 1e-9)
}

// Just before the leap a craft put down level still comes to the rest that was
// followed there; within a few thousandths of the mass it no longer does. Where
// the way down from level turns elsewhere while that rest goes on, it may still
// come there at one mass and not at the next.
func TestLeapOfRandomBodies(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 11))
	leaps := 0
	for i := range 400 {
		b := starBody(t, r, uint64(2000+i))
		at := restOf(t, b)
		if at.Neutral {
			continue
		}
		up := r3.Vec{X: 0.3 * r.NormFloat64(), Y: 0.3 * r.NormFloat64(), Z: 0.5 * r.NormFloat64()}
		leap, err := at.Leap(&up)
		if err != nil || leap.Sinks {
			continue
		}
		leaps++
		turned := func(more float64) float64 {
			s := rest(t, *b.With(leap.Mass*(1+more), &up))
			return deg(math.Acos(min(1, r3.Dot(s.Up, leap.Before.Up))))
		}
		if before := turned(-1e-4); before > 3 {
			t.Errorf("body %d: leap at %.6f kg: just before, from level, it rests %.2f deg off", i, leap.Mass, before)
		}
		if after := max(turned(1e-5), turned(1e-4), turned(1e-3), turned(3e-3)); after < 1 {
			t.Errorf("body %d: leap at %.6f kg: soon after, from level, it rests only %.2f deg off", i, leap.Mass, after)
		}
	}
	if leaps < 20 {
		t.Errorf("only %d of the bodies leap: too few to say much", leaps)
	}
}
