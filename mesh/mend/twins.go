package mend

import (
	"cmp"
	"slices"
)

// twins is a group of facets with the same three corners.
type twins struct {
	fewer, more []uint32 // those that face one way and the other
	edges       [3]edge
}

// net returns how many facets are left when opposite ones cancel.
func (g *twins) net() int { return len(g.more) - len(g.fewer) }

// dropTwins drops facets that have all three corners in common with another,
// and reports whether it did. The rest of the surface decides what is a defect:
// an edge with an odd number of facets cannot be closed.
//
//   - Of facets that face the same way one goes, where that leaves no more odd
//     edges than before: a facet exported twice, a whole body exported twice.
//     A face that two bodies have in common, the one flush within the other,
//     stays twice.
//   - Of a facet and its reverse one goes, where that leaves fewer odd edges: a
//     patch exported with both its faces.
//   - Both go where they have a free rim: a fin without thickness. They stay
//     where they are the wall between two bodies; so these stay apart, and can
//     be seen to cross elsewhere.
func (w *work) dropTwins() bool {
	groups := w.twinGroups()
	sides := make(map[edge]int)
	for _, g := range groups {
		for _, e := range g.edges {
			sides[e] = 0
		}
	}
	w.countSides(sides, func(uint32) bool { return false })
	drop := make(map[uint32]bool)
	for again := true; again; {
		again = false
		for _, p := range patches(groups, func(g *twins) bool { return g.net() >= 2 }) {
			if p.flip(sides) <= 0 {
				p.dropOne(drop, sides)
				w.report.Duplicates += len(p.groups)
				again = true
			}
		}
	}
	for _, p := range patches(groups, func(g *twins) bool { return g.net() == 0 }) {
		switch {
		case p.flip(sides) < 0:
			p.dropOne(drop, sides)
			w.report.Duplicates += len(p.groups)
		case p.loose(sides):
			w.report.Fins += p.dropAll(drop)
		}
	}
	w.report.Coincident = 0
	for _, g := range groups {
		w.report.Coincident += max(0, g.net()-1)
	}
	w.keep(func(t uint32) bool { return drop[t] })
	return len(drop) > 0
}

// patch is a set of groups connected over edges.
type patch struct {
	groups []*twins
	uses   map[edge]int // how many of the groups have an edge
	own    map[edge]int // how many of their facets do, at first
}

// patches returns the patches of the groups for which of is true.
func patches(all []*twins, of func(*twins) bool) []*patch {
	var groups []*twins
	for _, g := range all {
		if of(g) {
			groups = append(groups, g)
		}
	}
	sets := newSets(len(groups))
	last := make(map[edge]int) // the last group met at an edge
	for i, g := range groups {
		for _, e := range g.edges {
			if j, ok := last[e]; ok {
				sets.join(i, j)
			}
			last[e] = i
		}
	}
	byRoot := make([]*patch, len(groups))
	var list []*patch
	for i, g := range groups {
		root := sets.root(i) // the lowest, so met first
		if byRoot[root] == nil {
			byRoot[root] = &patch{uses: make(map[edge]int), own: make(map[edge]int)}
			list = append(list, byRoot[root])
		}
		p := byRoot[root]
		p.groups = append(p.groups, g)
		for _, e := range g.edges {
			p.uses[e]++
			p.own[e] += len(g.more) + len(g.fewer)
		}
	}
	return list
}

// flip returns by how much the number of odd edges would change if one facet of
// each group went.
func (p *patch) flip(sides map[edge]int) (change int) {
	for e, n := range p.uses {
		switch {
		case n%2 == 0:
		case sides[e]%2 == 1:
			change--
		default:
			change++
		}
	}
	return change
}

// loose reports whether the patch has a free rim, or nothing around it at all.
func (p *patch) loose(sides map[edge]int) bool {
	alone := true
	for e, n := range p.uses {
		if sides[e] > p.own[e] {
			alone = false
		} else if n == 1 {
			return true
		}
	}
	return alone
}

// dropOne drops one facet of each group.
func (p *patch) dropOne(drop map[uint32]bool, sides map[edge]int) {
	for _, g := range p.groups {
		last := len(g.more) - 1
		drop[g.more[last]] = true
		g.more = g.more[:last]
		for _, e := range g.edges {
			sides[e]--
		}
	}
}

// dropAll drops all facets and returns the number of pairs.
func (p *patch) dropAll(drop map[uint32]bool) (pairs int) {
	for _, g := range p.groups {
		pairs += len(g.more)
		for _, t := range slices.Concat(g.more, g.fewer) {
			drop[t] = true
		}
		g.more, g.fewer = nil, nil
	}
	return pairs
}

// twinGroups returns the facets that share all corners with others.
func (w *work) twinGroups() []*twins {
	slices.Sort(w.twins)
	list := slices.Compact(w.twins)
	slices.SortFunc(list, func(a, b uint32) int {
		x, y := sorted(w.tris[a]), sorted(w.tris[b])
		return cmp.Or(slices.Compare(x[:], y[:]), cmp.Compare(a, b))
	})
	var groups []*twins
	for i := 0; i < len(list); {
		g := &twins{edges: edgesOf(w.tris[list[i]])}
		j := i
		for ; j < len(list) && sorted(w.tris[list[j]]) == sorted(w.tris[list[i]]); j++ {
			if w.oddity(list[j]) == 0 {
				g.more = append(g.more, list[j])
			} else {
				g.fewer = append(g.fewer, list[j])
			}
		}
		if len(g.fewer) > len(g.more) {
			g.fewer, g.more = g.more, g.fewer
		}
		if j-i > 1 {
			groups = append(groups, g)
		}
		i = j
	}
	return groups
}

// sorted returns the corners in rising order.
func sorted(t [3]uint32) [3]uint32 {
	lo, hi := min(t[0], t[1], t[2]), max(t[0], t[1], t[2])
	return [3]uint32{lo, t[0] ^ t[1] ^ t[2] ^ lo ^ hi, hi}
}

// oddity returns 0 when the corners of t run in rising order from some corner
// on, 1 when in falling order.
func (w *work) oddity(t uint32) int {
	c := w.tris[t]
	s := sorted(c)
	for k := range 3 {
		if c[k] == s[0] && c[(k+1)%3] == s[1] {
			return 0
		}
	}
	return 1
}

// sets is a union-find over small integers. The root of a set is its lowest
// member.
type sets []uint32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = uint32(i)
	}
	return s
}

func (s sets) root(i int) int {
	for int(s[i]) != i {
		s[i] = s[s[i]]
		i = int(s[i])
	}
	return i
}

func (s sets) join(i, j int) {
	i, j = s.root(i), s.root(j)
	s[max(i, j)] = uint32(min(i, j))
}
