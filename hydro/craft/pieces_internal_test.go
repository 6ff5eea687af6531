package craft

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// The cache of pieces holds what was asked for last and no more.
func TestCacheIsBounded(t *testing.T) {
	m := shape.Box(1, 1, 1)
	s, err := mesh.NewSolid(append([]r3.Vec(nil), m.Vertices...), m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	c := cache{limit: 3}
	at := func(i int) taking {
		return taking{s, mesh.Identity(), band{}, band{way: swept, at: 0.1 * float64(i)}}
	}
	for i := 1; i < 9; i++ {
		if _, err := c.get(at(i)); err != nil {
			t.Fatal(err)
		}
	}
	if len(c.entries) != 3 || len(c.order) != 3 {
		t.Errorf("after 8 keys the cache of 3 holds %d, in order %d", len(c.entries), len(c.order))
	}
	a, _ := c.get(at(8))
	b, _ := c.get(at(8))
	if len(a) != 3 || &a[0] != &b[0] {
		t.Errorf("asked for twice: %d pieces, made anew %t", len(a), &a[0] != &b[0])
	}
}
