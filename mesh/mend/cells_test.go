package mend

import (
	"math/rand/v2"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// Files of up to four sound boxes with whole coordinates up to three: they
// share faces, edges and corners, nest and cross. Each must be closed, and the
// volume and the surface must be those of the union, counted in unit cells.
func TestBoxesInOneFile(t *testing.T) {
	const n, cases = 3, 1000
	random := rand.New(rand.NewPCG(8, 9))
	crossing := 0
	for i := range cases {
		var boxes []*mesh.Mesh
		var cells [n * n * n]bool
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
		if d := res.Volume - union; d > 1e-12 || d < -1e-12 || len(res.Warnings) > 0 {
			t.Errorf("case %d: volume %g, want %g; pairs %v, said %q, warned %q", i, res.Volume, union, res.Pairs, res.Mended, res.Warnings)
		}
		if d := res.Area - cellSurface(n, func(c int) bool { return cells[c] }); d > 1e-12 || d < -1e-12 {
			t.Errorf("case %d: area %g, off by %g", i, res.Area, d)
		}
		if res.Extra > 0.5 {
			crossing++
		}
	}
	if crossing < cases/10 {
		t.Errorf("%d of %d files cross themselves, want more", crossing, cases)
	}
}

// cellSurface returns the surface of the filled cells of a cube of n a side.
func cellSurface(n int, filled func(c int) bool) float64 {
	at := func(x, y, z int) bool {
		return min(x, y, z) >= 0 && max(x, y, z) < n && filled((z*n+y)*n+x)
	}
	area := 0.0
	for x := -1; x < n; x++ {
		for y := -1; y < n; y++ {
			for z := -1; z < n; z++ {
				for _, other := range [3]bool{at(x+1, y, z), at(x, y+1, z), at(x, y, z+1)} {
					if other != at(x, y, z) {
						area++
					}
				}
			}
		}
	}
	return area
}
