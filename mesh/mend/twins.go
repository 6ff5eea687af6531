package mend

import (
	"cmp"
	"slices"
)

// dropTwins drops facets that have all three corners in common with another,
// and reports whether it did.
//
// Facets that face the same way count once. A facet and its reverse bound no
// volume: both go, as where a fin without thickness stands on a hull, or where
// two boxes are glued face to face. But where the rest of the surface needs
// one of the two to be closed (a patch exported with both its faces), one
// stays.
func (w *work) dropTwins() bool {
	groups := w.twinGroups()
	drop := make(map[uint32]bool)
	var balanced [][]uint32 // groups with as many facets one way as the other
	for _, g := range groups {
		ways := [2][]uint32{}
		for _, t := range g {
			o := w.oddity(t)
			ways[o] = append(ways[o], t)
		}
		fewer, more := ways[0], ways[1]
		if len(fewer) > len(more) {
			fewer, more = more, fewer
		}
		if len(fewer) == len(more) {
			balanced = append(balanced, g)
			continue
		}
		for _, t := range append(more[1:], fewer...) {
			drop[t] = true
		}
		w.report.Fins += len(fewer)
		w.report.Duplicates += len(more) - 1 - len(fewer)
	}
	needed := w.neededTwins(balanced, drop)
	for i, g := range balanced {
		keep := 0
		if needed[i] {
			keep = 1
			w.report.Duplicates += len(g) - 1
		} else {
			w.report.Fins += len(g) / 2
		}
		for _, t := range g[keep:] {
			drop[t] = true
		}
	}
	w.keep(func(t uint32) bool { return drop[t] })
	return len(drop) > 0
}

// twinGroups returns the groups of facets with the same three corners, in
// order of their lowest facet.
func (w *work) twinGroups() [][]uint32 {
	slices.Sort(w.twins)
	list := slices.Compact(w.twins)
	slices.SortFunc(list, func(a, b uint32) int {
		x, y := sorted(w.tris[a]), sorted(w.tris[b])
		return cmp.Or(slices.Compare(x[:], y[:]), cmp.Compare(a, b))
	})
	var groups [][]uint32
	for i := 0; i < len(list); {
		j := i + 1
		for j < len(list) && sorted(w.tris[list[j]]) == sorted(w.tris[list[i]]) {
			j++
		}
		if j-i > 1 {
			groups = append(groups, list[i:j])
		}
		i = j
	}
	slices.SortFunc(groups, func(a, b []uint32) int { return cmp.Compare(a[0], b[0]) })
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

// neededTwins tells for which of the groups the rest of the surface needs one
// of its facets: those connected, over edges among themselves, to an edge on
// which an odd number of other facets end.
func (w *work) neededTwins(groups [][]uint32, drop map[uint32]bool) []bool {
	others := make(map[edge]int)
	inGroup := make(map[uint32]bool)
	for _, g := range groups {
		for _, t := range g {
			inGroup[t] = true
		}
		for _, e := range edgesOf(w.tris[g[0]]) {
			others[e] = 0
		}
	}
	w.countSides(others, func(t uint32) bool { return inGroup[t] || drop[t] })
	sets := newSets(len(groups))
	last := make(map[edge]int) // the last group met at an edge
	for i, g := range groups {
		for _, e := range edgesOf(w.tris[g[0]]) {
			if j, ok := last[e]; ok {
				sets.join(i, j)
			}
			last[e] = i
		}
	}
	needed := make([]bool, len(groups))
	for i, g := range groups {
		for _, e := range edgesOf(w.tris[g[0]]) {
			if others[e]%2 == 1 {
				needed[sets.root(i)] = true
			}
		}
	}
	for i := range groups {
		needed[i] = needed[sets.root(i)]
	}
	return needed
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
