package overlap_test

import (
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/overlap"
	"millpond/mesh/shape"
)

// A cache works out anew only what changes: the same answer comes back as the
// same solid, also when both bodies have moved together.
func TestCache(t *testing.T) {
	box, ball := solid(t, shape.Box(2, 2, 2)), solid(t, shape.Icosphere(1, 2))
	var c overlap.Cache
	ask := func(c *overlap.Cache, x, both float64) *mesh.Solid {
		t.Helper()
		put := func(s *mesh.Solid, x float64) overlap.Keyed {
			return overlap.Keyed{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{X: x, Z: both})}}
		}
		s, err := c.Shared(put(box, 0), []overlap.Keyed{put(ball, 1+x)})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	first := ask(&c, 0, 0)
	if again := ask(&c, 0, 0); again != first {
		t.Error("the same question was answered anew")
	}
	if moved := ask(&c, 0, 3); moved != first {
		t.Error("the question about two that moved together was answered anew")
	}
	if other := ask(&c, 0.5, 0); other == first || !(other.Volume() < first.Volume()) {
		t.Error("a body moved away shares as much as before")
	}
	if far := ask(&c, 9, 0); far != nil {
		t.Error("a body far away shares something")
	}
	if s := ask(nil, 0, 0); s == first || s.Volume() != first.Volume() {
		t.Error("without a cache the answer is another")
	}
	for i := range 2 * overlap.Remembered {
		ask(&c, float64(i%overlap.Remembered+1)/1000, 0)
	}
	if again := ask(&c, 0, 0); again == first {
		t.Errorf("an answer is kept after %d others", overlap.Remembered)
	}
	var all sync.WaitGroup
	got := make([]*mesh.Solid, 8)
	for i := range got {
		all.Go(func() { got[i] = ask(&c, 0.9, 0) })
	}
	all.Wait()
	for _, s := range got {
		if s != got[0] {
			t.Fatal("one question asked by several at once got several answers")
		}
	}
}
