package mesh_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// stepped returns a prism of length 1 whose section is two boxes that touch
// along part of the height z = 1, so that one ledge faces up there (y from 0 to
// 1) and another faces down (y from 2 to 3), with the body running through
// between them.
func stepped() *mesh.Mesh {
	corners := [][2]float64{{0, 0}, {2, 0}, {2, 1}, {3, 1}, {3, 2}, {1, 2}, {1, 1}, {0, 1}}
	m := &mesh.Mesh{Name: "stepped"}
	for _, x := range []float64{0, 1} {
		for _, c := range corners {
			m.Vertices = append(m.Vertices, r3.Vec{X: x, Y: c[0], Z: c[1]})
		}
	}
	for _, t := range [][3]uint32{{0, 1, 2}, {0, 2, 6}, {0, 6, 7}, {6, 2, 5}, {2, 4, 5}, {2, 3, 4}} {
		m.Triangles = append(m.Triangles, [3]uint32{t[0], t[2], t[1]}, [3]uint32{t[0] + 8, t[1] + 8, t[2] + 8})
	}
	for i := range uint32(8) {
		j := (i + 1) % 8
		m.Triangles = append(m.Triangles, [3]uint32{i, j, i + 8}, [3]uint32{j, j + 8, i + 8})
	}
	return m
}

// octahedron returns the one with corners at distance 1 on the axes.
func octahedron() *mesh.Mesh {
	m := &mesh.Mesh{Name: "octahedron", Vertices: []r3.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}, {Z: 1}, {Z: -1}}}
	for i := range uint32(4) {
		j := (i + 1) % 4
		m.Triangles = append(m.Triangles, [3]uint32{i, j, 4}, [3]uint32{j, i, 5})
	}
	return m
}

// Planes that pass through vertices, edges and whole facets. A vertex at
// height zero is dry, so the cut is what the level shows just before it gets
// there from below.
func TestPlanesThroughVerticesEdgesFacets(t *testing.T) {
	down := r3.Vec{Z: -1}
	box := shape.BoxBetween(r3.Vec{}, r3.Vec{X: 4, Y: 2, Z: 1})
	apart := shape.Join(box, moved(box, 0, 0, 1)) // one on the other, not united
	for _, tt := range []struct {
		name    string
		body    *mesh.Mesh
		plane   mesh.Plane
		volume  float64
		area    float64
		second  mesh.Sym // about the origin
		wetArea float64
	}{
		{"box, bottom in the plane", box, level(0), 0, 0, mesh.Sym{}, 0},
		{"box, top in the plane", box, level(1), 8, 8, mesh.Sym{XX: 128. / 3, YY: 32. / 3, ZZ: 8, XY: 16, XZ: 16, YZ: 8}, 20},
		{"box from above, top in the plane", box, mesh.Plane{Normal: down, Offset: 1}, 0, 0, mesh.Sym{}, 0},
		{"box from above, bottom in the plane", box, mesh.Plane{Normal: down}, 8, 8, mesh.Sym{XX: 128. / 3, YY: 32. / 3, XY: 16}, 20},
		{"box, end in the plane", box, mesh.Plane{Normal: r3.Vec{X: -1}}, 8, 2, mesh.Sym{YY: 8. / 3, ZZ: 2. / 3, YZ: 1}, 26},
		{"two boxes, top to bottom", apart, level(1), 8, 8, mesh.Sym{XX: 128. / 3, YY: 32. / 3, ZZ: 8, XY: 16, XZ: 16, YZ: 8}, 20},
		{"step up and step down", stepped(), level(1), 2, 2, mesh.Sym{XX: 2. / 3, YY: 8. / 3, ZZ: 2, XY: 1, XZ: 1, YZ: 2}, 2 + 2 + 2 + 2},
		{"step up and step down, from above", stepped(), mesh.Plane{Normal: down, Offset: 1}, 2, 2,
			mesh.Sym{XX: 2. / 3, YY: 26. / 3, ZZ: 2, XY: 2, XZ: 1, YZ: 4}, 2 + 2 + 2 + 2},
		{"octahedron through four corners and edges", octahedron(), level(0), 2. / 3, 2, mesh.Sym{XX: 1. / 3, YY: 1. / 3}, 2 * math.Sqrt(3)},
		{"octahedron, a corner touched from above", octahedron(), level(-1), 0, 0, mesh.Sym{}, 0},
		{"octahedron, a corner touched from below", octahedron(), level(1), 4. / 3, 0, mesh.Sym{}, 4 * math.Sqrt(3)},
		{"octahedron through two corners and edge middles", octahedron(), mesh.Plane{Normal: r3.Scale(math.Sqrt2/2, r3.Vec{X: 1, Y: -1})},
			2. / 3, math.Sqrt2, mesh.Sym{XX: math.Sqrt2 / 24, YY: math.Sqrt2 / 24, XY: math.Sqrt2 / 24, ZZ: math.Sqrt2 / 6}, 2 * math.Sqrt(3)},
		{"box through opposite edges", shape.BoxBetween(r3.Vec{}, r3.Vec{X: 1, Y: 1, Z: 1}), mesh.Plane{Normal: r3.Scale(math.Sqrt2/2, r3.Vec{X: 1, Z: -1})},
			0.5, math.Sqrt2, mesh.Sym{XX: math.Sqrt2 / 3, YY: math.Sqrt2 / 3, ZZ: math.Sqrt2 / 3, XZ: math.Sqrt2 / 3, XY: math.Sqrt2 / 4, YZ: math.Sqrt2 / 4}, 3},
	} {
		p := inPlace(t, tt.body)
		got := p.Below(tt.plane, r3.Vec{})
		want := mesh.Section{Volume: tt.volume, Moment: got.Moment, Area: tt.area, AreaMoment: got.AreaMoment, AreaSecond: tt.second}
		if d := differ(got, want, 5, 1e-15); d != "" {
			t.Errorf("%s: Below(%v):%s", tt.name, tt.plane, d)
		}
		if d := differ(got, exactBelow(tt.body, tt.plane, r3.Vec{}), 5, 1e-15); d != "" {
			t.Errorf("%s: Below(%v) against rationals:%s", tt.name, tt.plane, d)
		}
		if got := p.WetArea(tt.plane); math.Abs(got-tt.wetArea) > 1e-14 {
			t.Errorf("%s: WetArea(%v) = %.17g, want %.17g", tt.name, tt.plane, got, tt.wetArea)
		}
	}
}

// The level passes corners, edges and facets by the smallest steps there are.
// Volumes run on; the cut jumps at a facet and nowhere else.
func TestVolumeIsContinuous(t *testing.T) {
	for _, tt := range []struct {
		body         *mesh.Mesh
		z            float64
		below, above float64 // the cut's area just below and just above z
	}{
		{shape.Box(4, 2, 1), 0, 0, 8},
		{shape.Box(4, 2, 1), 1, 8, 0},
		{stepped(), 1, 2, 2},
		{octahedron(), 0, 2, 2},
		{octahedron(), 1, 0, 0},
		{shape.Wedge(3, 2, 2), 0, 0, 0},
		{shape.Wedge(3, 2, 2), 2, 6, 0},
	} {
		p := inPlace(t, tt.body)
		at := p.Below(level(tt.z), r3.Vec{})
		for _, step := range []float64{0x1p-1074, 0x1p-200, 0x1p-60, 0x1p-52, 0x1p-50, 0x1p-40} {
			for _, side := range []float64{-1, 1} {
				z := tt.z + side*step
				got := p.Below(level(z), r3.Vec{})
				want := tt.above
				if side < 0 {
					want = tt.below
				}
				if step < 0x1p-51 && math.Abs(got.Area-tt.below) < math.Abs(got.Area-tt.above) {
					want = tt.below // too small a step for heights of size 1
				}
				tol := 1e-14 + 8*step // the body is nowhere wider than 8
				if d := differ(volumes(got), volumes(at), 2, tol); d != "" {
					t.Errorf("%s: Below(z = %g %+g):%s", tt.body.Name, tt.z, side*step, d)
				}
				if math.Abs(got.Area-want) > tol {
					t.Errorf("%s: Below(z = %g %+g).Area = %.17g, want %.17g", tt.body.Name, tt.z, side*step, got.Area, want)
				}
			}
		}
	}
}

// Planes through three vertices of a dented body in any attitude: rounding puts
// each of the three on either side, and the integrals must not notice.
func TestPlanesThroughThreeVertices(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 20 {
		radii := make([]float64, 12)
		for i := range radii {
			radii[i] = 0.5 + rng.Float64()
		}
		b := dented(radii)
		p := inPlace(t, b)
		pick := rng.Perm(12)
		u, v, w := b.Vertices[pick[0]], b.Vertices[pick[1]], b.Vertices[pick[2]]
		n := r3.Unit(r3.Cross(r3.Sub(v, u), r3.Sub(w, u)))
		pl := through(u, n)
		got, want := p.Below(pl, u), exactBelow(b, pl, u)
		if d := differ(volumes(got), volumes(want), reach(b, u), 100*unitRoundoff); d != "" {
			t.Errorf("Below(%v):%s", pl, d)
		}
		if tol := slack(b, pl); tol < 1e-10 { // else a facet lies in the plane
			if d := differ(got, want, reach(b, u), tol); d != "" {
				t.Errorf("Below(%v):%s", pl, d)
			}
		}
	}
}

// A file may have its origin anywhere: the same body ten thousand times its
// size away, in float32 coordinates, gives the same once it is placed back.
func TestFarOrigin(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	near := shape.Star(3, 2)
	for i, v := range near.Vertices { // such that near and far are float32 both
		r := func(x float64) float64 { return math.Round(x*512) / 512 }
		near.Vertices[i] = r3.Vec{X: r(v.X), Y: r(v.Y), Z: r(v.Z)}
	}
	want := inPlace(t, near)
	for _, shift := range []r3.Vec{{X: 10000}, {X: -8192, Y: 16384, Z: 12288}, {Z: 10000.5}} {
		far := moved(near, shift.X, shift.Y, shift.Z)
		for _, v := range far.Vertices {
			if float64(float32(v.X)) != v.X || float64(float32(v.Y)) != v.Y || float64(float32(v.Z)) != v.Z {
				t.Fatalf("vertex %v is no float32", v)
			}
		}
		back := mesh.Placed{Solid: solidOf(t, far), Place: mesh.Translation(r3.Scale(-1, shift))}
		for range 20 {
			n := r3.Unit(randomVec(rng))
			pl := mesh.Plane{Normal: n, Offset: rng.Float64() - 0.5}
			if d := differ(back.Below(pl, r3.Vec{}), want.Below(pl, r3.Vec{}), 2, slack(near, pl)); d != "" {
				t.Errorf("from %v: Below(%v):%s", shift, pl, d)
			}
		}
	}
}

// Facets like needles, and a body like a sheet.
func TestThinTriangles(t *testing.T) {
	needles := shape.Cylinder(1, 1e-4, 12) // its caps are fans, its sides slivers
	for _, tt := range []struct {
		name string
		body *mesh.Mesh
	}{
		{"needles", needles},
		{"sheet on edge", shape.Transformed(shape.Icosphere(1, 0), mesh.Scaling(1, 1e-6, 1))},
		{"rod", shape.Transformed(shape.Icosphere(1, 0), mesh.Scaling(1e-6, 1e-6, 1))},
	} {
		p := inPlace(t, tt.body)
		for i, n := range []r3.Vec{{Z: 1}, {X: 0.6, Z: 0.8}, {X: 0.8, Y: 0.6}, {X: 0.48, Y: 0.6, Z: 0.64}} {
			pl := mesh.Plane{Normal: n, Offset: 0.3e-4 * float64(i-2)}
			about := r3.Scale(-pl.Offset, n)
			if d := differ(p.Below(pl, about), exactBelow(tt.body, pl, about), 1, slack(tt.body, pl)); d != "" {
				t.Errorf("%s: Below(%v):%s", tt.name, pl, d)
			}
		}
	}
}

// A cavity takes away; shells that overlap count twice: each region as often as
// the surface winds around it.
func TestShellsAddUp(t *testing.T) {
	outer, inner := shape.Box(4, 3, 2), moved(shape.Box(2, 1, 1), 0, 0, 0.5)
	hollow := shape.Join(outer, shape.InsideOut(inner))
	double := shape.Join(outer, inner)
	pl := through(r3.Vec{Z: 1}, up(0.2, -0.1))
	a, b := inPlace(t, outer).Below(pl, r3.Vec{}), inPlace(t, inner).Below(pl, r3.Vec{})
	if d := differ(inPlace(t, hollow).Below(pl, r3.Vec{}), a.Add(b.Scale(-1)), 3, 1e-15); d != "" {
		t.Errorf("hollow box:%s", d)
	}
	if d := differ(inPlace(t, double).Below(pl, r3.Vec{}), a.Add(b), 3, 1e-15); d != "" {
		t.Errorf("box within a box:%s", d)
	}
}

// Wholly dry and wholly wet bodies, and a plane far away.
func TestAllOrNothing(t *testing.T) {
	p := mesh.Placed{Solid: solidOf(t, shape.Star(5, 2)), Place: mesh.Scaling(1, 2, 3)}
	for _, d := range []float64{8, 1e3, 1e9, 1e300} {
		n := r3.Unit(r3.Vec{X: 1, Y: 1, Z: 1})
		if got := p.Below(mesh.Plane{Normal: n, Offset: d}, r3.Vec{}); got != (mesh.Section{}) {
			t.Errorf("Below a plane %g under: %v, want nothing", d, got)
		}
		about := r3.Vec{X: 1, Y: -2}
		want := mesh.Section{Volume: p.Volume(), Moment: r3.Scale(p.Volume(), r3.Sub(p.Centroid(), about))}
		if diff := differ(p.Below(mesh.Plane{Normal: n, Offset: -d}, about), want, 8, 1e-15); diff != "" {
			t.Errorf("Below a plane %g over:%s", d, diff)
		}
		if got := p.WetArea(mesh.Plane{Normal: n, Offset: d}); got != 0 {
			t.Errorf("WetArea of a plane %g under = %g, want 0", d, got)
		}
		if got := p.WetArea(mesh.Plane{Normal: n, Offset: -d}); math.Abs(got-p.Area()) > 1e-12 {
			t.Errorf("WetArea of a plane %g over = %g, want all of %g", d, got, p.Area())
		}
	}
}

// One Solid serves many at once, each with the same bits.
func TestConcurrentUse(t *testing.T) {
	p := inPlace(t, shape.Star(6, 3))
	pl := through(r3.Vec{X: 0.1}, up(0.3, 0.2))
	want, wantWet := p.Below(pl, r3.Vec{}), p.WetArea(pl)
	done := make(chan string)
	for range 8 {
		go func() {
			for range 20 {
				if got, wet := p.Below(pl, r3.Vec{}), p.WetArea(pl); got != want || wet != wantWet {
					done <- fmt.Sprintf("Below = %v, WetArea = %g, want %v, %g", got, wet, want, wantWet)
					return
				}
			}
			done <- ""
		}()
	}
	for range 8 {
		if d := <-done; d != "" {
			t.Error(d)
		}
	}
}

// Newton's method takes a heel to 1e-160 and then to 1e-320. Where a facet lies
// in the level plane, such heels are all the height its corners have.
func TestTiltsTooSmallToMatter(t *testing.T) {
	p := inPlace(t, shape.Box(4, 2, 1))
	for _, tilt := range []float64{1e-12, 1e-100, 1e-160, 1e-300, 1e-308, 1e-310, 5e-324} {
		for _, z := range []float64{0, 0.5, 1} {
			for _, n := range []r3.Vec{{X: tilt, Z: 1}, {Y: -tilt, Z: 1}, {X: tilt, Y: tilt, Z: 1}} {
				pl := through(r3.Vec{Z: z}, n)
				got, want := p.Below(pl, r3.Vec{}), p.Below(level(z), r3.Vec{})
				if d := differ(volumes(got), volumes(want), 3, 1e-11); d != "" {
					t.Errorf("Below(%v):%s", pl, d)
				}
				if got := p.WetArea(pl); !(got >= 0 && got <= p.Area()) {
					t.Errorf("WetArea(%v) = %g, want from 0 to %g", pl, got, p.Area())
				}
				if !(got.Area >= 0 && got.Area <= 8+1e-9) {
					t.Errorf("Below(%v).Area = %g, want from 0 to 8", pl, got.Area)
				}
			}
		}
	}
}
