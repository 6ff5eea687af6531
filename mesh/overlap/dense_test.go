package overlap_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/overlap"
)

// heap is n random tetrahedra through one another in one mesh.
func heap(n int) *mesh.Mesh {
	r := rand.New(rand.NewPCG(1, 1))
	m := &mesh.Mesh{}
	for range n {
		var p [4]r3.Vec
		for i := range p {
			p[i] = r3.Vec{X: r.Float64(), Y: r.Float64(), Z: r.Float64()}
		}
		if r3.Dot(r3.Cross(r3.Sub(p[1], p[0]), r3.Sub(p[2], p[0])), r3.Sub(p[3], p[0])) < 0 {
			p[0], p[1] = p[1], p[0]
		}
		base := uint32(len(m.Vertices))
		m.Vertices = append(m.Vertices, p[:]...)
		for _, c := range [][3]uint32{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}} {
			m.Triangles = append(m.Triangles, [3]uint32{c[0] + base, c[1] + base, c[2] + base})
		}
	}
	return m
}

// Many facets through one another in one place end in an answer, or in a no
// before long.
func TestDense(t *testing.T) {
	m := heap(15)
	verts, tris, c, err := overlap.Once(m.Vertices, m.Triangles, false)
	if err != nil {
		t.Fatal(err)
	}
	s, err := mesh.NewSolid(verts, tris)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	var parts []mesh.Placed
	for i := range 15 {
		one := &mesh.Mesh{Vertices: m.Vertices, Triangles: m.Triangles[4*i : 4*i+4]}
		p := inPlace(solid(t, one))
		sum += p.Volume()
		parts = append(parts, p)
	}
	if want := unite(t, parts...).volume(); math.Abs(s.Volume()-want) > 1e-12 || math.Abs(c.Extra-(sum-want)) > 1e-12 {
		t.Errorf("volume %.17g and %.17g twice, want %.17g and %.17g", s.Volume(), c.Extra, want, sum-want)
	}
	m = heap(400)
	var tooMany *overlap.TooManyError
	if _, _, _, err := overlap.Once(m.Vertices, m.Triangles, false); !errors.As(err, &tooMany) {
		t.Errorf("Once(400 tetrahedra in a heap) = %v, want a *TooManyError", err)
	}
}
