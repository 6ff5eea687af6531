package mend

import (
	"slices"

	"millpond/mesh"
	"millpond/mesh/polygon"

	"gonum.org/v1/gonum/spatial/r3"
)

// loops returns the corners of each hole, in the direction in which a facet
// that closes it has them, starting from the corner that is first by x, y and
// z. A loop that passes a vertex twice is cut in two there.
func (w *work) loops() [][]uint32 {
	seen := make(map[uint32]bool)
	var loops [][]uint32
	for _, start := range w.openSides() {
		var path []uint32
		at := make(map[uint32]int) // where on the path a vertex is
		for h := start; !seen[h]; h = w.nextOpen(h) {
			seen[h] = true
			v, _ := w.ends(h)
			if i, ok := at[v]; ok {
				loops = append(loops, slices.Clone(path[i:]))
				for _, u := range path[i:] {
					delete(at, u)
				}
				path = path[:i]
			}
			at[v] = len(path)
			path = append(path, v)
		}
		if len(path) > 0 {
			loops = append(loops, path)
		}
	}
	for _, l := range loops {
		slices.Reverse(l)
		first := 0
		for i, v := range l {
			if compareVec(w.verts[v], w.verts[l[first]]) < 0 {
				first = i
			}
		}
		copy(l, append(slices.Clone(l[first:]), l[:first]...))
	}
	slices.SortFunc(loops, func(a, b []uint32) int {
		for i := range min(len(a), len(b)) {
			if c := compareVec(w.verts[a[i]], w.verts[b[i]]); c != 0 {
				return c
			}
		}
		return len(a) - len(b)
	})
	return loops
}

// nextOpen returns the open side that starts where h ends, found by turning
// around that vertex from facet to facet.
func (w *work) nextOpen(h uint32) uint32 {
	g := nextSide(h)
	for w.mate[g] != none {
		g = nextSide(w.mate[g])
	}
	return g
}

// figure is a hole laid on its mean plane.
type figure struct {
	polygon.Figure
	corners []uint32
}

func (w *work) figure(loop []uint32) figure {
	points := make([]r3.Vec, len(loop))
	for i, v := range loop {
		points[i] = w.verts[v]
	}
	return figure{polygon.New(points), loop}
}

// Limits on the triangulation of holes: the corners of one, and the comparisons
// of a corner with a possible ear for all of them.
const (
	mostCorners = 20_000
	mostTests   = 200_000_000
)

// cut returns the triangles that close the hole, without new corners. It
// reports false when the edge crosses itself, or the budget of comparisons is
// used up.
func (f *figure) cut(budget *int) ([][3]uint32, bool) {
	numbers, ok := f.Triangulate(budget)
	if !ok {
		return nil, false
	}
	tris := make([][3]uint32, len(numbers))
	for i, t := range numbers {
		tris[i] = [3]uint32{f.corners[t[0]], f.corners[t[1]], f.corners[t[2]]}
	}
	return tris, true
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
