package mend

import (
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// Two boxes that touch along an edge, at a corner, or not at all are two
// shells, whichever way they face.
func TestTouchingBoxes(t *testing.T) {
	a := brick(0, 0, 0, 1, 1, 1)
	for _, c := range []struct {
		name   string
		b      *mesh.Mesh
		shared int
		want   Relation
	}{
		{"edge", brick(1, 1, 0, 2, 2, 1), 1, Touching},
		{"corner", brick(1, 1, 1, 2, 2, 2), 0, Touching},
		{"apart", brick(3, 0, 0, 4, 1, 1), 0, Apart},
	} {
		for way, m := range map[string]*mesh.Mesh{
			"outward": shape.Join(a, c.b), "one inverted": shape.Join(a, shape.InsideOut(c.b)),
			"both inverted": shape.InsideOut(shape.Join(a, c.b)), "one facet flipped": flipped(shape.Join(a, c.b), facesAlong(a, port)[0]),
		} {
			t.Run(c.name+" "+way, func(t *testing.T) {
				res := mustClose(t, shape.Soup(m), Options{})
				wantVolume(t, "volume", res.Volume, 2)
				wantVolume(t, "area", res.Area, 12)
				if res.SharedEdges != c.shared {
					t.Errorf("SharedEdges = %d, want %d", res.SharedEdges, c.shared)
				}
				joined := way == "both inverted" && c.shared > 0 // pairs across the gap, closed all the same
				if len(res.Shells) != 2 && !joined {
					t.Errorf("%d shells, want 2", len(res.Shells))
				}
				if len(res.Shells) == 2 && c.want == Touching && (len(res.Pairs) != 1 || res.Pairs[0].Relation != Touching) {
					t.Errorf("Pairs = %v, want one that touches", res.Pairs)
				}
				if len(res.Warnings) > 0 {
					t.Errorf("warned %q, want nothing", res.Warnings)
				}
			})
		}
	}
}

// Boxes glued face to face stay two that touch, whether or not their common
// face has the same facets.
func TestGluedBoxes(t *testing.T) {
	a := brick(0, 0, 0, 1, 1, 1)
	mirrored := shape.Transformed(a, mesh.Scaling(-1, 1, 1))
	for name, b := range map[string]*mesh.Mesh{"same facets": mirrored, "other facets": shape.Refined(mirrored)} {
		res := mustClose(t, shape.Join(a, b), Options{})
		wantVolume(t, name+": volume", res.Volume, 2)
		if len(res.Shells) != 2 || len(res.Pairs) != 1 || res.Pairs[0].Relation != Touching {
			t.Errorf("%s: %d shells, pairs %v, want two that touch", name, len(res.Shells), res.Pairs)
		}
	}
}

// Boxes within boxes. Each case gives the half-size of cubes around the origin,
// negative for one that faces inward.
func TestNesting(t *testing.T) {
	cube := func(h float64) *mesh.Mesh {
		m := brick(-math.Abs(h), -math.Abs(h), -math.Abs(h), math.Abs(h), math.Abs(h), math.Abs(h))
		if h < 0 {
			return shape.InsideOut(m)
		}
		return m
	}
	vol := func(h float64) float64 { return 8 * h * h * h }
	for _, c := range []struct {
		name     string
		halves   []float64
		kinds    []Kind
		material float64
	}{
		{"hollow print", []float64{3, -2}, []Kind{Outer, Cavity}, vol(3) - vol(2)},
		{"hollow print inside out", []float64{-3, 2}, []Kind{Outer, Cavity}, vol(3) - vol(2)},
		{"loose ball in a hollow", []float64{3, -2, 1}, []Kind{Outer, Cavity, Inner}, vol(3) - vol(2) + vol(1)},
		{"hollow ball in a hollow", []float64{4, -3, 2, -1}, []Kind{Outer, Cavity, Inner, Cavity}, vol(4) - vol(3) + vol(2) - vol(1)},
		{"solid in a solid", []float64{3, 2}, []Kind{Outer, Inner}, vol(3)},
		{"solid in a solid, hollow", []float64{3, 2, -1}, []Kind{Outer, Inner, Cavity}, vol(3) - vol(1)},
		{"inverted alone", []float64{-3}, []Kind{Outer}, vol(3)},
	} {
		t.Run(c.name, func(t *testing.T) {
			var meshes []*mesh.Mesh
			for i := len(c.halves) - 1; i >= 0; i-- { // innermost first
				meshes = append(meshes, cube(c.halves[i]))
			}
			res := mustClose(t, shape.Soup(shape.Join(meshes...)), Options{})
			wantVolume(t, "volume", res.Volume, vol(math.Abs(c.halves[0])))
			wantVolume(t, "material", res.Material, c.material)
			if len(res.Shells) != len(c.kinds) {
				t.Fatalf("%d shells, want %d", len(res.Shells), len(c.kinds))
			}
			for i, s := range res.Shells {
				if s.Kind != c.kinds[i] || s.Depth != i || s.Parent != i-1 {
					t.Errorf("shell %d is %v at depth %d in %d, want %v, %d, %d", i, s.Kind, s.Depth, s.Parent, c.kinds[i], i, i-1)
				}
				wantVolume(t, "shell's volume", s.Volume, vol(math.Abs(c.halves[i])))
				if i > 0 {
					wantVolume(t, "inner solid's volume", s.Solid.Volume(), s.Volume)
				}
				if s.Inverted != (c.halves[i] < 0) {
					t.Errorf("shell %d: Inverted = %v, want %v", i, s.Inverted, !s.Inverted)
				}
			}
		})
	}
}

// Two hollow boxes side by side, and a cavity outside of both boxes' middle.
func TestTwoHollowBoxes(t *testing.T) {
	res := mustClose(t, shape.Join(
		brick(0, 0, 0, 3, 3, 3), shape.InsideOut(brick(1, 1, 1, 2, 2, 2)),
		brick(5, 0, 0, 9, 3, 3), shape.InsideOut(brick(5.5, 1, 1, 8.5, 2, 2))), Options{})
	wantVolume(t, "volume", res.Volume, 27+36)
	wantVolume(t, "material", res.Material, 27+36-1-3)
}

// A dent is not a cavity: the box of the one lies in the box of the other, but
// not the one in the other.
func TestInTheHollowOfACup(t *testing.T) {
	torus := shape.Torus(3, 1, 48, 24)
	res := mustClose(t, shape.Join(torus, shape.InsideOut(brick(-1, -1, -0.5, 1, 1, 0.5))), Options{})
	alone := mustClose(t, torus, Options{})
	wantVolume(t, "volume", res.Volume, alone.Volume+4)
	if res.Shells[1].Kind != Outer || !res.Shells[1].Inverted || len(res.Pairs) > 0 {
		t.Errorf("shell %+v, pairs %v, want an outer one, turned", res.Shells[1], res.Pairs)
	}
}

// What shells share counts once, and a shell that is there twice in other
// facets is left out.
func TestCrossingShells(t *testing.T) {
	a := brick(0, 0, 0, 2, 2, 2)
	res := mustClose(t, shape.Join(a, brick(1, 1, 1, 3, 3, 3)), Options{})
	wantVolume(t, "volume", res.Volume, 15)
	wantVolume(t, "what is counted once", res.Extra, 1)
	if len(res.Pairs) != 1 || res.Pairs[0].Relation != Crossing || !said(res.Mended, "1 cubic units that the surface winds around more than once") {
		t.Errorf("pairs %v, mended %q, want two that cross", res.Pairs, res.Mended)
	}
	res = mustClose(t, shape.Join(a, shape.InsideOut(brick(1, 1, 1, 3, 3, 3))), Options{})
	wantVolume(t, "volume", res.Volume, 15)
	if !said(res.Warnings, "meant as a pocket") {
		t.Errorf("warned %q, want a word on the shell turned", res.Warnings)
	}
	res = mustClose(t, shape.Join(a, shape.Refined(a)), Options{})
	wantVolume(t, "volume", res.Volume, 8)
	if len(res.Shells) != 2 || res.Shells[1].Kind != Double || !said(res.Mended, "same as another") {
		t.Errorf("shells %+v, want the second left out", res.Shells)
	}
}

// A box with a wall across its middle is not what bounds one volume.
func TestInnerWallRefused(t *testing.T) {
	m := shape.Refined(brick(0, 0, 0, 2, 2, 2))
	p := func(y, z float64) r3.Vec { return r3.Vec{X: 1, Y: y, Z: z} }
	c := p(1, 1)
	rim := []r3.Vec{p(0, 0), p(1, 0), p(2, 0), p(2, 1), p(2, 2), p(1, 2), p(0, 2), p(0, 1)}
	var wall []r3.Triangle
	for i := range rim {
		wall = append(wall, r3.Triangle{c, rim[i], rim[(i+1)%len(rim)]})
	}
	_, err := Close(shape.Join(m, raw(wall...)), Options{})
	if err == nil || !said([]string{err.Error()}, "more than two facets") {
		t.Errorf("Close = %v, want a wall refused", err)
	}
}

// A file of many small shells in one large one.
func TestManyCavities(t *testing.T) {
	meshes := []*mesh.Mesh{brick(0, 0, 0, 12, 12, 12)}
	n := 0
	for x := 1.0; x < 11; x += 2 {
		for y := 1.0; y < 11; y += 2 {
			for z := 1.0; z < 11; z += 2 {
				meshes = append(meshes, shape.InsideOut(brick(x, y, z, x+1, y+1, z+1)))
				n++
			}
		}
	}
	res := mustClose(t, shape.Join(meshes...), Options{})
	wantVolume(t, "volume", res.Volume, 12*12*12)
	wantVolume(t, "material", res.Material, 12*12*12-float64(n))
}
