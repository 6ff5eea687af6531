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

// A foil and a needle through it are each just thick enough; the two in one are
// so much longer that they are too thin, as they would be if read as one shell.
func TestTooThinTogether(t *testing.T) {
	foil, needle := brick(0, 0, 0, 1, 1, 4e-12), brick(0.5, 0.5, -2, 0.5+1e-9, 0.5+1e-9, 2)
	for name, m := range map[string]*mesh.Mesh{"foil": foil, "needle": needle} {
		if _, err := Close(m, Options{}); err != nil {
			t.Errorf("%s: Close = %v, want no error", name, err)
		}
	}
	res, err := Close(shape.Join(foil, needle), Options{})
	var e *EmptyError
	if !errors.As(err, &e) || res.Solid != nil || len(res.Shells) != 2 {
		t.Errorf("both: Close = %+v, %v, want two shells and an EmptyError", res, err)
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
