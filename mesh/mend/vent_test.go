package mend

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/shape"
)

// A box of 10 with a cavity of 8 in it, a solid of 4 in that, a cavity of 2 in
// that, and beside the solid two blocks that cross.
func TestVent(t *testing.T) {
	cube := func(h float64) float64 { return 8 * h * h * h }
	m := shape.Join(
		brick(-5, -5, -5, 5, 5, 5),
		shape.InsideOut(brick(-4, -4, -4, 4, 4, 4)),
		brick(-2, -2, -2, 2, 2, 2),
		shape.InsideOut(brick(-1, -1, -1, 1, 1, 1)),
		brick(2.5, 0, 0, 3.5, 1, 1),
		brick(2.5, 0.5, 0.5, 3.5, 1.5, 1.5),
	)
	res := mustClose(t, m, Options{})
	wantVolume(t, "volume", res.Volume, cube(5))
	tests := []struct {
		name   string
		points []r3.Vec
		volume float64
		error  string
	}{
		{"none", nil, cube(5), ""},
		{"outer cavity", []r3.Vec{{X: 3, Y: -3, Z: -3}}, cube(5) - cube(4) + cube(2) + 1.75, ""},
		{"named twice", []r3.Vec{{X: 3, Y: -3, Z: -3}, {X: -3}}, cube(5) - cube(4) + cube(2) + 1.75, ""},
		{"inner cavity", []r3.Vec{{}}, cube(5) - cube(1), ""},
		{"both", []r3.Vec{{}, {Z: 3}}, cube(5) - cube(4) + cube(2) + 1.75 - cube(1), ""},
		{"outside", []r3.Vec{{X: 7}}, 0, "outside the mesh"},
		{"in the wall", []r3.Vec{{X: 4.5}}, 0, "in solid material"},
		{"in the inner solid", []r3.Vec{{X: 1.5}}, 0, "in solid material"},
		{"in a block", []r3.Vec{{X: 3, Y: 0.7, Z: 0.7}}, 0, "in solid material"},
	}
	for _, tt := range tests {
		s, _, err := res.Vent(tt.points)
		var vent *VentError
		switch {
		case tt.error != "":
			if !errors.As(err, &vent) || !strings.Contains(err.Error(), tt.error) || !strings.Contains(err.Error(), "shell 2") {
				t.Errorf("%s: Vent = %v, want an error that says %q and names the cavity", tt.name, err, tt.error)
			}
		case err != nil:
			t.Errorf("%s: Vent = %v", tt.name, err)
		case math.Abs(s.Volume()-tt.volume) > 1e-12*tt.volume:
			t.Errorf("%s: volume %g, want %g", tt.name, s.Volume(), tt.volume)
		}
	}
}
