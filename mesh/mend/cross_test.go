package mend

import (
	"math"
	"math/rand/v2"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// placed closes m and leaves it where it is.
func placed(t testing.TB, m *mesh.Mesh) mesh.Placed {
	t.Helper()
	res, err := Close(m, Options{})
	if err != nil {
		t.Fatalf("Close(%s): %v", m.Name, err)
	}
	return mesh.Placed{Solid: res.Solid, Place: mesh.Identity()}
}

func TestCrossBoxes(t *testing.T) {
	a := brick(0, 0, 0, 2, 2, 2)
	for _, c := range []struct {
		name string
		b    *mesh.Mesh
		want Relation
	}{
		{"apart", brick(3, 0, 0, 4, 2, 2), Apart},
		{"just apart", brick(2.001, 0, 0, 4, 2, 2), Apart},
		{"boxes apart only diagonally", brick(2.1, 2.1, 2.1, 3, 3, 3), Apart},
		{"flush face", brick(2, 0, 0, 4, 2, 2), Touching},
		{"flush, smaller", brick(2, 0.5, 0.5, 4, 1.5, 1.5), Touching},
		{"flush, beside", brick(2, 1, 1, 4, 3, 3), Touching},
		{"within rounding", brick(2+1e-7, 0, 0, 4, 2, 2), Touching},
		{"overlap within rounding", brick(2-1e-7, 0, 0, 4, 2, 2), Touching},
		{"edge", brick(2, 2, 0, 4, 4, 2), Touching},
		{"corner", brick(2, 2, 2, 4, 4, 4), Touching},
		{"corner in", brick(1, 1, 1, 3, 3, 3), Crossing},
		{"slid along, flush sides", brick(1, 0, 0, 3, 2, 2), Crossing},
		{"a little", brick(1.999, 0, 0, 4, 2, 2), Crossing},
		{"a pole through", brick(0.5, 0.5, -1, 1.5, 1.5, 3), Crossing},
		{"a pole through, flush with two sides", brick(0, 0, -1, 1, 1, 3), Crossing},
		{"a plate across, flush all around", brick(0, 0, 0.5, 2, 2, 1.5), Contains},
		{"inside", brick(0.5, 0.5, 0.5, 1, 1, 1), Contains},
		{"inside, flush", brick(0, 0, 0, 1, 1, 1), Contains},
		{"around", brick(-1, -1, -1, 3, 3, 3), Inside},
		{"around, flush below", brick(-1, -1, 0, 3, 3, 3), Inside},
		{"same", brick(0, 0, 0, 2, 2, 2), Same},
		{"same within rounding", brick(1e-7, 0, 0, 2, 2+1e-7, 2), Same},
		{"same, other facets", shape.Refined(shape.Refined(brick(0, 0, 0, 2, 2, 2))), Same},
		{"slid along, fine facets", shape.Refined(shape.Refined(brick(1, 0, 0, 3, 2, 2))), Crossing},
		{"one box of two the same", shape.Join(brick(0, 0, 0, 2, 2, 2), brick(5, 0, 0, 6, 1, 1)), Inside},
		{"one of two inside, other apart", shape.Join(brick(0.5, 0.5, 0.5, 1, 1, 1), brick(5, 0, 0, 6, 1, 1)), Crossing},
	} {
		for name, turn := range map[string]mesh.Affine{
			"as is": mesh.Identity(), "turned": mesh.Rotation(r3.Vec{X: 1, Y: 2, Z: 3}, 0.7), "mirrored": mesh.Scaling(1, -1, 1),
		} {
			pa, pb := placed(t, a), placed(t, c.b)
			pa.Place, pb.Place = turn, turn
			if got := Cross(pa, pb); got != c.want {
				t.Errorf("%s, %s: Cross = %v, want %v", c.name, name, got, c.want)
			}
			if got := Cross(pb, pa); got != c.want.Swapped() {
				t.Errorf("%s, %s, swapped: Cross = %v, want %v", c.name, name, got, c.want.Swapped())
			}
		}
	}
}

// Round bodies, from geometry.
func TestCrossRound(t *testing.T) {
	ball := placed(t, shape.Icosphere(1, 4))
	ring := placed(t, shape.Torus(3, 1, 60, 30))
	at := func(p mesh.Placed, x, y, z, scale float64) mesh.Placed {
		p.Place = p.Place.Then(mesh.Scaling(scale, scale, scale)).Then(mesh.Translation(r3.Vec{X: x, Y: y, Z: z}))
		return p
	}
	for _, c := range []struct {
		name string
		a, b mesh.Placed
		want Relation
	}{
		{"balls apart", ball, at(ball, 2.01, 0, 0, 1), Apart},
		{"balls crossing", ball, at(ball, 1.95, 0, 0, 1), Crossing},
		{"ball in ball", at(ball, 0.2, 0.1, 0, 0.5), ball, Inside},
		{"ball in the hole of a ring", ring, at(ball, 0, 0, 0, 1.9), Apart},
		{"ball stuck in a ring", ring, at(ball, 0, 0, 0, 2.1), Crossing},
		{"ball in the tube of a ring", ring, at(ball, 0, 3, 0, 0.9), Contains},
		{"rings linked", ring, func() mesh.Placed {
			p := ring
			p.Place = mesh.Rotation(r3.Vec{X: 1}, math.Pi/2).Then(mesh.Translation(r3.Vec{X: 3}))
			return p
		}(), Apart},
	} {
		if got := Cross(c.a, c.b); got != c.want {
			t.Errorf("%s: Cross = %v, want %v", c.name, got, c.want)
		}
	}
}

// A spike whose tip is in a large face: no middle of a facet is in the other
// body, only the facets that pierce each other tell.
func TestCrossSpike(t *testing.T) {
	plate, cone := placed(t, brick(-5, -5, -1, 5, 5, 0)), placed(t, shape.ConeDown(1, 4, 12))
	for _, c := range []struct {
		z    float64
		want Relation
	}{{-0.01, Crossing}, {0, Touching}, {0.01, Apart}} {
		cone.Place = mesh.Translation(r3.Vec{X: 0.3, Y: 0.9, Z: c.z})
		if got := Cross(plate, cone); got != c.want {
			t.Errorf("tip at %g: Cross = %v, want %v", c.z, got, c.want)
		}
	}
}

// A float flush under a wing: mirrored, turned, and rounded to float32 as
// another program would export it.
func TestFlushAfterRounding(t *testing.T) {
	round := func(m *mesh.Mesh) *mesh.Mesh {
		for i, v := range m.Vertices {
			m.Vertices[i] = r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
		}
		return m
	}
	random := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		turn := mesh.Rotation(r3.Vec{X: random.NormFloat64(), Y: random.NormFloat64(), Z: random.NormFloat64()}, 6*random.Float64()).
			Then(mesh.Translation(r3.Vec{X: 500 * random.Float64()}))
		wing := placed(t, round(shape.Transformed(shape.Refined(brick(-100, -500, 50, 100, 500, 70)), turn)))
		for _, c := range []struct {
			rise float64
			want Relation
		}{{0, Touching}, {0.05, Crossing}, {-0.05, Apart}} {
			prism := shape.VBottom(400, 60, 0.4, 50)
			high := placed(t, prism).Box().Max.Z
			float := shape.Transformed(prism, mesh.Translation(r3.Vec{X: 7, Y: 130, Z: 50 - high + c.rise}).Then(turn))
			if got := Cross(placed(t, round(float)), wing); got != c.want {
				t.Errorf("raised by %g: Cross = %v, want %v", c.rise, got, c.want)
			}
		}
	}
}

// Random boxes with small whole coordinates, so that faces, edges and corners
// coincide all the time, in groups of one to three that do not overlap among
// themselves, plain and turned: the relation must be the one that counting unit
// cells gives.
func TestCrossCountedCells(t *testing.T) {
	const n, cases = 4, 400
	random := rand.New(rand.NewPCG(1, 5))
	type cells [n * n * n]bool
	// body returns boxes that have no cell in common and no face either, so
	// that the body is free of crossings with itself.
	body := func() (*mesh.Mesh, cells) {
		var m []*mesh.Mesh
		var all cells
		for range 1 + random.IntN(3) {
			var lo, hi [3]int
			for k := range 3 {
				lo[k] = random.IntN(n)
				hi[k] = lo[k] + 1 + random.IntN(n-lo[k])
			}
			clear := true
			var own []int
			for i := range all {
				x, y, z := i%n, i/n%n, i/n/n
				at := [3]int{x, y, z}
				in, beside := true, true
				for k := range 3 {
					in = in && at[k] >= lo[k] && at[k] < hi[k]
					beside = beside && at[k] >= lo[k]-1 && at[k] <= hi[k]
				}
				if beside && all[i] {
					clear = false
				}
				if in {
					own = append(own, i)
				}
			}
			if !clear {
				continue
			}
			for _, i := range own {
				all[i] = true
			}
			box := brick(float64(lo[0]), float64(lo[1]), float64(lo[2]), float64(hi[0]), float64(hi[1]), float64(hi[2]))
			for range random.IntN(3) {
				box = shape.Refined(box)
			}
			m = append(m, box)
		}
		return shape.Join(m...), all
	}
	for i := range cases {
		ma, ca := body()
		mb, cb := body()
		var both, onlyA, onlyB bool
		for k := range ca {
			both = both || ca[k] && cb[k]
			onlyA = onlyA || ca[k] && !cb[k]
			onlyB = onlyB || cb[k] && !ca[k]
		}
		meet := false // a cell of one has a corner in common with a cell of the other
		for k := range ca {
			for l := range cb {
				meet = meet || ca[k] && cb[l] && adjacent(k%n, l%n) && adjacent(k/n%n, l/n%n) && adjacent(k/n/n, l/n/n)
			}
		}
		a, b := placed(t, ma), placed(t, mb)
		if i%2 == 1 {
			turn := mesh.Rotation(r3.Vec{X: random.NormFloat64(), Y: random.NormFloat64(), Z: random.NormFloat64()}, 3)
			a.Place, b.Place = turn, turn
		}
		got := Cross(a, b)
		var ok bool
		switch {
		case !both:
			ok = got == Apart && !meet || got == Touching && meet
		case onlyA && onlyB:
			ok = got == Crossing
		case onlyA:
			ok = got == Contains
		case onlyB:
			ok = got == Inside
		default:
			ok = got == Same
		}
		if !ok {
			t.Errorf("case %d: Cross = %v, but volume in both %v, in the first only %v, in the second only %v", i, got, both, onlyA, onlyB)
		}
	}
}

func adjacent(i, j int) bool { return i-j <= 1 && j-i <= 1 }

func TestPairs(t *testing.T) {
	box := placed(t, brick(0, 0, 0, 2, 2, 2))
	at := func(x float64) mesh.Placed {
		return mesh.Placed{Solid: box.Solid, Place: mesh.Translation(r3.Vec{X: x})}
	}
	got := Pairs([]mesh.Placed{at(0), at(10), at(1), at(3), at(20), at(20)})
	want := []Pair{{0, 2, Crossing}, {2, 3, Touching}, {4, 5, Same}}
	if len(got) != len(want) {
		t.Fatalf("Pairs = %v, want %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("Pairs[%d] = %v, want %v", i, got[i], want[i])
		}
	}
}
