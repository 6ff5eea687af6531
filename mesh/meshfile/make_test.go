package meshfile

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// The files of the tests are made here from the definition of the format, not
// by way of the package or its library.

// tetrahedron holds the facets of the corner of a cube, with coordinates that
// float32 holds exactly.
var tetrahedron = []r3.Triangle{
	{{X: 0, Y: 0, Z: 0}, {X: 0, Y: 1, Z: 0}, {X: 1, Y: 0, Z: 0}},
	{{X: 0, Y: 0, Z: 0}, {X: 1, Y: 0, Z: 0}, {X: 0, Y: 0, Z: -2.5}},
	{{X: 0, Y: 0, Z: 0}, {X: 0, Y: 0, Z: -2.5}, {X: 0, Y: 1, Z: 0}},
	{{X: 1, Y: 0, Z: 0}, {X: 0, Y: 1, Z: 0}, {X: 0, Y: 0, Z: -2.5}},
}

// strip is triangle i of a wavy band, whose corners all differ.
func strip(i int) r3.Triangle {
	at := func(k int) r3.Vec {
		a := 0.01 * float64(k)
		return r3.Vec{X: a, Y: math.Sin(a) + float64(k%2), Z: math.Cos(1.7 * a)}
	}
	if i%2 == 0 {
		return r3.Triangle{at(i), at(i + 1), at(i + 2)}
	}
	return r3.Triangle{at(i + 1), at(i), at(i + 2)}
}

// binarySTL makes a binary file; the count may lie.
func binarySTL(header string, count uint32, facets []r3.Triangle) []byte {
	var b bytes.Buffer
	b.WriteString(header + strings.Repeat("\x00", 80-len(header)))
	binary.Write(&b, binary.LittleEndian, count)
	for _, t := range facets {
		binary.Write(&b, binary.LittleEndian, [3]float32{})
		for _, p := range t {
			binary.Write(&b, binary.LittleEndian, [3]float32{float32(p.X), float32(p.Y), float32(p.Z)})
		}
		binary.Write(&b, binary.LittleEndian, uint16(0))
	}
	return b.Bytes()
}

// asciiSTL makes an ASCII file of one solid.
func asciiSTL(name string, facets []r3.Triangle) string {
	var b strings.Builder
	fmt.Fprintf(&b, "solid %s\n", name)
	for _, t := range facets {
		b.WriteString("  facet normal 0 0 0\n    outer loop\n")
		for _, p := range t {
			fmt.Fprintf(&b, "      vertex %.9e %.9e %.9e\n", p.X, p.Y, p.Z)
		}
		b.WriteString("    endloop\n  endfacet\n")
	}
	fmt.Fprintf(&b, "endsolid %s\n", name)
	return b.String()
}

// read reads a file held in memory.
func read(data []byte) (*File, error) {
	return ReadFrom(bytes.NewReader(data), int64(len(data)), "in/float.stl")
}

// facetsOf returns the triangles of what was read.
func facetsOf(f *File) []r3.Triangle {
	var all []r3.Triangle
	for i := range f.Mesh.Triangles {
		all = append(all, f.Mesh.Triangle(i))
	}
	return all
}

// with returns a copy of the tetrahedron with one coordinate changed.
func with(facet, corner int, p r3.Vec) []r3.Triangle {
	t := append([]r3.Triangle(nil), tetrahedron...)
	t[facet][corner] = p
	return t
}
