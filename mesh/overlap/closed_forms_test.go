package overlap_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"
)

// at returns a mesh set somewhere without a map, so that nothing is rounded
// but by the shift itself.
func at(m *mesh.Mesh, x, y, z float64) *mesh.Mesh {
	return shape.Transformed(m, mesh.Translation(r3.Vec{X: x, Y: y, Z: z}))
}

func sharedOf(t testing.TB, a, b *mesh.Mesh) *mesh.Solid {
	t.Helper()
	s, err := overlap.Shared(inPlace(solid(t, a)), []mesh.Placed{inPlace(solid(t, b))})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What two boxes share is a box, flat where they only touch.
func TestSharedBoxes(t *testing.T) {
	a := shape.BoxBetween(r3.Vec{}, r3.Vec{X: 3, Y: 4, Z: 5})
	tests := []struct {
		name         string
		lo, hi       r3.Vec
		volume, area float64
	}{
		{"corner", r3.Vec{X: 2, Y: 2, Z: 2}, r3.Vec{X: 9, Y: 9, Z: 9}, 1 * 2 * 3, 22},
		{"through", r3.Vec{X: -1, Y: 1, Z: 1}, r3.Vec{X: 4, Y: 2, Z: 2}, 3, 14},
		{"inside", r3.Vec{X: 1, Y: 1, Z: 1}, r3.Vec{X: 2, Y: 2, Z: 2}, 1, 6},
		{"around", r3.Vec{X: -1, Y: -1, Z: -1}, r3.Vec{X: 9, Y: 9, Z: 9}, 60, 94},
		{"same", r3.Vec{}, r3.Vec{X: 3, Y: 4, Z: 5}, 60, 94},
		{"flush inside", r3.Vec{X: 1, Y: 1}, r3.Vec{X: 2, Y: 2, Z: 1}, 1, 6},
		{"flush outside", r3.Vec{X: 1, Y: 1, Z: -1}, r3.Vec{X: 2, Y: 2}, 0, 2},
		{"flush over an edge", r3.Vec{X: 2, Y: 3, Z: -1}, r3.Vec{X: 4, Y: 5}, 0, 2},
		{"an edge", r3.Vec{X: 3, Y: 4}, r3.Vec{X: 4, Y: 5, Z: 5}, 0, 0},
		{"a corner", r3.Vec{X: 3, Y: 4, Z: 5}, r3.Vec{X: 4, Y: 5, Z: 6}, 0, 0},
		{"apart", r3.Vec{X: 3.5}, r3.Vec{X: 4, Y: 5, Z: 6}, 0, 0},
		{"a hair in", r3.Vec{X: 3 - 0x1p-40}, r3.Vec{X: 4, Y: 4, Z: 5}, 0x1p-40 * 20, 2*20 + 0x1p-40*18},
		{"a hair off", r3.Vec{X: 3 + 0x1p-40}, r3.Vec{X: 4, Y: 4, Z: 5}, 0, 0},
	}
	for _, tt := range tests {
		b := shape.BoxBetween(tt.lo, tt.hi)
		for _, refined := range []bool{false, true} {
			m := b
			if refined {
				m = shape.Refined(shape.Refined(b))
			}
			for _, pair := range [2][2]*mesh.Mesh{{a, m}, {m, a}} {
				s := sharedOf(t, pair[0], pair[1])
				if (s == nil) != (tt.area == 0) {
					t.Errorf("%s: Shared = %v, want an area of %g", tt.name, s, tt.area)
					continue
				}
				if s == nil {
					continue
				}
				// The volume is that of a thin box within a large one.
				if got := s.Volume(); math.Abs(got-tt.volume) > 1e-14*60 {
					t.Errorf("%s: volume = %.17g, want %g", tt.name, got, tt.volume)
				}
				if got := s.Area(); math.Abs(got-tt.area) > 1e-13*tt.area {
					t.Errorf("%s: area = %.17g, want %g", tt.name, got, tt.area)
				}
			}
		}
	}
}

// What two balls of radius r share at a distance of d is twice the cap of
// height h = r - d/2, of volume π h²(3r-h)/3. Balls of n by n facets come near
// it as 1/n².
func TestSharedBallsConverge(t *testing.T) {
	const r, d = 1, 1.2
	h := r - d/2.0
	want := 2 * math.Pi * h * h * (3*r - h) / 3
	last := math.Inf(1)
	for _, n := range []int{16, 32, 64, 128} {
		ball := shape.Sphere(r, n, n)
		// Set along an odd direction, so that no vertices coincide.
		dir := r3.Scale(d, r3.Unit(r3.Vec{X: 3, Y: 1, Z: 2}))
		s := sharedOf(t, ball, at(ball, dir.X, dir.Y, dir.Z))
		off := math.Abs(s.Volume()/want - 1)
		if off > 60/float64(n*n) || off > last/3 {
			t.Errorf("%d: off by %.3g, with half the facets a side by %.3g", n, off, last)
		}
		last = off
	}
}

// Two cylinders of radius r that cross at right angles share 16 r³/3
// (Archimedes, The Method, proposition 15, in Heath's translation).
func TestCrossedCylinders(t *testing.T) {
	const r = 0.5
	last := math.Inf(1)
	for _, n := range []int{32, 64, 128, 256} {
		up := at(shape.Cylinder(r, 3, n), 0, 0, -1.5)
		along := shape.Transformed(up, mesh.Affine{M: [3][3]float64{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}}})
		s := sharedOf(t, up, along)
		off := math.Abs(s.Volume()/(16*r*r*r/3) - 1)
		if off > 20/float64(n*n) || off > last/3.5 {
			t.Errorf("%d sides: off by %.3g, with half of them by %.3g", n, off, last)
		}
		last = off
	}
}

// Long bodies through one another in one place share what all three do only
// once.
func TestThreeBars(t *testing.T) {
	bar := shape.BoxBetween(r3.Vec{X: -5, Y: -1, Z: -1}, r3.Vec{X: 5, Y: 1, Z: 1})
	turned := func(k int) *mesh.Mesh {
		m := mesh.Affine{M: [3][3]float64{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}}}
		out := bar
		for range k {
			out = shape.Transformed(out, m)
		}
		return out
	}
	var parts []mesh.Placed
	for k := range 3 {
		parts = append(parts, inPlace(solid(t, turned(k))))
	}
	u := unite(t, parts...)
	// Six arms of 4 by 2 by 2 and the cube amid them.
	compare(t, u, 6*16+8, 6*(4*8+4), 1e-14)
}
