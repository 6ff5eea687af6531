package overlap_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/overlap"
)

// tetrahedra reads bodies of four facets from bytes: a byte for each
// coordinate, -8 to 7 in its upper half, and in its lower half how it is off:
// not, by a last bit, by a hair or by a third.
func tetrahedra(data []byte) []*mesh.Mesh {
	var all []*mesh.Mesh
	for len(data) >= 12 && len(all) < 6 {
		var p [4]r3.Vec
		for i := range p {
			x := func(b byte) float64 {
				v := float64(int8(b) >> 4)
				switch b & 15 {
				case 1:
					v = math.Nextafter(v, 99)
				case 2:
					v += 1e-12
				case 3:
					v -= 1e-7
				case 4:
					v += 1.0 / 3
				}
				return v
			}
			p[i] = r3.Vec{X: x(data[3*i]), Y: x(data[3*i+1]), Z: x(data[3*i+2])}
		}
		data = data[12:]
		six := r3.Dot(r3.Cross(r3.Sub(p[1], p[0]), r3.Sub(p[2], p[0])), r3.Sub(p[3], p[0]))
		if six < 0 {
			p[0], p[1] = p[1], p[0]
		}
		if math.Abs(six) < 1e-9 {
			continue // as good as flat
		}
		all = append(all, &mesh.Mesh{Vertices: p[:], Triangles: [][3]uint32{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}}})
	}
	return all
}

// FuzzUnion unites tetrahedra in three ways: one after the other, in the
// opposite order, and all at once as one mesh.
func FuzzUnion(f *testing.F) {
	f.Add([]byte("\x00\x00\x00\x10\x00\x00\x00\x10\x00\x00\x00\x10" + "\x00\x00\x00\x10\x00\x00\x00\x10\x00\x00\x00\x10"))
	f.Add([]byte("\x00\x00\x00\x20\x00\x00\x00\x20\x00\x00\x00\x20" + "\x10\x00\x00\x30\x00\x00\x10\x20\x00\x10\x00\x20"))
	f.Add([]byte("\x00\x00\x00\x40\x00\x00\x00\x40\x00\x00\x00\x40" + "\x00\x00\x00\x40\x00\x00\x00\xc0\x00\x00\x00\x40" + "\x00\x00\x00\xc0\x00\x00\x00\x40\x00\x00\x00\x40"))
	f.Add([]byte("\x01\x02\x03\x44\x04\x01\x02\x43\x04\x01\x02\x43" + "\x04\x03\x02\x41\x02\x03\x04\x42\x01\x03\x02\x44" + "\x71\x80\x14\xc2\x33\x04\x51\x43\x64\x04\xf3\x42"))
	f.Add([]byte("\x70\x70\x70\x80\x80\x70\x80\x70\x80\x70\x80\x80" + "\x80\x80\x80\x70\x70\x80\x70\x80\x70\x80\x70\x70"))
	f.Fuzz(func(t *testing.T, data []byte) {
		meshes := tetrahedra(data)
		if len(meshes) == 0 {
			return
		}
		var parts, back []mesh.Placed
		joined := &mesh.Mesh{}
		for _, m := range meshes {
			base := uint32(len(joined.Vertices))
			joined.Vertices = append(joined.Vertices, m.Vertices...)
			for _, c := range m.Triangles {
				joined.Triangles = append(joined.Triangles, [3]uint32{c[0] + base, c[1] + base, c[2] + base})
			}
			s, err := mesh.NewSolid(append([]r3.Vec(nil), m.Vertices...), m.Triangles)
			if err != nil {
				t.Skip(err)
			}
			parts = append(parts, inPlace(s))
			back = append([]mesh.Placed{inPlace(s)}, back...)
		}
		forth := unite(t, parts...)
		want, most, sum := forth.volume(), 0.0, 0.0
		for _, p := range parts {
			most, sum = max(most, p.Volume()), sum+p.Volume()
		}
		// The lattice is 2^-50 of a size of 16, the surface under 6000.
		const tol = 1e-10
		if want < most-tol || want > sum+tol {
			t.Errorf("volume = %.17g, want %g to %g", want, most, sum)
		}
		if got := unite(t, back...).volume(); math.Abs(got-want) > tol {
			t.Errorf("volume = %.17g in the opposite order, %.17g in order", got, want)
		}
		verts, tris, _, err := overlap.Once(joined.Vertices, joined.Triangles, false)
		if err != nil {
			t.Fatalf("Once: %v", err)
		}
		s, err := mesh.NewSolid(append([]r3.Vec(nil), verts...), tris)
		if err != nil {
			t.Fatalf("Once: %v", err)
		}
		if math.Abs(s.Volume()-want) > tol {
			t.Errorf("volume = %.17g at once, %.17g one by one", s.Volume(), want)
		}
	})
}
