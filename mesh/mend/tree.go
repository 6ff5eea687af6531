package mend

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// leaf is how many items share the lowest boxes of a tree.
const leaf = 4

// tree is a hierarchy of bounding boxes over numbered items, sorted along a
// Morton curve. Level 0 has a box for each leaf's items, each further level one
// for each two boxes below it.
type tree struct {
	items  []uint32
	boxes  []box // of the items, in the same order
	levels [][]box
}

// newTree returns the tree over items 0 to n-1.
func newTree(n int, boxOf func(i int) box) *tree {
	all := emptyBox()
	given := make([]box, n)
	for i := range n {
		given[i] = boxOf(i)
		all.join(&given[i])
	}
	keys := make([]uint64, n)
	for i := range n {
		keys[i] = uint64(morton(&given[i], &all))<<32 | uint64(i)
	}
	slices.Sort(keys)
	t := &tree{items: make([]uint32, n), boxes: make([]box, n)}
	for i, k := range keys {
		t.items[i] = uint32(k)
		t.boxes[i] = given[uint32(k)]
	}
	below := t.boxes
	for group := leaf; ; group = 2 {
		level := make([]box, (len(below)+group-1)/group)
		for i := range level {
			level[i] = emptyBox()
			for j := i * group; j < min((i+1)*group, len(below)); j++ {
				level[i].join(&below[j])
			}
		}
		t.levels = append(t.levels, level)
		below = level
		if len(level) <= 1 {
			return t
		}
	}
}

// morton returns the place of b's middle along a Morton curve of 1024 cells a
// side through all.
func morton(b, all *box) uint32 {
	code := uint32(0)
	for k := range 3 {
		side := all.hi[k] - all.lo[k]
		if side <= 0 {
			continue
		}
		f := ((b.lo[k]+b.hi[k])/2 - all.lo[k]) / side
		x := uint32(math.Max(0, math.Min(1023, 1024*f)))
		x = (x | x<<16) & 0x030000ff
		x = (x | x<<8) & 0x0300f00f
		x = (x | x<<4) & 0x030c30c3
		x = (x | x<<2) & 0x09249249
		code |= x << k
	}
	return code
}

// top returns the number of the highest level.
func (t *tree) top() int { return len(t.levels) - 1 }

// children returns the range of boxes, or of items at level 0, below box i.
func (t *tree) children(level, i int) (from, to int) {
	if level == 0 {
		return leaf * i, min(leaf*i+leaf, len(t.boxes))
	}
	return 2 * i, min(2*i+2, len(t.levels[level-1]))
}

// within calls visit for each item whose box comes within margin of b, until it
// returns false. It reports whether it went through to the end.
func (t *tree) within(b *box, margin float64, visit func(item uint32) bool) bool {
	return len(t.items) == 0 || t.withinAt(t.top(), 0, b, margin, visit)
}

func (t *tree) withinAt(level, i int, b *box, margin float64, visit func(item uint32) bool) bool {
	if !t.levels[level][i].near(b, margin) {
		return true
	}
	from, to := t.children(level, i)
	for j := from; j < to; j++ {
		if level > 0 {
			if !t.withinAt(level-1, j, b, margin, visit) {
				return false
			}
		} else if t.boxes[j].near(b, margin) && !visit(t.items[j]) {
			return false
		}
	}
	return true
}

// pairs calls visit for each item of t and item of u whose boxes come within
// margin of each other, until it returns false. It reports whether it went
// through to the end.
func (t *tree) pairs(u *tree, margin float64, visit func(i, j uint32) bool) bool {
	if len(t.items) == 0 || len(u.items) == 0 {
		return true
	}
	return t.pairsAt(t.top(), 0, u, u.top(), 0, margin, visit)
}

func (t *tree) pairsAt(lt, i int, u *tree, lu, j int, margin float64, visit func(i, j uint32) bool) bool {
	if !t.levels[lt][i].near(&u.levels[lu][j], margin) {
		return true
	}
	if lt == 0 && lu == 0 {
		ti, tn := t.children(0, i)
		uj, un := u.children(0, j)
		for a := ti; a < tn; a++ {
			for b := uj; b < un; b++ {
				if t.boxes[a].near(&u.boxes[b], margin) && !visit(t.items[a], u.items[b]) {
					return false
				}
			}
		}
		return true
	}
	// Open the larger box: with both trees over one place, levels go
	// together.
	if lu == 0 || lt > 0 && t.levels[lt][i].girth() >= u.levels[lu][j].girth() {
		from, to := t.children(lt, i)
		for k := from; k < to; k++ {
			if !t.pairsAt(lt-1, k, u, lu, j, margin, visit) {
				return false
			}
		}
		return true
	}
	from, to := u.children(lu, j)
	for k := from; k < to; k++ {
		if !t.pairsAt(lt, i, u, lu-1, k, margin, visit) {
			return false
		}
	}
	return true
}

// line calls visit for each item whose box the line through p along d meets,
// d being of unit length.
func (t *tree) line(p, d r3.Vec, visit func(item uint32)) {
	if len(t.items) == 0 {
		return
	}
	l := ray{p: [3]float64{p.X, p.Y, p.Z}}
	for k, x := range [3]float64{d.X, d.Y, d.Z} {
		if math.Abs(x) < 1e-300 {
			x = 1e-300 // keeps zero times infinity out
		}
		l.inv[k] = 1 / x
	}
	root := &t.levels[t.top()][0]
	l.slack = 1e-12 * (root.diagonal() + root.farthest())
	t.lineAt(t.top(), 0, &l, visit)
}

func (t *tree) lineAt(level, i int, l *ray, visit func(item uint32)) {
	if !l.meets(&t.levels[level][i]) {
		return
	}
	from, to := t.children(level, i)
	for j := from; j < to; j++ {
		if level > 0 {
			t.lineAt(level-1, j, l, visit)
		} else if l.meets(&t.boxes[j]) {
			visit(t.items[j])
		}
	}
}

// ray is a whole line, in both directions, ready for tests against boxes.
type ray struct {
	p, inv [3]float64
	slack  float64 // by which boxes are widened, more than rounding
}

func (l *ray) meets(b *box) bool {
	from, to := math.Inf(-1), math.Inf(1)
	for k := range 3 {
		t0 := (b.lo[k] - l.slack - l.p[k]) * l.inv[k]
		t1 := (b.hi[k] + l.slack - l.p[k]) * l.inv[k]
		if t0 > t1 {
			t0, t1 = t1, t0
		}
		from, to = max(from, t0), min(to, t1)
	}
	return from <= to
}
