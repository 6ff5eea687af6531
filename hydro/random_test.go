package hydro_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// solid makes a Solid of a shape.
func solid(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	s, err := mesh.NewSolid(append([]r3.Vec(nil), m.Vertices...), append([][3]uint32(nil), m.Triangles...))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// hullOf makes a hull of solids where they were drawn.
func hullOf(t testing.TB, solids ...*mesh.Solid) *hydro.Hull {
	t.Helper()
	var terms []hydro.Term
	for i, s := range solids {
		terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: s, Place: mesh.Identity()}, Weight: 1, Part: i})
	}
	h, err := hydro.NewHull(terms)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Every random closed body with a random CG inside its box comes to rest, in
// balance, and in a minimum: no small turn with the volume balanced anew lowers
// the energy. The check uses Level alone, not the solver's derivatives.
func TestRandomBodiesRest(t *testing.T) {
	const bodies = 1200
	r := rand.New(rand.NewPCG(11, 7))
	most, total := 0, 0
	for i := range bodies {
		s := solid(t, shape.Star(uint64(i), 2))
		h := hullOf(t, s)
		box := s.Box()
		in := func(lo, hi float64) float64 { return lo + (hi-lo)*(0.2+0.6*r.Float64()) }
		b := &hydro.Body{
			Hull:    h,
			Mass:    1000 * h.Volume() * (0.03 + 0.94*r.Float64()),
			CG:      r3.Vec{X: in(box.Min.X, box.Max.X), Y: in(box.Min.Y, box.Max.Y), Z: in(box.Min.Z, box.Max.Z)},
			Density: 1000,
		}
		rest, err := b.Rest()
		if err != nil {
			t.Fatalf("body %d: %v", i, err)
		}
		most, total = max(most, rest.Cuts), total+rest.Cuts
		if rest.Residual > 1e-9 {
			t.Errorf("body %d: residual %g", i, rest.Residual)
		}
		least, _ := rest.GMLeast()
		for k := range 8 {
			turn := float64(k) * math.Pi / 4
			axis := r3.Vec{X: math.Cos(turn), Y: math.Sin(turn)}
			tangent := r3.Sub(axis, r3.Scale(r3.Dot(axis, rest.Up), rest.Up))
			if r3.Norm(tangent) < 0.1 {
				continue
			}
			const step = 1e-3
			up := r3.Unit(r3.Add(rest.Up, r3.Scale(step, r3.Unit(tangent))))
			near, err := b.Level(up)
			if err != nil {
				t.Fatal(err)
			}
			// In joules per newton: meters. Rounding leaves some 1e-15.
			if rise := (near.Energy - rest.Energy) / (b.Mass * hydro.Gravity); rise < -1e-13 {
				t.Errorf("body %d: the energy falls by %g m toward %v (least GM %g)", i, rise, tangent, least)
			}
		}
	}
	t.Logf("%d bodies, %.1f cuts each, at most %d", bodies, float64(total)/bodies, most)
}
