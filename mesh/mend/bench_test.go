package mend

import (
	"fmt"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// BenchmarkClose is the whole of Close on one shell, three vertices to each
// triangle as an STL reader gives them.
func BenchmarkClose(b *testing.B) {
	for _, n := range []int{100, 316, 1000} {
		m := shape.Soup(shape.Torus(3, 1, n, n/2))
		b.Run(fmt.Sprintf("tris=%d", len(m.Triangles)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Close(m, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	m := shape.Shuffled(shape.Soup(shape.Torus(3, 1, 1000, 500)), 1)
	b.Run("shuffled", func(b *testing.B) {
		for b.Loop() {
			if _, err := Close(m, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
	hollow := shape.Soup(shape.Join(shape.Torus(3, 1, 700, 350), shape.InsideOut(shape.Torus(3, 0.99, 700, 350))))
	b.Run("hollow", func(b *testing.B) {
		for b.Loop() {
			if _, err := Close(hollow, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkCloseSteps times the steps of Close by themselves.
func BenchmarkCloseSteps(b *testing.B) {
	m := shape.Soup(shape.Torus(3, 1, 1000, 500))
	verts, tris, err := weld(m)
	if err != nil {
		b.Fatal(err)
	}
	w := &work{verts: verts, tris: tris, first: true}
	b.Run("weld", func(b *testing.B) {
		for b.Loop() {
			weld(m)
		}
	})
	b.Run("connect", func(b *testing.B) {
		for b.Loop() {
			w.connect()
		}
	})
	b.Run("orient", func(b *testing.B) {
		for b.Loop() {
			if err := w.orient(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("slivers", func(b *testing.B) {
		for b.Loop() {
			w.slivers()
		}
	})
	var list, start []uint32
	b.Run("measure", func(b *testing.B) {
		for b.Loop() {
			list, start = w.settleShells()
			w.flood()
		}
	})
	scratch := make([]uint32, len(w.verts))
	for i := range scratch {
		scratch[i] = none
	}
	_, _ = list, start
	b.Run("solid", func(b *testing.B) {
		for b.Loop() {
			if _, err := solid(w.verts, w.tris, scratch); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkCross compares two bodies of 100,000 triangles each.
func BenchmarkCross(b *testing.B) {
	res, err := Close(shape.Torus(3, 1, 316, 158), Options{})
	if err != nil {
		b.Fatal(err)
	}
	at := func(x float64) mesh.Placed {
		return mesh.Placed{Solid: res.Solid, Place: mesh.Translation(r3.Vec{X: x})}
	}
	b.Logf("%d triangles", res.Solid.Triangles())
	for _, c := range []struct {
		name string
		b    mesh.Placed
		want Relation
	}{
		{"apart", at(9), Apart},
		{"crossing", at(1), Crossing},
		{"same", at(0), Same},
		{"touching", mesh.Placed{Solid: res.Solid, Place: mesh.Scaling(-1, 1, 1).Then(mesh.Translation(r3.Vec{X: 2 * res.Box.Max.X}))}, Touching},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if got := Cross(at(0), c.b); got != c.want {
					b.Fatalf("got %v, want %v", got, c.want)
				}
			}
		})
	}
}
