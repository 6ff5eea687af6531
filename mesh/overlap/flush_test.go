package overlap_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"
)

// float32s rounds a mesh as a file does.
func float32s(m *mesh.Mesh) *mesh.Mesh {
	out := &mesh.Mesh{Triangles: m.Triangles}
	for _, v := range m.Vertices {
		out.Vertices = append(out.Vertices, r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))})
	}
	return out
}

// Boxes drawn with decimals, rounded to float32, in files of different units,
// and set on each other with decimals: their flush faces touch, whichever way
// rounding went.
func TestFlushButForRounding(t *testing.T) {
	above := 0
	for i := range 40 {
		high, up := 20.1+0.7*float64(i), 3.3*float64(i)
		lower := float32s(shape.BoxBetween(r3.Vec{}, r3.Vec{X: 100.3, Y: 50.7, Z: high}))
		inches := func(x float64) float64 { return x / 25.4 }
		upper := float32s(shape.BoxBetween(r3.Vec{X: inches(10.1), Y: inches(10.1)}, r3.Vec{X: inches(60.2), Y: inches(40.4), Z: 1}))
		for _, turned := range []float64{0, 0.3} {
			turn := mesh.Rotation(r3.Vec{Y: 1}, turned)
			a := mesh.Placed{Solid: solid(t, lower), Place: mesh.Translation(r3.Vec{Z: up}).Then(turn)}
			b := mesh.Placed{Solid: solid(t, upper), Place: mesh.Scaling(25.4, 25.4, 25.4).Then(mesh.Translation(r3.Vec{Z: up + high})).Then(turn)}
			for _, pair := range [2][2]mesh.Placed{{a, b}, {b, a}} {
				name := fmt.Sprintf("%d turned by %g", i, turned)
				s, err := overlap.Shared(pair[0], pair[1:])
				if err != nil || s == nil {
					t.Errorf("%s: Shared = %v, %v, want flush faces", name, s, err)
					continue
				}
				got := mesh.Placed{Solid: s, Place: pair[0].Place}
				if want := 2 * 50.1 * 30.3; math.Abs(got.Area()-want) > 1e-6*want {
					t.Errorf("%s: flush area %g, want %g", name, got.Area(), want)
				}
				if math.Abs(got.Volume()) > 1e-9*a.Volume() {
					t.Errorf("%s: flush boxes share %g", name, got.Volume())
				}
			}
		}
		if float64(float32(high)) < high {
			above++
		}
	}
	if above < 5 || above > 35 {
		t.Errorf("%d of 40 boxes were rounded down, want some and not all", above)
	}
	// A gap that a builder could mean stays one.
	a := inPlace(solid(t, shape.Box(1, 1, 1)))
	b := mesh.Placed{Solid: a.Solid, Place: mesh.Translation(r3.Vec{Z: 1 + 1e-6})}
	if s, err := overlap.Shared(a, []mesh.Placed{b}); s != nil || err != nil {
		t.Errorf("Shared over a gap of 1e-6 = %v, %v, want nothing", s, err)
	}
}
