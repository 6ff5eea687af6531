package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// The pieces bound the cut face: their line integrals give its area with a
// positive sign, the same as the section's, mirrored or not.
func TestSegmentsBoundTheCut(t *testing.T) {
	for _, place := range []mesh.Affine{mesh.Identity(), mesh.Scaling(1, -2, 0.5), mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 3}, 0.7)} {
		for seed := range uint64(10) {
			p := mesh.Placed{Solid: solidOf(t, shape.Star(seed, 2)), Place: place}
			n := r3.Unit(r3.Vec{X: 0.2, Y: -0.1, Z: 1})
			pl := mesh.Plane{Normal: n, Offset: 0.05 - r3.Dot(n, p.Centroid())}
			var twice r3.Vec
			p.Segments(pl, func(a, b r3.Vec) { twice = r3.Add(twice, r3.Cross(a, b)) })
			want := p.Below(pl, r3.Vec{}).Area
			if got := r3.Dot(n, twice) / 2; math.Abs(got-want) > 1e-12 {
				t.Errorf("star %d: the pieces enclose %g, the cut has %g", seed, got, want)
			}
		}
	}
}
