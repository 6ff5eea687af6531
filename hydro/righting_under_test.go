package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// Places going under. A deck edge of the box of 12 x 8 m at 4 m goes under at
// atan(4/6), a point on the middle of its deck at 90 deg less nothing: by
// symmetry half of it is under there. The same on both sides.
func TestPlacesGoUnder(t *testing.T) {
	c := righting(t, hydro.Body{Hull: keelBox(t, 65, 12, 8), Mass: 3198e3, CG: r3.Vec{Z: 4}, Density: 1025}, hydro.RightingOptions{})
	for _, p := range []struct {
		at             r3.Vec
		falling, risen float64 // deg, NaN for never, 0 for wet at rest
	}{
		{r3.Vec{Y: -6, Z: 8}, math.NaN(), 33.690068},
		{r3.Vec{Y: 6, Z: 8}, -33.690068, math.NaN()},
		{r3.Vec{Y: 0, Z: 8}, -90, 90},
		{r3.Vec{Y: -5, Z: 1}, 0, 0},
	} {
		falling, rising, err := c.Under(hydro.Spot(p.at))
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range []struct {
			got  *hydro.RightingPoint
			want float64
		}{{falling, p.falling}, {rising, p.risen}} {
			switch {
			case side.got == nil && math.IsNaN(side.want):
			case side.got == nil || math.Abs(deg(side.got.Angle)-side.want) > 1e-6:
				t.Errorf("point %v goes under at %+v, want %g deg", p.at, side.got, side.want)
			}
		}
	}
}
