package design_test

import (
	"runtime"
	"sync"
	"testing"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/mesh/bench"
	"millpond/mesh/shape"
)

// drawn returns a seaplane whose two floats have about so many triangles each.
func drawn(t testing.TB, triangles int) *craft.Craft {
	c := seaplane(t, 1)
	c.Parts[0].Solid = solid(t, bench.Rounded(shape.Float{
		Forebody: 440, Afterbody: 380, Beam: 86, Depth: 74, Step: 10, Deadrise: 20 * deg, BowDeadrise: 42 * deg,
		AfterbodyAngle: 4 * deg, Straight: 0.36, BowRise: 64, Sheer: 12, Transom: 48, Edge: 9,
	}.Mesh(triangles)))
	return c
}

// floats returns a grid of n plug heights by n plug lengths of a craft.
func floats(t testing.TB, c *craft.Craft, n int) *design.Grid {
	g := grid(t, c, []string{"reserve buoyancy", "angle of attack", "draft"})
	g.Vary = []design.Varied{vary(t, c, "plug height of float"), vary(t, c, "plug length of float")}
	g.Values = make([][]float64, 2)
	for i := range n {
		g.Values[0] = append(g.Values[0], 0.001*float64(i))
		g.Values[1] = append(g.Values[1], 0.002*float64(i))
	}
	return g
}

// eachCores runs f on one core and on all.
func eachCores(b *testing.B, f func(b *testing.B, cores int)) {
	for i, cores := range []int{1, runtime.GOMAXPROCS(0)} {
		b.Run("cores="+[]string{"one", "all"}[i], func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
			f(b, cores)
		})
	}
}

// BenchmarkSweep: floats higher and longer in 50 x 50 ways, from the drawing on:
// it is taken apart and indexed anew each time. The memory held does not grow
// with the number of designs: see TestSweepMemoryIsFlat.
func BenchmarkSweep(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		eachCores(b, func(b *testing.B, cores int) {
			const n = 50
			bench.Prepared(b, 1, func(int) func() {
				g := floats(b, drawn(b, size.Count), n)
				return func() { worked(b, g, cores) }
			})
			b.ReportMetric(n*n, "designs")
		})
	})
}

// BenchmarkCores: so many loops that share nothing, on one core and on all: how
// well any work can scale just now.
func BenchmarkCores(b *testing.B) {
	loops := runtime.GOMAXPROCS(0)
	eachCores(b, func(b *testing.B, _ int) {
		bench.InTurn(b, 1, func(int) {
			var wait sync.WaitGroup
			for range loops {
				wait.Go(func() {
					x := 1.0
					for range 100_000_000 {
						x *= 1 + 0x1p-40
					}
					if x < 1 {
						b.Error("it shrank")
					}
				})
			}
			wait.Wait()
		})
	})
}

// The memory held while a sweep runs is the same for ten times the designs.
func TestSweepMemoryIsFlat(t *testing.T) {
	c := seaplane(t, 1)
	held := func(n int) uint64 {
		most := uint64(0)
		count := 0
		err := floats(t, c, n).Run(t.Context(), 2, func(design.Row) error {
			if count++; count%100 == 0 {
				runtime.GC()
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapAlloc)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return most
	}
	held(10) // what is kept for good: the pieces of the float
	small, large := held(10), held(32)
	if large > small+small/10+1<<20 {
		t.Errorf("1024 designs hold %d bytes, 100 hold %d", large, small)
	}
}
