package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// demoTrial returns the demo craft.
func demoTrial(t testing.TB) *design.Trial {
	t.Helper()
	f, err := craftfile.Read("../../testdata/demo/craft.toml")
	if err != nil {
		t.Fatal(err)
	}
	trial, err := design.New(f.Craft)
	if err != nil {
		t.Fatal(err)
	}
	return trial
}

// borne returns the share of a load that a craft bears at a trim, level across,
// and how it lies then: the moment about the level axis to port, bisected, with
// the volume that the weight and the load's lift leave. No stiffness and no path
// come into it. The lift must depend on the trim alone, as a wing's does.
func borne(t testing.TB, b *hydro.Body, load hydro.Load, trim float64) (float64, hydro.State) {
	t.Helper()
	up := hydro.UpVector(trim, 0)
	push := func(a hydro.Attitude) (hydro.Wrench, r3.Vec) {
		p := hydro.Pose{Attitude: a, Center: b.Hull.Center()}
		p.Rise = p.HeightOf(p.Center)
		p.T1, p.T2 = p.Headings()
		return load.Push(p).Wrench, p.T2
	}
	lift, _ := push(hydro.Attitude{Up: up})
	var at hydro.State
	moment := func(share float64) float64 {
		lighter := *b
		lighter.Mass -= share * r3.Dot(lift.Force, up) / hydro.Gravity
		var err error
		if at, err = lighter.Level(up); err != nil {
			t.Fatal(err)
		}
		w, port := push(at.Attitude)
		c := b.Hull.Center()
		m := r3.Cross(r3.Sub(b.CG, c), r3.Scale(-b.Mass*hydro.Gravity, up))
		m = r3.Add(m, r3.Cross(r3.Sub(at.CB, c), r3.Scale(b.Density*hydro.Gravity*at.Volume, up)))
		return r3.Dot(port, r3.Add(m, r3.Scale(share, w.Moment)))
	}
	lo, hi := 0.0, 2.0
	for range 45 {
		if middle := (lo + hi) / 2; moment(middle) > 0 == (moment(0) > 0) {
			lo = middle
		} else {
			hi = middle
		}
	}
	return lo, at
}

// The demo in a wind from ahead lets go at the first top of what it bears over
// its trim; further on it would bear more than at its stern deck's going under.
// An independent recomputation, with outlines drawn from the meshes' triangles
// at every attitude, has the top at 9.92 m/s and trim 7.0 deg, where it is so
// flat that half a degree makes 0.01 m/s.
func TestDemoLetsGoInWindFromAhead(t *testing.T) {
	trial := demoTrial(t)
	g, err := trial.Gale(0)
	if err != nil {
		t.Fatal(err)
	}
	speed, at, lost := g.Over()
	most, trim := 0.0, 0.0
	for d := 5.0; d < 12; d += 0.1 {
		share, _ := borne(t, trial.Body, g.Load, d*math.Pi/180)
		if share < most {
			break
		}
		most, trim = share, d
	}
	if want := hydro.Speed(most); !lost || math.Abs(speed-want) > 2e-3 || math.Abs(at.Trim()*180/math.Pi-trim) > 0.15 {
		t.Errorf("over at %.4f m/s, trim %.3f deg; want %.4f, %.1f", speed, at.Trim()*180/math.Pi, want, trim)
	}
	if math.Abs(speed-9.92) > 0.01 || math.Abs(at.Trim()*180/math.Pi-7) > 0.25 {
		t.Errorf("over at %.4f m/s, trim %.3f deg; want 9.92, 7.0", speed, at.Trim()*180/math.Pi)
	}
	// What goes under in a steady wind does so before it goes over.
	for _, d := range trial.Drenched(g) {
		if d.Steady > speed && !math.IsInf(d.Steady, 1) {
			t.Errorf("%s goes under at %.4f m/s, after the craft at %.4f", d.Name, d.Steady, speed)
		}
	}
	for _, p := range trial.Craft.Points {
		if p.Name != "stern deck" {
			continue
		}
		if h := at.HeightOf(trial.Craft.Follow(p.On, p.At)); math.Abs(h-0.003) > 0.001 {
			t.Errorf("it lets go with the stern deck %.2f mm over the water, want 3", h*1000)
		}
	}
}

// The demo in 5 m/s from ahead shows 780.5 cm2, by an independent recomputation
// that covers squares of half a millimeter with the meshes' triangles.
func TestDemoShowsFromAhead(t *testing.T) {
	trial := demoTrial(t)
	g, err := trial.Gale(0)
	if err != nil {
		t.Fatal(err)
	}
	at, ok := g.At(5)
	if _, area, _ := g.Load.Drag(at.Attitude); !ok || math.Abs(area*1e4-780.5) > 1 {
		t.Errorf("area %.2f cm2 at trim %.4f deg; want 780.5", area*1e4, at.Trim()*180/math.Pi)
	}
}
