package design_test

import (
	"context"
	"math"
	"reflect"
	"runtime"
	"testing"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

// On box floats, level, the linear theory is a closed form: sinkage per mass
// 1/(rho A), trim per CG shift 1/GM. Sampling must agree where it must: the
// standard deviation of 4,000 samples is good to 1.1 % (one over the square
// root of twice their number), so 5 % is four and a half of those.
func TestSureAgreesWithTheLinearTheory(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	d := design.Doubt{
		Craft: c,
		Tolerances: []design.Tolerance{
			{Varied: vary(t, c, "mass"), Within: 0.2},
			{Varied: vary(t, c, "cg x"), Within: 0.004},
			{Varied: vary(t, c, "water density"), From: 995, To: 1005},
		},
		Show:         []design.Asked{find(t, c, "draft"), find(t, c, "trim"), find(t, c, "mass"), find(t, c, "reserve buoyancy")},
		Requirements: []design.Requirement{require(t, c, "draft", none, 0.0515)},
		Samples:      4000, Seed: 7,
	}
	s, err := d.Work(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if s.NoRest != 0 || len(s.Bands) != 4 {
		t.Fatalf("%d samples without rest, %d bands", s.NoRest, len(s.Bands))
	}
	const gmL = 1.125
	perMass := 0.1 / (1000 * 0.18)
	perDensity := 10 / math.Sqrt(12) * 0.05 / 1000
	perShift := 0.002 / gmL
	// Draft is that of the deepest point: level it does not see the trim.
	trim, draft := s.Bands[1], s.Bands[0]
	near(t, "linear sigma of trim", trim.Linear, perShift, 1e-9)
	near(t, "sampled sigma of trim over the linear one", trim.Sigma/trim.Linear, 1, 0.05)
	near(t, "share of CG x in trim", trim.Shares[1], 1, 1e-9)
	if !trim.Exact[0] || !trim.Exact[1] || trim.Exact[2] {
		t.Errorf("exact derivatives: %v; want those of mass and CG", trim.Exact)
	}
	near(t, "slope of draft by mass", draft.Slopes[0], 1/(1000*0.18), 1e-9)
	near(t, "slope of draft by density", draft.Slopes[2], -0.05/1000, 1e-7)
	near(t, "mass sigma", s.Bands[2].Sigma/0.1, 1, 0.05)
	near(t, "ratio of shares, mass to density", math.Sqrt(draft.Shares[0]/draft.Shares[2]), perMass/perDensity, 1e-3)
	// 95 % of a normal lie within 1.96 sigma.
	mass := s.Bands[2]
	near(t, "low end of mass", (mass.Low-9)/0.1, -1.96, 0.15)
	near(t, "high end of mass", (mass.High-9)/0.1, 1.96, 0.15)
}

// The chance that a requirement on the mass alone holds is the normal
// distribution's: at one sigma, 84.134 %.
func TestSureChance(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	d := design.Doubt{
		Craft:        c,
		Tolerances:   []design.Tolerance{{Varied: vary(t, c, "mass"), Within: 0.2}},
		Requirements: []design.Requirement{require(t, c, "mass", none, 9.1)},
		Samples:      4000, Seed: 3,
	}
	s, err := d.Work(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "linear chance", s.Chances[0].Linear, 0.841345, 1e-6)
	near(t, "sampled chance", s.Chances[0].Holds, 0.841345, 4.5*s.Chances[0].Error)
}

// Exact derivatives agree with differences of whole solves.
func TestExactSlopes(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	c.Stated.At.X, c.Stated.At.Y = 0.01, 0.004 // off the middle, where the lowest point is one
	c.Points = []craft.Point{{Name: "hatch", At: c.Stated.At, On: -1}}
	today, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"mass", "cg x", "cg y", "cg z"} {
		for _, result := range []string{"trim", "heel", "draft", "clearance of hatch", "origin height"} {
			exact, differences, ok := design.BothSlopes(today, vary(t, c, name), find(t, c, result), 1e-5)
			if !ok {
				t.Errorf("%s by %s has no exact slope", result, name)
				continue
			}
			near(t, result+" by "+name, exact, differences, 1e-5*(1+math.Abs(differences)))
		}
	}
}

// The same seed gives the same answer on any number of processors, another
// seed another one.
func TestSureIsRepeatable(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	work := func(seed uint64, processors int) *design.Sureness {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		d := design.Doubt{
			Craft: c, Tolerances: []design.Tolerance{{Varied: vary(t, c, "mass"), Within: 0.2}},
			Show: []design.Asked{find(t, c, "draft")}, Samples: 60, Seed: seed,
		}
		s, err := d.Work(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	if a, b := work(1, 1), work(1, 4); a.Bands[0].Mean != b.Bands[0].Mean || !reflect.DeepEqual(a.Bands[0].Low, b.Bands[0].Low) {
		t.Error("the number of processors changes the answer")
	}
	if a, b := work(1, 2), work(2, 2); a.Bands[0].Mean == b.Bands[0].Mean {
		t.Error("another seed gives the same answer")
	}
}

// Samples that turn over are counted and miss what they are asked, even where
// they would meet it on their backs. Twin boxes 0.1 m wide, 0.4 m apart and 0.05
// m deep have their metacenter at 0.05/2 + (0.1^2/12 + 0.2^2)/0.05 = 0.842 m.
// With the CG over that by up to 0.016 m they lie at an angle of loll, by the
// wall-sided formula, until a float lifts; then they go over.
func TestSureCountsWhatTurnsOver(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.3)
	d := design.Doubt{
		Craft: c, Tolerances: []design.Tolerance{{Varied: vary(t, c, "cg z"), From: 0.3, To: 1.3}},
		Show:         []design.Asked{find(t, c, "heel")},
		Requirements: []design.Requirement{require(t, c, "reserve buoyancy", 0.8, none)}, Samples: 1000, Seed: 1,
	}
	s, err := d.Work(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	const loll = 0.842 + 0.016
	// Three standard errors of 1000 samples are 0.047.
	if got, want := float64(s.Fallen)/1000, 1.3-loll; math.Abs(got-want) > 0.05 {
		t.Errorf("%d of 1000 turn over, want %.0f", s.Fallen, 1000*want)
	}
	if got := s.Chances[0].Holds; math.Abs(got-(1-float64(s.Fallen)/1000)) > 1e-12 || s.NoRest != 0 {
		t.Errorf("reserve buoyancy holds in %g with %d turned over and %d without rest", got, s.Fallen, s.NoRest)
	}
	// The band of the heel is of those that stay up; on their backs it is 180
	// degrees.
	if b := s.Bands[0]; s.Ranged != 1000-s.Fallen || b.Low < -math.Pi/2 || b.High > math.Pi/2 || !(b.Low <= b.High) {
		t.Errorf("heel from %g to %g of %d samples, want none on its side or back, of %d", b.Low, b.High, s.Ranged, 1000-s.Fallen)
	}
}

// Samples that sink are counted and miss what they are asked.
func TestSureCountsWhatSinks(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 17.9, 0.02)
	d := design.Doubt{
		Craft: c, Tolerances: []design.Tolerance{{Varied: vary(t, c, "mass"), From: 17.8, To: 18.2}},
		Requirements: []design.Requirement{require(t, c, "mass", 0, none)}, Samples: 1000, Seed: 1,
	}
	s, err := d.Work(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	// Half of the range carries more than 18 kg.
	if math.Abs(float64(s.NoRest)/1000-0.5) > 0.07 || math.Abs(s.Chances[0].Holds-0.5) > 0.07 {
		t.Errorf("%d of 1000 sink, chance %g; want about half of each", s.NoRest, s.Chances[0].Holds)
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := d.Work(ended); err == nil {
		t.Error("no error although it was stopped")
	}
}

func TestToleranceCheck(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	for _, bad := range []design.Tolerance{{}, {Within: -1}, {From: 2, To: 1}, {From: 1, To: 1}} {
		bad.Varied = vary(t, c, "mass")
		if err := bad.Check(); err == nil {
			t.Errorf("Check(%+v): no error", bad)
		}
	}
}

// A difference of solves to both sides of a leap is no derivative.
func TestNoSlopeAcrossALeap(t *testing.T) {
	trial := demo(t, "heavy.toml")
	v, err := design.Vary(trial.Craft, "mass of water sampler", nil)
	if err != nil {
		t.Fatal(err)
	}
	// GM is not one of the results of the attitude alone.
	d := design.Doubt{
		Craft: trial.Craft, Tolerances: []design.Tolerance{{Varied: v, Within: 3.5}},
		Show: []design.Asked{find(t, trial.Craft, "gm least")}, Samples: 2, Seed: 1,
	}
	s, err := d.Work(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if !math.IsNaN(s.Bands[0].Slopes[0]) {
		t.Errorf("slope %g over ± 350 g, want none", s.Bands[0].Slopes[0])
	}
}
