package mesh_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// A cone of n facets: the sides' area and centroid lie two thirds up, the cap
// on top.
func TestSkinOfCone(t *testing.T) {
	const r, h = 0.3, 0.5
	for _, n := range []int{3, 12, 1500} { // the last in more than one block
		half := math.Pi / float64(n)
		side := float64(n) * r * math.Sin(half) * math.Hypot(h, r*math.Cos(half))
		lid, _ := ngon(n, r)
		about := r3.Vec{X: 0.1, Y: -0.2, Z: 0.05}
		area, moment := inPlace(t, shape.ConeDown(r, h, n)).Skin(about)
		if math.Abs(area-side-lid) > 1e-13 {
			t.Errorf("cone of %d facets: area = %.17g, want %.17g", n, area, side+lid)
		}
		want := r3.Sub(r3.Vec{Z: side*h*2/3 + lid*h}, r3.Scale(side+lid, about))
		if far(moment, want, 1e-13) {
			t.Errorf("cone of %d facets: moment = %v, want %v", n, moment, want)
		}
	}
}

func TestSkinOfMappedMesh(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for i := range 30 {
		a, about, m := randomMap(rng), randomVec(rng), shape.Star(uint64(i), 1)
		var wantArea float64
		var want r3.Vec
		byHand := shape.Transformed(m, a)
		for k := range byHand.Triangles {
			tri := byHand.Triangle(k)
			wantArea += tri.Area()
			want = r3.Add(want, r3.Scale(tri.Area(), r3.Sub(tri.Centroid(), about)))
		}
		area, moment := mesh.Placed{Solid: solidOf(t, m), Place: a}.Skin(about)
		size := reach(byHand, about)
		if math.Abs(area-wantArea) > 1e-13*size*size || far(moment, want, 1e-13*size*size*size) {
			t.Errorf("placed by %v: Skin(%v) = %.17g, %v, want %.17g, %v", a, about, area, moment, wantArea, want)
		}
	}
}

func TestSpan(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	for i := range 30 {
		a, about, n, m := randomMap(rng), randomVec(rng), r3.Unit(randomVec(rng)), shape.Star(uint64(i), 1)
		lo, hi := mesh.Placed{Solid: solidOf(t, m), Place: a}.Span(n, about)
		least, most := math.Inf(1), math.Inf(-1)
		for _, v := range m.Vertices {
			h := r3.Dot(n, r3.Sub(a.Point(v), about))
			least, most = min(least, h), max(most, h)
		}
		if !(lo <= least+1e-14 && hi >= most-1e-14) {
			t.Errorf("Span(%v, %v) = %g, %g does not hold heights from %g to %g", n, about, lo, hi, least, most)
		}
		if hi-lo > 4*(most-least) {
			t.Errorf("Span(%v, %v) = %g, %g says too little of heights from %g to %g", n, about, lo, hi, least, most)
		}
	}
	// A box in its own axes is its own bound.
	p := mesh.Placed{Solid: solidOf(t, shape.Box(4, 2, 1)), Place: mesh.Scaling(1, 1, 2)}
	for _, tt := range []struct {
		n      r3.Vec
		lo, hi float64
	}{
		{r3.Vec{X: 1}, -3, 1}, {r3.Vec{Y: -1}, -1, 1}, {r3.Vec{Z: 1}, -0.5, 1.5}, {r3.Vec{Z: -1}, -1.5, 0.5},
	} {
		if lo, hi := p.Span(tt.n, r3.Vec{X: 1, Z: 0.5}); math.Abs(lo-tt.lo) > 1e-14 || math.Abs(hi-tt.hi) > 1e-14 {
			t.Errorf("Span(%v) = %g, %g, want %g, %g", tt.n, lo, hi, tt.lo, tt.hi)
		}
	}
}

func TestGrazes(t *testing.T) {
	const tolerance = 1e-6
	box, wedge := shape.Box(4, 2, 1), shape.Wedge(4, 2, 1)
	for _, tt := range []struct {
		name  string
		body  *mesh.Mesh
		place mesh.Affine
		plane mesh.Plane
		want  bool
	}{
		{"bottom in the plane", box, mesh.Identity(), level(0), true},
		{"top in the plane, from above", box, mesh.Identity(), flipped(level(1)), true},
		{"top within tolerance", box, mesh.Identity(), level(1 + 0.9e-6), true},
		{"top out of tolerance", box, mesh.Identity(), level(1 + 1.1e-6), false},
		{"under the bottom", box, mesh.Identity(), level(-1.1e-6), false},
		{"through the middle", box, mesh.Identity(), level(0.5), false},
		{"an edge alone", wedge, mesh.Identity(), level(0), false},
		{"tilted out of the facet", box, mesh.Identity(), through(r3.Vec{Z: 1}, up(0.001, 0)), false},
		{"side after a turn", box, mesh.Rotation(r3.Vec{X: 1}, 0.3), through(r3.Vec{}, up(0, 0.3)), false},
		{"bottom after a turn", box, mesh.Rotation(r3.Vec{X: 1}, 0.3), through(r3.Vec{}, up(0, -0.3)), true},
		{"top after a stretch", box, mesh.Scaling(1, 1, -3), level(-3), true},
		{"a ledge of a stepped body", stepped(), mesh.Identity(), level(1), true},
	} {
		p := mesh.Placed{Solid: solidOf(t, tt.body), Place: tt.place}
		if got := p.Grazes(tt.plane, tolerance); got != tt.want {
			t.Errorf("%s: Grazes(%v, %g) = %t, want %t", tt.name, tt.plane, tolerance, got, tt.want)
		}
	}
}
