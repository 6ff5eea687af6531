package mend

import (
	"math/rand/v2"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// Files of up to four sound boxes with whole coordinates up to three: they
// share faces, edges and corners, nest and cross. Each must be closed, and the
// volume must be that of the union, counted in unit cells, unless there is a
// warning; then it is more, by no more than what the boxes share.
func TestBoxesInOneFile(t *testing.T) {
	const n, cases = 3, 1000
	random := rand.New(rand.NewPCG(8, 9))
	warned := 0
	for i := range cases {
		var boxes []*mesh.Mesh
		var cells [n * n * n]bool
		sum := 0.0
		for range 1 + random.IntN(4) {
			var lo, hi [3]int
			for k := range 3 {
				lo[k] = random.IntN(n)
				hi[k] = lo[k] + 1 + random.IntN(n-lo[k])
			}
			for c := range cells {
				x, y, z := c%n, c/n%n, c/n/n
				if x >= lo[0] && x < hi[0] && y >= lo[1] && y < hi[1] && z >= lo[2] && z < hi[2] {
					cells[c] = true
					sum++
				}
			}
			b := brick(float64(lo[0]), float64(lo[1]), float64(lo[2]), float64(hi[0]), float64(hi[1]), float64(hi[2]))
			if random.IntN(3) == 0 {
				b = shape.Refined(b)
			}
			boxes = append(boxes, b)
		}
		union := 0.0
		for _, c := range cells {
			if c {
				union++
			}
		}
		m := shape.Soup(shape.Join(boxes...))
		if i%2 == 1 {
			m = shape.Shuffled(m, uint64(i))
		}
		res, err := Close(m, Options{})
		if err != nil {
			t.Errorf("case %d: Close = %v", i, err)
			continue
		}
		if len(res.Warnings) > 0 {
			warned++
			if res.Volume < union-1e-9 || res.Volume > sum+1e-9 {
				t.Errorf("case %d: volume %g, want between %g and %g; warned %q", i, res.Volume, union, sum, res.Warnings)
			}
		} else if d := res.Volume - union; d > 1e-9 || d < -1e-9 {
			t.Errorf("case %d: volume %g, want %g; pairs %v, said %q", i, res.Volume, union, res.Pairs, res.Mended)
		}
	}
	if warned == 0 || warned > cases*3/4 {
		t.Errorf("%d of %d files warned about, want some", warned, cases)
	}
}
