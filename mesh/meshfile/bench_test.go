package meshfile

import (
	"encoding/binary"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
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
	b.Run("bare=decoded by hand", func(b *testing.B) {
		b.SetBytes(binaryHeader + binaryFacet*n)
		b.ReportAllocs()
		for b.Loop() {
			if _, err := handDecode(path); err != nil {
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

// handDecode reads a binary file without the library and without a check: what
// reading must cost at least.
func handDecode(path string) (*mesh.Mesh, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	n := binary.LittleEndian.Uint32(data[80:])
	m := &mesh.Mesh{Vertices: make([]r3.Vec, 3*n), Triangles: make([][3]uint32, n)}
	for i := range n {
		record := data[binaryHeader+binaryFacet*i+12:][:36]
		for k := range uint32(3) {
			at := func(axis uint32) float64 {
				return float64(math.Float32frombits(binary.LittleEndian.Uint32(record[12*k+4*axis:])))
			}
			m.Vertices[3*i+k] = r3.Vec{X: at(0), Y: at(1), Z: at(2)}
		}
		m.Triangles[i] = [3]uint32{3 * i, 3*i + 1, 3*i + 2}
	}
	return m, nil
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
