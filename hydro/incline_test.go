package hydro_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"millpond/hydro"
)

// demoShifts are the readings of the demo's tub: 720 g on a craft of 3.312 kg.
func demoShifts() []hydro.Shift {
	var out []hydro.Shift
	for i, heel := range []float64{1.0, 0.5, -0.1, -0.7, -1.2} {
		out = append(out, hydro.Shift{
			Weight: 0.72, Port: -0.1 + 0.05*float64(i),
			Heel: hydro.Reading{Value: heel * math.Pi / 180, Sigma: 0.1 * math.Pi / 180},
		})
	}
	return out
}

// The straight line is that of tan heel over the arm, since the weight and its
// place are known and the heel is what is read: against gonum's weighted
// regression, and its deviation against the inverse of the normal equations.
func TestPlainLine(t *testing.T) {
	const mass = 3.312
	for _, uneven := range []bool{false, true} {
		shifts := demoShifts()
		if uneven { // one read much more roughly, and far off
			shifts[4].Heel = hydro.Reading{Value: -1.6 * math.Pi / 180, Sigma: 0.5 * math.Pi / 180}
		}
		var arm, tan, weight []float64
		for _, s := range shifts {
			cos := math.Cos(s.Heel.Value)
			arm, tan = append(arm, -s.Weight*s.Port/mass), append(tan, math.Tan(s.Heel.Value))
			weight = append(weight, math.Pow(cos*cos/s.Heel.Sigma, 2))
		}
		zero, slope := stat.LinearRegression(arm, tan, weight, false)
		var normal, inverse mat.Dense
		normal.CloneFrom(mat.NewDense(2, 2, nil))
		scatter := 0.0
		for i, w := range weight {
			row := mat.NewVecDense(2, []float64{1, arm[i]})
			var one mat.Dense
			one.Outer(w, row, row)
			normal.Add(&normal, &one)
			scatter += w * math.Pow(tan[i]-zero-slope*arm[i], 2)
		}
		if err := inverse.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		got := hydro.PlainGM(shifts, mass)
		near(t, "GM", got.Value, 1/slope, 1e-12)
		sigma := math.Sqrt(scatter/3*inverse.At(1, 1)) / (slope * slope)
		near(t, "its deviation", got.Sigma, sigma, 1e-9)
	}
}

// Of heels read roughly the line is right in the mean, and its interval, by
// Student's distribution of three degrees of freedom, holds the truth as often
// as it should. A line fitted the other way round is low by the scatter of the
// heels over their spread, here some 7 %.
func TestPlainLineInTheMean(t *testing.T) {
	const mass, gm, runs = 3.3, 1.1, 4000
	sigma := 0.3 * math.Pi / 180
	r := rand.New(rand.NewPCG(3, 14))
	wide := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: 3}.Quantile(0.975)
	var slopes []float64
	inside := 0
	for range runs {
		shifts := demoShifts()
		for i := range shifts {
			s := &shifts[i]
			s.Heel = hydro.Reading{Value: math.Atan(-s.Weight*s.Port/mass/gm) + sigma*r.NormFloat64(), Sigma: sigma}
		}
		got := hydro.PlainGM(shifts, mass)
		slope := 1 / got.Value
		slopes = append(slopes, slope)
		if math.Abs(slope-1/gm) < wide*got.Sigma*slope*slope {
			inside++
		}
	}
	mean, deviation := stat.MeanStdDev(slopes, nil)
	if off := math.Abs(mean - 1/gm); off > 4*deviation/math.Sqrt(runs) {
		t.Errorf("1/GM comes out as %g in the mean, want %g", mean, 1/gm)
	}
	if share := float64(inside) / runs; math.Abs(share-0.95) > 4*math.Sqrt(0.95*0.05/runs) {
		t.Errorf("%.1f %% of the intervals hold GM, want 95 %%", 100*share)
	}
}
