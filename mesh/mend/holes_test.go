package mend

import (
	"errors"
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

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
			res := mustClose(t, m, Options{MaxHole: 0.3})
			wantVolume(t, "volume", res.Volume, 24)
			if !said(res.Mended, "closed a hole") || !res.Holes[0].Closed || res.VolumeDoubt > 1e-12 {
				t.Errorf("said %q, holes %+v, doubt %g, want a planar hole closed", res.Mended, res.Holes, res.VolumeDoubt)
			}
		})
	}
}

// Holes that are small enough one by one, but not together.
func TestManyHoles(t *testing.T) {
	m := shape.Icosphere(1, 4)
	var every []int
	for i := 0; i < len(m.Triangles); i += 64 {
		every = append(every, i)
	}
	_, err := Close(shape.Without(m, every...), Options{})
	var e *HolesError
	if !errors.As(err, &e) || !said([]string{err.Error()}, "all holes together") {
		t.Errorf("Close = %v, want the holes together refused", err)
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
	whole := shape.Icosphere(1, 3)
	var gap []int // the facets around one vertex
	for i, c := range whole.Triangles {
		if c[0] == 0 || c[1] == 0 || c[2] == 0 {
			gap = append(gap, i)
		}
	}
	m := shape.Without(whole, append(gap, len(whole.Triangles)-1)...)
	_, err := Close(m, Options{MaxHole: 0.001})
	var e *HolesError
	if !errors.As(err, &e) || e.CloseAt == 0 {
		t.Fatalf("Close = %v, want a hole too large", err)
	}
	// A band of facets is not planar.
	zone := append(gap, neighbors(whole, gap)...)
	m = shape.Without(whole, zone[:len(zone)-3]...)
	_, err = Close(m, Options{})
	if !errors.As(err, &e) || !e.CloseCurved || e.CloseAt == 0 || e.CloseDoubt == 0 {
		t.Fatalf("Close = %v, %+v, want a hole that is not planar and how to close it", err, e)
	}
	res := mustClose(t, m, Options{MaxHole: e.CloseAt, NonPlanar: true})
	want := mustClose(t, whole, Options{}).Volume
	if d := math.Abs(res.Volume - want); d > res.VolumeDoubt || res.VolumeDoubt > 0.05*want || d < 1e-4*want {
		t.Errorf("volume %g, doubt %g, want %g within it", res.Volume, res.VolumeDoubt, want)
	}
	if got := res.VolumeDoubt / res.Volume; math.Abs(got-e.CloseDoubt) > 1e-12 {
		t.Errorf("doubt %g of the volume, foretold %g", got, e.CloseDoubt)
	}
	if !said(res.Mended, "volume uncertain") || !said(res.Warnings, "uncertain") {
		t.Errorf("said %q, warned %q, want the doubt", res.Mended, res.Warnings)
	}
}

// neighbors returns the facets that share a vertex with some of the given ones
// and are not among them.
func neighbors(m *mesh.Mesh, list []int) (all []int) {
	near, in := make(map[uint32]bool), make(map[int]bool)
	for _, i := range list {
		in[i] = true
		for _, v := range m.Triangles[i] {
			near[v] = true
		}
	}
	for i, c := range m.Triangles {
		if !in[i] && (near[c[0]] || near[c[1]] || near[c[2]]) {
			all = append(all, i)
		}
	}
	return all
}

// A box without its top and a side can be closed in no way that tells its
// volume.
func TestTooDoubtful(t *testing.T) {
	m := brick(0, 0, 0, 2, 3, 4)
	gap := append(facesAlong(m, up), facesAlong(m, port)...)
	_, err := Close(shape.Without(m, gap...), Options{MaxHole: 1})
	var e *HolesError
	if !errors.As(err, &e) || e.Largest.OffPlane < 0.5 || e.CloseAt != 0 {
		t.Fatalf("Close = %v, want a hole far off its plane", err)
	}
	_, err = Close(shape.Without(m, gap...), Options{MaxHole: 1, NonPlanar: true})
	if !errors.As(err, &e) || !said([]string{err.Error()}, "leaves the volume uncertain by up to") {
		t.Errorf("Close = %v, want the volume too uncertain", err)
	}
}

// A cap cut off a ball leaves a planar hole, and its facets slope toward it: the
// cap's volume is within the doubt, and the doubt not far above it.
func TestBulge(t *testing.T) {
	ball := shape.Icosphere(1, 5)
	for _, level := range []float64{0.8, 0.9, 0.99} {
		var cap []int
		for i := range ball.Triangles {
			if ball.Triangle(i).Centroid().Z > level {
				cap = append(cap, i)
			}
		}
		res := mustClose(t, shape.Without(ball, cap...), Options{MaxHole: 1, NonPlanar: true})
		// A ball's cap of height h: π h² (3 - h) / 3.
		h := 1 - level
		want := math.Pi * h * h * (3 - h) / 3
		if got := mustClose(t, ball, Options{}).Volume - res.Volume; math.Abs(got-want) > 0.3*want || got > res.VolumeDoubt || res.VolumeDoubt > 5*want {
			t.Errorf("cut off at %g: lost %g, doubt %g, want %g within it", level, got, res.VolumeDoubt, want)
		}
	}
}

// What the error says would close the mesh does so, and a little less does not.
func TestCureOfHoles(t *testing.T) {
	box := brick(0, 0, 0, 2, 3, 4)
	top := facesAlong(box, up)
	for _, c := range []struct {
		name    string
		m       *mesh.Mesh
		closeAt float64 // the largest of the holes' shares, rounded up to two digits
	}{
		{"a face of 6 in a shell of 46 left", shape.Without(box, top...), 0.14},
		{"half a face of 6 in 49", shape.Without(box, top[0]), 0.062},
		{"two halves, 6 in 46", shape.Without(box, top[0], facesAlong(box, r3.Scale(-1, up))[0]), 0.14},
	} {
		_, err := Close(c.m, Options{})
		var e *HolesError
		if !errors.As(err, &e) || math.Abs(e.CloseAt-c.closeAt) > 1e-12 || e.CloseCurved || e.CloseDoubt != 0 {
			t.Errorf("%s: Close = %v, %+v, want it closed by %g", c.name, err, e, c.closeAt)
			continue
		}
		mustClose(t, c.m, Options{MaxHole: e.CloseAt})
		if _, err := Close(c.m, Options{MaxHole: 0.93 * e.CloseAt}); err == nil {
			t.Errorf("%s: closed with holes of %g", c.name, 0.93*e.CloseAt)
		}
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
