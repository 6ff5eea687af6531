package mesh_test

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// tester is what a test and a property have in common.
type tester interface {
	Helper()
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
}

// solidOf returns a Solid over copies of m's slices.
func solidOf(t tester, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	s, err := mesh.NewSolid(slices.Clone(m.Vertices), slices.Clone(m.Triangles))
	if err != nil {
		t.Fatalf("NewSolid: %v", err)
	}
	return s
}

// inPlace returns m as a Solid that stays where it is.
func inPlace(t tester, m *mesh.Mesh) mesh.Placed {
	t.Helper()
	return mesh.Placed{Solid: solidOf(t, m), Place: mesh.Identity()}
}

// reach returns the largest distance of a vertex from a point.
func reach(m *mesh.Mesh, from r3.Vec) float64 {
	far := 0.0
	for _, v := range m.Vertices {
		far = max(far, r3.Norm(r3.Sub(v, from)))
	}
	return far
}

// moved returns m shifted.
func moved(m *mesh.Mesh, x, y, z float64) *mesh.Mesh {
	return shape.Transformed(m, mesh.Translation(r3.Vec{X: x, Y: y, Z: z}))
}

// dented returns an icosphere whose vertices lie at the given distances from
// the origin: a closed body that does not cross itself, not convex as a rule.
// It has 12, 42 or 162 vertices.
func dented(radii []float64) *mesh.Mesh {
	level := 0
	for n := 12; n < len(radii); n = 4*n - 6 {
		level++
	}
	m := shape.Icosphere(1, level)
	for i := range m.Vertices {
		m.Vertices[i] = r3.Scale(radii[i], m.Vertices[i])
	}
	return m
}

// numbers lists the 14 integrals of a section with their names and the power
// of length that each has.
func numbers(s mesh.Section) []number {
	return []number{
		{"Volume", s.Volume, 3},
		{"Moment.X", s.Moment.X, 4}, {"Moment.Y", s.Moment.Y, 4}, {"Moment.Z", s.Moment.Z, 4},
		{"Area", s.Area, 2},
		{"AreaMoment.X", s.AreaMoment.X, 3}, {"AreaMoment.Y", s.AreaMoment.Y, 3}, {"AreaMoment.Z", s.AreaMoment.Z, 3},
		{"AreaSecond.XX", s.AreaSecond.XX, 4}, {"AreaSecond.YY", s.AreaSecond.YY, 4}, {"AreaSecond.ZZ", s.AreaSecond.ZZ, 4},
		{"AreaSecond.XY", s.AreaSecond.XY, 4}, {"AreaSecond.XZ", s.AreaSecond.XZ, 4}, {"AreaSecond.YZ", s.AreaSecond.YZ, 4},
	}
}

type number struct {
	name  string
	value float64
	power float64
}

// differ says where two sections differ by more than tol times the matching
// power of size, or nothing. The size must bound the distance of the body from
// the sections' reference point.
func differ(got, want mesh.Section, size, tol float64) string {
	var out string
	w := numbers(want)
	for i, g := range numbers(got) {
		if limit := tol * math.Pow(size, g.power); !(math.Abs(g.value-w[i].value) <= limit) {
			out += fmt.Sprintf("\n\t%s = %.17g, want %.17g, off by %.2g, allowed %.2g", g.name, g.value, w[i].value, g.value-w[i].value, limit)
		}
	}
	return out
}

// volumes returns s without what belongs to the cut.
func volumes(s mesh.Section) mesh.Section {
	return mesh.Section{Volume: s.Volume, Moment: s.Moment}
}

// flipped returns the plane seen from the other side.
func flipped(pl mesh.Plane) mesh.Plane {
	return mesh.Plane{Normal: r3.Scale(-1, pl.Normal), Offset: -pl.Offset}
}

// level returns the level plane at height z.
func level(z float64) mesh.Plane { return mesh.Plane{Normal: r3.Vec{Z: 1}, Offset: -z} }
