package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// wallSided returns the section of an upright prism of any outline, standing on
// z = 0 and balanced about the z axis, below the plane of unit normal n that
// meets the axis at draft d, as long as only the walls are cut. The outline has
// the area a and the second moments ∫x² dA = ix and ∫y² dA = iy.
//
// The water stands z = d - (n.X x + n.Y y)/n.Z deep over each point of the
// bottom; all else is integrals of that over the outline.
func wallSided(a, ix, iy, d float64, n r3.Vec) mesh.Section {
	p, q := n.X/n.Z, n.Y/n.Z
	return mesh.Section{
		Volume:     a * d,
		Moment:     r3.Vec{X: -p * ix, Y: -q * iy, Z: (a*d*d + p*p*ix + q*q*iy) / 2},
		Area:       a / n.Z,
		AreaMoment: r3.Vec{Z: a * d / n.Z},
		AreaSecond: mesh.Sym{XX: ix, YY: iy, ZZ: a*d*d + p*p*ix + q*q*iy, XZ: -p * ix, YZ: -q * iy}.Scale(1 / n.Z),
	}
}

// horizontal returns the section of a body balanced about the z axis whose cut
// at height z has the area a and the second moments ix and iy, and whose part
// below has the volume v and the moment mz about z = 0.
func horizontal(v, mz, a, ix, iy, z float64) mesh.Section {
	return mesh.Section{
		Volume: v, Moment: r3.Vec{Z: mz},
		Area: a, AreaMoment: r3.Vec{Z: a * z},
		AreaSecond: mesh.Sym{XX: ix, YY: iy, ZZ: a * z * z},
	}
}

// ngon returns the area and the second moment about any line through the
// middle of a regular polygon of n corners at radius r.
func ngon(n int, r float64) (area, second float64) {
	s, c := math.Sincos(2 * math.Pi / float64(n))
	area = float64(n) / 2 * s * r * r
	return area, area * r * r * (2 + c) / 12
}

// up returns the upward direction in body axes at a trim and a heel.
func up(trim, heel float64) r3.Vec {
	return r3.Vec{X: math.Sin(trim), Y: math.Cos(trim) * math.Sin(heel), Z: math.Cos(trim) * math.Cos(heel)}
}

// through returns the plane of normal n through a point.
func through(p, n r3.Vec) mesh.Plane { return mesh.Plane{Normal: n, Offset: -r3.Dot(n, p)} }

// Bodies of flat sides, for which every number has a closed form.
func TestBelowClosedForms(t *testing.T) {
	const deg = math.Pi / 180
	type test struct {
		name    string
		body    *mesh.Mesh
		plane   mesh.Plane
		want    mesh.Section
		wetArea float64
	}
	var tests []test

	{ // A box level, heeled, trimmed and both, the walls alone cut.
		const l, b, h, d = 0.9, 0.1, 0.1, 0.055
		for _, a := range [][2]float64{{0, 0}, {0, 20 * deg}, {3 * deg, 0}, {-4 * deg, -10 * deg}} {
			n := up(a[0], a[1])
			tests = append(tests, test{"box", shape.Box(l, b, h), through(r3.Vec{Z: d}, n),
				wallSided(l*b, b*l*l*l/12, l*b*b*b/12, d, n), l*b + 2*d*(l+b)})
		}
	}
	{ // Upright prisms over regular polygons, heeled every way.
		const r, h, d = 0.3, 1, 0.5
		for _, corners := range []int{3, 7, 64} {
			n := up(15*deg, -25*deg)
			a, i := ngon(corners, r)
			girth := 2 * r * math.Sin(math.Pi/float64(corners)) * float64(corners)
			tests = append(tests, test{"upright prism", shape.Cylinder(r, h, corners), through(r3.Vec{Z: d}, n),
				wallSided(a, i, i, d, n), a + girth*d})
		}
	}
	{ // A V bottom with the chine dry, and wet under vertical sides.
		const l, b, beta, depth = 0.8, 0.1, 20 * deg, 0.1
		chine := b / 2 * math.Tan(beta)
		for _, d := range []float64{0.015, 0.04} {
			c := min(d, chine)
			w := 2 * c / math.Tan(beta)
			end := w*c/2 + w*(d-c)
			mz := l * (w*c/2*(2*c/3) + w*(d-c)*(c+d)/2)
			tests = append(tests, test{"V bottom", shape.VBottom(l, b, beta, depth), level(d),
				horizontal(l*end, mz, l*w, w*l*l*l/12, l*w*w*w/12, d),
				2*end + l*(2*c/math.Sin(beta)+2*(d-c))})
		}
	}
	{ // Cones of n facets, apex down.
		const r, h, z = 0.4, 0.9, 0.5
		for _, n := range []int{3, 8, 60} {
			rz := r * z / h
			a, i := ngon(n, rz)
			half := math.Pi / float64(n)
			side := float64(n) * rz * math.Sin(half) * math.Hypot(z, rz*math.Cos(half))
			tests = append(tests, test{"cone", shape.ConeDown(r, h, n), level(z),
				horizontal(a*z/3, a*z*z/4, a, i, i, z), side})
		}
	}
	{ // A prism of n facets on its side, cut where the level meets two corners.
		const l, r = 0.6, 0.05
		for _, n := range []int{12, 60, 360} {
			for _, k := range []int{n / 6, n / 4, n / 3} { // corners wet on each side
				v, mz, w, girth := lyingPrism(n, k, r)
				z := -r * math.Cos(2*math.Pi*float64(k)/float64(n))
				lying := shape.Transformed(shape.Cylinder(r, l, n), lie(l))
				tests = append(tests, test{"lying prism", lying, level(z),
					horizontal(l*v, l*mz, l*w, w*l*l*l/12, l*w*w*w/12, z), 2*v + l*girth})
			}
		}
	}
	{ // A unit cube on its corner: a small corner under, and half of it.
		cube := shape.Transformed(shape.BoxBetween(r3.Vec{}, r3.Vec{X: 1, Y: 1, Z: 1}), onCorner())
		const leg = 0.7
		z, a := leg/math.Sqrt(3), math.Sqrt(3)/2*leg*leg
		i := a * leg * leg / 12 // an equilateral triangle of side s has A s²/24
		tests = append(tests, test{"cube corner", cube, level(z),
			horizontal(leg*leg*leg/6, leg*leg*leg/6*3*z/4, a, i, i, z), 3 * leg * leg / 2})
		// Half under: a hexagon of side s = 1/√2; the part below is a
		// tetrahedron of leg 3/2 less three of leg 1/2 at height 1/√3.
		half := 1.5 / math.Sqrt(3)
		mz := 27./48*3*half/4 - 3./48*(1/math.Sqrt(3)+0.5/math.Sqrt(3)*3/4)
		tests = append(tests, test{"cube half under", cube, level(half),
			horizontal(0.5, mz, 3*math.Sqrt(3)/4, 5*math.Sqrt(3)/64, 5*math.Sqrt(3)/64, half), 3})
	}
	{ // A ring half under: the cut has a hole.
		const big, r, n, m = 0.5, 0.2, 24, 16
		outer, io := ngon(n, big+r)
		inner, ii := ngon(n, big-r)
		tube, _ := ngon(m, r)
		round := shape.PolygonFactor(n) * 2 * math.Pi * big
		mz := -2. / 3 * r * r * r * math.Pow(math.Cos(math.Pi/m), 2) // of half the tube's polygon
		ring := shape.Torus(big, r, n, m)
		tests = append(tests, test{"ring", ring, level(0),
			horizontal(round*tube/2, round*mz, outer-inner, io-ii, io-ii, 0), solidOf(t, ring).Area() / 2})
	}

	for _, tt := range tests {
		size := reach(tt.body, r3.Vec{})
		p := inPlace(t, tt.body)
		// One rounding of the size for each triangle summed, and some for
		// the closed forms.
		tol := unitRoundoff * float64(len(tt.body.Triangles)+50)
		if d := differ(p.Below(tt.plane, r3.Vec{}), tt.want, size, tol); d != "" {
			t.Errorf("%s of %d triangles: Below(%v):%s", tt.name, len(tt.body.Triangles), tt.plane, d)
		}
		if got := p.WetArea(tt.plane); !(math.Abs(got-tt.wetArea) <= tol*size*size) {
			t.Errorf("%s of %d triangles: WetArea(%v) = %.17g, want %.17g", tt.name, len(tt.body.Triangles), tt.plane, got, tt.wetArea)
		}
	}
}

// lyingPrism returns the area, the first moment about the middle, the water
// line and the wet girth of a regular polygon of n corners at radius r, one of
// them straight down, below the line through the k-th corners from there.
func lyingPrism(n, k int, r float64) (area, moment, breadth, girth float64) {
	delta := 2 * math.Pi / float64(n)
	alpha := float64(k) * delta
	// The wet 2k triangles to the middle, less or plus the one under the
	// level itself. Their centroids are (2/3) r cos(δ/2) from the middle, in
	// directions whose cosines add up to sin α / sin(δ/2).
	one := r * r * math.Sin(delta) / 2
	top := r * r * math.Sin(2*alpha) / 2
	area = 2*float64(k)*one - top
	moment = -one*2/3*r*math.Cos(delta/2)*math.Sin(alpha)/math.Sin(delta/2) + top*2/3*r*math.Cos(alpha)
	return area, moment, 2 * r * math.Sin(alpha), 4 * float64(k) * r * math.Sin(delta/2)
}

// lie returns the map that lays an upright body of height l along x, centered,
// what was at +x straight down.
func lie(l float64) mesh.Affine {
	return mesh.Affine{M: [3][3]float64{{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}}, T: r3.Vec{X: -l / 2}}
}

// onCorner returns the turn that brings (1, 1, 1) upright.
func onCorner() mesh.Affine {
	return mesh.Rotation(r3.Vec{X: 1, Y: -1}, math.Acos(1/math.Sqrt(3)))
}

// Heights of the metacenter over the center of buoyancy, and of that center, as
// textbooks print them.
func TestTextbookWaterplanes(t *testing.T) {
	twin := shape.Join(moved(shape.Box(5, 1, 1), 0, 2.5, 0), moved(shape.Box(5, 1, 1), 0, -2.5, 0))
	for _, tt := range []struct {
		source            string
		body              *mesh.Mesh
		draft             float64
		volume, kb, bm    float64
		volTol, kbTol, bT float64
	}{
		// The tolerances are half a unit of the last digit printed, or 1e-12
		// where the closed form is exact.
		{"Derrett & Barrass, Ship Stability for Masters and Mates, p. 130 ex. 2",
			shape.Box(65, 12, 8), 4, 3198 / 1.025, 2, 3, 1e-9, 1e-12, 1e-12},
		{"Derrett & Barrass, p. 111: BM of a box 10 m wide at 3.5 m",
			shape.Box(30, 10, 5), 3.5, 30 * 10 * 3.5, 1.75, 2.38, 1e-9, 1e-12, 0.005},
		{"Derrett & Barrass, p. 111: triangular section, KB = 2d/3, BM = w²/(6d)",
			shape.Wedge(7, 4, 2), 1.5, 7 * 3 * 1.5 / 2, 1, 1, 1e-9, 1e-12, 1e-12},
		{"Nicholls's Seamanship and Nautical Knowledge, p. 527: box of 36 ft beam at 18 ft",
			shape.Box(100, 36, 30), 18, 100 * 36 * 18, 9, 6, 1e-9, 1e-12, 1e-12},
		// The course answer 6.25 b²/T leaves out each hull's own inertia,
		// b²/(12 T).
		{"MIT OpenCourseWare 2.017J problem 40: twin hulls of breadth b, total beam 6 b",
			twin, 0.8, 2 * 5 * 0.8, 0.4, (6.25 + 1./12) / 0.8, 1e-12, 1e-12, 1e-12},
	} {
		got := inPlace(t, tt.body).Below(level(tt.draft), r3.Vec{})
		for _, c := range []struct {
			name           string
			got, want, tol float64
		}{
			{"volume", got.Volume, tt.volume, tt.volTol},
			{"KB", got.Moment.Z / got.Volume, tt.kb, tt.kbTol},
			{"BM", got.AreaSecond.YY / got.Volume, tt.bm, tt.bT},
		} {
			if !(math.Abs(c.got-c.want) <= c.tol) {
				t.Errorf("%s: %s = %.9g, want %.9g", tt.source, c.name, c.got, c.want)
			}
		}
	}
}

// The volume, the water plane and the draft of a triangular vessel of 40 by
// 12 m and KB 3.6 m in salt water, 1328.4 t: stability lecture notes, ch. 8.
func TestTriangularVessel(t *testing.T) {
	const draft = 3.6 * 3 / 2
	section := []r2.Vec{{}, {X: 8, Y: draft * 8 / 6}, {X: -8, Y: draft * 8 / 6}}
	got := inPlace(t, shape.Extruded(section, 40)).Below(level(draft), r3.Vec{})
	if w := 1.025 * got.Volume; math.Abs(w-1328.4) > 1e-9 {
		t.Errorf("displacement = %.9g t, want 1328.4", w)
	}
	if math.Abs(got.Area-480) > 1e-9 {
		t.Errorf("water plane = %.9g m², want 480", got.Area)
	}
}
