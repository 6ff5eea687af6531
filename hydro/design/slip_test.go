package design_test

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

// A mass typed in grams for kilograms, or a place in meters for millimeters, is
// noticed. The floats are 0.8 m long and carry 16 kg when wholly under.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		name   string
		mass   float64 // kg
		height float64 // of the CG, m
		item   float64 // how far forward an item lies, m
		want   string  // in the only warning; empty for none
	}{
		{"as it should be", 5, 0.3, 0.7, ""},
		{"a light craft", 0.17, 0.05, 0, ""},
		{"a thousandth of the mass", 0.005, 0.05, 0, "only 0.031 % of the flotation's volume is needed to carry 5 g"},
		{"a CG above it by more than half its length", 5, 0.51, 0, "the CG lies 410 mm"},
		{"a CG in meters", 5, 50, 0, "the CG lies 49900 mm"},
		{"an item in meters", 5, 0.05, 30, `item "battery" lies 29600 mm`},
	} {
		model := twins(t, 0.8, 0.1, 0.1, c.mass, c.height)
		model.Items = []craft.Item{{Name: "battery", Mass: 0.1, At: r3.Vec{X: c.item}, On: -1}}
		trial, err := design.New(model)
		if err != nil {
			t.Fatal(err)
		}
		got := design.Slips(trial)
		if c.want == "" && len(got) > 0 || c.want != "" && (len(got) != 1 || !strings.Contains(got[0], c.want)) {
			t.Errorf("%s: Slips = %q, want %q", c.name, got, c.want)
		}
	}
}
