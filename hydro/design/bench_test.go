package design_test

import (
	"runtime"
	"testing"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/mesh/shape"
)

// large returns a seaplane whose float has 100,000 triangles.
func large(t testing.TB) *craft.Craft {
	c := seaplane(t, 1)
	c.Parts[0].Solid = solid(t, shape.Float{
		Forebody: 440, Afterbody: 380, Beam: 86, Depth: 74, Step: 10, Deadrise: 20 * deg, BowDeadrise: 42 * deg,
		AfterbodyAngle: 4 * deg, Straight: 0.36, BowRise: 64, Sheer: 12, Transom: 48, Edge: 9,
	}.Mesh(100_000))
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

// 50 x 50 floats of 100,000 triangles, higher and longer, on all cores. The
// memory held does not grow with the number of designs: see
// TestSweepMemoryIsFlat.
func BenchmarkSweep50x50(b *testing.B) {
	c := large(b)
	for b.Loop() {
		worked(b, floats(b, c, 50), runtime.GOMAXPROCS(0))
	}
	b.ReportMetric(2500*float64(b.N)/b.Elapsed().Seconds(), "designs/s")
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
