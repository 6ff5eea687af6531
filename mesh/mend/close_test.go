package mend

import (
	"errors"
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

var (
	up   = r3.Vec{Z: 1}
	port = r3.Vec{Y: 1}
)

// A box of 2 x 3 x 4 without defects, shared vertices or not.
func TestSoundBox(t *testing.T) {
	for name, m := range map[string]*mesh.Mesh{
		"indexed":     brick(0, 0, 0, 2, 3, 4),
		"soup":        shape.Soup(brick(0, 0, 0, 2, 3, 4)),
		"far away":    shape.Soup(brick(1e6, 0, 0, 1e6+2, 3, 4)),
		"across zero": shape.Transformed(shape.Soup(brick(0, 0, 0, 2, 3, 4)), mesh.Scaling(-1, -1, 1)), // has -0
	} {
		t.Run(name, func(t *testing.T) {
			res := mustClose(t, m, Options{})
			wantVolume(t, "volume", res.Volume, 24)
			wantVolume(t, "solid's volume", res.Solid.Volume(), 24)
			wantVolume(t, "area", res.Area, 52)
			wantVolume(t, "material", res.Material, 24)
			if res.Vertices != 8 || res.Kept != 12 || len(res.Shells) != 1 || res.Shells[0].Euler != 2 {
				t.Errorf("%d vertices, %d triangles, shells %+v, want 8, 12 and one ball", res.Vertices, res.Kept, res.Shells)
			}
			if len(res.Mended) > 0 || len(res.Warnings) > 0 {
				t.Errorf("said %q, warned %q, want nothing", res.Mended, res.Warnings)
			}
		})
	}
}

func TestTorusHasEulerZero(t *testing.T) {
	res := mustClose(t, shape.Soup(shape.Torus(3, 1, 24, 12)), Options{})
	if got := res.Shells[0].Euler; got != 0 {
		t.Errorf("Euler = %d, want 0", got)
	}
}

// A box without one triangle or one face is refused with where and how large
// the hole is.
func TestOpenBoxRefused(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	top := facesAlong(m, up)
	for _, c := range []struct {
		name  string
		m     *mesh.Mesh
		edges int
		size  float64
		area  float64
	}{
		{"a triangle", shape.Without(m, top[0]), 3, math.Hypot(2, 3), 3},
		{"a face", shape.Without(m, top...), 4, math.Hypot(2, 3), 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			res, err := Close(shape.Soup(c.m), Options{})
			var e *HolesError
			if !errors.As(err, &e) {
				t.Fatalf("Close = %v, want a HolesError", err)
			}
			h := e.Largest
			if e.Holes != 1 || e.OpenEdges != c.edges || h.Edges != c.edges || e.Shells != 1 || e.WeldAt != 0 {
				t.Errorf("%+v, want one hole of %d edges", e, c.edges)
			}
			if math.Abs(h.Size-c.size) > 1e-12 || math.Abs(h.Area-c.area) > 1e-12 || h.Center.Z != 4 {
				t.Errorf("hole of size %g, area %g at %v, want %g, %g, z = 4", h.Size, h.Area, h.Center, c.size, c.area)
			}
			if res == nil || res.Solid != nil || res.OpenEdges != c.edges || res.Shells[0].Kind != Open || res.Shells[0].OpenEdges != c.edges {
				t.Errorf("report %+v, want %d open edges", res, c.edges)
			}
		})
	}
}

// The same holes are closed when they are allowed, and then it is said.
func TestHoleClosed(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	top := facesAlong(m, up)
	for name, m := range map[string]*mesh.Mesh{
		"a triangle": shape.Without(m, top[0]), "a face": shape.Without(m, top...),
		"two faces": shape.Without(m, append(top, facesAlong(m, r3.Scale(-1, up))...)...),
	} {
		t.Run(name, func(t *testing.T) {
			res := mustClose(t, m, Options{MaxHole: 0.25})
			wantVolume(t, "volume", res.Volume, 24)
			if !said(res.Mended, "closed a hole") || !res.Holes[0].Closed || res.VolumeDoubt > 1e-12 {
				t.Errorf("said %q, holes %+v, doubt %g, want a planar hole closed", res.Mended, res.Holes, res.VolumeDoubt)
			}
		})
	}
}

// A face with a star-shaped hole: 24 corners, every other one re-entrant. The
// body is a prism, so its volume is the star's area times its height.
func TestStarHoleClosed(t *testing.T) {
	const n = 24
	var star [][3]float64
	for i := range n {
		r := 1.0
		if i%2 == 1 {
			r = 0.3
		}
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		star = append(star, [3]float64{r * c, r * s, 0})
	}
	at := func(i int, z float64) r3.Vec { return r3.Vec{X: star[i%n][0], Y: star[i%n][1], Z: z} }
	var tris []r3.Triangle
	for i := range n {
		tris = append(tris,
			r3.Triangle{at(i, 0), at(i+1, 0), at(i+1, 1)}, r3.Triangle{at(i, 0), at(i+1, 1), at(i, 1)},
			r3.Triangle{{}, at(i+1, 0), at(i, 0)})
	}
	res := mustClose(t, raw(tris...), Options{MaxHole: 0.5})
	// n triangles with two sides 1 and 0.3 and the angle 2π/n between them.
	wantVolume(t, "volume", res.Volume, n*0.5*0.3*math.Sin(2*math.Pi/n))
}

// A hole that is not planar is closed only when asked, and its doubt stated.
func TestNonPlanarHole(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	gap := append(facesAlong(m, up), facesAlong(m, port)...)
	_, err := Close(shape.Without(m, gap...), Options{MaxHole: 1})
	var e *HolesError
	if !errors.As(err, &e) || e.Largest.OffPlane < 0.5 {
		t.Fatalf("Close = %v, want a hole far off its plane", err)
	}
	res := mustClose(t, shape.Without(m, gap...), Options{MaxHole: 1, NonPlanar: true})
	if d := math.Abs(res.Volume - 24); d > res.VolumeDoubt || res.VolumeDoubt > 24 {
		t.Errorf("volume %g, doubt %g, want 24 within it", res.Volume, res.VolumeDoubt)
	}
	if !said(res.Mended, "volume uncertain") || !said(res.Warnings, "uncertain") {
		t.Errorf("said %q, warned %q, want the doubt", res.Mended, res.Warnings)
	}
}

// A pipe without its two end rings: each of the four loops could be closed by
// itself, which would fill the bore.
func TestRingRefused(t *testing.T) {
	outer, inner := shape.Cylinder(1, 3, 32), shape.InsideOut(shape.Cylinder(0.9, 3, 32))
	open := func(m *mesh.Mesh) *mesh.Mesh {
		return shape.Without(m, append(facesAlong(m, up), facesAlong(m, r3.Scale(-1, up))...)...)
	}
	_, err := Close(shape.Join(open(outer), open(inner)), Options{MaxHole: 1})
	var e *HolesError
	if !errors.As(err, &e) || e.Holes != 2 || !said([]string{err.Error()}, "ring") {
		t.Errorf("Close = %v, want two rings refused", err)
	}
}

// Facets that face the other way are turned, a shell that does as well.
func TestFlippedAndInverted(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	res := mustClose(t, flipped(m, 3), Options{})
	wantVolume(t, "volume", res.Volume, 24)
	if res.Flipped != 1 || res.Inconsistent != 3 || res.Shells[0].Flipped != 1 || res.Shells[0].Inverted || !said(res.Mended, "turned 1 facet") {
		t.Errorf("report %+v, want one facet turned", res.Report)
	}
	res = mustClose(t, shape.InsideOut(m), Options{})
	wantVolume(t, "volume", res.Volume, 24)
	if res.Flipped != 0 || !res.Shells[0].Inverted || !said(res.Mended, "turned shell 1") {
		t.Errorf("report %+v, want the shell turned", res.Report)
	}
	res = mustClose(t, flipped(m, 0, 1, 2, 3, 4, 5), Options{})
	wantVolume(t, "volume with half of the facets turned", res.Volume, 24)
	if res.Flipped != 6 {
		t.Errorf("turned %d, want 6", res.Flipped)
	}
}

// A Möbius strip, thickened to nothing, has no inside.
func TestOneSided(t *testing.T) {
	const n = 20
	edge := func(i int, s float64) r3.Vec {
		a := 2 * math.Pi * float64(i) / n
		r := 2 + s*math.Cos(a/2)
		return r3.Vec{X: r * math.Cos(a), Y: r * math.Sin(a), Z: s * math.Sin(a/2)}
	}
	var tris []r3.Triangle
	for i := range n {
		p, q, u, v := edge(i, -1), edge(i, 1), edge(i+1, -1), edge(i+1, 1)
		if i == n-1 {
			u, v = edge(0, 1), edge(0, -1)
		}
		tris = append(tris, r3.Triangle{p, u, q}, r3.Triangle{u, v, q})
	}
	_, err := Close(raw(tris...), Options{})
	var e *SideError
	if !errors.As(err, &e) {
		t.Errorf("Close = %v, want a SideError", err)
	}
}

// Facets that are there twice, back to back, or without area.
func TestDroppedFacets(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	twice := shape.Join(m)
	twice.Triangles = append(twice.Triangles, m.Triangles[4], m.Triangles[7], m.Triangles[7])
	res := mustClose(t, twice, Options{})
	wantVolume(t, "volume with facets there twice", res.Volume, 24)
	if res.Duplicates != 3 || !said(res.Mended, "3 facets that were there twice") {
		t.Errorf("Duplicates = %d, said %q, want 3", res.Duplicates, res.Mended)
	}

	all := shape.Join(m, m)
	res = mustClose(t, all, Options{})
	wantVolume(t, "volume with every facet there twice", res.Volume, 24)
	if res.Duplicates != 12 {
		t.Errorf("Duplicates = %d, want 12", res.Duplicates)
	}

	fin := r3.Triangle{{X: 0, Y: 0, Z: 4}, {X: 2, Y: 0, Z: 4}, {X: 1, Y: 0, Z: 6}}
	back := r3.Triangle{fin[0], fin[2], fin[1]}
	res = mustClose(t, shape.Join(m, raw(fin, back)), Options{})
	wantVolume(t, "volume with a fin", res.Volume, 24)
	if res.Fins != 1 || res.Kept != 12 {
		t.Errorf("Fins = %d, kept %d, want 1, 12", res.Fins, res.Kept)
	}

	doubled := shape.Join(m, flipped(shape.Join(m), 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11))
	doubled.Triangles = append(m.Triangles[:12:12], doubled.Triangles[12+5], doubled.Triangles[12+6])
	res = mustClose(t, doubled, Options{})
	wantVolume(t, "volume with two facets exported from both sides", res.Volume, 24)
	if res.Duplicates != 2 || res.Fins != 0 {
		t.Errorf("Duplicates = %d, Fins = %d, want 2, 0", res.Duplicates, res.Fins)
	}

	flat := shape.Join(m)
	flat.Triangles = append(flat.Triangles, [3]uint32{0, 0, 1}, [3]uint32{2, 2, 2})
	res = mustClose(t, flat, Options{})
	wantVolume(t, "volume with facets of equal corners", res.Volume, 24)
	if res.Degenerate != 2 || res.Kept != 12 {
		t.Errorf("Degenerate = %d, kept %d, want 2, 12", res.Degenerate, res.Kept)
	}
}

// Every facet with its reverse leaves nothing.
func TestNothingLeft(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	for name, m := range map[string]*mesh.Mesh{
		"both sides": shape.Join(m, shape.InsideOut(m)),
		"no facets":  {},
		"flat":       raw(r3.Triangle{{}, {X: 1}, {Y: 1}}, r3.Triangle{{}, {Y: 1}, {X: 1}}),
	} {
		_, err := Close(m, Options{})
		var e *EmptyError
		if !errors.As(err, &e) {
			t.Errorf("%s: Close = %v, want an EmptyError", name, err)
		}
	}
}

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

// What no file may get through with.
func TestBadInput(t *testing.T) {
	bad := func(x float64) *mesh.Mesh {
		m := shape.Soup(brick(0, 0, 0, 2, 3, 4))
		m.Vertices[20].Y = x
		return m
	}
	wild := brick(0, 0, 0, 2, 3, 4)
	wild.Triangles[5][1] = 8
	for name, m := range map[string]*mesh.Mesh{
		"NaN": bad(math.NaN()), "infinite": bad(math.Inf(-1)), "huge": bad(1e200), "index out of range": wild,
	} {
		_, err := Close(m, Options{})
		var e *InputError
		if !errors.As(err, &e) {
			t.Errorf("%s: Close = %v, want an InputError", name, err)
		}
	}
}

func TestUnitDoubt(t *testing.T) {
	box := func(size float64) r3.Box { return r3.NewBox(0, 0, 0, size, size/4, size/5) }
	for _, c := range []struct {
		size, meters float64
		want         string
	}{
		{900, 0.001, ""},
		{900, 1, "in mm it would be 0.9 m"},
		{0.4, 0.001, "in m it would be 400 mm"},
		{35, 1, "in in it would be 0.889 m"},
		{1e9, 1, "no usual unit"},
	} {
		got := UnitDoubt(box(c.size), c.meters)
		if (got == "") != (c.want == "") || !said([]string{got}, c.want) {
			t.Errorf("UnitDoubt(%g, %g) = %q, want %q in it", c.size, c.meters, got, c.want)
		}
	}
}
