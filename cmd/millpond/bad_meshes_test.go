package main

import (
	"bytes"
	"encoding/binary"
	"math"
	"strings"

	"millpond/mesh"
	"millpond/mesh/meshfile"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// floatBox is a box float drawn in millimeters.
func floatBox() *mesh.Mesh {
	return shape.BoxBetween(r3.Vec{X: -450, Y: -50}, r3.Vec{X: 450, Y: 50, Z: 100})
}

// stl returns a mesh as a binary STL file.
func stl(m *mesh.Mesh) string {
	var b bytes.Buffer
	if err := meshfile.WriteSTL(&b, "box", len(m.Triangles), m.Triangle); err != nil {
		panic(err)
	}
	return b.String()
}

// count returns a binary STL file with another count in its header.
func count(file string, n uint32) string {
	data := []byte(file)
	binary.LittleEndian.PutUint32(data[80:], n)
	return string(data)
}

// coordinate returns a binary STL file with another x of facet i's first corner.
func coordinate(file string, i int, x float64) string {
	data := []byte(file)
	binary.LittleEndian.PutUint32(data[84+50*i+12:], math.Float32bits(float32(x)))
	return string(data)
}

// flip returns a mesh with one facet turned.
func flip(m *mesh.Mesh, i int) *mesh.Mesh {
	c := shape.Join(m)
	t := &c.Triangles[i]
	t[1], t[2] = t[2], t[1]
	return c
}

// double returns a mesh with one facet there twice.
func double(m *mesh.Mesh, i int) *mesh.Mesh {
	c := shape.Join(m)
	c.Triangles = append(c.Triangles, c.Triangles[i])
	return c
}

// halves returns two halves of a box that end a distance apart, without the
// faces between them.
func halves(gap float64) *mesh.Mesh {
	half := func(x0, x1, open float64) *mesh.Mesh {
		m := shape.BoxBetween(r3.Vec{X: x0, Y: -50}, r3.Vec{X: x1, Y: 50, Z: 100})
		var inner []int
		for i := range m.Triangles {
			if t := m.Triangle(i); t[0].X == open && t[1].X == open && t[2].X == open {
				inner = append(inner, i)
			}
		}
		return shape.Without(m, inner...)
	}
	return shape.Join(half(-450, 0, 0), half(gap, 450, gap))
}

// capless returns a ball without a cap above the given height, of radius 100.
func capless(height float64) *mesh.Mesh {
	m := shape.Transformed(shape.Icosphere(1, 4), mesh.Scaling(100, 100, 100))
	var cap []int
	for i := range m.Triangles {
		if m.Triangle(i).Centroid().Z > height {
			cap = append(cap, i)
		}
	}
	return shape.Without(m, cap...)
}

// moebius returns a closed strip with half a twist, doubled so that no edge is
// open: a surface without an inside.
func moebius() *mesh.Mesh {
	m := &mesh.Mesh{}
	const n = 24
	// The boundary of a thick strip would have an inside; a Klein bottle has
	// none. It passes through itself, which does not matter here.
	at := func(i, j int) uint32 {
		for i >= n {
			i -= n
			j = n - j
		}
		return uint32(i*n + ((j%n)+n)%n)
	}
	for i := range n {
		for j := range n {
			u, v := 2*math.Pi*float64(i)/n, 2*math.Pi*float64(j)/n
			r := 300 + 100*(math.Cos(u/2)*math.Sin(v)-math.Sin(u/2)*math.Sin(2*v))
			m.Vertices = append(m.Vertices, r3.Vec{X: r * math.Cos(u), Y: r * math.Sin(u), Z: 100 * (math.Sin(u/2)*math.Sin(v) + math.Cos(u/2)*math.Sin(2*v))})
		}
	}
	for i := range n {
		for j := range n {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			m.Triangles = append(m.Triangles, [3]uint32{a, b, c}, [3]uint32{a, c, d})
		}
	}
	return m
}

// ascii makes an ASCII STL file of a tetrahedron, with some text changed.
func ascii(change ...string) string {
	var b strings.Builder
	b.WriteString("solid float\n")
	p := [4]string{"0 0 0", "100 0 0", "0 100 0", "0 0 100"}
	for _, t := range [4][3]int{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}} {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, k := range t {
			b.WriteString("vertex " + p[k] + "\n")
		}
		b.WriteString("endloop\nendfacet\n")
	}
	b.WriteString("endsolid float\n")
	return strings.NewReplacer(change...).Replace(b.String())
}

// obj makes an OBJ file of a box, with some text changed.
func obj(change ...string) string {
	return strings.NewReplacer(change...).Replace("v 0 0 0\nv 100 0 0\nv 100 100 0\nv 0 100 0\nv 0 0 100\nv 100 0 100\nv 100 100 100\nv 0 100 100\n" +
		"f 1 4 3 2\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n")
}

// ply makes a PLY file of a box, with some text changed.
func ply(change ...string) string {
	return strings.NewReplacer(change...).Replace("ply\nformat ascii 1.0\nelement vertex 8\nproperty float x\nproperty float y\nproperty float z\n" +
		"element face 6\nproperty list uchar int vertex_indices\nend_header\n" +
		"0 0 0\n100 0 0\n100 100 0\n0 100 0\n0 0 100\n100 0 100\n100 100 100\n0 100 100\n" +
		"4 0 3 2 1\n4 4 5 6 7\n4 0 1 5 4\n4 1 2 6 5\n4 2 3 7 6\n4 3 0 4 7\n")
}
