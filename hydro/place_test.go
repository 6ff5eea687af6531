package hydro_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// Of two sides that are equally low but for rounding the first is named; the
// height is that of the lowest to the last digit.
func TestSpotsNamesTheFirstOfEquals(t *testing.T) {
	const hair, lower = 1e-13, 1e-3
	up := hydro.Attitude{Up: r3.Vec{Z: 1}, Height: 0.5}
	for _, tt := range []struct {
		drop  float64
		wantY float64
	}{{0, 0.2}, {hair, 0.2}, {lower, -0.2}} {
		s := hydro.Spots{{Y: 0.2, Z: 0.1}, {Y: -0.2, Z: 0.1 - tt.drop}}
		height, at := s.Clearance(up)
		if want := up.HeightOf(s[1]); at.Y != tt.wantY || height != want {
			t.Errorf("%v.Clearance = %g, %v; want %g at y %g", s, height, at, want, tt.wantY)
		}
	}
}
