package design_test

import (
	"math"
	"testing"

	"millpond/hydro/design"
)

// On box floats of area A, level, the draft is m/(rho A) and the trim moves by
// 1/GM per CG shift, GM being I/V + B above the keel - G: 0.9³ 0.2/12 / V + draft/2 - 0.25,
// whatever mass the floats are swept to.
func TestSigmas(t *testing.T) {
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	mass := vary(t, c, "mass")
	for _, m := range []float64{7, 9, 12} {
		d, err := design.Changed(c, []design.Varied{mass}, []float64{m})
		if err != nil {
			t.Fatal(err)
		}
		// Without a CG tolerance: the deepest point of a level box is at
		// either end, so that by trim its draft has a kink there.
		heavier := []design.Tolerance{{Varied: mass, Within: 0.2}}
		doubt := design.Doubt{Craft: d, Tolerances: heavier, Show: []design.Asked{find(t, c, "draft")}}
		near(t, "sigma of draft", doubt.Sigmas()[0], 0.1/180, 1e-9)
		doubt.Tolerances = append(heavier, design.Tolerance{Varied: vary(t, c, "cg x"), Within: 0.004})
		doubt.Show = []design.Asked{find(t, c, "mass"), find(t, c, "trim")}
		draft := m / 180
		gm := 0.9*0.9*0.9*0.2/12/(m/1000) + draft/2 - 0.25
		got := doubt.Sigmas()
		near(t, "sigma of mass", got[0], 0.1, 1e-9)
		near(t, "sigma of trim", got[1], 0.002/gm, 1e-9)
	}
	sunk, err := design.Changed(c, []design.Varied{mass}, []float64{20})
	if err != nil {
		t.Fatal(err)
	}
	doubt := design.Doubt{Craft: sunk, Tolerances: []design.Tolerance{{Varied: mass, Within: 0.2}}, Show: []design.Asked{find(t, c, "draft")}}
	if got := doubt.Sigmas(); !math.IsNaN(got[0]) {
		t.Errorf("what sinks has a sigma of draft of %g", got[0])
	}
}
