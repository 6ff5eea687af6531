package mesh

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// testBox returns the box from the origin to (l, b, h).
func testBox(t *testing.T, l, b, h float64) *Solid {
	t.Helper()
	var v []r3.Vec
	for i := range 8 {
		v = append(v, r3.Vec{X: l * float64(i&1), Y: b * float64(i>>1&1), Z: h * float64(i>>2)})
	}
	s, err := NewSolid(v, [][3]uint32{
		{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
		{2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5},
	})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A box cut level: the closed forms of any handbook.
func TestBelowLevelBox(t *testing.T) {
	const l, b, d = 0.9, 0.1, 0.05
	p := Placed{testBox(t, l, b, 0.1), Translation(r3.Vec{X: -l / 2, Y: -b / 2})}
	got := p.Below(Plane{r3.Vec{Z: 1}, -d}, r3.Vec{})
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"volume", got.Volume, l * b * d},
		{"moment z", got.Moment.Z, l * b * d * d / 2},
		{"area", got.Area, l * b},
		{"second moment xx", got.AreaSecond.XX, b * l * l * l / 12},
		{"second moment yy", got.AreaSecond.YY, l * b * b * b / 12},
		{"second moment zz", got.AreaSecond.ZZ, l * b * d * d},
		{"wetted area", p.WetArea(Plane{r3.Vec{Z: 1}, -d}), l*b + 2*d*(l+b)},
	} {
		if math.Abs(c.got-c.want) > 1e-15 {
			t.Errorf("%s = %.17g, want %.17g", c.name, c.got, c.want)
		}
	}
}
