package mend

import (
	"testing"

	"millpond/mesh/bench"
	"millpond/mesh/shape"
)

// BenchmarkWeld: the triangles of a file, each with corners of its own, made to
// share them; and all that is done to close them into a solid, of which that is
// the first step.
func BenchmarkWeld(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		m := shape.Soup(bench.Float(size.Count))
		b.Run("by=weld", func(b *testing.B) {
			bench.InTurn(b, 1, func(int) {
				if verts, tris, err := weld(m); err != nil || len(tris) != len(m.Triangles) || len(verts) > len(tris) {
					b.Fatalf("%d vertices, %d triangles, %v", len(verts), len(tris), err)
				}
			})
		})
		b.Run("by=close", func(b *testing.B) {
			bench.InTurn(b, 1, func(int) {
				if _, err := Close(m, Options{}); err != nil {
					b.Fatal(err)
				}
			})
		})
	})
}
