package overlap

import "math"

// box is a box along the axes, in steps of the lattice.
type box struct{ lo, hi [3]float64 }

func emptyBox() box {
	inf := math.Inf(1)
	return box{[3]float64{inf, inf, inf}, [3]float64{-inf, -inf, -inf}}
}

func (b *box) add(p *[3]float64) {
	for k := range p {
		b.lo[k], b.hi[k] = min(b.lo[k], p[k]), max(b.hi[k], p[k])
	}
}

func (b *box) join(c *box) {
	b.add(&c.lo)
	b.add(&c.hi)
}

// meets reports whether two boxes have a point in common.
func (b *box) meets(c *box) bool {
	return b.lo[0] <= c.hi[0] && c.lo[0] <= b.hi[0] &&
		b.lo[1] <= c.hi[1] && c.lo[1] <= b.hi[1] &&
		b.lo[2] <= c.hi[2] && c.lo[2] <= b.hi[2]
}

// pierced reports whether the line along an axis through p passes through the
// box, or within slack of it.
func (b *box) pierced(axis uint8, p *[3]float64) bool {
	u, v := plane(axis)
	return b.lo[u]-slack <= p[u] && p[u] <= b.hi[u]+slack && b.lo[v]-slack <= p[v] && p[v] <= b.hi[v]+slack
}

// tree is a binary tree over boxes of facets.
type tree struct {
	nodes []node
	items []uint32 // facets, by leaf
	boxes []box    // of the items
}

// node is an inner node, whose children are left and left+1, or a leaf with
// count items from left on.
type node struct {
	box   box
	left  uint32
	count uint32 // zero for an inner node
}

const leafSize = 4

// newTree builds the tree over count facets from first on, sorted along a curve
// that fills space.
func newTree(first, count int, boxOf func(uint32) box) *tree {
	t := &tree{items: make([]uint32, count), boxes: make([]box, count)}
	if count == 0 {
		return t
	}
	all := emptyBox()
	unsorted := make([]box, count)
	for i := range unsorted {
		unsorted[i] = boxOf(uint32(first + i))
		all.join(&unsorted[i])
	}
	order := curveOrder(unsorted, &all)
	for i, n := range order {
		t.items[i] = uint32(first) + n
		t.boxes[i] = unsorted[n]
	}
	t.nodes = make([]node, 1, 2*(count/leafSize*2+1))
	t.split(0, 0, count)
	t.fit()
	return t
}

// split makes node n of the items from one number up to another.
func (t *tree) split(n uint32, from, to int) {
	if to-from <= leafSize {
		t.nodes[n].left, t.nodes[n].count = uint32(from), uint32(to-from)
		return
	}
	left := uint32(len(t.nodes))
	t.nodes = append(t.nodes, node{}, node{})
	t.nodes[n].left = left
	half := (from + to) / 2
	t.split(left, from, half)
	t.split(left+1, half, to)
}

// curveOrder returns the numbers of boxes in the order of their middles along a
// Z-curve (G. M. Morton, 1966) of 2^10 steps a side, by a radix sort.
func curveOrder(boxes []box, all *box) []uint32 {
	const bits = 10
	size := max(all.hi[0]-all.lo[0], all.hi[1]-all.lo[1], all.hi[2]-all.lo[2])
	scale := 0.0
	if size > 0 {
		scale = (1<<bits - 1) / (2 * size)
	}
	type entry struct{ key, n uint32 }
	a, b := make([]entry, len(boxes)), make([]entry, len(boxes))
	for i := range boxes {
		var key uint32
		for k := range 3 {
			key |= spread(uint32((boxes[i].lo[k]+boxes[i].hi[k]-2*all.lo[k])*scale)) << k
		}
		a[i] = entry{key, uint32(i)}
	}
	for shift := 0; shift < 3*bits; shift += bits {
		var start [1<<bits + 1]int
		for _, e := range a {
			start[e.key>>shift&(1<<bits-1)+1]++
		}
		for i := range 1 << bits {
			start[i+1] += start[i]
		}
		for _, e := range a {
			d := e.key >> shift & (1<<bits - 1)
			b[start[d]] = e
			start[d]++
		}
		a, b = b, a
	}
	order := make([]uint32, len(a))
	for i, e := range a {
		order[i] = e.n
	}
	return order
}

// spread puts two zeros between the lowest ten bits of x.
func spread(x uint32) uint32 {
	x &= 1<<10 - 1
	x = (x | x<<16) & 0x030000ff
	x = (x | x<<8) & 0x0300f00f
	x = (x | x<<4) & 0x030c30c3
	return (x | x<<2) & 0x09249249
}

// fit sets the boxes of the nodes. Children come after their parents.
func (t *tree) fit() {
	for i := len(t.nodes) - 1; i >= 0; i-- {
		n := &t.nodes[i]
		n.box = emptyBox()
		if n.count == 0 {
			n.box.join(&t.nodes[n.left].box)
			n.box.join(&t.nodes[n.left+1].box)
		}
		for k := range n.count {
			n.box.join(&t.boxes[n.left+k])
		}
	}
}

// pairs calls visit for each facet of t and facet of u whose boxes meet each
// other and the box within. It stops when visit returns false.
func (t *tree) pairs(u *tree, within *box, visit func(f, g uint32) bool) bool {
	return len(t.nodes) == 0 || len(u.nodes) == 0 || t.cross(u, 0, 0, within, visit)
}

func (t *tree) cross(u *tree, m, n uint32, within *box, visit func(f, g uint32) bool) bool {
	a, b := &t.nodes[m], &u.nodes[n]
	if !a.box.meets(&b.box) || !a.box.meets(within) || !b.box.meets(within) {
		return true
	}
	switch {
	case a.count > 0 && b.count > 0:
		for i := a.left; i < a.left+a.count; i++ {
			if !t.boxes[i].meets(&b.box) || !t.boxes[i].meets(within) {
				continue
			}
			for j := b.left; j < b.left+b.count; j++ {
				if t.boxes[i].meets(&u.boxes[j]) && u.boxes[j].meets(within) && !visit(t.items[i], u.items[j]) {
					return false
				}
			}
		}
		return true
	case b.count > 0 || a.count == 0 && a.box.extent() > b.box.extent():
		return t.cross(u, a.left, n, within, visit) && t.cross(u, a.left+1, n, within, visit)
	}
	return t.cross(u, m, b.left, within, visit) && t.cross(u, m, b.left+1, within, visit)
}

func (b *box) extent() float64 {
	return b.hi[0] - b.lo[0] + b.hi[1] - b.lo[1] + b.hi[2] - b.lo[2]
}

// chores are parts of the work of going through pairs, which several can share:
// the facets under node m with each other where m and n are the same, else with
// those under node n.
type chore struct{ m, n uint32 }

// chores returns the work of going through all pairs of t's facets, in parts.
func (t *tree) chores(m uint32, depth int, list []chore) []chore {
	if len(t.nodes) == 0 {
		return list
	}
	if n := &t.nodes[m]; depth > 0 && n.count == 0 {
		list = t.chores(n.left, depth-1, list)
		list = t.chores(n.left+1, depth-1, list)
		return append(list, chore{n.left, n.left + 1})
	}
	return append(list, chore{m, m})
}

// do calls visit once for each two facets of a chore whose boxes meet.
func (t *tree) do(c chore, visit func(f, g uint32) bool) bool {
	if c.m == c.n {
		return t.within(c.m, visit)
	}
	return t.cross(t, c.m, c.n, &t.nodes[0].box, visit)
}

func (t *tree) within(m uint32, visit func(f, g uint32) bool) bool {
	n := &t.nodes[m]
	if n.count > 0 {
		for i := n.left; i < n.left+n.count; i++ {
			for j := i + 1; j < n.left+n.count; j++ {
				if t.boxes[i].meets(&t.boxes[j]) && !visit(t.items[i], t.items[j]) {
					return false
				}
			}
		}
		return true
	}
	return t.within(n.left, visit) && t.within(n.left+1, visit) && t.cross(t, n.left, n.left+1, &t.nodes[0].box, visit)
}

// stab calls visit for each facet whose box the line along an axis through p
// passes through.
func (t *tree) stab(axis uint8, p *[3]float64, visit func(f uint32)) {
	if len(t.nodes) > 0 {
		t.along(0, axis, p, visit)
	}
}

func (t *tree) along(m uint32, axis uint8, p *[3]float64, visit func(f uint32)) {
	n := &t.nodes[m]
	if !n.box.pierced(axis, p) {
		return
	}
	if n.count == 0 {
		t.along(n.left, axis, p, visit)
		t.along(n.left+1, axis, p, visit)
		return
	}
	for i := n.left; i < n.left+n.count; i++ {
		if t.boxes[i].pierced(axis, p) {
			visit(t.items[i])
		}
	}
}
