package polygon

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Triangulate cuts the figure into triangles over its points, by number, that
// run around like the figure, by clipping ears (Meisters, "Polygons have ears",
// American Mathematical Monthly 82, 1975). It reports false when the figure
// crosses itself, or when the budget of comparisons, which it counts down, is
// used up. A figure without area gives triangles without area.
func (f *Figure) Triangulate(budget *int) ([][3]int, bool) {
	n := len(f.Points)
	if f.Normal == (r3.Vec{}) {
		return f.fan(), true
	}
	flat := f.Flat()
	none := 1e-12 * f.Size * f.Size // area below which three corners are in line
	prev, next := make([]int, n), make([]int, n)
	for i := range n {
		prev[i], next[i] = (i+n-1)%n, (i+1)%n
	}
	out := make([][3]int, 0, n-2)
	clip := func(i int) {
		out = append(out, [3]int{prev[i], i, next[i]})
		next[prev[i]], prev[next[i]] = next[i], prev[i]
	}
	at := 0
	for left := n; left > 3; left-- {
		found := -1
		// A corner in line with its neighbors is taken only when there is
		// no proper ear.
		for _, least := range [2]float64{none, -none} {
			for i, k := at, 0; k < left; i, k = next[i], k+1 {
				a, b, c := flat[prev[i]], flat[i], flat[next[i]]
				if turn(a, b, c) < least {
					continue
				}
				free := true
				for j := next[next[i]]; j != prev[i]; j = next[j] {
					*budget--
					p := flat[j]
					if p != a && p != b && p != c && turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0 {
						free = false
						break
					}
				}
				if *budget < 0 {
					return nil, false
				}
				if free {
					found = i
					break
				}
			}
			if found >= 0 {
				break
			}
		}
		if found < 0 {
			return nil, false
		}
		clip(found)
		at = next[found]
	}
	if turn(flat[prev[at]], flat[at], flat[next[at]]) < -none {
		return nil, false
	}
	clip(at)
	return out, true
}

// fan returns triangles without area between the corners of a slit.
func (f *Figure) fan() [][3]int {
	out := make([][3]int, 0, len(f.Points))
	for i := 2; i < len(f.Points); i++ {
		out = append(out, [3]int{0, i - 1, i})
	}
	return out
}

// turn returns twice the area of a, b, c, positive when anticlockwise.
func turn(a, b, c r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) }
