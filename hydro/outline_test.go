package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A plate set at an incidence, seen edge on and near it from ahead and astern:
// chord times the sine and thickness times the cosine of its slope, by the
// span. As shown, that is exact but for the strips; on the way of a body it may
// be too large by half a step of the plan area where the plate is edge on.
func TestOutlineOfPlate(t *testing.T) {
	const chord, span, thick = 0.25, 1.6, 0.02
	const half = math.Pi / 180 / 2
	s := solid(t, shape.Box(chord, span, thick))
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		incidence, trim := draw("incidence", -5, 5)*rad, draw("trim", -20, 20)*rad
		place := mesh.Rotation(r3.Vec{Y: 1}, -incidence).Then(mesh.Translation(r3.Vec{Z: 2}))
		o := hydro.NewOutlines([]mesh.Placed{{Solid: s, Place: place}}, r3.Vec{})
		p := hydro.Pose{Attitude: hydro.Attitude{Up: hydro.UpVector(trim, 0), Height: 1}, Rise: 1}
		slope := trim + incidence
		want := span * (chord*math.Abs(math.Sin(slope)) + thick*math.Cos(slope))
		for _, from := range []float64{0, math.Pi} {
			area, height := o.Shown(p, from)
			middle := 1 + 2*math.Cos(trim) + thick/2*math.Cos(slope)
			if math.Abs(area/want-1) > 1e-3 || math.Abs(height-middle) > 1e-4 {
				rt.Errorf("Shown at slope %.3f deg: %.6f m2, %.5f m up; want %.6f, %.5f", deg(slope), area, height, want, middle)
			}
			area, _ = o.Exposed(p, from)
			if over := area - want; over < -2e-3*want || over > 2e-3*want+half*chord*span {
				rt.Errorf("Exposed at slope %.3f deg: %.6f m2; want %.6f, and at most %.6f more", deg(slope), area, want, half*chord*span)
			}
			if math.Abs(slope) > 2*half && math.Abs(area/want-1) > 2e-3 {
				rt.Errorf("Exposed at slope %.3f deg, not edge on: %.6f m2, want %.6f", deg(slope), area, want)
			}
		}
	})
}
