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
