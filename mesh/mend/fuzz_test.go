package mend

import (
	"errors"
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// source deals out bytes, zeros when none are left.
type source []byte

func (s *source) next() int {
	if len(*s) == 0 {
		return 0
	}
	b := (*s)[0]
	*s = (*s)[1:]
	return int(b)
}

// point deals out a point of a coarse grid, now and then a hair off it or out
// of all reason.
func (s *source) point() r3.Vec {
	at := func() float64 {
		b := s.next()
		x := float64(b % 6)
		switch b / 6 {
		case 30, 31:
			return x + 1e-7
		case 32:
			return -x // a negative zero among them
		case 33:
			return x * 1e-3
		case 34:
			return x * 1e9
		case 35:
			return x / 3
		case 41:
			return math.Inf(1)
		case 42:
			return math.NaN()
		}
		return x
	}
	return r3.Vec{X: at(), Y: at(), Z: at()}
}

// mesh deals out bodies with things missing, doubled and turned, and loose
// triangles.
func (s *source) mesh() *mesh.Mesh {
	m := raw()
	for range s.next() % 4 {
		p, q := s.point(), s.point()
		lo := r3.Vec{X: min(p.X, q.X), Y: min(p.Y, q.Y), Z: min(p.Z, q.Z)}
		hi := r3.Vec{X: max(p.X, q.X), Y: max(p.Y, q.Y), Z: max(p.Z, q.Z)}
		if lo.X < hi.X && lo.Y < hi.Y && lo.Z < hi.Z {
			m = shape.Join(m, shape.Soup(shape.BoxBetween(lo, hi)))
		}
	}
	for range s.next() % 6 {
		if n := len(m.Triangles); n > 0 {
			i := s.next() % n
			switch s.next() % 3 {
			case 0:
				m.Triangles = append(m.Triangles[:i], m.Triangles[i+1:]...)
			case 1:
				m.Triangles = append(m.Triangles, m.Triangles[i])
			case 2:
				t := &m.Triangles[i]
				t[1], t[2] = t[2], t[1]
			}
		}
	}
	for range s.next() % 24 {
		m = shape.Join(m, raw(r3.Triangle{s.point(), s.point(), s.point()}))
	}
	return m
}

func (s *source) options() Options {
	pick := func(from ...float64) float64 { return from[s.next()%len(from)] }
	return Options{
		Weld:      pick(0, 1e-6, 0.01, 100, -1),
		Junction:  pick(0, -1, 1e-3),
		MaxHole:   pick(0, 1, -1, 0.2),
		Planar:    pick(0, 1, 1e-9),
		NonPlanar: s.next()%2 == 1,
		Unit:      []string{"", "mm"}[s.next()%2],
	}
}

// FuzzClose mends rubbish: it ends with a closed solid or a clear no, and what
// it says adds up.
func FuzzClose(f *testing.F) {
	f.Add([]byte("\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x05\x05\x05"))
	f.Add([]byte("\x01\x02\x01\x01\x00\x00\x02\x00\x00\x00\x00\x05\x05\x05\x02\x02\x02\x04\x04\x04\x01\x00\x00"))
	f.Add([]byte("\x00\x00\x00\x00\x00\x00\x00\x04\x00\x00\x00\x01\x00\x00\x00\x01\x00\x00\x00\x00\x00\x01\x01\x00\x00\x00\x00\x00\x00\x00\x01\x00\x01\x00\x01\x00\x00\x00\x01\x00\x00\x00\x01"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s := source(data)
		opt := s.options()
		m := s.mesh()
		read := len(m.Triangles)
		res, err := Close(m, opt)
		if len(m.Triangles) != read {
			t.Errorf("Close changed the mesh it was given")
		}
		if err != nil {
			refusal(t, res, err)
			return
		}
		sums(t, m, res)
	})
}

// refusal checks an error of Close.
func refusal(t *testing.T, res *Result, err error) {
	t.Helper()
	input, holes, side, empty := (*InputError)(nil), (*HolesError)(nil), (*SideError)(nil), (*EmptyError)(nil)
	known := errors.As(err, &input) || errors.As(err, &holes) || errors.As(err, &side) || errors.As(err, &empty)
	switch {
	case !known:
		t.Errorf("Close: error of type %T: %v", err, err)
	case res == nil && input == nil:
		t.Errorf("Close: no report with %v", err)
	case res != nil && res.Solid != nil:
		t.Errorf("Close: a solid with %v", err)
	case holes != nil && (holes.Holes < 1 || holes.OpenEdges < 1 || holes.Largest.Why == ""):
		t.Errorf("Close: %+v", holes)
	}
}

// sums checks that what a report says is true of the solid.
func sums(t *testing.T, m *mesh.Mesh, res *Result) {
	t.Helper()
	size := r3.Norm(r3.Sub(res.Box.Max, res.Box.Min))
	tol := 1e-9 * size * size * size
	near := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s = %g, want %g (tolerance %g); %q", what, got, want, tol, res.Mended)
		}
	}
	outer := 0.0
	for _, s := range res.Shells {
		if s.Kind == Outer {
			outer += s.Volume
		}
		if s.Kind == Open || s.OpenEdges != 0 {
			t.Errorf("an open shell in a closed mesh: %+v", s)
		}
	}
	if !(res.Volume > 0) || !(res.VolumeDoubt >= 0) || !(res.Shut >= 0) || !(res.Area > 0) || res.Kept != res.Solid.Triangles() || res.Triangles != len(m.Triangles) {
		t.Errorf("report %+v", res.Report)
	}
	if res.Volume > outer+res.Shut+tol && res.Extra >= 0 {
		t.Errorf("volume %g of shells of %g with %g between them", res.Volume, outer, res.Shut)
	}
	near("volume of the solid", res.Solid.Volume(), res.Volume)
	near("volume and what was counted twice", res.Volume-res.Shut+res.Extra, outer)

	for _, s := range res.Shells {
		if (s.Kind == Cavity || s.Kind == Inner) && s.SharedEdges > 0 {
			return // no promise is made of it
		}
	}
	n, triangle := res.Repaired()
	var tris []r3.Triangle
	for i := range n {
		tris = append(tris, triangle(i))
	}
	again, err := Close(raw(tris...), Options{MaxHole: -1, Junction: -1})
	if err != nil {
		t.Errorf("what was repaired, read again: %v", err)
		return
	}
	near("volume when read again", again.Volume, res.Volume)
}
