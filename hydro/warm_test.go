package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/bench"
)

// ways are ways to go on from a rest in steps, each solved from the one before.
// They return how many cuts and how many steps it took.
var ways = []struct {
	name   string
	follow func(t testing.TB, r *hydro.Rest) (cuts, steps int)
}{
	{"righting-30", righted(30 * rad)},
	{"righting-180", righted(math.Pi)},
	// A tenth more mass at the CG, in 20 steps.
	{"load", func(t testing.TB, r *hydro.Rest) (int, int) {
		return warm(t, r, 20, func(from *hydro.State) (*hydro.Body, hydro.Change, float64) {
			more := 0.005 * r.Body().Mass
			return from.Body().With(more, nil), from.Added(from.Body().CG), more
		})
	}},
	// The CG moved ahead by a twentieth of the length, in 20 steps.
	{"trim", func(t testing.TB, r *hydro.Rest) (int, int) {
		return warm(t, r, 20, func(from *hydro.State) (*hydro.Body, hydro.Change, float64) {
			const ahead = 0.0025
			next := *from.Body()
			next.CG.X += ahead
			return &next, from.Shifted(r3.Vec{X: 1}), ahead
		})
	}},
}

// righted follows a righting curve to both sides in steps of 2 deg.
func righted(to float64) func(testing.TB, *hydro.Rest) (cuts, steps int) {
	return func(t testing.TB, r *hydro.Rest) (int, int) {
		c, err := r.Righting(hydro.RightingOptions{From: -to, To: to})
		if err != nil {
			t.Fatal(err)
		}
		if len(c.Jumps) > 0 {
			t.Fatalf("the curve jumps: %v", c.Jumps)
		}
		return c.Cuts, len(c.Points) - 1
	}
}

// warm follows a rest, each step from where the exact response expects it. next
// returns the next body and how the rest answers to how much of a change.
func warm(t testing.TB, r *hydro.Rest, steps int, next func(from *hydro.State) (*hydro.Body, hydro.Change, float64)) (cuts, count int) {
	from := r.State
	for range steps {
		body, change, by := next(&from)
		to, err := body.RestFrom(hydro.Attitude{Up: r3.Add(from.Up, r3.Scale(by, change.Up)), Height: from.Height + by*change.Height})
		if err != nil {
			t.Fatal(err)
		}
		from, cuts = to.State, cuts+to.Cuts
	}
	return cuts, steps
}

// A level cold start takes at most 6 cuts, a warm one at most 3 on the average.
func TestSolvesWasteNoCuts(t *testing.T) {
	for i, body := range loaded(hullOf(t, solid(t, bench.Float(6000)))) {
		r, err := body.RestFrom(midHeight(body.Hull, 0, 0))
		if err != nil {
			t.Fatal(err)
		}
		if r.Cuts > 6 || r.Residual > 1e-12 {
			t.Errorf("load %d: at rest to %g in %d cuts from level at mid height, want 1e-12 in 6", i, r.Residual, r.Cuts)
		}
		for _, along := range ways {
			if cuts, steps := along.follow(t, &r); cuts > 3*steps {
				t.Errorf("load %d along %s: %d cuts for %d steps, want 3 a step", i, along.name, cuts, steps)
			}
		}
	}
}

// A jump takes some 110 cuts: 40 to find it to 0.01 deg and 30 more to find the
// end of the branch to 1e-5 deg, 40 to fall by 70 deg of trim. With two of them a
// curve takes hardly more than 3 cuts a step.
func TestJumpsWasteNoCuts(t *testing.T) {
	c := righting(t, craft(t, 20_000), hydro.RightingOptions{})
	if len(c.Jumps) != 2 {
		t.Fatalf("%d jumps, want 2", len(c.Jumps))
	}
	if most := 3*len(c.Points) + 2*50; c.Cuts > most {
		t.Errorf("%d cuts for %d points and 2 jumps, want at most %d", c.Cuts, len(c.Points), most)
	}
}
