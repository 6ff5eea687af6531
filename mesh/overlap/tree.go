package overlap

import (
	"math"

	"millpond/mesh/parts"
)

// box is a box along the axes, in steps of the lattice.
type box struct{ lo, hi [3]float64 }

func emptyBox() box {
	inf := math.Inf(1)
	return box{[3]float64{inf, inf, inf}, [3]float64{-inf, -inf, -inf}}
}

func (b *box) add(p *[3]float64) {
	for k, x := range p {
		// Faster than min and max, which mind what is no number.
		if x < b.lo[k] {
			b.lo[k] = x
		}
		if x > b.hi[k] {
			b.hi[k] = x
		}
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

func (b *box) extent() float64 {
	return b.hi[0] - b.lo[0] + b.hi[1] - b.lo[1] + b.hi[2] - b.lo[2]
}

// small is a box in half the memory. Rounding may let boxes meet that are
// apart, but never part what meets: it keeps order.
type small struct{ lo, hi [3]float32 }

func (b *box) small() small {
	return small{
		[3]float32{float32(b.lo[0]), float32(b.lo[1]), float32(b.lo[2])},
		[3]float32{float32(b.hi[0]), float32(b.hi[1]), float32(b.hi[2])},
	}
}

func (b *small) join(c *small) {
	for k := range 3 {
		if c.lo[k] < b.lo[k] {
			b.lo[k] = c.lo[k]
		}
		if c.hi[k] > b.hi[k] {
			b.hi[k] = c.hi[k]
		}
	}
}

// meets reports whether two boxes have a point in common.
func (b *small) meets(c *small) bool {
	return b.lo[0] <= c.hi[0] && c.lo[0] <= b.hi[0] &&
		b.lo[1] <= c.hi[1] && c.lo[1] <= b.hi[1] &&
		b.lo[2] <= c.hi[2] && c.lo[2] <= b.hi[2]
}

func (b *small) extent() float32 {
	return b.hi[0] - b.lo[0] + b.hi[1] - b.lo[1] + b.hi[2] - b.lo[2]
}

// near returns the box of what is within slack of p.
func near(p *[3]float64) small {
	return (&box{[3]float64{p[0] - slack, p[1] - slack, p[2] - slack}, [3]float64{p[0] + slack, p[1] + slack, p[2] + slack}}).small()
}

// pierced reports whether a line along an axis through the box p passes through
// the box.
func (b *small) pierced(axis uint8, p *small) bool {
	u, v := plane(axis)
	return b.lo[u] <= p.hi[u] && p.lo[u] <= b.hi[u] && b.lo[v] <= p.hi[v] && p.lo[v] <= b.hi[v]
}

// tree is a binary tree over boxes of facets.
type tree struct {
	nodes []node
	items []uint32 // facets, by leaf
	boxes []small  // of the items
}

// node is an inner node, whose children are left and left+1, or a leaf with
// count items from left on.
type node struct {
	box   small
	left  uint32
	count uint32 // zero for an inner node
}

const leafSize = 4

// newTree builds the tree over count facets from first on, sorted along a curve
// that fills space.
func newTree(first, count int, boxOf func(uint32) box) *tree {
	t := &tree{items: make([]uint32, count), boxes: make([]small, count)}
	if count == 0 {
		return t
	}
	unsorted := make([]small, count)
	bounds := make([]box, parts.Count(count))
	parts.Each(len(bounds), count, func(part, from, to int) {
		all := emptyBox()
		for i := from; i < to; i++ {
			b := boxOf(uint32(first + i))
			all.join(&b)
			unsorted[i] = b.small()
		}
		bounds[part] = all
	})
	for i := range bounds {
		bounds[0].join(&bounds[i])
	}
	order := curveOrder(unsorted, &bounds[0])
	parts.Do(count, func(from, to int) {
		for i := from; i < to; i++ {
			t.items[i] = uint32(first) + order[i].n
			t.boxes[i] = unsorted[order[i].n]
		}
	})
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

// place is where along the curve a box of some number lies.
type place struct{ key, n uint32 }

// curveOrder returns boxes, all within one, in the order of their middles along
// a Z-curve (G. M. Morton, 1966) of 2^10 steps a side, by a radix sort.
func curveOrder(boxes []small, all *box) []place {
	const bits = 10
	size := max(all.hi[0]-all.lo[0], all.hi[1]-all.lo[1], all.hi[2]-all.lo[2])
	scale := 0.0
	if size > 0 {
		scale = (1<<bits - 1) / (2 * size)
	}
	a, b := make([]place, len(boxes)), make([]place, len(boxes))
	parts.Do(len(boxes), func(from, to int) {
		for i := from; i < to; i++ {
			b := &boxes[i]
			var key uint32
			for k := range 3 {
				// Rounding may put the middle outside of all.
				along := max(0, float64(b.lo[k])+float64(b.hi[k])-2*all.lo[k])
				key |= spread(uint32(along*scale)) << k
			}
			a[i] = place{key, uint32(i)}
		}
	})
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
	return a
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
	parts.Do(len(t.nodes), func(from, to int) {
		for i := from; i < to; i++ {
			n := &t.nodes[i]
			if n.count == 0 {
				continue
			}
			n.box = t.boxes[n.left]
			for k := n.left + 1; k < n.left+n.count; k++ {
				n.box.join(&t.boxes[k])
			}
		}
	})
	for i := len(t.nodes) - 1; i >= 0; i-- {
		if n := &t.nodes[i]; n.count == 0 {
			n.box = t.nodes[n.left].box
			n.box.join(&t.nodes[n.left+1].box)
		}
	}
}

// pairs calls visit for each facet of t and facet of u whose boxes meet each
// other and the box within. It stops when visit returns false.
func (t *tree) pairs(u *tree, within *box, visit func(f, g uint32) bool) bool {
	if len(t.nodes) == 0 || len(u.nodes) == 0 {
		return true
	}
	room := within.small()
	return t.cross(u, 0, 0, &room, visit)
}

func (t *tree) cross(u *tree, m, n uint32, within *small, visit func(f, g uint32) bool) bool {
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

// do calls visit once for each two facets of a chore whose boxes meet, but for
// those in a patch for which skip is true.
func (t *tree) do(c chore, skip func(facets []uint32) bool, visit func(f, g uint32) bool) bool {
	if c.m == c.n {
		return t.within(c.m, skip, visit)
	}
	return t.cross(t, c.m, c.n, &t.nodes[0].box, visit)
}

func (t *tree) within(m uint32, skip func(facets []uint32) bool, visit func(f, g uint32) bool) bool {
	if skip(t.under(m)) {
		return true
	}
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
	return t.within(n.left, skip, visit) && t.within(n.left+1, skip, visit) && t.cross(t, n.left, n.left+1, &t.nodes[0].box, visit)
}

// under returns the facets under a node.
func (t *tree) under(m uint32) []uint32 {
	first, last := &t.nodes[m], &t.nodes[m]
	for first.count == 0 {
		first = &t.nodes[first.left]
	}
	for last.count == 0 {
		last = &t.nodes[last.left+1]
	}
	return t.items[first.left : last.left+last.count]
}

// stab calls visit for each facet whose box the line along an axis through p
// passes through, or within slack of it.
func (t *tree) stab(axis uint8, p *[3]float64, visit func(f uint32)) {
	if len(t.nodes) > 0 {
		room := near(p)
		t.along(0, axis, &room, visit)
	}
}

func (t *tree) along(m uint32, axis uint8, p *small, visit func(f uint32)) {
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
