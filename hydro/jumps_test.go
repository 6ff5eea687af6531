package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// Steps of 2 deg find the jumps that steps of a quarter of a degree find. The
// bodies are some in which a step once landed on another branch, unseen.
func TestStepsFindTheSameJumps(t *testing.T) {
	for _, c := range []struct {
		seed      uint64
		axis      hydro.Axis
		full      float64 // share of the volume under
		x, y, z   float64 // of G, as shares of the box
		leastSeen int     // jumps
	}{
		{79, hydro.HeelAxis, 0.3285714, 0.56, 0.4571429, 0.6, 2},
		{141, hydro.HeelAxis, 0.2142857, 0.44, 0.4285714, 0.3, 1},
		{226, hydro.HeelAxis, 0.3285714, 0.44, 0.4571429, 0.3, 2},
		{268, hydro.PitchAxis, 0.3285714, 0.52, 0.4571429, 0.5, 2},
		{299, hydro.HeelAxis, 0.6714286, 0.56, 0.5428571, 0.6, 2},
	} {
		s := solid(t, shape.Star(c.seed, 3))
		h := hullOf(t, s)
		box := s.Box()
		at := func(lo, hi, share float64) float64 { return lo + (hi-lo)*share }
		b := hydro.Body{Hull: h, Mass: 1000 * h.Volume() * c.full, Density: 1000, CG: r3.Vec{
			X: at(box.Min.X, box.Max.X, c.x), Y: at(box.Min.Y, box.Max.Y, c.y), Z: at(box.Min.Z, box.Max.Z, c.z)}}
		got := righting(t, b, hydro.RightingOptions{Axis: c.axis}).Jumps
		want := righting(t, b, hydro.RightingOptions{Axis: c.axis, Step: 0.25 * degree}).Jumps
		if len(got) != len(want) || len(got) < c.leastSeen {
			t.Errorf("body %d: jumps %v in steps of 2 deg, want %v", c.seed, got, want)
			continue
		}
		for i := range got {
			if math.Abs(deg(got[i].Angle-want[i].Angle)) > 0.02 || math.Abs(deg(got[i].To-want[i].To)) > 0.1 {
				t.Errorf("body %d: a jump %+v in steps of 2 deg, want %+v", c.seed, got[i], want[i])
			}
		}
	}
}
