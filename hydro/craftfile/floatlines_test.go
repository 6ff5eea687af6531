package craftfile

import (
	"math"
	"testing"
)

func TestFloatLinesAndSheet(t *testing.T) {
	f := mustRead(t, `
name = "lines"
length_unit = "mm"
[[part]]
name = "float"
mesh = "wing.stl"
unit = "mm"
role = "flotation"
mass = "1 kg"
lines = { step_x = 12, deadrise = "20 deg", afterbody = "4 deg" }
[sheet]
propeller_x = 375
`)
	m := f.Craft.Parts[0].Marks
	if m.StepX == nil || math.Abs(*m.StepX-0.012) > 1e-15 || m.Deadrise == nil || m.Beam != nil {
		t.Errorf("lines = %+v, want step_x 0.012, a deadrise and no beam", m)
	}
	if f.Craft.PropellerX == nil || *f.Craft.PropellerX != 0.375 || f.Craft.TailX != nil {
		t.Errorf("sheet: propeller %v, tail %v; want 0.375 and none", f.Craft.PropellerX, f.Craft.TailX)
	}
}
