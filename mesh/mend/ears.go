package mend

import (
	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Limits on the triangulation of holes: the corners of one, and the comparisons
// of a corner with a possible ear for all of them.
const (
	mostCorners = 20_000
	mostTests   = 200_000_000
)

// triangulate cuts the figure into triangles by clipping ears, without new
// corners (Meisters, "Polygons have ears", American Mathematical Monthly 82,
// 1975). It reports false when the figure crosses itself, or the budget of
// comparisons is used up.
func (f *figure) triangulate(budget *int) ([][3]uint32, bool) {
	n := len(f.corners)
	if f.normal == (r3.Vec{}) {
		return f.fan(), true
	}
	flat := f.flatten()
	none := 1e-12 * f.size * f.size // area below which three corners are in line
	prev, next := make([]int, n), make([]int, n)
	for i := range n {
		prev[i], next[i] = (i+n-1)%n, (i+1)%n
	}
	var out [][3]uint32
	clip := func(i int) {
		out = append(out, [3]uint32{f.corners[prev[i]], f.corners[i], f.corners[next[i]]})
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
func (f *figure) fan() (out [][3]uint32) {
	for i := 2; i < len(f.corners); i++ {
		out = append(out, [3]uint32{f.corners[0], f.corners[i-1], f.corners[i]})
	}
	return out
}

// flatten returns the corners in two coordinates on the mean plane,
// anticlockwise.
func (f *figure) flatten() []r2.Vec {
	if f.flat == nil {
		f.flat = make([]r2.Vec, len(f.points))
		for i, p := range f.points {
			f.flat[i] = f.project(p)
		}
	}
	return f.flat
}

// project returns p's coordinates on the figure's plane.
func (f *figure) project(p r3.Vec) r2.Vec {
	u := unitVec(r3.Cross(leastAxis(f.normal), f.normal))
	v := r3.Cross(f.normal, u)
	d := r3.Sub(p, f.center)
	return r2.Vec{X: r3.Dot(d, u), Y: r3.Dot(d, v)}
}

// turn returns twice the area of a, b, c, positive when anticlockwise.
func turn(a, b, c r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) }

// encloses reports whether p, laid on the figure's plane, is within it.
func (f *figure) encloses(p r3.Vec) bool {
	q := f.project(p)
	flat := f.flatten()
	in := false
	for i, a := range flat {
		b := flat[(i+1)%len(flat)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// areaOf returns the area of triangles over the given points.
func areaOf(verts []r3.Vec, tris [][3]uint32) float64 {
	m := mesh.Mesh{Vertices: verts, Triangles: tris}
	sum := 0.0
	for i := range tris {
		a, _ := area(m.Triangle(i))
		sum += a
	}
	return sum
}
