package mesh

import "gonum.org/v1/gonum/spatial/r3"

// walk is one cut on its way through an index.
//
// Whether a box or a triangle is wet, dry or in between is a toss-up for the
// processor, which guesses and starts over when wrong; and most of the tree has
// to come from memory, which takes as long as a hundred multiplications. So
// nothing is decided and done at once. A batch of nodes or leaves is first
// touched, so that all of it is on its way; then tested, writing what is found
// into lists without a branch; then each list is worked off by a loop that
// knows what to do. That is more than twice as fast as a recursion.
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
	nodeList, leafList   int // their lengths
	nodeNumbers          [1024]uint32
	leafNumbers          [leafBatch + nodeBatch*fan]uint32
	points               [leafBatch*leafCorners + corner]r3.Vec // of a batch of leaves, in the cut's coordinates
	marks                [leafBatch*leafCorners + corner]uint8
	wetFound, mixedFound [256]uint64 // leafBatch*leafSize of them at most
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
	touched := 0.0
	for _, k := range batch {
		xs, ys, zs := w.vertices(&w.leaves[k])
		touched += xs[0] + ys[0] + zs[0] + zs[len(zs)-1]
	}
	w.touched = touched

	var first [leafBatch]int // of each leaf's points
	end := 0
	normal, offset := w.normal, w.offset
	for slot, k := range batch {
		xs, ys, zs := w.vertices(&w.leaves[k])
		us, vs := w.plan(xs, ys, zs)
		first[slot] = end
		end += len(xs)
		// All of one length, so that one check of the range is enough.
		p, m := w.points[first[slot]:end], w.marks[first[slot]:end]
		xs, ys, zs, us, vs, m = xs[:len(p)], ys[:len(p)], zs[:len(p)], us[:len(p)], vs[:len(p)], m[:len(p)]
		for i := range p {
			h := height(normal, offset, r3.Vec{X: xs[i], Y: ys[i], Z: zs[i]})
			p[i].X, p[i].Y, p[i].Z = us[i], vs[i], h
			m[i] = mark(h)
		}
	}

	// What is found is written as one number: the corners, which of them
	// are wet, and where the leaf's points begin.
	wets, mixed := 0, 0
	for slot, k := range batch {
		m := (*[corner]uint8)(w.marks[first[slot]:])
		begin := uint64(first[slot]) << 32
		for _, t := range &w.leaves[k].triangles {
			wet := uint64(m[t&(corner-1)]) + uint64(m[t>>8&(corner-1)])*2 + uint64(m[t>>16&(corner-1)])*4
			found := uint64(t) | wet<<24 | begin
			w.wetFound[wets&(len(w.wetFound)-1)] = found
			wets += int((wet + 1) >> 3)
			w.mixedFound[mixed&(len(w.mixedFound)-1)] = found
			mixed += int(isMixed[wet&7])
		}
	}
	for _, f := range w.wetFound[:wets] {
		p := (*[corner]r3.Vec)(w.points[f>>32:])
		w.near.add(&p[f&(corner-1)], &p[f>>8&(corner-1)], &p[f>>16&(corner-1)])
	}
	for _, f := range w.mixedFound[:mixed] {
		p := (*[corner]r3.Vec)(w.points[f>>32:])
		t := &partings[f>>24&7]
		w.straddling(&p[f>>(t.lone*8&63)&(corner-1)], &p[f>>(t.next*8&63)&(corner-1)], &p[f>>(t.last*8&63)&(corner-1)], t.sign, t.rest)
	}
}

// isMixed is 1 where some but not all corners of a triangle are wet.
var isMixed = [8]uint8{0, 1, 1, 1, 1, 1, 1, 0}
