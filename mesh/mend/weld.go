package mend

import (
	"fmt"
	"math"
	"math/bits"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// largest is the largest coordinate taken: fifth powers of it, as in second
// moments, stay finite.
const largest = 1e60

// welder numbers points in order of first appearance. It is an open-addressing
// hash table with linear probing: a Go map takes five times as long.
type welder struct {
	slots []uint32 // vertex number plus one, zero for an empty slot
	shift uint
	verts []r3.Vec

	fetched float64 // keeps the fetching from being optimized away
}

// newWelder returns a welder with room for n points before it grows.
func newWelder(n int) *welder {
	w := &welder{verts: make([]r3.Vec, 0, n)}
	w.resize(2 * n)
	return w
}

// resize gives the table at least n slots and files all points anew.
func (w *welder) resize(n int) {
	log := max(4, bits.Len(uint(n)))
	w.slots, w.shift = make([]uint32, 1<<log), uint(64-log)
	for i, v := range w.verts {
		w.slots[w.find(v, hash(v))] = uint32(i) + 1
	}
}

// find returns the slot of p, whose hash is h, or the empty slot where it
// belongs. All coordinates must be numbers, and no negative zeros.
func (w *welder) find(p r3.Vec, h uint64) int {
	mask := len(w.slots) - 1
	for i := int(h >> w.shift); ; i = (i + 1) & mask {
		s := w.slots[i]
		if s == 0 || w.verts[s-1] == p {
			return i
		}
	}
}

// hash mixes the bits of a point; its top bits are the best. Each product (odd
// constants, the bits of π, e and the golden ratio) carries upward, each shift
// back down. The coordinates enter one after the other: in a mere sum of
// products the sign bits of a point and its mirror image would cancel.
func hash(p r3.Vec) uint64 {
	h := math.Float64bits(p.X) * 0x243f6a8885a308d3
	h = (h ^ h>>32 ^ math.Float64bits(p.Y)) * 0xb7e151628aed2a6b
	h = (h ^ h>>32 ^ math.Float64bits(p.Z)) * 0x9e3779b97f4a7c15
	return (h ^ h>>32) * 0x243f6a8885a308d3
}

// number returns the number of p, whose hash is h, a new one if p is new.
func (w *welder) number(p r3.Vec, h uint64) (n uint32, isNew bool) {
	slot := w.find(p, h)
	if s := w.slots[slot]; s != 0 {
		return s - 1, false
	}
	n = uint32(len(w.verts))
	w.verts = append(w.verts, p)
	w.slots[slot] = n + 1
	if 4*len(w.verts) > 3*len(w.slots) {
		w.resize(2 * len(w.slots))
	}
	return n, true
}

// fetch reads where the points with these hashes are likely to be found, so
// that by the time they are looked for all of it is on its way from memory at
// once, not one after the other.
func (w *welder) fetch(hashes []uint64) {
	var found [3 * batch]uint32
	for i, h := range hashes {
		found[i] = w.slots[h>>w.shift]
	}
	x := 0.0
	for _, s := range found[:len(hashes)] {
		if int(s) < len(w.verts) {
			x += w.verts[s].X // one beyond it, most often in the same piece of memory
		}
	}
	w.fetched = x
}

// batch is how many triangles are welded at once.
const batch = 64

// weld gives equal points one number, in order of first appearance in the
// triangles, and leaves out points that no triangle uses.
func weld(m *mesh.Mesh) ([]r3.Vec, [][3]uint32, error) {
	// Half-edges are numbered in 32 bits, with one number to spare.
	if len(m.Triangles) > (1<<32-2)/3 {
		return nil, nil, &InputError{m.Name, -1, fmt.Sprintf("%d triangles are more than can be handled", len(m.Triangles))}
	}
	// A closed mesh has half as many points as triangles.
	w := newWelder(min(len(m.Vertices), len(m.Triangles)/2+4))
	tris := make([][3]uint32, len(m.Triangles))
	var points [3 * batch]r3.Vec
	var hashes [3 * batch]uint64
	for from := 0; from < len(tris); from += batch {
		part := m.Triangles[from:min(from+batch, len(tris))]
		for i, t := range part {
			for k, v := range t {
				if int(v) >= len(m.Vertices) {
					return nil, nil, &InputError{m.Name, from + i, fmt.Sprintf("it names vertex %d, but there are only %d", v+1, len(m.Vertices))}
				}
				p := m.Vertices[v]
				// Adding zero turns -0 into 0.
				p = r3.Vec{X: p.X + 0, Y: p.Y + 0, Z: p.Z + 0}
				points[3*i+k], hashes[3*i+k] = p, hash(p)
			}
		}
		w.fetch(hashes[:3*len(part)])
		for j, p := range points[:3*len(part)] {
			n, isNew := w.number(p, hashes[j])
			if isNew {
				if bad := notUsable(p); bad != "" {
					return nil, nil, &InputError{m.Name, from + j/3, bad}
				}
			}
			tris[from+j/3][j%3] = n
		}
	}
	return w.verts, tris, nil
}

// notUsable says what is wrong with a point's coordinates.
func notUsable(p r3.Vec) string {
	for _, x := range [3]float64{p.X, p.Y, p.Z} {
		switch {
		case math.IsNaN(x), math.IsInf(x, 0):
			return fmt.Sprintf("the coordinate %g is not a finite number", x)
		case math.Abs(x) > largest:
			return fmt.Sprintf("the coordinate %g is too large", x)
		}
	}
	return ""
}
