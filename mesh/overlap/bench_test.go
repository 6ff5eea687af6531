package overlap_test

import (
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// BenchmarkShared works out what two bodies share. "crossing" are two of
// 100,000 facets each that pass through each other, "same" one on its own copy,
// where all facets coincide.
func BenchmarkShared(b *testing.B) {
	for _, ref := range references(b) {
		if ref.Name != "big_crossing" {
			continue
		}
		s := ref.solids(b)
		want := s[0].Volume() + s[1].Volume() - ref.Whole.CGAL.Volume
		b.Run("crossing", func(b *testing.B) { bench(b, s[0], s[1], want) })
		b.Run("same", func(b *testing.B) { bench(b, s[0], s[0], s[0].Volume()) })
		far := solid(b, shape.Transformed(ref.Parts[0].Generated.mesh(), mesh.Translation(r3.Vec{Z: 1000})))
		b.Run("apart", func(b *testing.B) { bench(b, s[0], far, 0) })
	}
}

func bench(b *testing.B, s, t *mesh.Solid, want float64) {
	b.ReportAllocs()
	for b.Loop() {
		c, err := overlap.Shared(inPlace(t), []mesh.Placed{inPlace(s)})
		if err != nil {
			b.Fatal(err)
		}
		if got := volumeOf(c); !(math.Abs(got-want) <= 1e-11*s.Volume()) {
			b.Fatalf("shared volume = %g, want %g", got, want)
		}
	}
}

func volumeOf(s *mesh.Solid) float64 {
	if s == nil {
		return 0
	}
	return s.Volume()
}

// BenchmarkOnce looks for crossings where there are none.
func BenchmarkOnce(b *testing.B) {
	verts, tris := welded(shape.Sphere(1, 500, 1000))
	b.Logf("%d facets", len(tris))
	for b.Loop() {
		_, _, c, err := overlap.Once(verts, tris, true)
		if err != nil || c.Facets > 0 {
			b.Fatalf("Once: %v, %v", c, err)
		}
	}
}
