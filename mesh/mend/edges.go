package mend

import (
	"slices"

	"millpond/mesh/parts"
)

// connect drops facets with equal corners and facets that are there twice, and
// pairs the sides of the rest. Sides on edges with more than two of them are
// left in fans, without a mate.
func (w *work) connect() {
	w.report.Degenerate += w.keep(func(t uint32) bool {
		c := w.tris[t]
		return c[0] == c[1] || c[1] == c[2] || c[2] == c[0]
	})
	w.pairSides()
	if len(w.twins) > 0 && w.dropTwins() {
		w.pairSides()
	}
}

// pairSides finds the sides that share an edge. They are filed under the lower
// of their two ends by a counting sort, and sorted by the higher within each
// of these short lists. Each processor goes through all triangles and takes the
// sides that are filed under its share of the vertices.
func (w *work) pairSides() {
	start := make([]uint32, len(w.verts)+1)
	sides := make([]uint64, 3*len(w.tris)) // the higher end above the side's number
	if cap(w.mate) < len(sides) {
		w.mate = make([]uint32, len(sides))
	}
	w.mate = w.mate[:len(sides)]
	found := make([]pairs, parts.Count(len(w.verts)))
	parts.Each(len(found), len(w.verts), func(_, from, to int) {
		first, all := uint32(from), uint32(to-from)
		for _, t := range w.tris {
			for _, lo := range [3]uint32{min(t[0], t[1]), min(t[1], t[2]), min(t[2], t[0])} {
				if lo-first < all {
					start[lo]++
				}
			}
		}
	})
	sum := uint32(0)
	for i, n := range start {
		start[i] = sum
		sum += n
	}
	parts.Each(len(found), len(w.verts), func(part, from, to int) {
		first, all := uint32(from), uint32(to-from)
		begin := start[from]
		for i, t := range w.tris {
			for k := range 3 {
				a, b := t[k], t[0]
				if k < 2 {
					b = t[k+1]
				}
				if lo := min(a, b); lo-first < all {
					sides[start[lo]] = uint64(max(a, b))<<32 | uint64(3*i+k)
					start[lo]++
				}
			}
		}
		p := pairs{work: w}
		for _, end := range start[from:to] {
			list := sides[begin:end]
			begin = end
			sortShort(list)
			for i := 0; i < len(list); {
				j := i + 1
				for j < len(list) && list[j]>>32 == list[i]>>32 {
					j++
				}
				p.edge(list[i:j])
				i = j
			}
		}
		found[part] = p
	})
	w.fans, w.twins = nil, nil
	for _, p := range found {
		w.fans = append(w.fans, p.fans...)
		w.twins = append(w.twins, p.twins...)
	}
}

// pairs is what pairing the sides of some edges finds beside their mates, which
// it enters.
type pairs struct {
	*work
	fans  [][]uint32
	twins []uint32
}

// edge enters the sides of one edge.
func (p *pairs) edge(list []uint64) {
	if len(list) == 2 {
		h, g := uint32(list[0]), uint32(list[1])
		p.mate[h], p.mate[g] = g, h
		if p.apex(h) == p.apex(g) {
			p.twins = append(p.twins, h/3, g/3)
		}
		return
	}
	for _, s := range list {
		p.mate[uint32(s)] = none
	}
	if len(list) == 1 {
		return
	}
	fan := make([]uint32, len(list))
	for i, s := range list {
		fan[i] = uint32(s)
	}
	p.fans = append(p.fans, fan)
	byApex := slices.Clone(fan)
	slices.SortFunc(byApex, func(g, h uint32) int { return int(p.apex(g)) - int(p.apex(h)) })
	for i := 1; i < len(byApex); i++ {
		if g, h := byApex[i-1], byApex[i]; p.apex(g) == p.apex(h) {
			p.twins = append(p.twins, g/3, h/3)
		}
	}
}

// sortShort sorts a list that is short except around the tip of a large cone.
func sortShort(list []uint64) {
	if len(list) > 24 {
		slices.Sort(list)
		return
	}
	for i := 1; i < len(list); i++ {
		x := list[i]
		j := i
		for ; j > 0 && list[j-1] > x; j-- {
			list[j] = list[j-1]
		}
		list[j] = x
	}
}
