package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// At the steady heel that a wind gives, its arm and the righting arm are equal:
// the two are worked out along different ways.
func TestWindArmMeetsTheRightingArm(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, Density: 1000}
	b.CG.Z = 0.25
	r, err := b.Rest()
	if err != nil {
		t.Fatal(err)
	}
	on := hydro.Areas{Side: 0.2, Front: 0.1, SideAt: r3.Vec{Z: 0.3}, FrontAt: r3.Vec{Z: 0.3}}
	w := hydro.NewWind(&r, on, 8, 3*math.Pi/2)
	p, err := r.Follow(hydro.Course{Load: w, Most: 1})
	if err != nil {
		t.Fatal(err)
	}
	end, ok := p.At(1)
	if !ok {
		t.Fatal("no attitude holds in the wind")
	}
	c, err := r.Righting(hydro.RightingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	at, err := c.At(end.Heel())
	if err != nil || end.Heel() < 0.005 {
		t.Fatalf("heel %g, on the curve: %v", end.Heel(), err)
	}
	near(t, "righting arm at the steady heel", at.GZ, w.Arm(end.Attitude), 1e-4)
}
