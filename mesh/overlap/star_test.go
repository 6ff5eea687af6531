package overlap

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// smoothSpots returns the arrangement of a closed chain and what smooth says of
// it, and fails where facets around a spot that it calls smooth have more in
// common than their edges, as meet finds pair by pair.
func smoothSpots(t *testing.T, vertices []r3.Vec, triangles [][3]uint32) (a *arrangement, smooth []bool) {
	t.Helper()
	a, err := newArrangement([]soup{{vertices, triangles}}, fine)
	if err != nil {
		t.Fatal(err)
	}
	smooth = a.smooth(a.bodies[0].torn)
	around := make([][]uint32, len(a.at))
	for f := range a.facets {
		for _, v := range a.facets[f].v {
			around[v] = append(around[v], uint32(f))
		}
	}
	for v, star := range around {
		if !smooth[v] {
			continue
		}
		for i, f := range star {
			for _, g := range star[:i] {
				if err := a.meet(f, g); err != nil {
					t.Fatal(err)
				}
				if len(a.cuts) > 0 || a.doubled > 0 {
					t.Fatalf("smooth: spot %d at %v is smooth, but facets %v and %v meet", v, a.at[v], a.facets[f].v, a.facets[g].v)
				}
			}
		}
	}
	return a, smooth
}

func TestSmooth(t *testing.T) {
	// Turned so that no face is seen edge-on along an axis.
	askew := mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 4}, 0.5)
	for _, c := range []struct {
		name string
		m    *mesh.Mesh
		most int // spots that are not smooth
	}{
		{"sphere", shape.Icosphere(1, 4), 0},
		{"torus", shape.Torus(3, 1, 60, 30), 0},
		{"box", shape.Box(3, 2, 1), 8},
		{"box askew", shape.Transformed(shape.Box(3, 2, 1), askew), 8},
		// All corners of a fine face, but not those on its rim.
		{"fine box", shape.Refined(shape.Refined(shape.Box(3, 2, 1))), 8 + 12*3},
		{"hull", shape.Wigley(4, 0.5, 0.3, 40, 10), 4 * (40 + 10)},
	} {
		vertices, triangles := welded(c.m)
		_, smooth := smoothSpots(t, vertices, triangles)
		rough := 0
		for _, s := range smooth {
			if !s {
				rough++
			}
		}
		if rough > c.most {
			t.Errorf("%s: smooth is false for %d of %d spots, want no more than %d", c.name, rough, len(smooth), c.most)
		}
	}
}

// welded numbers the vertices of a mesh by place.
func welded(m *mesh.Mesh) (vertices []r3.Vec, triangles [][3]uint32) {
	number := make(map[r3.Vec]uint32)
	for _, c := range m.Triangles {
		for k, v := range c {
			p := r3.Add(m.Vertices[v], r3.Vec{}) // no negative zeros
			n, ok := number[p]
			if !ok {
				n = uint32(len(vertices))
				number[p] = n
				vertices = append(vertices, p)
			}
			c[k] = n
		}
		triangles = append(triangles, c)
	}
	return vertices, triangles
}

// TestSmoothRings closes rings of corners, once or twice around or every which
// way, with facets to a tip above and one below. The corners lie on a coarse
// grid, so that many coincide or are in line.
func TestSmoothRings(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	once, more := 0, 0
	for round := range 4000 {
		times := 1 + round%3
		n := 3*times + r.IntN(5)
		vertices := []r3.Vec{{Z: float64(r.IntN(4))}, {Z: float64(-r.IntN(4))}}
		for i := range n {
			at := 2 * math.Pi * (float64(i*times) + 0.8*r.Float64()) / float64(n)
			far := 3 + 3*r.Float64()
			p := r3.Vec{X: math.Round(far * math.Cos(at)), Y: math.Round(far * math.Sin(at)), Z: float64(r.IntN(3))}
			if times == 3 {
				p = r3.Vec{X: float64(r.IntN(7) - 3), Y: float64(r.IntN(7) - 3), Z: float64(r.IntN(3))}
			}
			vertices = append(vertices, p)
		}
		var triangles [][3]uint32
		for i := range uint32(n) {
			p, q := 2+i, 2+(i+1)%uint32(n)
			triangles = append(triangles, [3]uint32{0, p, q}, [3]uint32{1, q, p})
		}
		a, smooth := smoothSpots(t, vertices, triangles)
		switch {
		case a.seenAt(0) == 0:
		case smooth[0]:
			once++
		default:
			more++
		}
	}
	if once < 200 || more < 200 {
		t.Errorf("of the tips around which all facets are seen the same way round, smooth is true for %d and false for %d: want 200 each at least", once, more)
	}
}

// seenAt returns how all facets around a spot are seen.
func (a *arrangement) seenAt(v uint32) uint8 {
	seen := uint8(seenAll)
	for i := range a.facets {
		if f := &a.facets[i]; f.corner(v) >= 0 {
			seen &= f.seen
		}
	}
	return seen
}
