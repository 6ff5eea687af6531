package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
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

// pick deals out one of some numbers.
func (s *source) pick(from ...float64) float64 { return from[s.next()%len(from)] }

// point deals out a point of a coarse grid, so that planes through others,
// coinciding points and flat figures are common, now and then a hair off it.
func (s *source) point() r3.Vec {
	at := func() float64 {
		b := s.next()
		return float64(b%8) + []float64{0, 0, 0, 0, 0x1p-50, 1e-9, 1e-4, 1.0 / 3}[b/32]
	}
	return r3.Vec{X: at(), Y: at(), Z: at()}
}

// chain deals out a closed chain of triangles: the faces of tetrahedra over a
// few points, which may be flat, overlap and share faces.
func (s *source) chain() (vertices []r3.Vec, triangles [][3]uint32) {
	for range 4 + s.next()%12 {
		vertices = append(vertices, s.point())
	}
	n := len(vertices)
	for range 1 + s.next()%16 {
		i, j, k, l := uint32(s.next()%n), uint32(s.next()%n), uint32(s.next()%n), uint32(s.next()%n)
		a := vertices[i]
		if r3.Dot(r3.Sub(vertices[j], a), r3.Cross(r3.Sub(vertices[k], a), r3.Sub(vertices[l], a))) < 0 {
			k, l = l, k
		}
		triangles = append(triangles, [3]uint32{i, k, j}, [3]uint32{i, l, k}, [3]uint32{i, j, l}, [3]uint32{j, k, l})
	}
	return vertices, triangles
}

// place deals out a map that may mirror, stretch and move far away.
func (s *source) place() mesh.Affine {
	a := mesh.Scaling(s.pick(1, 1, -1, 1e-3, 1e6), s.pick(1, 1, -1, 1e3), s.pick(1, 1, 2.5, 1e-6))
	a = a.Then(mesh.Rotation(r3.Vec{X: float64(s.next()), Y: 1, Z: 2}, s.pick(0, 0, math.Pi/2, 0.3, 3)))
	a.T = r3.Vec{X: s.pick(0, 0, 0.1, 1e5), Y: s.pick(0, -1e-7), Z: s.pick(0, 0, 1e8)}
	return a
}

// plane deals out a plane, most often through a vertex or a hair beside.
func (s *source) plane(p mesh.Placed) mesh.Plane {
	n := r3.Vec{X: float64(s.next()%7 - 3), Y: float64(s.next()%7 - 3), Z: float64(s.next()%7-3) + s.pick(0, 0, 0, 1e-12, 1e-6, 0.1)}
	if r3.Norm(n) < 1e-6 {
		n.Z = 1
	}
	n = r3.Unit(n)
	through := p.Triangle(s.next() % p.Solid.Triangles())[s.next()%3]
	size := r3.Norm(r3.Sub(p.Box().Max, p.Box().Min))
	offset := -r3.Dot(n, through)
	switch s.next() % 5 {
	case 1:
		offset = math.Nextafter(offset, math.Inf(1))
	case 2:
		offset = math.Nextafter(offset, math.Inf(-1))
	case 3:
		offset += 1e-12 * size
	case 4:
		offset += size * (float64(s.next())/128 - 1)
	}
	return mesh.Plane{Normal: n, Offset: offset}
}

// finite reports whether all numbers of a section are.
func finite(s mesh.Section) bool {
	sum := s.Volume + s.Area + s.AreaSecond.XX + s.AreaSecond.YY + s.AreaSecond.ZZ + s.AreaSecond.XY + s.AreaSecond.XZ + s.AreaSecond.YZ +
		s.Moment.X + s.Moment.Y + s.Moment.Z + s.AreaMoment.X + s.AreaMoment.Y + s.AreaMoment.Z
	return sum-sum == 0
}

// FuzzBelow cuts chains of tetrahedra with planes that pass through vertices,
// edges and facets or a rounding beside them. What is below and what is above
// make the whole, nothing is negative, and the index gives what the straight
// pass gives.
func FuzzBelow(f *testing.F) {
	f.Add([]byte("\x00\x00\x00\x00\x04\x00\x00\x00\x04\x00\x00\x00\x04\x00\x00\x01\x02\x03"))
	f.Add([]byte("a tetrahedron and another, cut where they touch"))
	f.Add([]byte("\x0cAAAABBBCBBBCCCCDAAADDDAADBBBABCDEFGH\x0fabcdefghijklmnopqrstuvwxyz0123456789"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s := source(data)
		solid, err := mesh.NewSolid(s.chain())
		if err != nil {
			t.Skip()
		}
		p := mesh.Placed{Solid: solid, Place: s.place()}
		pl := s.plane(p)
		box := p.Box()
		size, far := r3.Norm(r3.Sub(box.Max, box.Min)), r3.Norm(box.Max)+r3.Norm(box.Min)
		about := box.Center()
		// A height is off by some rounding errors of the largest coordinate,
		// and the volume by that times the area; each tetrahedron counts.
		n := float64(solid.Triangles())
		tol := 1e-14 * n * size * size * (size + far)

		var sections [2]mesh.Section
		for k := range sections {
			if k == 1 {
				solid.BuildIndex()
			}
			below, above := p.Below(pl, about), p.Below(flipped(pl), about)
			if !finite(below) || !finite(above) {
				t.Fatalf("Below(%v) = %+v, above %+v", pl, below, above)
			}
			whole := p.Volume()
			if got := below.Volume + above.Volume; math.Abs(got-whole) > tol || below.Volume < -tol || above.Volume < -tol {
				t.Errorf("below %v: %g, above %g, together off by %g of %g (tolerance %g)", pl, below.Volume, above.Volume, got-whole, whole, tol)
			}
			moment := r3.Sub(r3.Add(below.Moment, above.Moment), r3.Scale(whole, r3.Sub(p.Centroid(), about)))
			if r3.Norm(moment) > 4*tol*size {
				t.Errorf("below %v: moments together off by %g (tolerance %g)", pl, r3.Norm(moment), 4*tol*size)
			}
			wet, dry := p.WetArea(pl), p.WetArea(flipped(pl))
			if area := p.Area(); !(wet >= 0 && dry >= 0 && wet+dry <= area*(1+1e-9)) {
				t.Errorf("WetArea(%v) = %g, above %g, of %g", pl, wet, dry, area)
			}
			sections[k] = below
		}
		if d := sections[0].Volume - sections[1].Volume; math.Abs(d) > tol {
			t.Errorf("below %v: the index is off by %g (tolerance %g)", pl, d, tol)
		}
	})
}
