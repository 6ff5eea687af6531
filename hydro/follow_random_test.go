package hydro_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// outOfBalance returns what is left, per weight and per weight and size, of the
// forces and of the level moments about the CG on a body under the share of one
// thrust line whose level part is answered at the height level: written down
// here anew, from the displaced volume and its center alone.
func outOfBalance(b *hydro.Body, s *hydro.State, line hydro.ThrustLine, share, level float64) (force, moment float64) {
	n := s.Up
	weight := b.Mass * hydro.Gravity
	pull := r3.Scale(share*line.Most, line.Along)
	flat := r3.Sub(pull, r3.Scale(r3.Dot(pull, n), n))
	lift := r3.Scale(b.Density*hydro.Gravity*s.Volume, n)
	force = r3.Norm(r3.Add(r3.Scale(-weight, n), r3.Add(lift, r3.Sub(pull, flat)))) / weight
	m := r3.Cross(r3.Sub(s.CB, b.CG), lift)
	m = r3.Add(m, r3.Cross(r3.Sub(line.At, b.CG), pull))
	m = r3.Add(m, r3.Scale(share*line.Torque, line.Along))
	m = r3.Sub(m, r3.Cross(r3.Scale(level-s.HeightOf(b.CG), n), flat))
	m = r3.Sub(m, r3.Scale(r3.Dot(m, n), n))
	return force, r3.Norm(m) / (weight * b.Hull.Size())
}

// Random bodies under random thrust: every point of every way is balanced, so is
// every landing, all but a few ways end for a reason that is known, and none
// goes on for long.
func TestRandomBodiesUnderThrust(t *testing.T) {
	const bodies = 150
	r := rand.New(rand.NewPCG(5, 3))
	stops := map[hydro.Stop]int{}
	landed, most := 0, 0
	for i := range bodies {
		b := starBody(t, r, uint64(i))
		rest := restOf(t, b)
		if rest.Neutral {
			continue
		}
		weight := b.Mass * hydro.Gravity
		line := hydro.ThrustLine{
			At:     r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()},
			Along:  r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}),
			Most:   weight * r.Float64(),
			Torque: weight * 0.1 * r.NormFloat64(),
		}
		const level = -0.1
		load := hydro.NewThrust(b, []hydro.ThrustLine{line}, hydro.Reaction{Answer: hydro.AtHeight, Height: level}, 1)
		p, err := rest.Follow(hydro.Course{Load: load, Most: 1})
		if err != nil {
			t.Fatalf("body %d: %v", i, err)
		}
		stops[p.Stop]++
		most = max(most, p.Cuts)
		for _, at := range p.Points() {
			if f, m := outOfBalance(b, &at.State, line, at.Share, level); f > 1e-9 || m > 1e-9 {
				t.Fatalf("body %d at %g: out of balance by %g and %g", i, at.Share, f, m)
			}
		}
		end := p.Loss()
		if p.Lost() {
			l := p.Land()
			if l.Found {
				landed++
				if f, m := outOfBalance(b, &l.State, line, end.Share*(1+1e-3), level); f > 1e-8 || m > 1e-8 {
					t.Errorf("body %d lands out of balance by %g and %g", i, f, m)
				}
			}
		} else if math.Abs(end.Share-1) > 1e-12 {
			t.Errorf("body %d holds to %g of its load only", i, end.Share)
		}
	}
	lost := 0
	for s, n := range stops {
		if s != hydro.Holds {
			lost += n
		}
	}
	if stops[hydro.Unfollowed] > bodies/50 || most > 3000 || lost < bodies/10 || landed < lost/2 {
		t.Errorf("ends %v, %d of %d landings found, at most %d cuts", stops, landed, lost, most)
	}
	t.Logf("ends %v, %d of %d landings found, at most %d cuts", stops, landed, lost, most)
}

// Twin floats of W. S. Diehl, NACA TN 183 (1924): two rectangles 24 ft long and
// 3 ft wide, spaced so that GM is 25 ft at BG 6.5 ft and 5000 lb in sea water of
// 64 lb/ft³ (his I = L/12 ((s+b)³-(s-b)³) for the two, solved for s: 8.08451 ft).
// Under a small heeling couple M they lean by M/(W GM).
func TestSpacingOfTwinFloats(t *testing.T) {
	const foot, pound = 0.3048, 0.45359237
	const l, beam, spacing = 24 * foot, 3 * foot, 8.08451 * foot
	h := hullOf(t,
		solid(t, shape.BoxBetween(r3.Vec{X: -l / 2, Y: spacing/2 - beam/2}, r3.Vec{X: l / 2, Y: spacing/2 + beam/2, Z: 1})),
		solid(t, shape.BoxBetween(r3.Vec{X: -l / 2, Y: -spacing/2 - beam/2}, r3.Vec{X: l / 2, Y: -spacing/2 + beam/2, Z: 1})))
	density := 64 * pound / (foot * foot * foot)
	mass := 5000 * pound
	draft := mass / density / (2 * l * beam)
	b := &hydro.Body{Hull: h, Mass: mass, CG: r3.Vec{Z: draft/2 + 6.5*foot}, Density: density}
	r := restOf(t, b)
	if gm := r.GMTransverse() / foot; math.Abs(gm-25) > 1e-4 {
		t.Errorf("GM %.6f ft, want 25", gm)
	}
	const couple = 100.0
	at := atShare(t, followed(t, b, hydro.Course{Load: hydro.Couple{Roll: couple}, Most: 1}), 1)
	if want := couple / (mass * hydro.Gravity * 25 * foot); math.Abs(at.Heel()/want-1) > 1e-5 {
		t.Errorf("heel %.9g, want %.9g", at.Heel(), want)
	}
}

// starBody returns a star of the given seed with some mass it can carry and the
// CG somewhere in its middle.
func starBody(t testing.TB, r *rand.Rand, seed uint64) *hydro.Body {
	t.Helper()
	s := solid(t, shape.Star(seed, 2))
	h := hullOf(t, s)
	box := s.Box()
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*(0.3+0.4*r.Float64()) }
	return &hydro.Body{
		Hull: h, Mass: 1000 * h.Volume() * (0.1 + 0.7*r.Float64()), Density: 1000,
		CG: r3.Vec{X: in(box.Min.X, box.Max.X), Y: in(box.Min.Y, box.Max.Y), Z: in(box.Min.Z, box.Max.Z)},
	}
}
