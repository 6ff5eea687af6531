package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// walk is one cut on its way through an index.
//
// Whether a box or a triangle is wet, dry or in between is a toss-up for the
// processor, which guesses and starts over when wrong; and most of the tree has
// to come from memory, which takes as long as a hundred multiplications. So
// nothing is decided and done at once. A batch of nodes or leaves is tested,
// writing what is found into lists without a branch; then each list is worked
// off by a loop that knows what to do. That is more than twice as fast as a
// recursion.
type walk struct {
	*index
	cut
	whole   integrals // of the subtrees that are wholly wet
	lower   [3]int    // which end of a box is the lower one, by axis
	visited int       // triangles
	touched float64   // keeps the touching from being optimized away

	// The nodes and leaves that the plane may pass through, still to be
	// opened. All open nodes of one level are opened before any of the
	// level above, so no more than one batch has children in the list on
	// each of the 15 levels that numbers of 32 bits allow.
	nodeList, leafList int // their lengths
	nodeNumbers        [1024]uint32
	leafNumbers        [leafBatch + nodeBatch*fan]uint32

	// Of a batch of leaves: the heights of the vertices, 1 for those that
	// are wet, and the triangles by which corners are wet, in the numbering
	// of partings.
	heights [leafBatch*leafCorners + corner]float64
	marks   [leafBatch*leafCorners + corner]uint8
	found   [8][256]uint32 // leafBatch*leafSize of each at most
}

const (
	nodeBatch = 16
	leafBatch = 16
	// corner is the number of values that a corner in a leaf's list of
	// triangles could take, a power of two: the compiler then sees that
	// none is out of range.
	corner = 64
)

// below integrates what is below a plane as the Solid's method does. It also
// returns how many triangles it visited.
func (x *index) below(normal r3.Vec, offset float64) (Section, r3.Vec, int) {
	var w walk
	w.index = x
	w.cut = newCut(normal, offset)
	w.lower = [3]int{int(mark(normal.X)), int(mark(normal.Y)), int(mark(normal.Z))}
	w.nodeNumbers[0], w.nodeList = uint32(len(x.nodes)-1), 1
	for w.nodeList > 0 {
		w.openNodes(min(w.nodeList, nodeBatch))
		for w.leafList >= leafBatch {
			w.openLeaves(leafBatch)
		}
	}
	w.openLeaves(w.leafList)
	w.wet.join(w.whole.tetrahedra(w.apex))
	return w.section(), w.apex, w.visited
}

// openNodes tests the children of the last n nodes of the list.
func (w *walk) openNodes(n int) {
	w.nodeList -= n
	touched := 0.0
	var batch [nodeBatch]uint32
	copy(batch[:], w.nodeNumbers[w.nodeList:w.nodeList+n])
	for _, k := range batch[:n] {
		b := &w.nodes[k]
		touched += b.ends[0][0][0] + b.ends[0][2][0] + b.ends[1][1][0]
	}

	var wet [nodeBatch * fan]*integrals
	wets := 0
	normal, offset := w.normal, w.offset
	lx, ly, lz := w.lower[0]&1, w.lower[1]&1, w.lower[2]&1
	for _, k := range batch[:n] {
		b, first := &w.nodes[k], w.first[k]
		x0, y0, z0 := &b.ends[lx][0], &b.ends[ly][1], &b.ends[lz][2]
		x1, y1, z1 := &b.ends[1-lx][0], &b.ends[1-ly][1], &b.ends[1-lz][2]
		var below, across [fan]uint8
		for j := range fan {
			low := height(normal, offset, r3.Vec{X: x0[j], Y: y0[j], Z: z0[j]})
			high := height(normal, offset, r3.Vec{X: x1[j], Y: y1[j], Z: z1[j]})
			below[j] = mark(high)
			across[j] = mark(low) &^ below[j]
		}
		list, length := w.nodeNumbers[:], &w.nodeList
		if int(k) < w.bottoms {
			list, length = w.leafNumbers[:], &w.leafList
		}
		end, count := (*[fan]uint32)(list[*length:]), 0
		for j := range fan {
			end[count&(fan-1)] = first + uint32(j)
			count += int(across[j])
			wet[wets&(len(wet)-1)] = &b.sums[j]
			wets += int(below[j])
		}
		*length += count
	}

	for _, s := range wet[:wets] {
		touched += s.w.X + s.area
	}
	for _, s := range wet[:wets] {
		w.whole.join(s)
	}
	w.touched = touched
}

// openLeaves adds the wet parts of the last n leaves of the list.
func (w *walk) openLeaves(n int) {
	w.leafList -= n
	w.visited += n * leafSize
	batch := w.leafNumbers[w.leafList : w.leafList+n]
	// An offset of -0 becomes 0; then no height is -0 either, and its sign
	// bit says whether a vertex is wet.
	normal, offset := w.normal, w.offset+0
	u, v := (w.axis+1)%3, (w.axis+2)%3
	var views [leafBatch]view
	var counts [8]int // of what was found
	end := 0          // of the heights
	for slot, k := range batch {
		l := &w.leaves[k]
		n := int(l.count)
		c := w.corners[l.first:]
		xs, ys, zs, hs, ms := c[:n], c[n:2*n], c[2*n:3*n], w.heights[end:end+n], w.marks[end:end+n]
		for i := range hs {
			h := height(normal, offset, r3.Vec{X: xs[i], Y: ys[i], Z: zs[i]})
			hs[i] = h
			ms[i] = uint8(math.Float64bits(h) >> 63)
		}
		views[slot] = view{
			u: (*[corner]float64)(c[u*n:]),
			v: (*[corner]float64)(c[v*n:]),
			h: (*[corner]float64)(w.heights[end:]),
		}
		m := (*[corner]uint8)(w.marks[end:])
		end += n
		for _, t := range &l.triangles {
			wet := (m[t&(corner-1)] + m[t>>8&(corner-1)]*2 + m[t>>16&(corner-1)]*4) & 7
			i := counts[wet]
			counts[wet]++
			w.found[wet][i&(len(w.found[wet])-1)] = t | uint32(slot)<<24
		}
	}

	for _, f := range w.found[7][:counts[7]] {
		p := &views[f>>24&(leafBatch-1)]
		w.near.add(p.corner(f), p.corner(f>>8), p.corner(f>>16))
	}
	for wet := 1; wet < 7; wet++ {
		t := &partings[wet]
		for _, f := range w.found[wet][:counts[wet]] {
			p := &views[f>>24&(leafBatch-1)]
			w.straddling(p.corner(f>>(8*t.lone&31)), p.corner(f>>(8*t.next&31)), p.corner(f>>(8*t.last&31)), t.sign, t.rest)
		}
	}
}

// view says where the vertices of a leaf are, in the cut's coordinates.
type view struct{ u, v, h *[corner]float64 }

// corner returns the vertex whose number the lowest bits of i are.
func (p *view) corner(i uint32) r3.Vec {
	i &= corner - 1
	return r3.Vec{X: p.u[i], Y: p.v[i], Z: p.h[i]}
}
