package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// Round bodies against the closed forms of the smooth ones. Their facets are
// inscribed, so every integral is short by a/N² + b/N⁴ + ... Doubling N must
// divide the error by 4, and (4 f(2N) - f(N))/3 must leave the N⁻⁴ alone.
func TestBelowConverges(t *testing.T) {
	for _, tt := range []struct {
		name string
		body func(n int) *mesh.Mesh
		z    float64 // the level, through vertices at every N
		want mesh.Section
		wet  float64
	}{
		{"cone", func(n int) *mesh.Mesh { return shape.ConeDown(0.3, 0.6, n) }, 0.4,
			// r = 0.2 at the level
			disk(math.Pi*0.04*0.4/3, math.Pi*0.04*0.16/4, 0.2, 0.4), math.Pi * 0.2 * math.Hypot(0.2, 0.4)},
		{"paraboloid", func(n int) *mesh.Mesh { return shape.Paraboloid(0.25, 0.8, n, n) }, 0.2,
			// r² = 2az; area (2πa²/3)((1 + r²/a²)^(3/2) - 1)
			disk(math.Pi*0.25*0.04, math.Pi*0.25*0.04*2/3*0.2, math.Sqrt(2*0.25*0.2), 0.2),
			2 * math.Pi * 0.0625 / 3 * (math.Pow(1+0.1/0.0625, 1.5) - 1)},
		{"sphere, half", func(n int) *mesh.Mesh { return shape.Sphere(0.5, n, n) }, 0, sphereCap(0.5, 0), math.Pi * 0.5},
		{"sphere, a cap", func(n int) *mesh.Mesh { return shape.Sphere(0.5, n, n) }, -0.25, sphereCap(0.5, -0.25), math.Pi * 0.25},
		{"sphere, less a cap", func(n int) *mesh.Mesh { return shape.Sphere(0.5, n, n) }, 0.25, sphereCap(0.5, 0.25), math.Pi * 0.75},
		{"lying cylinder, shallow", lyingCylinder, -0.025, lyingSegment(0.05, 0.6, math.Pi/3), lyingWet(0.05, 0.6, math.Pi/3)},
		{"lying cylinder, half", lyingCylinder, 0, lyingSegment(0.05, 0.6, math.Pi/2), lyingWet(0.05, 0.6, math.Pi/2)},
		{"lying cylinder, deep", lyingCylinder, 0.025, lyingSegment(0.05, 0.6, 2*math.Pi/3), lyingWet(0.05, 0.6, 2*math.Pi/3)},
		// The wetted area to the full draft is by adaptive quadrature of the
		// smooth surface; 0.661 L(2T + B) is the figure commonly quoted.
		{"Wigley hull, to its deck", wigley, 0.0625, wigleySection(1, 0.1, 0.0625, 0), 0.148790631},
		{"Wigley hull, half draft", wigley, 0.03125, wigleySection(1, 0.1, 0.0625, 0.5), math.NaN()},
	} {
		const n = 48 // divisible by 12, for levels through vertices
		at := func(n int) []number {
			p := inPlace(t, tt.body(n))
			return append(numbers(p.Below(level(tt.z), r3.Vec{})), number{"WetArea", p.WetArea(level(tt.z)), 2})
		}
		coarse, fine := at(n), at(2*n)
		for i, want := range append(numbers(tt.want), number{"WetArea", tt.wet, 2}) {
			name, f1, f2 := want.name, coarse[i].value, fine[i].value
			if math.IsNaN(want.value) {
				continue // no closed form
			}
			if math.Abs(want.value) < 1e-15 {
				if math.Abs(f1) > 1e-15 || math.Abs(f2) > 1e-15 {
					t.Errorf("%s: %s = %g and %g, want 0", tt.name, name, f1, f2)
				}
				continue
			}
			e1, e2 := f1/want.value-1, f2/want.value-1
			// The second moment of a polygon over that of its circle is
			// (sin δ/δ)(2 + cos δ)/3 with δ = 2π/N, which is
			// 1 - 13.2/N² + 77.9/N⁴; nothing here is short by more. The
			// N⁻⁴ term makes the ratio 4 + 3b/a/N², and -b/4/N⁴ is left
			// of it after extrapolation.
			if !(e1 <= 1e-13 && e1 >= -14./(n*n)) {
				t.Errorf("%s, N = %d: %s = %.9g, want %.9g, off by %.2g of it", tt.name, n, name, f1, want.value, e1)
			}
			if math.Abs(e1) > 1e-7 && math.Abs(e1/e2-4) > 30./(n*n) {
				t.Errorf("%s: %s: off by %.3g at N = %d and by %.3g at twice that, ratio %.4f, want 4", tt.name, name, e1, n, e2, e1/e2)
			}
			if e := (4*e2 - e1) / 3; math.Abs(e) > 20./(n*n*n*n) {
				t.Errorf("%s: %s extrapolated to N = ∞ is off by %.2g of %.9g", tt.name, name, e, want.value)
			}
		}
	}
}

// disk returns a horizontal section with a circular cut.
func disk(v, mz, r, z float64) mesh.Section {
	a := math.Pi * r * r
	return horizontal(v, mz, a, a*r*r/4, a*r*r/4, z)
}

// sphereCap returns the section of a sphere of radius r about the origin below
// height z.
func sphereCap(r, z float64) mesh.Section {
	h, a2 := r+z, r*r-z*z
	return disk(math.Pi*h*h*(3*r-h)/3, -math.Pi*a2*a2/4, math.Sqrt(a2), z)
}

func lyingCylinder(n int) *mesh.Mesh {
	return shape.Transformed(shape.Cylinder(0.05, 0.6, n), lie(0.6))
}

// lyingSegment returns the section of a cylinder of radius r along x, centered,
// wet up to the angle alpha on each side from straight down.
func lyingSegment(r, l, alpha float64) mesh.Section {
	s, c := math.Sincos(alpha)
	w := 2 * r * s
	return horizontal(l*r*r*(alpha-s*c), -l*2/3*r*r*r*s*s*s, l*w, w*l*l*l/12, l*w*w*w/12, -r*c)
}

func lyingWet(r, l, alpha float64) float64 {
	s, c := math.Sincos(alpha)
	return 2*r*alpha*l + 2*r*r*(alpha-s*c)
}

func wigley(n int) *mesh.Mesh { return shape.Wigley(1, 0.1, 0.0625, n, n) }

// wigleySection returns the section of the smooth hull, keel at z = 0, up to
// the depth vT below the deck. All are integrals of the polynomial: the water
// line's half breadth is (B/2)(1 - u²)(1 - v²).
func wigleySection(l, b, t, v float64) mesh.Section {
	k := 1 - v*v
	below := 2./3 - v + v*v*v/3                                // ∫ (1 - v²) dv from v to 1
	rising := 5./12 - (v - v*v/2 - v*v*v/3 + math.Pow(v, 4)/4) // ∫ (1 - v)(1 - v²) dv
	return horizontal(2./3*l*b*t*below, 2./3*l*b*t*t*rising, 2./3*l*b*k, k*b*l*l*l/30, k*k*k*4/105*l*b*b*b, t*(1-v))
}

// A sphere cut by any plane lies between the smooth ones that hold it and that
// it holds, and so do its cut and its volume below.
func TestBelowBetweenSpheres(t *testing.T) {
	ball := shape.Icosphere(1, 4)
	p := inPlace(t, ball)
	inner := 1.0
	for i := range ball.Triangles {
		tri := ball.Triangle(i)
		inner = min(inner, r3.Dot(tri[0], r3.Unit(r3.Cross(r3.Sub(tri[1], tri[0]), r3.Sub(tri[2], tri[0])))))
	}
	if 1-inner > 2e-3 {
		t.Fatalf("a sphere of %d triangles holds one of radius %g only", len(ball.Triangles), inner)
	}
	for i := range 60 {
		n := r3.Unit(r3.Vec{X: math.Sin(float64(i)), Y: math.Cos(1.3 * float64(i)), Z: math.Sin(0.7*float64(i) + 1)})
		d := -0.97 + 1.94*float64(i)/59
		got := p.Below(mesh.Plane{Normal: n, Offset: -d}, r3.Vec{})
		least, most := mesh.Section{}, sphereCap(1, d)
		if math.Abs(d) < inner {
			least = sphereCap(inner, d)
		}
		u := r3.Unit(r3.Cross(n, r3.Vec{X: 1, Y: 2, Z: -0.5})) // along the plane
		for _, c := range []struct {
			name           string
			lo, value, top float64
		}{
			{"Volume", least.Volume, got.Volume, most.Volume},
			{"Area", least.Area, got.Area, most.Area},
			{"AreaSecond along the plane", least.AreaSecond.XX, got.AreaSecond.Form(u, u), most.AreaSecond.XX},
		} {
			if !(c.value >= c.lo-1e-15 && c.value <= c.top+1e-15) {
				t.Errorf("at %v·p = %g: %s = %.12g, want between %.12g and %.12g", n, d, c.name, c.value, c.lo, c.top)
			}
		}
	}
}
