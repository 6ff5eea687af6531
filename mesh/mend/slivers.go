package mend

import (
	"slices"

	"millpond/mesh/parts"
)

// edge is two vertices, the lower first.
type edge [2]uint32

// edgesOf returns the edges of a triangle.
func edgesOf(c [3]uint32) [3]edge {
	s := sorted(c)
	return [3]edge{{s[0], s[1]}, {s[1], s[2]}, {s[0], s[2]}}
}

// countSides sets, for each edge in the map, how many facets have it, those
// left out for which skip is true.
func (w *work) countSides(edges map[edge]int, skip func(t uint32) bool) {
	touched := make([]bool, len(w.verts))
	for e := range edges {
		edges[e] = 0
		touched[e[0]], touched[e[1]] = true, true
	}
	for t, c := range w.tris {
		if !touched[c[0]] && !touched[c[1]] && !touched[c[2]] || skip(uint32(t)) {
			continue
		}
		for _, e := range edgesOf(c) {
			if n, ok := edges[e]; ok {
				edges[e] = n + 1
			}
		}
	}
}

// slivers returns the facets whose three corners are different and in line.
func (w *work) slivers() (list []uint32) {
	found := make([][]uint32, parts.Count(len(w.tris)))
	parts.Each(len(found), len(w.tris), func(part, from, to int) {
		for t := from; t < to; t++ {
			if _, inLine := area(w.triangle(uint32(t))); inLine {
				found[part] = append(found[part], uint32(t))
			}
		}
	})
	return slices.Concat(found...)
}

// dropLoose drops slivers that no neighbor needs: those with an odd number of
// facets on each of their three edges. Other slivers hold the surface closed
// and add nothing to any integral.
func (w *work) dropLoose() error {
	slivers := w.slivers()
	edges := make(map[edge]int)
	for _, t := range slivers {
		for _, e := range edgesOf(w.tris[t]) {
			edges[e] = 0
		}
	}
	w.countSides(edges, func(uint32) bool { return false })
	loose := make(map[uint32]bool)
	for _, t := range slivers {
		e := edgesOf(w.tris[t])
		if edges[e[0]]%2 == 1 && edges[e[1]]%2 == 1 && edges[e[2]]%2 == 1 {
			loose[t] = true
			for _, e := range e {
				edges[e]--
			}
		}
	}
	if len(loose) == 0 {
		return nil
	}
	w.report.Loose = w.keep(func(t uint32) bool { return loose[t] })
	w.connect()
	return w.orient()
}
