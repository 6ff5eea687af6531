package mend

import "slices"

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
// of these short lists.
func (w *work) pairSides() {
	start := make([]uint32, len(w.verts)+1)
	for _, t := range w.tris {
		start[min(t[0], t[1])]++
		start[min(t[1], t[2])]++
		start[min(t[2], t[0])]++
	}
	sum := uint32(0)
	for i, n := range start {
		start[i] = sum
		sum += n
	}
	sides := make([]uint64, 3*len(w.tris)) // the higher end above the side's number
	for i, t := range w.tris {
		for k := range 3 {
			a, b := t[k], t[0]
			if k < 2 {
				b = t[k+1]
			}
			lo := min(a, b)
			sides[start[lo]] = uint64(max(a, b))<<32 | uint64(3*i+k)
			start[lo]++
		}
	}
	if cap(w.mate) < len(sides) {
		w.mate = make([]uint32, len(sides))
	}
	w.mate = w.mate[:len(sides)]
	w.fans, w.twins = nil, nil
	from := uint32(0)
	for _, to := range start[:len(w.verts)] { // now the end of each list
		list := sides[from:to]
		from = to
		sortShort(list)
		for i := 0; i < len(list); {
			j := i + 1
			for j < len(list) && list[j]>>32 == list[i]>>32 {
				j++
			}
			w.pairEdge(list[i:j])
			i = j
		}
	}
}

// pairEdge enters the sides of one edge.
func (w *work) pairEdge(list []uint64) {
	if len(list) == 2 {
		h, g := uint32(list[0]), uint32(list[1])
		w.mate[h], w.mate[g] = g, h
		if w.apex(h) == w.apex(g) {
			w.twins = append(w.twins, h/3, g/3)
		}
		return
	}
	for _, s := range list {
		w.mate[uint32(s)] = none
	}
	if len(list) == 1 {
		return
	}
	fan := make([]uint32, len(list))
	for i, s := range list {
		fan[i] = uint32(s)
	}
	w.fans = append(w.fans, fan)
	byApex := slices.Clone(fan)
	slices.SortFunc(byApex, func(g, h uint32) int { return int(w.apex(g)) - int(w.apex(h)) })
	for i := 1; i < len(byApex); i++ {
		if g, h := byApex[i-1], byApex[i]; w.apex(g) == w.apex(h) {
			w.twins = append(w.twins, g/3, h/3)
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
