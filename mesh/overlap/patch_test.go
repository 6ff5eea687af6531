package overlap

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// meetings returns whether facets have more in common than edges and corners, as
// meet finds pair by pair.
func meetings(t *testing.T, a *arrangement, facets []uint32) bool {
	t.Helper()
	a.cuts, a.doubled, a.head = nil, 0, make(map[uint32]int32)
	for i, f := range facets {
		for _, g := range facets[:i] {
			if err := a.meet(f, g); err != nil {
				t.Fatal(err)
			}
		}
	}
	return len(a.cuts) > 0 || a.doubled > 0
}

// TestSmoothPatch lays a few triangles over a coarse grid, most facing up, so
// that many share corners and edges, touch or cross.
func TestSmoothPatch(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	smooth, crossed, missed := 0, 0, 0
	patch := newPatcher(nil)
	for range 40000 {
		side := 3 + r.IntN(2)
		n := 1 + r.IntN(5)
		flat := r.IntN(2) == 0
		var vertices []r3.Vec
		for i := range side * side {
			p := r3.Vec{X: float64(i % side), Y: float64(i / side)}
			if !flat {
				p.Z = float64(r.IntN(3))
			}
			vertices = append(vertices, p)
		}
		// One more over each, to be taken for the same as seen from above.
		for _, p := range vertices[:side*side] {
			vertices = append(vertices, r3.Add(p, r3.Vec{Z: 4}))
		}
		var triangles [][3]uint32
		for range n {
			var c [3]uint32
			for k := range c {
				c[k] = uint32(r.IntN(side * side))
				if r.IntN(12) == 0 {
					c[k] += uint32(side * side)
				}
			}
			p, q, s := vertices[c[0]], vertices[c[1]], vertices[c[2]]
			if r3.Cross(r3.Sub(q, p), r3.Sub(s, p)).Z < 0 && r.IntN(20) > 0 {
				c[1], c[2] = c[2], c[1]
			}
			triangles = append(triangles, c)
		}
		a, err := newArrangement([]soup{{vertices, triangles}}, fine)
		if err != nil {
			t.Fatal(err)
		}
		patch.a = a
		var all []uint32
		for f := range a.facets {
			all = append(all, uint32(f))
		}
		if len(all) < 2 {
			continue
		}
		switch ok, meet := patch.smooth(all), meetings(t, a, all); {
		case ok && meet:
			t.Fatalf("smooth is true for facets that meet: %v of %v", triangles, vertices)
		case ok:
			smooth++
		case meet:
			crossed++
		default:
			missed++
		}
	}
	if smooth < 500 || crossed < 500 || missed < 500 {
		t.Errorf("%d patches are smooth, %d have facets that meet, %d are neither: want 500 each at least", smooth, crossed, missed)
	}
}

// TestPatches checks that patches clear most pairs of a mesh without crossings,
// and none of those that meet where a surface passes through itself.
func TestPatches(t *testing.T) {
	for _, c := range []struct {
		name string
		m    *mesh.Mesh
		most float64 // pairs left, as a share
	}{
		{"sphere", shape.Icosphere(1, 5), 0.4},
		{"torus", shape.Torus(3, 1, 200, 100), 0.5},
		{"crossing spheres", shape.Join(shape.Icosphere(1, 5), shape.Transformed(shape.Icosphere(1, 5), mesh.Translation(r3.Vec{X: 0.1, Y: 0.2, Z: 0.3}))), 0.9},
	} {
		vertices, triangles := welded(c.m)
		a, err := newArrangement([]soup{{vertices, triangles}}, fine)
		if err != nil {
			t.Fatal(err)
		}
		tree := a.treeOf(0)
		patch := newPatcher(a)
		// Pairs that meet, and all pairs, with patches skipped or not.
		walk := func(skip func([]uint32) bool) (met, all int) {
			tree.within(0, skip, func(f, g uint32) bool {
				all++
				before := len(a.cuts)
				if err := a.meet(f, g); err != nil {
					t.Fatal(err)
				}
				if len(a.cuts) > before {
					met++
				}
				return true
			})
			return met, all
		}
		met, all := walk(patch.clear)
		wantMet, full := walk(func([]uint32) bool { return false })
		if met != wantMet {
			t.Errorf("%s: %d pairs of facets meet, want %d as without patches", c.name, met, wantMet)
		}
		if share := float64(all) / float64(full); share > c.most {
			t.Errorf("%s: patches leave %.0f%% of the pairs, want %.0f%% at most", c.name, 100*share, 100*c.most)
		}
	}
}

// TestLongRim lays needles side by side, all as long and none touching another:
// a patch that is smooth but has a long rim, where each edge has to be compared
// with each.
func TestLongRim(t *testing.T) {
	var vertices []r3.Vec
	var triangles [][3]uint32
	for i := range mostPatch {
		y, n := float64(i), uint32(3*i)
		vertices = append(vertices, r3.Vec{Y: y}, r3.Vec{X: 100, Y: y}, r3.Vec{X: 100, Y: y + 0.5})
		triangles = append(triangles, [3]uint32{n, n + 1, n + 2})
	}
	a, err := newArrangement([]soup{{vertices, triangles}}, fine)
	if err != nil {
		t.Fatal(err)
	}
	var all []uint32
	for f := range a.facets {
		all = append(all, uint32(f))
	}
	patch := newPatcher(a)
	if few := all[:5]; !patch.smooth(few) {
		t.Errorf("smooth(%d needles) = false, want true", len(few))
	}
	if patch.smooth(all) {
		t.Errorf("smooth(%d needles) = true, want false: it takes too long to tell", len(all))
	}
}
