package mend

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
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
	corners []uint32
	points  []r3.Vec
	center  r3.Vec
	area    r3.Vec // area vector
	normal  r3.Vec // unit, zero when the figure has no area
	size    float64
	offPl   float64
	flat    []r2.Vec // see flatten
}

func (w *work) figure(loop []uint32) figure {
	f := figure{corners: loop}
	box := emptyBox()
	for _, v := range loop {
		p := w.verts[v]
		f.points = append(f.points, p)
		f.center = r3.Add(f.center, p)
		box.add(p)
	}
	n := len(loop)
	f.center = r3.Scale(1/float64(n), f.center)
	f.size = box.diagonal()
	for i, p := range f.points {
		q := f.points[(i+1)%n]
		f.area = r3.Add(f.area, r3.Scale(0.5, r3.Cross(r3.Sub(p, f.center), r3.Sub(q, f.center))))
	}
	if a := norm(f.area); a > 1e-9*f.size*f.size {
		f.normal = r3.Scale(1/a, f.area)
		for _, p := range f.points {
			f.offPl = max(f.offPl, math.Abs(r3.Dot(f.normal, r3.Sub(p, f.center))))
		}
		return f
	}
	// A slit: how far it is off the line between its ends.
	a := f.points[0]
	b := slices.MaxFunc(f.points, func(p, q r3.Vec) int {
		if r3.Norm2(r3.Sub(p, a)) < r3.Norm2(r3.Sub(q, a)) {
			return -1
		}
		return 1
	})
	for _, p := range f.points {
		_, off := toSegment(p, a, b)
		f.offPl = max(f.offPl, off)
	}
	return f
}
