package meshfile

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func BenchmarkRead(b *testing.B) {
	const n = 1_000_000
	path := filepath.Join(b.TempDir(), "strip.stl")
	err := WriteWhole(path, false, func(w io.Writer) error { return WriteSTL(w, "strip", n, strip) })
	if err != nil {
		b.Fatal(err)
	}
	f, err := Read(path)
	if err != nil || len(f.Mesh.Triangles) != n {
		b.Fatalf("Read(strip.stl): %v", err)
	}
	b.Run("tris=1e6", func(b *testing.B) {
		b.SetBytes(binaryHeader + binaryFacet*n)
		b.ReportAllocs()
		for b.Loop() {
			if _, err := Read(path); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("bare=os.ReadFile", func(b *testing.B) {
		b.SetBytes(binaryHeader + binaryFacet*n)
		b.ReportAllocs()
		for b.Loop() {
			if _, err := os.ReadFile(path); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkReadASCII(b *testing.B) {
	const n = 100_000
	var facets []r3.Triangle
	for i := range n {
		facets = append(facets, strip(i))
	}
	text := []byte(asciiSTL("strip", facets))
	f, err := read(text)
	if err != nil || len(f.Mesh.Triangles) != n {
		b.Fatalf("read(strip): %v", err)
	}
	b.Run("tris=1e5", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		b.ReportAllocs()
		for b.Loop() {
			if _, err := read(text); err != nil {
				b.Fatal(err)
			}
		}
	})
}
