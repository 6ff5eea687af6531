package mend

import "gonum.org/v1/gonum/spatial/r3"

// none stands for "no side" and "no shell".
const none = ^uint32(0)

// work is a mesh being mended.
//
// The sides of triangle t are numbered 3t, 3t+1 and 3t+2; side 3t+k runs from
// corner k to the next corner. An edge is where sides with the same two ends
// meet; each of its sides has at most one mate across it.
type work struct {
	name   string
	opt    Options
	verts  []r3.Vec
	tris   [][3]uint32
	turned []bool // which triangles were turned; nil while none was
	size   float64
	far    float64 // the largest coordinate
	report Report

	mate  []uint32   // by side
	fans  [][]uint32 // the sides of each edge that has more than two
	twins []uint32   // triangles that share all three corners with another
	first bool       // whether the mesh is still as read

	shell  []uint32 // by triangle
	shells []Shell
	even   []bool // by shell: as many facets were turned as not
}

// nextSide returns the side that follows h around its triangle.
func nextSide(h uint32) uint32 {
	if h%3 == 2 {
		return h - 2
	}
	return h + 1
}

// ends returns the vertices between which side h runs.
func (w *work) ends(h uint32) (from, to uint32) {
	t := &w.tris[h/3]
	switch h % 3 {
	case 0:
		return t[0], t[1]
	case 1:
		return t[1], t[2]
	}
	return t[2], t[0]
}

// apex returns the corner opposite to side h.
func (w *work) apex(h uint32) uint32 { return w.tris[h/3][(h%3+2)%3] }

// triangle returns the corners of triangle t.
func (w *work) triangle(t uint32) r3.Triangle {
	c := w.tris[t]
	return r3.Triangle{w.verts[c[0]], w.verts[c[1]], w.verts[c[2]]}
}

// keep drops the triangles for which drop is true.
func (w *work) keep(drop func(t uint32) bool) (dropped int) {
	n := 0
	for t := range w.tris {
		if drop(uint32(t)) {
			continue
		}
		w.tris[n] = w.tris[t]
		if w.turned != nil {
			w.turned[n] = w.turned[t]
		}
		n++
	}
	dropped = len(w.tris) - n
	w.tris = w.tris[:n]
	if w.turned != nil {
		w.turned = w.turned[:n]
	}
	return dropped
}

// add appends a triangle.
func (w *work) add(t [3]uint32) {
	w.tris = append(w.tris, t)
	if w.turned != nil {
		w.turned = append(w.turned, false)
	}
}

// turn makes triangle t face the other way. Its first and last side change
// places, and their mates are told; fans are not.
func (w *work) turn(t uint32) {
	if w.turned == nil {
		w.turned = make([]bool, len(w.tris), cap(w.tris))
	}
	w.turned[t] = !w.turned[t]
	c := &w.tris[t]
	c[1], c[2] = c[2], c[1]
	first, last := 3*t, 3*t+2
	w.mate[first], w.mate[last] = w.mate[last], w.mate[first]
	for _, h := range [2]uint32{first, last} {
		if m := w.mate[h]; m != none {
			w.mate[m] = h
		}
	}
}

// openSides returns the sides without a mate.
func (w *work) openSides() []uint32 {
	var open []uint32
	for h, m := range w.mate {
		if m == none {
			open = append(open, uint32(h))
		}
	}
	return open
}
