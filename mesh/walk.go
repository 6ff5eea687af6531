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
	whole   integrals  // of the subtrees that are wholly wet, and of leaves counted whole
	excess  tetrahedra // what those leaves have too much, in the cut's coordinates
	lower   [3]int     // which end of a box is the lower one, by axis
	visited int        // triangles
	touched float64    // keeps the touching from being optimized away

	// The nodes and leaves that the plane may pass through, still to be
	// opened. All open nodes of one level are opened before any of the
	// level above, so no more than one batch has children in the list on
	// each of the 15 levels that numbers of 32 bits allow.
	nodeList, leafList int // their lengths
	nodeNumbers        [1024]uint32
	leafNumbers        [leafBatch + nodeBatch*fan]uint32

	// Of a batch of leaves: the heights of the vertices, 1 for those that
	// are wet, and the triangles, a set for each way of being wet: which
	// corners are, in the numbering of partings, and then the same again
	// for the triangles of leaves counted whole.
	heights [leafBatch*leafCorners + corner]float64
	marks   [leafBatch*leafCorners + corner]uint8
	found   [sets * room]uint32
}

const (
	nodeBatch = 16
	leafBatch = 16
	// corner is the number of values that a corner in a leaf's list of
	// triangles could take, a power of two: the compiler then sees that
	// none is out of range.
	corner = 64
	sets   = 2 * 8
	room   = 512 // of a set: leafBatch*leafSize triangles at most
	// counted is the bit in a leaf's number in the list that says that the
	// leaf is counted whole.
	counted = 31
)

const _ = uint(room - leafBatch*leafSize) // does not compile if there is no room

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
	w.near.remove(w.excess)
	w.wet.join(w.whole.tetrahedra(w.apex))
	return w.section(), w.apex, w.visited
}

// openNodes tests the children of the last n nodes of the list. A leaf that
// the plane may pass through is counted whole if the middle of its box is wet:
// as most such leaves are wet, or dry, but for the triangles that the plane
// parts, there is then little left to add or to take out.
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
		var below, middle, across [fan]uint8
		for j := range fan {
			low := height(normal, offset, r3.Vec{X: x0[j], Y: y0[j], Z: z0[j]})
			high := height(normal, offset, r3.Vec{X: x1[j], Y: y1[j], Z: z1[j]})
			below[j] = mark(high)
			middle[j] = mark(low + high)
			across[j] = mark(low) &^ below[j]
		}
		list, length, bottom := w.nodeNumbers[:], &w.nodeList, uint8(0)
		if int(k) < w.bottoms {
			list, length, bottom = w.leafNumbers[:], &w.leafList, 1
		}
		end, count := (*[fan]uint32)(list[*length:]), 0
		for j := range fan {
			whole := middle[j] & bottom
			end[count&(fan-1)] = first + uint32(j) | uint32(whole)<<counted
			count += int(across[j])
			wet[wets&(len(wet)-1)] = &b.sums[j]
			wets += int(below[j] | whole&across[j])
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
	var ends [sets]int // of the sets
	for set := range ends {
		ends[set] = set * room
	}
	end := 0 // of the heights
	for slot, k := range batch {
		l := &w.leaves[k&(1<<counted-1)]
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
		whole, tag := uint8(k>>counted)*8, uint32(slot)<<24
		for _, t := range &l.triangles {
			set := (m[t&(corner-1)] + m[t>>8&(corner-1)]*2 + m[t>>16&(corner-1)]*4 + whole) & (sets - 1)
			i := ends[set]
			ends[set]++
			w.found[i&(len(w.found)-1)] = t | tag
		}
	}

	for set, end := range ends {
		wet, whole := set%8, set >= 8
		t := &partings[wet]
		found := w.found[set*room : end]
		if t.whole != whole {
			sum := &w.near
			if whole {
				sum = &w.excess
			}
			for _, f := range found {
				p := &views[f>>24&(leafBatch-1)]
				sum.add(p.corner(f), p.corner(f>>8), p.corner(f>>16))
			}
		}
		if wet == 0 || wet == 7 {
			continue
		}
		a, b, d := 8*t.corners[0]&31, 8*t.corners[1]&31, 8*t.corners[2]&31
		for _, f := range found {
			p := &views[f>>24&(leafBatch-1)]
			w.tip(p.corner(f>>a), p.corner(f>>b), p.corner(f>>d))
		}
	}
}

// parting says how a triangle is parted whose corners are wet and dry in a
// certain way.
type parting struct {
	whole   bool     // its wet part is all of it but for the tip, if there is one
	corners [3]uint8 // as tip takes them
}

// partings go by which corners are wet: corner i counts 1<<i.
var partings = [8]parting{
	0: {whole: false}, 7: {whole: true},
	1: {false, [3]uint8{0, 1, 2}}, 2: {false, [3]uint8{1, 2, 0}}, 4: {false, [3]uint8{2, 0, 1}},
	6: {true, [3]uint8{0, 2, 1}}, 5: {true, [3]uint8{1, 0, 2}}, 3: {true, [3]uint8{2, 1, 0}},
}

// view says where the vertices of a leaf are, in the cut's coordinates.
type view struct{ u, v, h *[corner]float64 }

// corner returns the vertex whose number the lowest bits of i are.
func (p *view) corner(i uint32) r3.Vec {
	i &= corner - 1
	return r3.Vec{X: p.u[i], Y: p.v[i], Z: p.h[i]}
}
