package overlap_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"
)

// body draws a closed body of some size near the origin.
func body(t *rapid.T) *mesh.Mesh {
	var m *mesh.Mesh
	switch rapid.IntRange(0, 4).Draw(t, "body") {
	case 0:
		m = shape.Box(rapid.Float64Range(0.5, 3).Draw(t, "l"), rapid.Float64Range(0.5, 3).Draw(t, "b"), 1)
	case 1:
		m = shape.Star(rapid.Uint64Range(0, 1000).Draw(t, "seed"), 2)
	case 2:
		m = shape.Torus(1, rapid.Float64Range(0.1, 0.9).Draw(t, "r"), 12, 8)
	case 3:
		m = shape.Cylinder(0.7, 2, 12)
	default:
		m = shape.Icosphere(1, 1)
	}
	if rapid.Bool().Draw(t, "refined") {
		m = shape.Refined(m)
	}
	return m
}

// place draws where a body goes: moved by whole or odd numbers, turned by right
// or odd angles, mirrored or stretched.
func place(t *rapid.T) mesh.Affine {
	a := mesh.Identity()
	if rapid.Bool().Draw(t, "mirrored") {
		a = mesh.Scaling(1, -1, 1)
	}
	axis := rapid.SampledFrom([]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: 1, Y: 2, Z: 3}}).Draw(t, "axis")
	angle := rapid.SampledFrom([]float64{0, math.Pi / 2, math.Pi, 0.3, 1e-9}).Draw(t, "angle")
	a = a.Then(mesh.Rotation(axis, angle))
	if rapid.IntRange(0, 3).Draw(t, "stretched") == 0 {
		a = a.Then(mesh.Scaling(1.5, 1, 0.7))
	}
	shift := rapid.SampledFrom([]float64{0, 0, 0.5, 1, 0.123, -0.7, 1e-12}).Draw
	return a.Then(mesh.Translation(r3.Vec{X: shift(t, "x"), Y: shift(t, "y"), Z: shift(t, "z")}))
}

// somePlane draws a plane that passes near the origin.
func somePlane(t *rapid.T) mesh.Plane {
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "plane"), 1))
	n := r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
	return mesh.Plane{Normal: n, Offset: r.Float64()*2 - 1}
}

func size(p mesh.Placed) float64 { return r3.Norm(p.Box().Size()) }

// What a shares with b is what b shares with a, below any plane: so the order
// of parts does not matter. The chain that either gives is other triangles.
func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := mesh.Placed{Solid: solidOf(t, body(t)), Place: place(t)}
		b := mesh.Placed{Solid: solidOf(t, body(t)), Place: place(t)}
		c := mesh.Placed{Solid: solidOf(t, body(t)), Place: place(t)}
		pl := somePlane(t)
		ab := section(t, []mesh.Placed{a, b, c}, pl)
		for _, order := range [][]mesh.Placed{{b, a, c}, {c, b, a}, {b, c, a}} {
			ba := section(t, order, pl)
			differ(t, "another order", ba, ab, size(a)+size(b)+size(c))
		}
	})
}

func solidOf(t *rapid.T, m *mesh.Mesh) *mesh.Solid {
	verts, tris := welded(m)
	verts, tris, _, err := overlap.Once(verts, tris, false)
	if err != nil {
		t.Fatalf("Once: %v", err)
	}
	s, err := mesh.NewSolid(verts, tris)
	if err != nil {
		t.Fatalf("NewSolid: %v", err)
	}
	return s
}

// section returns the union's section below a plane.
func section(t *rapid.T, parts []mesh.Placed, pl mesh.Plane) mesh.Section {
	var sum mesh.Section
	for i, p := range parts {
		sum = sum.Add(p.Below(pl, r3.Vec{}))
		s, err := overlap.Shared(p, parts[:i])
		if err != nil {
			t.Fatalf("Shared: %v", err)
		}
		if s != nil {
			sum = sum.Add(mesh.Placed{Solid: s, Place: p.Place}.Below(pl, r3.Vec{}).Scale(-1))
		}
	}
	return sum
}

func differ(t *rapid.T, what string, got, want mesh.Section, size float64) {
	t.Helper()
	const tol = 1e-12
	cube := size * size * size
	if d := math.Abs(got.Volume - want.Volume); !(d <= tol*cube) {
		t.Errorf("%s: volume %.17g, want %.17g", what, got.Volume, want.Volume)
	}
	if d := r3.Norm(r3.Sub(got.Moment, want.Moment)); !(d <= tol*cube*size) {
		t.Errorf("%s: moment %v, want %v", what, got.Moment, want.Moment)
	}
	// The plane is at random: no facet lies in it but for slivers.
	if d := math.Abs(got.Area - want.Area); !(d <= 1e-9*size*size) {
		t.Errorf("%s: cut area %.17g, want %.17g", what, got.Area, want.Area)
	}
}

// A body in two flush halves is the body.
func TestHalvesMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := shape.Refined(shape.Box(2, 1, 1))
		set := place(t)
		whole := mesh.Placed{Solid: solidOf(t, shape.Box(4, 1, 1)), Place: set}
		left := solidOf(t, at(b, -1, 0, 0))
		right := solidOf(t, at(shape.Box(2, 1, 1), 1, 0, 0))
		pl := somePlane(t)
		parts := []mesh.Placed{{Solid: left, Place: set}, {Solid: right, Place: set}}
		differ(t, "two halves", section(t, parts, pl), whole.Below(pl, r3.Vec{}), 5)
		wet := 0.0
		for i, p := range parts {
			wet += p.WetArea(pl)
			s, err := overlap.Shared(p, parts[:i])
			if err != nil {
				t.Fatalf("Shared: %v", err)
			}
			if s != nil {
				wet -= mesh.Placed{Solid: s, Place: p.Place}.WetArea(pl)
			}
		}
		if want := whole.WetArea(pl); math.Abs(wet-want) > 1e-9*want+1e-12 {
			t.Errorf("wetted area of two halves %.17g, want %.17g", wet, want)
		}
	})
}

// The union of a and b and what they share make a and b, where what they share
// is worked out another way: as the union of the complements in a large box.
// (A or B) and (A and B) = A and B is no check, as it is how one is defined.
func TestSharedByComplements(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := mesh.Placed{Solid: solidOf(t, body(t)), Place: place(t)}
		b := mesh.Placed{Solid: solidOf(t, body(t)), Place: place(t)}
		pl := somePlane(t)
		room := inPlace(solidOf(t, at(shape.Box(40, 41, 42), 0, 0, -20)))
		// Not A and not B within the room: their union is the room without
		// what A and B share.
		parts := []mesh.Placed{complement(t, a, room), complement(t, b, room)}
		rest := section(t, parts, pl)
		got := room.Below(pl, r3.Vec{}).Add(rest.Scale(-1))

		var want mesh.Section
		s, err := overlap.Shared(a, []mesh.Placed{b})
		if err != nil {
			t.Fatalf("Shared: %v", err)
		}
		if s != nil {
			want = mesh.Placed{Solid: s, Place: a.Place}.Below(pl, r3.Vec{})
		}
		differ(t, "by complements", got, want, 10)
	})
}

// complement returns a room with the solid cut out as a cavity.
func complement(t *rapid.T, p, room mesh.Placed) mesh.Placed {
	var verts []r3.Vec
	var tris [][3]uint32
	add := func(p mesh.Placed, inward bool) {
		base := uint32(len(verts))
		for i := range p.Solid.Vertices() {
			verts = append(verts, p.Place.Point(p.Solid.Vertex(i)))
		}
		for i := range p.Solid.Triangles() {
			c := p.Solid.Corners(i)
			if inward != (p.Place.Det() < 0) {
				c[1], c[2] = c[2], c[1]
			}
			tris = append(tris, [3]uint32{c[0] + base, c[1] + base, c[2] + base})
		}
	}
	add(room, false)
	add(p, true)
	s, err := mesh.NewSolid(verts, tris)
	if err != nil {
		t.Fatalf("NewSolid: %v", err)
	}
	return inPlace(s)
}
