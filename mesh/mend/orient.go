package mend

import (
	"sync/atomic"

	"millpond/mesh/parts"

	"gonum.org/v1/gonum/spatial/r3"
)

// orient makes the facets of each shell face one way, the way most of them
// already do, and completes the mates: first over edges with two sides, then,
// with the facets turned, over the rest.
func (w *work) orient() error {
	if w.first {
		var all atomic.Int64
		parts.Do(len(w.mate), func(from, to int) {
			n := 0
			for h := uint32(from); h < uint32(to); h++ {
				if m := w.mate[h]; m != none && h < m && !w.opposed(h, m) {
					n++
				}
			}
			all.Add(int64(n))
		})
		w.report.Inconsistent = int(all.Load())
		w.first = false
	}
	flipped := w.report.Flipped
	if err := w.flood(); err != nil {
		return err
	}
	if len(w.fans) == 0 {
		return nil
	}
	if w.report.Flipped > flipped {
		w.pairSides() // turned facets have their sides numbered anew
	}
	w.pairFans()
	return w.flood()
}

// opposed reports whether two sides of one edge run in opposite directions, as
// they do when their facets face the same way.
func (w *work) opposed(h, g uint32) bool {
	from, _ := w.ends(h)
	_, to := w.ends(g)
	return from == to
}

// flood numbers the shells, in order of their first facet, and turns in each
// the fewer facets that face the other way.
func (w *work) flood() error {
	n := len(w.tris)
	w.shell = make([]uint32, n)
	for t := range w.shell {
		w.shell[t] = none
	}
	w.shells, w.even = nil, nil
	against := make([]bool, n) // faces the other way than the shell's first
	var queue []uint32         // the facets of the shell at hand
	for seed := range w.tris {
		if w.shell[seed] != none {
			continue
		}
		id := uint32(len(w.shells))
		w.shell[seed] = id
		queue = append(queue[:0], uint32(seed))
		other := 0
		for i := 0; i < len(queue); i++ {
			t := queue[i]
			for h := 3 * t; h < 3*t+3; h++ {
				m := w.mate[h]
				if m == none {
					continue
				}
				u := m / 3
				side := against[t] == w.opposed(h, m)
				switch {
				case w.shell[u] == none:
					w.shell[u] = id
					against[u] = side
					if side {
						other++
					}
					queue = append(queue, u)
				case against[u] != side:
					w.shell, w.shells = nil, nil
					return &SideError{Name: w.name, Triangle: int(u), Place: w.triangle(u).Centroid()}
				}
			}
		}
		w.shells = append(w.shells, Shell{Triangles: len(queue), Parent: -1})
		w.even = append(w.even, 2*other == len(queue))
		if other == 0 {
			continue
		}
		minority := 2*other <= len(queue)
		for _, t := range queue {
			if against[t] == minority {
				w.turn(t)
				w.report.Flipped++
			}
		}
	}
	return nil
}

// area returns the area of a triangle and reports whether its corners are in
// line to within rounding. For corners that came from float32 the products are
// exact, so that corners in line give exactly zero.
func area(t r3.Triangle) (a float64, inLine bool) {
	p, q := r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0])
	n := r3.Cross(p, q)
	n2 := r3.Norm2(n)
	// Each component of the product is off by less than two rounding errors
	// of |p||q|.
	const rounding = 4 * 0x1p-53
	return norm(n) / 2, n2 <= rounding*rounding*r3.Norm2(p)*r3.Norm2(q)
}
