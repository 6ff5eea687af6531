package mend

import (
	"errors"
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// junctionBox is a box of 2 x 3 x 4 whose top is split along x at its middle,
// while the sides are not: the vertices (0, 1.5, 4) and (2, 1.5, 4) lie on long
// edges.
func junctionBox() *mesh.Mesh {
	m := brick(0, 0, 0, 2, 3, 4)
	m = shape.Without(m, facesAlong(m, up)...)
	a, b, c, d, e, f := r3.Vec{Z: 4}, r3.Vec{X: 2, Z: 4}, r3.Vec{X: 2, Y: 1.5, Z: 4}, r3.Vec{X: 2, Y: 3, Z: 4}, r3.Vec{Y: 3, Z: 4}, r3.Vec{Y: 1.5, Z: 4}
	return shape.Join(m, raw(r3.Triangle{a, b, c}, r3.Triangle{a, c, f}, r3.Triangle{f, c, d}, r3.Triangle{f, d, e}))
}

func TestJunctions(t *testing.T) {
	res := mustClose(t, junctionBox(), Options{})
	wantVolume(t, "volume", res.Volume, 24)
	if res.Junctions != 2 || !said(res.Mended, "2 vertices") || res.OpenEdges != 6 {
		t.Errorf("Junctions = %d, open edges %d, said %q, want 2, 6", res.Junctions, res.OpenEdges, res.Mended)
	}
	if _, err := Close(junctionBox(), Options{Junction: -1, MaxHole: -1}); err == nil {
		t.Errorf("Close without junctions succeeded")
	}

	// Slivers in the gaps close the same surface: they stay.
	a, f, e := r3.Vec{Z: 4}, r3.Vec{Y: 1.5, Z: 4}, r3.Vec{Y: 3, Z: 4}
	b, c, d := r3.Vec{X: 2, Z: 4}, r3.Vec{X: 2, Y: 1.5, Z: 4}, r3.Vec{X: 2, Y: 3, Z: 4}
	res = mustClose(t, shape.Join(junctionBox(), raw(r3.Triangle{a, f, e}, r3.Triangle{b, d, c})), Options{})
	wantVolume(t, "volume with slivers", res.Volume, 24)
	if res.Slivers != 2 || res.Loose != 0 || res.Junctions != 0 || res.Kept != 16 || len(res.Mended) > 0 {
		t.Errorf("report %+v, want two slivers kept", res.Report)
	}

	// A sliver on an edge that is closed without it has no place.
	res = mustClose(t, shape.Join(brick(0, 0, 0, 2, 3, 4), raw(r3.Triangle{a, f, e})), Options{})
	wantVolume(t, "volume with a loose sliver", res.Volume, 24)
	if res.Loose != 1 || res.Kept != 12 {
		t.Errorf("Loose = %d, kept %d, want 1, 12", res.Loose, res.Kept)
	}
}

// A vertex that lies beside an edge by less than the tolerance for welding lies
// on it.
func TestJunctionsWithinWeld(t *testing.T) {
	m := junctionBox()
	for i, v := range m.Vertices {
		if v.Y == 1.5 {
			m.Vertices[i].Z += 1e-3
		}
	}
	if _, err := Close(m, Options{MaxHole: -1}); err == nil {
		t.Errorf("Close with vertices 1e-3 beside an edge succeeded")
	}
	res := mustClose(t, m, Options{MaxHole: -1, Weld: 2e-3})
	// A ridge 1e-3 high across the top.
	if want := 24 + 2*3*1e-3/2; res.Junctions != 2 || math.Abs(res.Volume-want) > 1e-12 {
		t.Errorf("Junctions = %d, volume %.12g, want 2, %.12g", res.Junctions, res.Volume, want)
	}
}

// The same after a turn, rounded to float32: the vertices lie beside the edges
// by rounding.
func TestJunctionsRounded(t *testing.T) {
	m := shape.Transformed(junctionBox(), mesh.Scaling(100, 100, 100).Then(mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 3}, 1)))
	for i, v := range m.Vertices {
		m.Vertices[i] = r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	res := mustClose(t, m, Options{})
	if res.Junctions != 2 || math.Abs(res.Volume-24e6) > 1e-6*24e6 {
		t.Errorf("Junctions = %d, volume %g, want 2, %g", res.Junctions, res.Volume, 24e6)
	}
}

// Three points between the ends of one edge, on both of its sides but not the
// same ones.
func TestJunctionsOnBothSides(t *testing.T) {
	m := brick(0, 0, 0, 4, 1, 1)
	gone := append(facesAlong(m, up), facesAlong(m, r3.Scale(-1, port))...)
	m = shape.Without(m, gone...)
	p := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	// The top has vertices at x = 1 and 2 on the edge y = 0, z = 1, the side at
	// x = 3.
	m = shape.Join(m, raw(
		r3.Triangle{p(0, 0, 1), p(1, 0, 1), p(0, 1, 1)}, r3.Triangle{p(1, 0, 1), p(2, 0, 1), p(0, 1, 1)},
		r3.Triangle{p(2, 0, 1), p(4, 0, 1), p(0, 1, 1)}, r3.Triangle{p(4, 0, 1), p(4, 1, 1), p(0, 1, 1)},
		r3.Triangle{p(0, 0, 0), p(4, 0, 0), p(3, 0, 1)}, r3.Triangle{p(4, 0, 0), p(4, 0, 1), p(3, 0, 1)},
		r3.Triangle{p(0, 0, 0), p(3, 0, 1), p(0, 0, 1)}))
	res := mustClose(t, m, Options{})
	wantVolume(t, "volume", res.Volume, 4)
	if res.Junctions != 3 {
		t.Errorf("Junctions = %d, want 3", res.Junctions)
	}
}

// A box whose corners differ from facet to facet by up to 1e-4 of its size.
func TestNearVertices(t *testing.T) {
	m := shape.Soup(brick(0, 0, 0, 2, 3, 4))
	for i := range m.Vertices {
		m.Vertices[i] = r3.Add(m.Vertices[i], r3.Scale(1e-5*float64(i%7), r3.Vec{X: 1, Y: -1, Z: 1}))
	}
	_, err := Close(m, Options{})
	var e *HolesError
	if !errors.As(err, &e) || e.WeldAt == 0 || e.WeldAt > 1e-3 {
		t.Fatalf("Close = %v, want a HolesError that names a tolerance", err)
	}
	res := mustClose(t, m, Options{Weld: e.WeldAt})
	if res.Merged == 0 || res.MergeMove == 0 || res.MergeMove > 1.1e-4 || !said(res.Mended, "merged") {
		t.Errorf("merged %d, moved %g, said %q", res.Merged, res.MergeMove, res.Mended)
	}
	// Each face moves by MergeMove at most.
	if d := math.Abs(res.Volume - 24); d > 52*res.MergeMove {
		t.Errorf("volume %g, want 24 within %g", res.Volume, 52*res.MergeMove)
	}
	if _, err := Close(m, Options{Weld: 1}); err == nil {
		t.Errorf("Close with a weld tolerance as large as the box succeeded")
	}
}
