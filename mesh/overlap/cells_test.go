package overlap_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// cells is a union of boxes with whole corners, counted in cells of one.
type cells struct {
	lo, hi [][3]int
}

// randomCells returns n boxes in a small cube, so that faces, edges and corners
// coincide most of the time.
func randomCells(r *rand.Rand, n, side int) cells {
	var c cells
	for range n {
		var lo, hi [3]int
		for k := range 3 {
			lo[k] = r.IntN(side)
			hi[k] = lo[k] + 1 + r.IntN(side-lo[k])
		}
		c.lo, c.hi = append(c.lo, lo), append(c.hi, hi)
	}
	return c
}

// filled reports whether a cell is in one of the boxes.
func (c cells) filled(x, y, z int) bool {
	for i := range c.lo {
		lo, hi := c.lo[i], c.hi[i]
		if lo[0] <= x && x < hi[0] && lo[1] <= y && y < hi[1] && lo[2] <= z && z < hi[2] {
			return true
		}
	}
	return false
}

// count returns volume and surface of the union of the boxes.
func (c cells) count(side int) (volume, area float64) {
	for x := -1; x <= side; x++ {
		for y := -1; y <= side; y++ {
			for z := -1; z <= side; z++ {
				in := c.filled(x, y, z)
				if in {
					volume++
				}
				for _, other := range [3]bool{c.filled(x+1, y, z), c.filled(x, y+1, z), c.filled(x, y, z+1)} {
					if in != other {
						area++
					}
				}
			}
		}
	}
	return volume, area
}

func (c cells) meshes() []*mesh.Mesh {
	var all []*mesh.Mesh
	v := func(p [3]int) r3.Vec { return r3.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])} }
	for i := range c.lo {
		all = append(all, shape.BoxBetween(v(c.lo[i]), v(c.hi[i])))
	}
	return all
}

// rounds returns how often a random check is repeated: more when the
// environment says MILLPOND_LONG=factor.
func rounds(n int) int {
	if f, err := strconv.Atoi(os.Getenv("MILLPOND_LONG")); err == nil && f > 0 {
		return n * f
	}
	return n
}

func TestUnionOfBoxesAgainstCells(t *testing.T) {
	const side = 5
	for seed := range rounds(250) {
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		c := randomCells(r, 2+r.IntN(6), side)
		volume, area := c.count(side)
		t.Run(fmt.Sprintf("parts/%d", seed), func(t *testing.T) {
			var parts []mesh.Placed
			for _, m := range c.meshes() {
				parts = append(parts, inPlace(solid(t, m)))
			}
			u := unite(t, parts...)
			compare(t, u, volume, area, 1e-13)
		})
		t.Run(fmt.Sprintf("one mesh/%d", seed), func(t *testing.T) {
			compare(t, union{parts: []mesh.Placed{inPlace(once(t, shape.Join(c.meshes()...)))}}, volume, area, 1e-13)
		})
		// Turned about an odd axis the faces are coplanar no longer, but for
		// rounding: volume hardly minds, area does.
		axis := r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}
		angle := 2 * math.Pi * r.Float64()
		if seed%4 == 0 {
			angle = math.Pow(10, -float64(3+r.IntN(15)))
		}
		turn := mesh.Rotation(axis, angle)
		t.Run(fmt.Sprintf("turned/%d", seed), func(t *testing.T) {
			var parts []mesh.Placed
			for _, m := range c.meshes() {
				parts = append(parts, inPlace(solid(t, shape.Transformed(m, turn))))
			}
			compare(t, unite(t, parts...), volume, math.NaN(), 1e-12)
		})
		t.Run(fmt.Sprintf("placed/%d", seed), func(t *testing.T) {
			var parts []mesh.Placed
			for _, m := range c.meshes() {
				parts = append(parts, mesh.Placed{Solid: solid(t, m), Place: turn})
			}
			compare(t, unite(t, parts...), volume, area, 1e-12)
		})
	}
}

func solid(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	verts, tris := welded(m)
	s, err := mesh.NewSolid(verts, tris)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func compare(t *testing.T, u union, volume, area, tol float64) {
	t.Helper()
	if got := u.volume(); !(math.Abs(got-volume) <= tol*volume) {
		t.Errorf("volume = %.17g, want %g", got, volume)
	}
	if got := u.wetArea(mesh.Plane{Normal: r3.Vec{Z: 1}, Offset: -1e6}); !math.IsNaN(area) && !(math.Abs(got-area) <= tol*area) {
		t.Errorf("area = %.17g, want %g", got, area)
	}
}
