package mesh_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// still places a piece where it is; a piece that is not there adds nothing.
func still(pieces ...*mesh.Solid) []mesh.Placed {
	var out []mesh.Placed
	for _, p := range pieces {
		if p != nil {
			out = append(out, mesh.Placed{Solid: p, Place: mesh.Identity()})
		}
	}
	return out
}

// sum adds the sections of pieces.
func sum(pieces []mesh.Placed, pl mesh.Plane, about r3.Vec) mesh.Section {
	var s mesh.Section
	for _, p := range pieces {
		s = s.Add(p.Below(pl, about))
	}
	return s
}

// skinOf adds the areas of pieces.
func skinOf(pieces []mesh.Placed) float64 {
	area := 0.0
	for _, p := range pieces {
		area += p.Area()
	}
	return area
}

func split(t tester, s *mesh.Solid, pl mesh.Plane) *mesh.Split {
	t.Helper()
	c, err := s.Split(pl)
	if err != nil {
		t.Fatalf("Split(%v): %v", pl, err)
	}
	return c
}

// Whatever the body and wherever it is split, a cut through the pieces is the
// cut through the body, and their surfaces are its surface. Splitting the
// pieces again changes nothing.
func TestPiecesMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, first, second, about := drawBody(t), drawPlane(t), drawPlane(t), drawVec(t, "about")
		whole := inPlace(t, m)
		once := split(t, whole.Solid, first)
		var twice []*mesh.Solid
		for _, p := range []*mesh.Solid{once.Below, once.Above} {
			if p != nil {
				again := split(t, p, second)
				twice = append(twice, again.Below, again.Above)
			}
		}
		pl := drawPlane(t)
		tol := slack(m, pl)
		for _, pieces := range [][]mesh.Placed{still(once.Below, once.Above), still(twice...)} {
			got, want := sum(pieces, pl, about), whole.Below(pl, about)
			if d := differ(volumes(got), volumes(want), bodySize, 1e-13); d != "" {
				t.Errorf("%d pieces split at %v, below %v:%s", len(pieces), first, pl, d)
			}
			if a := skinOf(pieces); math.Abs(a-whole.Area()) > 1e-12*bodySize*bodySize {
				t.Errorf("%d pieces split at %v have a surface of %.17g, want %.17g", len(pieces), first, a, whole.Area())
			}
			// A cut along the split itself, or nearly, is ill-conditioned in
			// the pieces where it is not in the whole.
			if along := math.Abs(r3.Dot(pl.Normal, first.Normal)); tol > 1e-9 || along > 0.999 || math.Abs(r3.Dot(pl.Normal, second.Normal)) > 0.999 {
				continue
			}
			if d := differ(got, want, bodySize, max(1e-11, tol)); d != "" {
				t.Errorf("%d pieces split at %v, below %v:%s", len(pieces), first, pl, d)
			}
			wet := 0.0
			for _, p := range pieces {
				wet += p.WetArea(pl)
			}
			if w := whole.WetArea(pl); math.Abs(wet-w) > max(1e-11, tol)*bodySize*bodySize {
				t.Errorf("%d pieces split at %v have %.17g wet below %v, want %.17g", len(pieces), first, wet, pl, w)
			}
		}
	})
}

// The prism swept by the cut of a ring, with a hole in it, is as large as the
// cut's area says, and its wall as the cut's outline.
func TestPrismOfARing(t *testing.T) {
	const ring, tube = 1.0, 0.3
	s := solidOf(t, shape.Torus(ring, tube, 400, 200))
	for _, tt := range []struct {
		name          string
		plane         mesh.Plane
		area, outline float64 // of the smooth ring
	}{
		// Two circles about the axis; two circles of the tube.
		{"across the axis", level(0), math.Pi * (math.Pow(ring+tube, 2) - math.Pow(ring-tube, 2)), 2 * math.Pi * 2 * ring},
		{"along the axis", mesh.Plane{Normal: r3.Vec{X: 1}}, 2 * math.Pi * tube * tube, 2 * 2 * math.Pi * tube},
	} {
		c := split(t, s, tt.plane)
		prism, err := c.Prism(r3.Scale(0.5, tt.plane.Normal))
		if err != nil {
			t.Fatal(err)
		}
		cut := still(s)[0].Below(tt.plane, r3.Vec{}).Area
		if got := prism.Volume(); math.Abs(got-0.5*cut) > 1e-12 {
			t.Errorf("%s: the prism has %.15g, want half the cut's area %.15g", tt.name, got, 0.5*cut)
		}
		if math.Abs(cut-tt.area) > 1e-3*tt.area {
			t.Errorf("%s: the cut has %.6g, of the smooth ring %.6g", tt.name, cut, tt.area)
		}
		if got := prism.Area(); math.Abs(got-0.5*tt.outline) > 1e-3*tt.outline {
			t.Errorf("%s: the prism's wall has %.6g, of the smooth ring %.6g", tt.name, got, 0.5*tt.outline)
		}
	}
}

// A V bottom split above its chine, the upper piece raised and the gap filled
// with the stretched prism of unit height, is the V bottom drawn deeper: at
// any plane, in any place.
func TestPlugIsADeeperDrawing(t *testing.T) {
	const length, beam, depth, at = 1.0, 0.3, 0.2, 0.13
	deadrise := 20 * math.Pi / 180
	s := solidOf(t, shape.VBottom(length, beam, deadrise, depth))
	rng := rand.New(rand.NewPCG(4, 1))
	for range 200 {
		add := 0.001 + 0.2*rng.Float64()
		drawn := shape.VBottom(length, beam, deadrise, depth+add)
		turn := mesh.Rotation(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}, 6*rng.Float64())
		turn.T = r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}
		if rng.IntN(2) == 0 {
			turn = mesh.Scaling(1, -1, 1).Then(turn)
		}
		c := split(t, s, level(at))
		prism, err := c.Prism(r3.Vec{Z: 1})
		if err != nil {
			t.Fatal(err)
		}
		stretch := mesh.Translation(r3.Vec{Z: -at}).Then(mesh.Scaling(1, 1, add)).Then(mesh.Translation(r3.Vec{Z: at}))
		plugged := []mesh.Placed{
			{Solid: c.Below, Place: turn},
			{Solid: prism, Place: stretch.Then(turn)},
			{Solid: c.Above, Place: mesh.Translation(r3.Vec{Z: add}).Then(turn)},
		}
		want := mesh.Placed{Solid: solidOf(t, drawn), Place: turn}
		pl := mesh.Plane{Normal: r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})}
		pl.Offset = -r3.Dot(pl.Normal, want.Centroid()) + 0.2*rng.NormFloat64()
		if d := differ(sum(plugged, pl, turn.T), want.Below(pl, turn.T), length, 1e-11); d != "" {
			t.Errorf("plug of %g, below %v:%s", add, pl, d)
		}
		if got := skinOf(plugged); math.Abs(got-want.Area()) > 1e-12 {
			t.Errorf("plug of %g has a surface of %.15g, want %.15g", add, got, want.Area())
		}
		var area float64
		var arm r3.Vec
		for _, p := range plugged {
			a, m := p.Skin(turn.T)
			area, arm = area+a, r3.Add(arm, m)
		}
		if a, m := want.Skin(turn.T); math.Abs(a-area) > 1e-12 || r3.Norm(r3.Sub(m, arm)) > 1e-11 {
			t.Errorf("plug of %g has a skin of %.15g with moment %v, want %.15g and %v", add, area, arm, a, m)
		}
		joined, err := c.Joined(r3.Vec{Z: add})
		if err != nil {
			t.Fatal(err)
		}
		j := mesh.Placed{Solid: joined, Place: turn}
		if d := differ(j.Below(pl, turn.T), want.Below(pl, turn.T), length, 1e-11); d != "" {
			t.Errorf("joined with a plug of %g, below %v:%s", add, pl, d)
		}
		if math.Abs(j.Area()-want.Area()) > 1e-12 {
			t.Errorf("joined with a plug of %g: surface %.15g, want %.15g", add, j.Area(), want.Area())
		}
	}
}

// Planes through vertices, along edges and in facets.
func TestSplitThroughVerticesEdgesFacets(t *testing.T) {
	for _, tt := range []struct {
		name         string
		body         *mesh.Mesh
		plane        mesh.Plane
		below, above float64
		area         float64 // of the cut face, just below the plane
		surfaceBelow float64
	}{
		{"four vertices of an octahedron", octahedron(), level(0), 2. / 3, 2. / 3, 2, 2 * math.Sqrt(3)},
		{"two tips and two edges of an octahedron", octahedron(), mesh.Plane{Normal: r3.Vec{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}}, 2. / 3, 2. / 3, math.Sqrt2, 2 * math.Sqrt(3)},
		// The ledge that faces up stays with what is above, the one that
		// faces down too: a vertex in the plane is dry.
		{"two ledges", stepped(), level(1), 2, 2, 2, 2*2 + 2*1 + 2},
		{"the deck of a box", shape.Box(4, 2, 1), level(1), 8, 0, 8, 8 + 12},
		{"the bottom of a box", shape.Box(4, 2, 1), level(0), 0, 8, 0, 0},
	} {
		s := solidOf(t, tt.body)
		c := split(t, s, tt.plane)
		volume, surface := [2]float64{}, [2]float64{}
		for i, p := range []*mesh.Solid{c.Below, c.Above} {
			if p != nil {
				volume[i], surface[i] = p.Volume(), p.Area()
			}
		}
		if math.Abs(volume[0]-tt.below) > 1e-14 || math.Abs(volume[1]-tt.above) > 1e-14 {
			t.Errorf("%s: volumes %.15g and %.15g, want %.15g and %.15g", tt.name, volume[0], volume[1], tt.below, tt.above)
		}
		if math.Abs(surface[0]-tt.surfaceBelow) > 1e-14 || math.Abs(surface[0]+surface[1]-s.Area()) > 1e-14 {
			t.Errorf("%s: surfaces %.15g and %.15g, want %.15g and %.15g", tt.name, surface[0], surface[1], tt.surfaceBelow, s.Area()-tt.surfaceBelow)
		}
		prism, err := c.Prism(tt.plane.Normal)
		if err != nil {
			t.Fatal(err)
		}
		got := 0.0
		if prism != nil {
			got = prism.Volume()
		}
		if math.Abs(got-tt.area) > 1e-14 {
			t.Errorf("%s: a prism of unit height has %.15g, want %.15g", tt.name, got, tt.area)
		}
	}
}

// Joined by zero is the body with its triangles parted: the same integrals.
func TestJoinedByNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, at, pl := drawBody(t), drawPlane(t), drawPlane(t)
		s := solidOf(t, m)
		joined, err := split(t, s, at).Joined(r3.Vec{})
		if err != nil {
			t.Fatal(err)
		}
		if d := differ(volumes(still(joined)[0].Below(pl, r3.Vec{})), volumes(still(s)[0].Below(pl, r3.Vec{})), bodySize, 1e-13); d != "" {
			t.Errorf("parted at %v, below %v:%s", at, pl, d)
		}
		if math.Abs(joined.Area()-s.Area()) > 1e-12*bodySize*bodySize {
			t.Errorf("parted at %v: surface %.17g, want %.17g", at, joined.Area(), s.Area())
		}
	})
}

// What leads the wrong way is refused, and a plane that misses leaves all on
// one side.
func TestSplitRefuses(t *testing.T) {
	s := solidOf(t, shape.Box(1, 1, 1))
	c := split(t, s, level(0.5))
	if _, err := c.Prism(r3.Vec{Z: -1}); err == nil {
		t.Error("Prism swept down: no error")
	}
	if _, err := c.Joined(r3.Vec{Z: -0.1}); err == nil {
		t.Error("Joined moved down: no error")
	}
	miss := split(t, s, level(2))
	if miss.Above != nil || miss.Below.Volume() != s.Volume() {
		t.Errorf("Split over the box: above %v, below %v", miss.Above, miss.Below)
	}
	if p, err := miss.Prism(r3.Vec{Z: 1}); p != nil || err != nil {
		t.Errorf("Prism where the plane misses = %v, %v", p, err)
	}
}

// Pieces answer the same with an index as without: their inner faces are no
// surface in either.
func TestPiecesWithAnIndex(t *testing.T) {
	s := solidOf(t, shape.Torus(1, 0.4, 60, 40))
	at := mesh.Plane{Normal: r3.Unit(r3.Vec{X: 1, Y: 0.3, Z: 0.4}), Offset: 0.1}
	plain, indexed := split(t, s, at), split(t, s, at)
	rng := rand.New(rand.NewPCG(6, 6))
	for i, p := range []*mesh.Solid{indexed.Below, indexed.Above} {
		p.Prepare(math.MaxInt32)
		q := []*mesh.Solid{plain.Below, plain.Above}[i]
		for range 100 {
			pl := mesh.Plane{Normal: r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}), Offset: rng.NormFloat64()}
			a, b := still(p)[0], still(q)[0]
			if d := differ(a.Below(pl, r3.Vec{}), b.Below(pl, r3.Vec{}), bodySize, 1e-13); d != "" {
				t.Errorf("piece %d below %v:%s", i, pl, d)
			}
			if got, want := a.WetArea(pl), b.WetArea(pl); math.Abs(got-want) > 1e-12 {
				t.Errorf("piece %d below %v: wet area %.15g, want %.15g", i, pl, got, want)
			}
		}
		if a, b := still(p)[0].Grazes(at, 1e-9), still(q)[0].Grazes(at, 1e-9); !a || !b {
			t.Errorf("piece %d in its own plane: grazes %t with an index, %t without", i, a, b)
		}
	}
}
