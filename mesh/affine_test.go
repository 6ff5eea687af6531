package mesh_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// linear returns the linear part as gonum's matrix.
func linear(a mesh.Affine) *mat.Dense {
	m := mat.NewDense(3, 3, nil)
	for i := range 3 {
		m.SetRow(i, a.M[i][:])
	}
	return m
}

// far reports whether two points are farther apart than tol.
func far(p, q r3.Vec, tol float64) bool { return !(r3.Norm(r3.Sub(p, q)) <= tol) }

// randomMap turns, stretches by factors between 1/2 and 2 of either sign, turns
// again and moves.
func randomMap(rng *rand.Rand) mesh.Affine {
	factor := func() float64 {
		return math.Exp2(2*rng.Float64()-1) * float64(1-2*rng.IntN(2))
	}
	a := mesh.Rotation(randomVec(rng), 6*rng.Float64()).
		Then(mesh.Scaling(factor(), factor(), factor())).
		Then(mesh.Rotation(randomVec(rng), 6*rng.Float64()))
	a.T = randomVec(rng)
	return a
}

func TestAffineAgainstMatrices(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	const tol = 1e-13
	for range 50 {
		a, b, p := randomMap(rng), randomMap(rng), randomVec(rng)

		var image, back mat.VecDense
		image.MulVec(linear(a), column(p))
		back.MulVec(linear(a).T(), column(p))
		if got := a.Vector(p); !mat.EqualApprox(column(got), &image, tol) {
			t.Errorf("Vector(%v) = %v, want %v", p, got, mat.Formatted(&image))
		}
		if got := a.Covector(p); !mat.EqualApprox(column(got), &back, tol) {
			t.Errorf("Covector(%v) = %v, want %v", p, got, mat.Formatted(&back))
		}
		if got, want := a.Point(p), r3.Add(a.Vector(p), a.T); got != want {
			t.Errorf("Point(%v) = %v, want %v", p, got, want)
		}
		if got, want := a.Then(b).Point(p), b.Point(a.Point(p)); far(got, want, tol) {
			t.Errorf("a.Then(b).Point(%v) = %v, want %v", p, got, want)
		}
		if got, want := a.Det(), mat.Det(linear(a)); math.Abs(got-want) > tol {
			t.Errorf("Det of %v = %g, want %g", a, got, want)
		}
		inv, ok := a.Inverse()
		if got := inv.Point(a.Point(p)); !ok || far(got, p, tol) {
			t.Errorf("Inverse of %v = %v, %t: takes the image of %v to %v", a, inv, ok, p, got)
		}
	}
}

func TestAffineSpecialMaps(t *testing.T) {
	p := r3.Vec{X: 1, Y: 2, Z: 3}
	for _, tt := range []struct {
		name string
		a    mesh.Affine
		want r3.Vec
	}{
		{"Identity", mesh.Identity(), p},
		{"zero value", mesh.Affine{}, r3.Vec{}},
		{"Translation", mesh.Translation(r3.Vec{X: 10, Y: 20, Z: 30}), r3.Vec{X: 11, Y: 22, Z: 33}},
		{"Scaling", mesh.Scaling(2, -3, 5), r3.Vec{X: 2, Y: -6, Z: 15}},
		{"quarter turn about x", mesh.Rotation(r3.Vec{X: 7}, math.Pi/2), r3.Vec{X: 1, Y: -3, Z: 2}},
		{"quarter turn about y", mesh.Rotation(r3.Vec{Y: 7}, math.Pi/2), r3.Vec{X: 3, Y: 2, Z: -1}},
		{"quarter turn about z", mesh.Rotation(r3.Vec{Z: 7}, math.Pi/2), r3.Vec{X: -2, Y: 1, Z: 3}},
		{"third of a turn about the diagonal", mesh.Rotation(r3.Vec{X: 1, Y: 1, Z: 1}, 2*math.Pi/3), r3.Vec{X: 3, Y: 1, Z: 2}},
		{"no axis", mesh.Rotation(r3.Vec{}, 1), p},
	} {
		if got := tt.a.Point(p); far(got, tt.want, 1e-15) {
			t.Errorf("%s: Point(%v) = %v, want %v", tt.name, p, got, tt.want)
		}
	}
	if inv, ok := mesh.Scaling(1, 0, 1).Inverse(); ok {
		t.Errorf("Inverse of a flattening map = %v, want none", inv)
	}
	if inv, ok := mesh.Scaling(1, math.NaN(), 1).Inverse(); ok {
		t.Errorf("Inverse of a map that is not finite = %v, want none", inv)
	}
}

func TestSimilarity(t *testing.T) {
	turn := mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: -1}, 1).Then(mesh.Rotation(r3.Vec{Z: 1}, 2))
	for _, tt := range []struct {
		name string
		a    mesh.Affine
		want float64 // 0 for none
	}{
		{"turn", turn, 1},
		{"millimeters", mesh.Scaling(1e-3, 1e-3, 1e-3).Then(turn), 1e-3},
		{"mirror", turn.Then(mesh.Scaling(1, -1, 1)), 1},
		{"stretch of one in a million", turn.Then(mesh.Scaling(1, 1, 1+1e-6)), 0},
		{"shear", mesh.Affine{M: [3][3]float64{{1, 1e-6, 0}, {0, 1, 0}, {0, 0, 1}}}, 0},
	} {
		got, ok := tt.a.Similarity()
		if ok != (tt.want != 0) || math.Abs(got-tt.want) > 1e-15 {
			t.Errorf("%s: Similarity = %g, %t, want %g", tt.name, got, ok, tt.want)
		}
	}
}

// A placed solid is the same as one whose vertices were mapped.
func TestPlacedEqualsMappedMesh(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	maps := []mesh.Affine{
		mesh.Identity(),
		mesh.Scaling(1, -1, 1),
		mesh.Scaling(1e-3, 1e-3, 1e-3),
		mesh.Scaling(-1, -1, -1),
		mesh.Scaling(1, 2, 0.5),
		{M: [3][3]float64{{0, 1, 0}, {0, 0, 1}, {1, 0, 0}}},
		{M: [3][3]float64{{1, 0.5, 0}, {0, 1, 0}, {0.2, 0, 1}}, T: r3.Vec{Z: 1}},
	}
	for range 60 {
		maps = append(maps, randomMap(rng))
	}
	for i, a := range maps {
		from := shape.Star(uint64(i), 1)
		byHand := shape.Transformed(from, a)
		got, want := mesh.Placed{Solid: solidOf(t, from), Place: a}, inPlace(t, byHand)

		center := want.Centroid()
		size := reach(byHand, center)
		tol := 1e-13 * size
		n := r3.Unit(randomVec(rng))
		for _, at := range []float64{-0.3, 0, 0.2, 3, -3} { // the last two all wet and all dry
			pl := through(r3.Add(center, r3.Scale(at*size, n)), n)
			about := r3.Add(center, r3.Scale(size/2, randomVec(rng)))
			// Both round; the stretch of at most four between the two sets of
			// coordinates makes the errors of one larger in the other.
			if d := differ(got.Below(pl, about), want.Below(pl, about), reach(byHand, about)+r3.Norm(about), 16*slack(byHand, pl)); d != "" {
				t.Errorf("%v: Below(%v):%s", a, pl, d)
			}
			if g, w := got.WetArea(pl), want.WetArea(pl); math.Abs(g-w) > tol*size {
				t.Errorf("%v: WetArea(%v) = %.17g, want %.17g", a, pl, g, w)
			}
		}
		for _, c := range []struct {
			name      string
			got, want float64
			power     float64
		}{
			{"Volume", got.Volume(), want.Solid.Volume(), 3},
			{"Area", got.Area(), want.Solid.Area(), 2},
		} {
			if math.Abs(c.got-c.want) > 1e-13*math.Pow(size, c.power) {
				t.Errorf("%v: %s = %.17g, want %.17g", a, c.name, c.got, c.want)
			}
		}
		for _, c := range []struct {
			name      string
			got, want r3.Vec
		}{
			{"Centroid", got.Centroid(), want.Solid.Centroid()},
			{"Lowest", got.Lowest(n), lowest(byHand, n)},
			{"Box.Min", got.Box().Min, want.Solid.Box().Min},
			{"Box.Max", got.Box().Max, want.Solid.Box().Max},
		} {
			if far(c.got, c.want, tol+1e-15*r3.Norm(center)) {
				t.Errorf("%v: %s = %v, want %v", a, c.name, c.got, c.want)
			}
		}
		for k := range byHand.Triangles {
			// The mapped triangle may begin at another corner, but it must
			// run the same way round.
			g, w := got.Triangle(k), byHand.Triangle(k)
			ng := r3.Cross(r3.Sub(g[1], g[0]), r3.Sub(g[2], g[0]))
			nw := r3.Cross(r3.Sub(w[1], w[0]), r3.Sub(w[2], w[0]))
			if far(ng, nw, tol*size) || far(g.Centroid(), w.Centroid(), tol+1e-15*r3.Norm(center)) {
				t.Errorf("%v: Triangle(%d) = %v, want %v", a, k, g, w)
			}
		}
	}
}

// lowest returns the vertex of m that is lowest along up.
func lowest(m *mesh.Mesh, up r3.Vec) r3.Vec {
	best := m.Vertices[0]
	for _, v := range m.Vertices {
		if r3.Dot(up, v) < r3.Dot(up, best) {
			best = v
		}
	}
	return best
}

// An ellipsoid, as a stretched sphere, at any heel. The unit sphere's plane has
// the normal D n / e with D = diag(a, b, c) and e = |D n|, and lies at height
// d/e of it; so the volume below is abc times that of a cap, the cut's area
// abc/e times, and the center of buoyancy lies at -k D² n / e.
func TestHeeledEllipsoid(t *testing.T) {
	const a, b, c = 0.4, 0.06, 0.05
	ball := shape.Icosphere(1, 5)
	p := mesh.Placed{Solid: solidOf(t, ball), Place: mesh.Scaling(a, b, c)}
	inner := 1.0 // the radius of the sphere that the faceted one holds
	for i := range ball.Triangles {
		tri := ball.Triangle(i)
		inner = min(inner, r3.Dot(tri[0], r3.Unit(r3.Cross(r3.Sub(tri[1], tri[0]), r3.Sub(tri[2], tri[0])))))
	}
	for _, heel := range []float64{0, 10, 30, 60, 90, 135} {
		for _, trim := range []float64{0, 5, -40} {
			n := up(trim*math.Pi/180, heel*math.Pi/180)
			dn := r3.Vec{X: a * n.X, Y: b * n.Y, Z: c * n.Z}
			e := r3.Norm(dn)
			for _, f := range []float64{-0.6, -0.1, 0.4} {
				smooth := sphereCap(1, f)
				held := sphereCap(inner, f)
				sec := p.Below(mesh.Plane{Normal: n, Offset: -f * e}, r3.Vec{})
				if lo, hi := a*b*c*held.Volume, a*b*c*smooth.Volume; !(sec.Volume >= lo && sec.Volume <= hi) {
					t.Errorf("trim %g, heel %g, at %g: Volume = %.9g, want between %.9g and %.9g", trim, heel, f, sec.Volume, lo, hi)
				}
				if lo, hi := a*b*c/e*held.Area, a*b*c/e*smooth.Area; !(sec.Area >= lo && sec.Area <= hi) {
					t.Errorf("trim %g, heel %g, at %g: Area = %.9g, want between %.9g and %.9g", trim, heel, f, sec.Area, lo, hi)
				}
				// What lies between the ellipsoids is at most that far off.
				want := r3.Scale(a*b*c*smooth.Moment.Z/e, r3.Vec{X: a * dn.X, Y: b * dn.Y, Z: c * dn.Z})
				if off := a * a * b * c * (smooth.Volume - held.Volume); far(sec.Moment, want, off) {
					t.Errorf("trim %g, heel %g, at %g: Moment = %v, want %v within %.2g", trim, heel, f, sec.Moment, want, off)
				}
			}
		}
	}
}
