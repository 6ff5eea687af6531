package mesh_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/bench"
	"millpond/mesh/shape"
)

const deg = math.Pi / 180

// floatShape is a float as a builder might draw it, one unit long.
var floatShape = bench.Lines

// rounded returns m with its vertices as an STL file would keep them.
var rounded = bench.Rounded

// indexed returns m as a Solid with an index.
func indexed(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	s := solidOf(t, m)
	s.BuildIndex()
	return s
}

// indexBodies are closed meshes of all kinds.
func indexBodies() map[string]*mesh.Mesh {
	return map[string]*mesh.Mesh{
		"float":                          floatShape.Mesh(6000),
		"shuffled":                       shape.Shuffled(floatShape.Mesh(3000), 3),
		"wing":                           shape.Wing{Span: 1.4, Root: 0.25, Tip: 0.15, Sweep: 0.05, Dihedral: 0.05, Thickness: 0.12, Camber: 0.03, CamberAt: 0.4}.Mesh(4000),
		"box":                            shape.Refined(shape.Refined(shape.Refined(shape.Box(1, 0.5, 0.25)))),
		"two triangles of a leaf's size": shape.Box(1, 1, 1),
		"ball":                           shape.Icosphere(1, 4),
		"ring":                           shape.Torus(1, 0.3, 40, 24),
		"star":                           shape.Star(7, 4),
		"two apart":                      shape.Join(shape.Icosphere(0.5, 3), shape.Transformed(shape.Icosphere(0.3, 3), mesh.Translation(r3.Vec{X: 5, Y: 0.1}))),
		"two crossing":                   shape.Join(shape.Icosphere(0.5, 3), shape.Transformed(shape.Icosphere(0.3, 3), mesh.Translation(r3.Vec{X: 0.4, Z: 0.1}))),
		"needles":                        shape.Cylinder(1, 3, 700),
	}
}

// direction returns a random unit vector.
func direction(rng *rand.Rand) r3.Vec {
	return r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
}

// planeAt returns the plane with a normal through a point.
func planeAt(n, at r3.Vec) mesh.Plane { return mesh.Plane{Normal: n, Offset: -r3.Dot(n, at)} }

// testPlanes returns planes of every kind past a placed solid: random ones,
// through vertices, through facets, and such as hardly touch it.
func testPlanes(rng *rand.Rand, p mesh.Placed, count int) map[string]mesh.Plane {
	planes := map[string]mesh.Plane{}
	s := p.Solid
	box := p.Box()
	diagonal := r3.Norm(r3.Sub(box.Max, box.Min))
	for i := range count {
		n := direction(rng)
		vertex := p.Place.Point(s.Vertex(rng.IntN(s.Vertices())))
		middle := p.Centroid()
		planes[fmt.Sprint("random ", i)] = planeAt(n, r3.Add(middle, r3.Scale(rng.Float64(), r3.Sub(vertex, middle))))
		planes[fmt.Sprint("vertex ", i)] = planeAt(n, vertex)
		for k, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			planes[fmt.Sprint("vertex ", i, " across axis ", k)] = planeAt(axis, vertex)
			planes[fmt.Sprint("vertex ", i, " against axis ", k)] = planeAt(r3.Scale(-1, axis), vertex)
		}
		f := p.Triangle(rng.IntN(s.Triangles()))
		facet := r3.Unit(r3.Cross(r3.Sub(f[1], f[0]), r3.Sub(f[2], f[0])))
		planes[fmt.Sprint("facet ", i)] = planeAt(facet, f[0])
		planes[fmt.Sprint("facet from below ", i)] = planeAt(r3.Scale(-1, facet), f[1])
		lowest := p.Lowest(n)
		for _, depth := range []float64{0, 1e-16, 1e-13, 1e-9, 1e-6, 1e-3} {
			up := r3.Scale(depth*diagonal, n)
			planes[fmt.Sprint("tangent ", i, " by ", depth)] = planeAt(n, r3.Add(lowest, up))
			planes[fmt.Sprint("tangent from above ", i, " by ", depth)] = planeAt(r3.Scale(-1, n), r3.Add(lowest, up))
		}
	}
	return planes
}

// unlike says where got differs from want by more than 1e-12 of the value and
// of what it is made of: a moment of a volume times the size, and so on. What a
// plane cuts off is known no better than its height over the vertices, so
// 1e-15 of the size's power is allowed in any case.
func unlike(got, want mesh.Section, size float64) string {
	var out string
	w := numbers(want)
	for i, g := range numbers(got) {
		scale := math.Abs(w[i].value)
		switch {
		case i >= 1 && i < 4:
			scale += want.Volume * size
		case i >= 5 && i < 8:
			scale += want.Area * size
		case i >= 8:
			scale += want.Area * size * size
		}
		limit := 1e-12*scale + 1e-15*math.Pow(size, g.power)
		if !(math.Abs(g.value-w[i].value) <= limit) {
			out += fmt.Sprintf("\n\t%s = %.17g, want %.17g, off by %.2g, allowed %.2g", g.name, g.value, w[i].value, g.value-w[i].value, limit)
		}
	}
	return out
}

// placements are maps of every kind.
func placements() map[string]mesh.Affine {
	turned := mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: -1}, 0.7)
	return map[string]mesh.Affine{
		"as is":     mesh.Identity(),
		"turned":    turned.Then(mesh.Translation(r3.Vec{X: 3, Y: -2, Z: 1})),
		"mirrored":  turned.Then(mesh.Scaling(1, -1, 1)),
		"enlarged":  turned.Then(mesh.Scaling(40, 40, 40)),
		"stretched": mesh.Scaling(2, 0.7, 1.3).Then(turned),
	}
}

func TestIndexMatchesStraightPass(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	for name, m := range indexBodies() {
		s := indexed(t, m)
		for place, a := range placements() {
			p := mesh.Placed{Solid: s, Place: a}
			box := p.Box()
			size := r3.Norm(r3.Sub(box.Max, box.Min))
			about := p.Centroid()
			for kind, pl := range testPlanes(rng, p, 2) {
				if d := unlike(p.Below(pl, about), p.Straight(pl, about), size); d != "" {
					t.Errorf("%s, %s, %s: Below(%v) by the index against the straight pass:%s", name, place, kind, pl, d)
				}
				got, want := p.WetArea(pl), p.StraightWetArea(pl)
				if !(math.Abs(got-want) <= 1e-12*want+1e-15*size*size) {
					t.Errorf("%s, %s, %s: WetArea(%v) = %.17g by the index, want %.17g", name, place, kind, pl, got, want)
				}
			}
		}
	}
}

// A part drawn 10,000 times its size from the file's origin, in float32 as in
// any STL: whatever the file still says of it must come out.
func TestIndexFarFromOrigin(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2))
	m := floatShape.Mesh(6000)
	far := rounded(shape.Transformed(m, mesh.Translation(r3.Vec{X: 1e4, Y: -1e4, Z: 1e4})))
	// The same mesh moved back to the origin by exact subtraction.
	near := shape.Transformed(far, mesh.Translation(r3.Vec{X: -1e4, Y: 1e4, Z: -1e4}))
	there := mesh.Placed{Solid: indexed(t, far), Place: mesh.Translation(r3.Vec{X: -1e4, Y: 1e4, Z: -1e4})}
	here := mesh.Placed{Solid: solidOf(t, near), Place: mesh.Identity()}
	for kind, pl := range testPlanes(rng, here, 20) {
		got, want := there.Below(pl, r3.Vec{}), here.Below(pl, r3.Vec{})
		if !strings.HasPrefix(kind, "random") {
			// Heights are rounded in another way here and there. A
			// facet in the plane may count as above or below, which
			// moves the cut but no volume.
			got, want = volumes(got), volumes(want)
		}
		if d := unlike(got, want, 1); d != "" {
			t.Errorf("%s: Below(%v) of the far float by the index, against the near one by the straight pass:%s", kind, pl, d)
		}
		if d := unlike(there.Below(pl, r3.Vec{}), there.Straight(pl, r3.Vec{}), 1); d != "" {
			t.Errorf("%s: Below(%v) of the far float by the index, against the straight pass:%s", kind, pl, d)
		}
	}
}

// The exact answer, in rational arithmetic, of bodies small enough for that.
func TestIndexMatchesExactArithmetic(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 3))
	for range 8 {
		radii := make([]float64, 42)
		for i := range radii {
			radii[i] = 0.5 + rng.Float64()
		}
		m := dented(radii)
		for i, v := range m.Vertices {
			m.Vertices[i] = r3.Scale(1.0/64, r3.Vec{X: math.Round(64 * v.X), Y: math.Round(64 * v.Y), Z: math.Round(64 * v.Z)})
		}
		p := mesh.Placed{Solid: indexed(t, m), Place: mesh.Identity()}
		for range 3 {
			pl := planeAt(direction(rng), r3.Scale(0.4, m.Vertices[rng.IntN(len(m.Vertices))]))
			about := p.Centroid()
			size := reach(m, about)
			got, want := p.Below(pl, about), exactBelow(m, pl, about)
			if d := differ(got, want, size, slack(m, pl)); d != "" {
				t.Errorf("Below(%v, %v) of %v:%s", pl, about, m, d)
			}
			if d := differ(volumes(got), volumes(want), size, 100*unitRoundoff); d != "" {
				t.Errorf("Below(%v, %v) of %v:%s", pl, about, m, d)
			}
		}
	}
}

func TestIndexFindsLowest(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 4))
	for name, m := range indexBodies() {
		for place, a := range placements() {
			with := mesh.Placed{Solid: indexed(t, m), Place: a}
			without := mesh.Placed{Solid: solidOf(t, m), Place: a}
			directions := []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1}, {Y: -1}, {Z: -1}, r3.Unit(r3.Vec{X: 1, Y: 1})}
			for range 20 {
				directions = append(directions, direction(rng))
			}
			for _, up := range directions {
				// One and the same vertex, also where many are equally low.
				if got, want := with.Lowest(up), without.Lowest(up); got != want {
					t.Errorf("%s, %s: Lowest(%v) = %v by the index, want %v", name, place, up, got, want)
				}
			}
		}
	}
}

func TestIndexFindsGrazes(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	found := 0
	for name, m := range indexBodies() {
		with, without := indexed(t, m), solidOf(t, m)
		for place, a := range placements() {
			for kind, pl := range testPlanes(rng, mesh.Placed{Solid: with, Place: a}, 1) {
				for _, tolerance := range []float64{0, 1e-12, 1e-3} {
					got := mesh.Placed{Solid: with, Place: a}.Grazes(pl, tolerance)
					want := mesh.Placed{Solid: without, Place: a}.Grazes(pl, tolerance)
					if got != want {
						t.Errorf("%s, %s, %s: Grazes(%v, %g) = %t by the index, want %t", name, place, kind, pl, tolerance, got, want)
					}
					if want {
						found++
					}
				}
			}
		}
	}
	if found < 50 {
		t.Errorf("only %d planes grazed a facet", found)
	}
}

// The work of a cut must grow as the triangles along the waterline do, that is,
// as the square root of their number: a cut that visits a fixed share of all
// triangles is caught here, whatever a timer says.
func TestVisitsGrowAsSquareRoot(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	counts := []int{4e3, 16e3, 64e3}
	planes := floatPlanes(rng, 40)
	var x, visits, tries []float64
	for _, n := range counts {
		p := mesh.Placed{Solid: indexed(t, rounded(floatShape.Mesh(n))), Place: mesh.Identity()}
		visited, straddling, tried := 0, 0, 0
		for _, pl := range planes {
			visited += p.Visited(pl)
			straddling += p.Straddling(pl).Len()
			tried += p.Tried(pl.Normal)
		}
		if visited > 4*straddling {
			t.Errorf("%d triangles: a cut visits %d triangles for %d that the plane parts, want at most 4 for each", n, visited/len(planes), straddling/len(planes))
		}
		if tried > 500*len(planes) {
			t.Errorf("%d triangles: Lowest tries %d points, want at most 500", n, tried/len(planes))
		}
		x = append(x, float64(p.Solid.Triangles()))
		visits = append(visits, float64(visited))
		tries = append(tries, float64(tried))
	}
	if e := exponent(x, visits); !(e > 0.4 && e < 0.6) {
		t.Errorf("visited triangles grow as the triangle count to the power of %.2f, want about 0.5; counts %v, visits %v", e, x, visits)
	}
	if e := exponent(x, tries); !(e < 0.3) {
		t.Errorf("points that Lowest tries grow as the triangle count to the power of %.2f, want less than 0.3; counts %v, points %v", e, x, tries)
	}
}

// exponent returns the power of x that fits y best: the slope of the least
// squares line through their logarithms.
func exponent(x, y []float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for i := range x {
		a, b := math.Log(x[i]), math.Log(y[i])
		n, sx, sy, sxx, sxy = n+1, sx+a, sy+b, sxx+a*a, sxy+a*b
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}

// floatPlanes returns waterplanes of floatShape, afloat: small trim and heel.
func floatPlanes(rng *rand.Rand, count int) []mesh.Plane {
	var planes []mesh.Plane
	for range count {
		trim, heel := 4*deg*(2*rng.Float64()-1), 10*deg*(2*rng.Float64()-1)
		n := r3.Vec{X: math.Sin(trim), Y: math.Cos(trim) * math.Sin(heel), Z: math.Cos(trim) * math.Cos(heel)}
		planes = append(planes, planeAt(n, r3.Vec{Z: floatShape.Depth * (0.3 + 0.4*rng.Float64())}))
	}
	return planes
}

func TestCutAllocatesNothing(t *testing.T) {
	for _, s := range []*mesh.Solid{indexed(t, floatShape.Mesh(6000)), solidOf(t, floatShape.Mesh(6000))} {
		p := mesh.Placed{Solid: s, Place: mesh.Scaling(1, 1, 2)}
		pl := planeAt(r3.Vec{Z: 1}, r3.Vec{Z: 0.08})
		if n := testing.AllocsPerRun(100, func() { p.Below(pl, r3.Vec{}); p.Lowest(pl.Normal) }); n >= 1 {
			t.Errorf("Below and Lowest allocate %g times, want 0; index: %t", n, s.HasIndex())
		}
	}
}

func TestIndexMemory(t *testing.T) {
	m := floatShape.Mesh(50000)
	// Pairs of triangles pressed on each other share no vertex with others.
	pairs := &mesh.Mesh{Name: "pairs"}
	for i := range 3000 {
		x := float64(i % 50)
		y := float64(i / 50)
		n := uint32(len(pairs.Vertices))
		pairs.Vertices = append(pairs.Vertices, r3.Vec{X: x, Y: y}, r3.Vec{X: x + 0.5, Y: y}, r3.Vec{X: x, Y: y + 0.5})
		pairs.Triangles = append(pairs.Triangles, [3]uint32{n, n + 1, n + 2}, [3]uint32{n, n + 2, n + 1})
	}
	pairs = shape.Join(pairs, shape.Box(1, 1, 1))
	if mesh.NodeBytes%64 != 0 {
		t.Errorf("a node has %d bytes, want a multiple of 64, the unit in which memory comes", mesh.NodeBytes)
	}
	for _, m := range []*mesh.Mesh{m, shape.Shuffled(m, 2), pairs} {
		s := indexed(t, m)
		if per := float64(s.IndexBytes()) / float64(s.Triangles()); per > 120 {
			t.Errorf("%s: the index takes %.0f bytes a triangle, want at most 120", m.Name, per)
		}
	}
}

// The halves of a quadrilateral stay together, and so do rows: 10 quadrilaterals
// in a block of 2 by 5 have 18 vertices, and 20 triangles sorted by their own
// middles had 20.4, or 19.9 to 20.3 by their longest sides without the shear.
func TestLeavesKeepHalvesTogether(t *testing.T) {
	m := floatShape.Mesh(50000)
	for _, m := range []*mesh.Mesh{m, shape.Shuffled(m, 2)} {
		s := indexed(t, m)
		if per := s.LeafVertices(); per > 19.6 {
			t.Errorf("%s: a leaf has %.2f vertices, want at most 19.6", m.Name, per)
		}
	}
}

func TestPrepareChoosesByWorkAhead(t *testing.T) {
	for _, c := range []struct {
		triangles, cuts int
		want            bool
	}{
		{6000, 0, false},
		{6000, 16, false}, // one rest
		{6000, 10000, true},
		{600, 10000, false}, // too few triangles to gain anything
	} {
		s := solidOf(t, floatShape.Mesh(c.triangles))
		s.Prepare(c.cuts)
		if got := s.HasIndex(); got != c.want {
			t.Errorf("%d triangles: Prepare(%d) builds an index: %t, want %t", s.Triangles(), c.cuts, got, c.want)
		}
	}
}

// One index, whatever the number of processors.
func TestIndexDoesNotDependOnProcessors(t *testing.T) {
	m := rounded(floatShape.Mesh(200000))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := indexed(t, m)
	runtime.GOMAXPROCS(4)
	many := indexed(t, m)
	rng := rand.New(rand.NewPCG(5, 7))
	for _, pl := range floatPlanes(rng, 40) {
		p, q := mesh.Placed{Solid: one, Place: mesh.Identity()}, mesh.Placed{Solid: many, Place: mesh.Identity()}
		if got, want := q.Below(pl, r3.Vec{}), p.Below(pl, r3.Vec{}); got != want {
			t.Errorf("Below(%v) = %v built by 4 processors, %v by one", pl, got, want)
		}
		if got, want := q.Visited(pl), p.Visited(pl); got != want {
			t.Errorf("Below(%v) visits %d triangles of an index built by 4 processors, %d of one built by one", pl, got, want)
		}
	}
}

// Triangles in another order give the same integrals up to rounding.
func TestIndexDoesNotDependOnOrder(t *testing.T) {
	m := rounded(floatShape.Mesh(6000))
	p := mesh.Placed{Solid: indexed(t, m), Place: mesh.Identity()}
	q := mesh.Placed{Solid: indexed(t, shape.Shuffled(m, 9)), Place: mesh.Identity()}
	rng := rand.New(rand.NewPCG(5, 8))
	for kind, pl := range testPlanes(rng, p, 10) {
		if d := unlike(q.Below(pl, r3.Vec{}), p.Below(pl, r3.Vec{}), 1); d != "" {
			t.Errorf("%s: Below(%v) of the shuffled float, against the float:%s", kind, pl, d)
		}
	}
	for range 20 {
		up := direction(rng)
		if got, want := q.Lowest(up), p.Lowest(up); got != want {
			t.Errorf("Lowest(%v) of the shuffled float = %v, want %v", up, got, want)
		}
	}
}

// Many goroutines may prepare and cut one solid at once. (go test -race)
func TestIndexConcurrently(t *testing.T) {
	s := solidOf(t, floatShape.Mesh(6000))
	p := mesh.Placed{Solid: s, Place: mesh.Identity()}
	pl := planeAt(r3.Unit(r3.Vec{X: 0.05, Y: 0.1, Z: 1}), r3.Vec{Z: 0.06})
	want := p.Straight(pl, r3.Vec{})
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 20 {
				if d := unlike(p.Below(pl, r3.Vec{}), want, 1); d != "" {
					t.Errorf("Below while another goroutine prepares:%s", d)
				}
				s.Prepare(1000)
			}
		})
	}
	wait.Wait()
}

// The selection that sorts triangles in space, on values that are hard on
// methods of its kind.
func TestPartition(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 9))
	make := func(n int, f func(i int) float32) []float32 {
		v := make([]float32, n)
		for i := range v {
			v[i] = f(i)
		}
		return v
	}
	inf := float32(math.Inf(1))
	for name, values := range map[string][]float32{
		"one":        {3},
		"random":     make(1000, func(int) float32 { return rng.Float32() }),
		"rising":     make(1000, func(i int) float32 { return float32(i) }),
		"falling":    make(1000, func(i int) float32 { return float32(-i) }),
		"equal":      make(1000, func(int) float32 { return 1 }),
		"two values": make(1000, func(i int) float32 { return float32(i % 2) }),
		"organ pipe": make(1000, func(i int) float32 { return float32(min(i, 999-i)) }),
		"saw":        make(1000, func(i int) float32 { return float32(i % 37) }),
		"infinite":   make(1000, func(i int) float32 { return []float32{inf, -inf, 0}[i%3] }),
	} {
		for _, n := range []int{0, 1, len(values) / 3, len(values) / 2, len(values) - 1, len(values)} {
			first, rest := mesh.Partition(values, n)
			if len(first) > 0 && len(rest) > 0 && slices.Max(first) > slices.Min(rest) {
				t.Errorf("%s: of %d values the first %d reach up to %g, the others down to %g", name, len(values), n, slices.Max(first), slices.Min(rest))
			}
		}
	}
}
