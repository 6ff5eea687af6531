package main

import (
	"math"
	"testing"

	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// The scatter along a sweep is that of a craft built there: at the values it is
// worked out at, exactly; between them, within what interpolation leaves.
func TestScatterOver(t *testing.T) {
	f, err := craftfile.Read(demo("craft.toml"))
	if err != nil {
		t.Fatal(err)
	}
	mass, err := design.Vary(f.Craft, "mass", nil)
	if err != nil {
		t.Fatal(err)
	}
	show := design.Usual(f.Craft)[:4]
	at := func(m float64) (*craft.Craft, error) {
		return design.Changed(f.Craft, []design.Varied{mass}, []float64{m})
	}
	var values []float64
	for i := range 23 {
		values = append(values, 3+0.05*float64(i))
	}
	got := scatterOver(f, show, values, at)
	for _, i := range []int{0, 4, 9, 22} {
		c, err := at(values[i])
		if err != nil {
			t.Fatal(err)
		}
		want := (&design.Doubt{Craft: c, Tolerances: f.Tolerances, Show: show}).Sigmas()
		for k := range show {
			if math.Abs(got[k][i]-want[k]) > 0.02*math.Abs(want[k])+1e-9 {
				t.Errorf("at %.2f kg the scatter of %s is %g, want %g", values[i], show[k].Text(), got[k][i], want[k])
			}
		}
	}
	f.Tolerances = nil
	if got := scatterOver(f, show, values, at); got != nil {
		t.Errorf("without tolerances there is a scatter: %v", got)
	}
}
