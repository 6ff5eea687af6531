package mesh_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

func TestNewSolidRefuses(t *testing.T) {
	withVertex := func(v r3.Vec) *mesh.Mesh {
		m := shape.Box(1, 1, 1)
		m.Vertices[5] = v
		return m
	}
	withCorner := func(n uint32) *mesh.Mesh {
		m := shape.Box(1, 1, 1)
		m.Triangles[7][1] = n
		return m
	}
	turned := shape.Box(1, 1, 1)
	turned.Triangles[3] = [3]uint32{turned.Triangles[3][1], turned.Triangles[3][0], turned.Triangles[3][2]}
	doubled := shape.Box(1, 1, 1)
	doubled.Triangles = append(doubled.Triangles, doubled.Triangles[4])
	flat := &mesh.Mesh{Vertices: []r3.Vec{{}, {X: 1}, {Y: 1}}, Triangles: [][3]uint32{{0, 1, 2}, {0, 2, 1}}}
	for _, tt := range []struct {
		name string
		body *mesh.Mesh
		want string // in the message
	}{
		{"nothing", &mesh.Mesh{}, "no triangles"},
		{"vertices alone", &mesh.Mesh{Vertices: shape.Box(1, 1, 1).Vertices}, "no triangles"},
		{"no vertices", &mesh.Mesh{Triangles: [][3]uint32{{0, 1, 2}}}, "vertex 0 of 0"},
		{"open by one triangle", shape.Without(shape.Box(1, 1, 1), 6), "do not close"},
		{"open by two triangles", shape.Without(shape.Star(1, 1), 6, 50), "do not close"},
		{"not welded", shape.Soup(shape.Box(1, 1, 1)), "do not close"},
		{"one triangle turned", turned, "do not close"},
		{"one triangle twice", doubled, "do not close"},
		{"index one too large", withCorner(8), "triangle 7 names vertex 8 of 8"},
		{"index far too large", withCorner(math.MaxUint32), "triangle 7 names vertex 4294967295 of 8"},
		{"NaN", withVertex(r3.Vec{Y: math.NaN()}), "vertex 5 is not finite"},
		{"infinite", withVertex(r3.Vec{Z: math.Inf(-1)}), "vertex 5 is not finite"},
		{"inside out", shape.InsideOut(shape.Box(1, 1, 1)), "inside out"},
		{"cavity larger than its body", shape.Join(shape.Box(1, 1, 1), shape.InsideOut(shape.Box(2, 2, 2))), "must be positive"},
		{"no volume", flat, "must be positive"},
		{"beyond all size", shape.Box(1e200, 1e200, 1e200), "volume"},
	} {
		s, err := mesh.NewSolid(tt.body.Vertices, tt.body.Triangles)
		if err == nil || s != nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: NewSolid = %v, %v, want an error with %q", tt.name, s, err, tt.want)
		}
	}
}

// A closed chain is enough: edges that four triangles share and triangles of no
// area are let through.
func TestNewSolidTakesAnyClosedChain(t *testing.T) {
	box := shape.Box(1, 1, 1)
	// Two boxes with an edge in common: four triangles meet there.
	m := shape.Join(box, moved(box, 1, 1, 0))
	number := map[r3.Vec]uint32{}
	for i, t := range m.Triangles {
		for k, v := range t {
			p := m.Vertices[v]
			if _, ok := number[p]; !ok {
				number[p] = v
			}
			m.Triangles[i][k] = number[p]
		}
	}
	if len(number) != 14 {
		t.Fatalf("%d places for vertices, want 14", len(number))
	}
	m.Triangles = append(m.Triangles, [3]uint32{0, 1, 0}, [3]uint32{1, 0, 0})
	if got := solidOf(t, m).Volume(); math.Abs(got-2) > 1e-15 {
		t.Errorf("Volume = %.17g, want 2", got)
	}
}

// What NewSolid keeps is what it was given.
func TestSolidKeepsItsMesh(t *testing.T) {
	m := moved(shape.Box(3, 2, 1), 100, -50, 25)
	s := solidOf(t, m)
	if s.Triangles() != len(m.Triangles) || s.Vertices() != len(m.Vertices) {
		t.Fatalf("%d triangles and %d vertices, want %d and %d", s.Triangles(), s.Vertices(), len(m.Triangles), len(m.Vertices))
	}
	for i, want := range m.Vertices {
		if got := s.Vertex(i); got != want {
			t.Errorf("Vertex(%d) = %v, want %v", i, got, want)
		}
	}
	for i := range m.Triangles {
		if got, want := s.Triangle(i), m.Triangle(i); got != want {
			t.Errorf("Triangle(%d) = %v, want %v", i, got, want)
		}
		if got, want := s.Corners(i), m.Triangles[i]; got != want {
			t.Errorf("Corners(%d) = %v, want %v", i, got, want)
		}
	}
	if got, want := s.Box(), (r3.Box{Min: r3.Vec{X: 98.5, Y: -51, Z: 25}, Max: r3.Vec{X: 101.5, Y: -49, Z: 26}}); got != want {
		t.Errorf("Box = %v, want %v", got, want)
	}
	if got := s.Volume(); math.Abs(got-6) > 1e-14 {
		t.Errorf("Volume = %.17g, want 6", got)
	}
	if got := s.Area(); math.Abs(got-22) > 1e-14 {
		t.Errorf("Area = %.17g, want 22", got)
	}
	if got, want := s.Centroid(), (r3.Vec{X: 100, Y: -50, Z: 25.5}); far(got, want, 1e-13) {
		t.Errorf("Centroid = %v, want %v", got, want)
	}
}
