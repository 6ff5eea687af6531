package shape_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// integrate returns the volume and its centroid as sums over the triangles'
// shadows on the coordinate planes: the volume is ∫ z dx dy over the surface,
// and the moment of x is ∫ x²/2 dy dz. The second moments of a triangle follow
// from its corner values a, b, c: the mean of a square over it is
// (a²+b²+c²+ab+bc+ca)/6.
func integrate(m *mesh.Mesh) (volume float64, centroid r3.Vec) {
	square := func(a, b, c float64) float64 { return (a*a + b*b + c*c + a*b + b*c + c*a) / 6 }
	for i := range m.Triangles {
		t := m.Triangle(i)
		shadow := r3.Scale(0.5, r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0])))
		volume += shadow.Z * (t[0].Z + t[1].Z + t[2].Z) / 3
		centroid.X += shadow.X * square(t[0].X, t[1].X, t[2].X) / 2
		centroid.Y += shadow.Y * square(t[0].Y, t[1].Y, t[2].Y) / 2
		centroid.Z += shadow.Z * square(t[0].Z, t[1].Z, t[2].Z) / 2
	}
	return volume, r3.Scale(1/volume, centroid)
}

// fault says what is wrong with m as a closed surface with shared vertices:
// an edge that its reverse does not meet exactly once, an unused vertex, two
// vertices in one place, a triangle without area. It returns "" for none.
func fault(m *mesh.Mesh) string {
	edges := make(map[[2]uint32]int)
	used := make([]bool, len(m.Vertices))
	for i, t := range m.Triangles {
		for k := range 3 {
			used[t[k]] = true
			edges[[2]uint32{t[k], t[(k+1)%3]}]++
		}
		if a := m.Triangle(i).Area(); !(a > 0) {
			return fmt.Sprintf("triangle %d (%v) has area %v", i, m.Triangle(i), a)
		}
	}
	for e, n := range edges {
		if back := edges[[2]uint32{e[1], e[0]}]; n != 1 || back != 1 {
			return fmt.Sprintf("edge %v-%v is used %d times forth and %d back", m.Vertices[e[0]], m.Vertices[e[1]], n, back)
		}
	}
	places := make(map[r3.Vec]bool)
	for i, v := range m.Vertices {
		if !used[i] {
			return fmt.Sprintf("vertex %d is not used", i)
		}
		if places[v] {
			return fmt.Sprintf("two vertices at %v", v)
		}
		places[v] = true
	}
	return ""
}

// Closed forms: elementary solid geometry; for facets as the comments of the
// bodies say.
func TestClosedForms(t *testing.T) {
	const exact = 1e-12
	tan20 := math.Tan(math.Pi / 9)
	vArea := 0.1*0.08 - 0.01*tan20/4
	// The volume of m cone frustums with n facets, and the height of its
	// centroid: r grows as r0 + (r1-r0)t over a frustum, and the integrals of
	// π r² and π r² z over t are polynomials.
	frustums := func(n int, outline func(u float64) (r, z float64), m int) (volume, height float64) {
		for i := range m {
			r0, z0 := outline(float64(i) / float64(m))
			r1, z1 := outline(float64(i+1) / float64(m))
			h, v := z1-z0, (r0*r0+r0*r1+r1*r1)/3
			volume += math.Pi * h * v
			height += math.Pi * h * (z0*v + h*(r0*r0+2*r0*r1+3*r1*r1)/12)
		}
		return volume * shape.PolygonFactor(n), height / volume
	}
	circle := func(u float64) (r, z float64) { return math.Sin(math.Pi * u), -math.Cos(math.Pi * u) }
	parabola := func(u float64) (r, z float64) { return u * math.Sqrt(2*0.1*0.25), u * u * 0.25 }
	edge := 2 / math.Sin(2*math.Pi/5)
	ball, _ := frustums(24, circle, 15)
	egg, _ := frustums(24, circle, 16)
	bowl, bowlHeight := frustums(30, parabola, 11)

	for _, c := range []struct {
		name     string
		mesh     *mesh.Mesh
		volume   float64
		centroid r3.Vec
		tol      float64 // relative for the volume; of unit length for the centroid
	}{
		{"box", shape.Box(4, 2, 1), 8, r3.Vec{Z: 0.5}, exact},
		{"box by corners", shape.BoxBetween(r3.Vec{X: 1, Y: 2, Z: 3}, r3.Vec{X: 2, Y: 4, Z: 6}), 6, r3.Vec{X: 1.5, Y: 3, Z: 4.5}, exact},
		{"wedge", shape.Wedge(2, 0.4, 0.3), 2 * 0.4 * 0.3 / 2, r3.Vec{Z: 0.2}, exact},
		// Moments of a rectangle less two right triangles under the V.
		{"V bottom", shape.VBottom(0.8, 0.1, math.Pi/9, 0.08), 0.8 * vArea,
			r3.Vec{Z: (0.1*0.08*0.04 - 0.01*tan20/4*(0.05*tan20/3)) / vArea}, exact},
		{"triangle extruded", shape.Extruded([]r2.Vec{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 1, Y: 3}}, 5), 15, r3.Vec{X: 0, Y: 2, Z: 5.0 / 3}, exact},
		{"hexagonal prism", shape.Cylinder(2, 3, 6), 3 * 6 * math.Sqrt(3), r3.Vec{Z: 1.5}, exact},
		{"cylinder of odd facets", shape.Cylinder(1, 2, 7), 2 * math.Pi * shape.PolygonFactor(7), r3.Vec{Z: 1}, exact},
		{"cylinder, smooth", shape.Cylinder(1, 2, 1000), 2 * math.Pi, r3.Vec{Z: 1}, 1e-5},
		{"cone", shape.Cone(1, 3, 50), math.Pi * shape.PolygonFactor(50), r3.Vec{Z: 0.75}, exact},
		{"cone, apex down", shape.ConeDown(1, 3, 50), math.Pi * shape.PolygonFactor(50), r3.Vec{Z: 2.25}, exact},
		{"sphere", shape.Sphere(1, 24, 15), ball, r3.Vec{}, exact},
		{"sphere, smooth", shape.Sphere(1, 400, 200), 4 * math.Pi / 3, r3.Vec{}, 2e-4},
		{"ellipsoid", shape.Ellipsoid(4, 3, 2, 24, 16), 24 * egg, r3.Vec{}, exact},
		{"paraboloid", shape.Paraboloid(0.1, 0.25, 30, 11), bowl, r3.Vec{Z: bowlHeight}, exact},
		{"paraboloid, smooth", shape.Paraboloid(0.1, 0.25, 400, 100), math.Pi * 0.1 * 0.0625, r3.Vec{Z: 0.5 / 3}, 1e-4},
		{"torus", shape.Torus(3, 1, 17, 9), math.Pow(math.Pi, 2) * 6 * shape.PolygonFactor(17) * shape.PolygonFactor(9), r3.Vec{}, exact},
		{"icosahedron", shape.Icosphere(2, 0), 5.0 / 12 * (3 + math.Sqrt(5)) * edge * edge * edge, r3.Vec{}, exact},
		{"icosphere, smooth", shape.Icosphere(2, 6), 32 * math.Pi / 3, r3.Vec{}, 4e-4},
		{"Wigley hull, smooth", shape.Wigley(0.8, 0.12, 0.05, 160, 80), 4.0 / 9 * 0.8 * 0.12 * 0.05, r3.Vec{Z: 0.05 * 5 / 8}, 2e-4},
		{"fuselage of round frames", shape.Fuselage([]shape.Frame{{X: -1, Half: 0.2, Bottom: -0.2, Top: 0.2, Square: 2}, {X: 1, Half: 0.2, Bottom: -0.2, Top: 0.2, Square: 2}}, 30000),
			0.08 * math.Pi, r3.Vec{}, 2e-3},
	} {
		t.Run(c.name, func(t *testing.T) {
			if f := fault(c.mesh); f != "" {
				t.Fatal(f)
			}
			volume, centroid := integrate(c.mesh)
			if !scalar.EqualWithinRel(volume, c.volume, c.tol) {
				t.Errorf("volume = %.15g, want %.15g", volume, c.volume)
			}
			if r3.Norm(r3.Sub(centroid, c.centroid)) > c.tol {
				t.Errorf("centroid = %v, want %v", centroid, c.centroid)
			}
		})
	}
}

// The facets' shortfall must fall with the square of their number.
func TestFacetsConverge(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(n int) *mesh.Mesh
		want float64
	}{
		{"sphere", func(n int) *mesh.Mesh { return shape.Sphere(1, 2*n, n) }, 4 * math.Pi / 3},
		{"paraboloid", func(n int) *mesh.Mesh { return shape.Paraboloid(0.1, 0.25, 2*n, n) }, math.Pi * 0.1 * 0.0625},
		{"torus", func(n int) *mesh.Mesh { return shape.Torus(3, 1, 2*n, n) }, 6 * math.Pi * math.Pi},
		{"Wigley hull", func(n int) *mesh.Mesh { return shape.Wigley(1, 0.1, 0.0625, 2*n, n) }, 4.0 / 9 * 0.1 * 0.0625},
	} {
		coarse, _ := integrate(c.make(20))
		fine, _ := integrate(c.make(40))
		if ratio := (c.want - coarse) / (c.want - fine); math.Abs(ratio-4) > 0.05 {
			t.Errorf("%s: error at n over error at 2n = %v, want 4", c.name, ratio)
		}
	}
}

func TestStar(t *testing.T) {
	for seed := range uint64(50) {
		m := shape.Star(seed, 3)
		if f := fault(m); f != "" {
			t.Fatalf("Star(%d): %s", seed, f)
		}
		for i := range m.Triangles {
			c := m.Triangle(i)
			if v := r3.Dot(c[0], r3.Cross(c[1], c[2])); !(v > 0) {
				t.Fatalf("Star(%d): the origin does not see triangle %d from inside: %v", seed, i, v)
			}
		}
		again, other := shape.Star(seed, 3), shape.Star(seed+1, 3)
		if m.Vertices[7] != again.Vertices[7] || m.Vertices[7] == other.Vertices[7] {
			t.Errorf("Star(%d) must repeat for its seed and differ from the next", seed)
		}
	}
}

func TestAlter(t *testing.T) {
	body := shape.Transformed(shape.Star(3, 2), mesh.Translation(r3.Vec{X: 0.3, Y: -0.2, Z: 0.5}))
	volume, centroid := integrate(body)
	turn := mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 3}, 0.7).Then(mesh.Translation(r3.Vec{X: 5}))
	stretch := mesh.Scaling(2, -1, 0.5)
	box := shape.Box(1, 1, 1)
	boxMiddle := r3.Vec{Z: 0.5}
	both := r3.Scale(1/(volume+1), r3.Add(r3.Scale(volume, centroid), boxMiddle))

	for _, c := range []struct {
		name     string
		mesh     *mesh.Mesh
		volume   float64
		centroid r3.Vec
	}{
		{"Refined", shape.Refined(body), volume, centroid},
		{"Shuffled", shape.Shuffled(body, 1), volume, centroid},
		{"turned", shape.Transformed(body, turn), volume, turn.Point(centroid)},
		{"mirrored and stretched", shape.Transformed(body, stretch), volume, stretch.Point(centroid)},
		{"InsideOut", shape.InsideOut(body), -volume, centroid},
		{"Soup", shape.Soup(body), volume, centroid},
		{"Join", shape.Join(body, box), volume + 1, both},
	} {
		v, at := integrate(c.mesh)
		if !scalar.EqualWithinRel(v, c.volume, 1e-12) || r3.Norm(r3.Sub(at, c.centroid)) > 1e-12 {
			t.Errorf("%s: volume %v at %v, want %v at %v", c.name, v, at, c.volume, c.centroid)
		}
		if c.name == "Soup" {
			if n, want := len(c.mesh.Vertices), 3*len(body.Triangles); n != want {
				t.Errorf("Soup has %d vertices, want %d", n, want)
			}
		} else if f := fault(c.mesh); f != "" && c.name != "Join" {
			t.Errorf("%s: %s", c.name, f)
		}
	}
	if n, want := len(shape.Refined(body).Triangles), 4*len(body.Triangles); n != want {
		t.Errorf("Refined has %d triangles, want %d", n, want)
	}
	if s := shape.Shuffled(body, 1); s.Vertices[0] == body.Vertices[0] && s.Vertices[1] == body.Vertices[1] {
		t.Error("Shuffled left the vertices in place")
	}
	open := shape.Without(body, 0, 5)
	if len(open.Triangles) != len(body.Triangles)-2 || fault(open) == "" {
		t.Errorf("Without left %d of %d triangles, closed", len(open.Triangles), len(body.Triangles))
	}
}
