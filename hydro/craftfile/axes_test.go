package craftfile

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// TestDrawn takes every pair of axes: the nose comes to lie along +x and the
// top along +z, in meters, and nothing is mirrored.
func TestDrawn(t *testing.T) {
	right := 0
	for f, forward := range axes {
		for u, up := range axes {
			a, err := drawn(forward, up, 0.001)
			if f[1] == u[1] {
				if err == nil {
					t.Errorf("drawn(%s, %s) gives no error", f, u)
				}
				continue
			}
			if err != nil {
				t.Errorf("drawn(%s, %s): %v", f, u, err)
				continue
			}
			right++
			nearVec(t, "nose drawn toward "+f+", top "+u, a.Point(r3.Scale(1000, forward)), r3.Vec{X: 1})
			nearVec(t, "top drawn toward "+u+", nose "+f, a.Point(r3.Scale(1000, up)), r3.Vec{Z: 1})
			near(t, "determinant for "+f+", "+u, a.Det()*1e9, 1)
		}
	}
	if right != 24 {
		t.Errorf("%d pairs of axes are right, want 24: the turns of a cube", right)
	}
}

func TestAxisNames(t *testing.T) {
	for _, c := range []struct {
		text string
		want r3.Vec
	}{
		{"x", r3.Vec{X: 1}}, {"+X", r3.Vec{X: 1}}, {"-y", r3.Vec{Y: -1}}, {"\u2212z", r3.Vec{Z: -1}},
	} {
		if got, err := axis(c.text); err != nil || got != c.want {
			t.Errorf("axis(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "xx", "--x", "nose", "+", "w"} {
		if got, err := axis(text); err == nil {
			t.Errorf("axis(%q) = %v, want an error", text, got)
		}
	}
}
