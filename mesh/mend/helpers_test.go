package mend

import (
	"math"
	"strings"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// brick returns a box between two corners.
func brick(x0, y0, z0, x1, y1, z1 float64) *mesh.Mesh {
	return shape.BoxBetween(r3.Vec{X: x0, Y: y0, Z: z0}, r3.Vec{X: x1, Y: y1, Z: z1})
}

// raw makes a mesh of bare triangles, each with corners of its own.
func raw(tris ...r3.Triangle) *mesh.Mesh {
	m := &mesh.Mesh{}
	for _, t := range tris {
		n := uint32(len(m.Vertices))
		m.Vertices = append(m.Vertices, t[0], t[1], t[2])
		m.Triangles = append(m.Triangles, [3]uint32{n, n + 1, n + 2})
	}
	return m
}

// facesAlong returns the numbers of the triangles of m whose unit normal is n.
func facesAlong(m *mesh.Mesh, n r3.Vec) (list []int) {
	for i := range m.Triangles {
		if r3.Norm(r3.Sub(r3.Unit(m.Triangle(i).Normal()), n)) < 1e-9 {
			list = append(list, i)
		}
	}
	return list
}

// flipped returns m with some triangles turned.
func flipped(m *mesh.Mesh, numbers ...int) *mesh.Mesh {
	c := shape.Join(m)
	for _, i := range numbers {
		t := &c.Triangles[i]
		t[1], t[2] = t[2], t[1]
	}
	return c
}

// mustClose closes m or ends the test.
func mustClose(t *testing.T, m *mesh.Mesh, opt Options) *Result {
	t.Helper()
	res, err := Close(m, opt)
	if err != nil {
		t.Fatalf("Close: %v", err)
	}
	return res
}

// wantVolume checks volume against a closed form, to rounding.
func wantVolume(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-12*math.Abs(want) {
		t.Errorf("%s = %.15g, want %.15g", what, got, want)
	}
}

// said reports whether one of the lines holds the text.
func said(lines []string, text string) bool {
	for _, l := range lines {
		if strings.Contains(l, text) {
			return true
		}
	}
	return false
}
