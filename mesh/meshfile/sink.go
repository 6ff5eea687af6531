package meshfile

import (
	"fmt"
	"math"

	"github.com/hschendel/stl"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// sink takes the facets from the library, as they are decoded, straight into
// the vertices of a mesh. It stops taking at the first bad coordinate.
type sink struct {
	vertices []r3.Vec
	bad      *badCoordinate
}

var _ stl.Writer = (*sink)(nil)

// badCoordinate is a coordinate that is not finite or absurdly large.
type badCoordinate struct {
	facet, corner, axis int
	value               float64
}

// AppendTriangle takes one facet.
func (s *sink) AppendTriangle(t stl.Triangle) {
	if s.bad != nil {
		return
	}
	for corner, v := range t.Vertices {
		p := r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}
		// Written so that NaN fails.
		if !(math.Abs(p.X) <= MaxCoordinate && math.Abs(p.Y) <= MaxCoordinate && math.Abs(p.Z) <= MaxCoordinate) {
			s.reject(corner, p)
			return
		}
		s.vertices = append(s.vertices, p)
	}
}

func (s *sink) reject(corner int, p r3.Vec) {
	facet := len(s.vertices) / 3
	s.vertices = s.vertices[:3*facet]
	for axis, x := range [3]float64{p.X, p.Y, p.Z} {
		if !(math.Abs(x) <= MaxCoordinate) {
			s.bad = &badCoordinate{facet, corner, axis, x}
			return
		}
	}
}

// facets returns the number of facets taken.
func (s *sink) facets() int { return len(s.vertices) / 3 }

// fill moves what was taken into a mesh.
func (s *sink) fill(m *mesh.Mesh) {
	m.Vertices = s.vertices
	m.Triangles = make([][3]uint32, s.facets())
	for i := range m.Triangles {
		k := uint32(3 * i)
		m.Triangles[i] = [3]uint32{k, k + 1, k + 2}
	}
}

// reason says what is wrong with the coordinate.
func (b *badCoordinate) reason() string {
	axis := "xyz"[b.axis]
	switch {
	case math.IsNaN(b.value):
		return fmt.Sprintf("%c is NaN", axis)
	case math.IsInf(b.value, 0):
		return fmt.Sprintf("%c is infinite", axis)
	}
	return fmt.Sprintf("%c is %.6g, beyond any sensible size (%g)", axis, b.value, float64(MaxCoordinate))
}

// The rest of stl.Writer tells nothing that is not known before.

func (s *sink) SetName(string)          {}
func (s *sink) SetBinaryHeader([]byte)  {}
func (s *sink) SetASCII(bool)           {}
func (s *sink) SetTriangleCount(uint32) {}
