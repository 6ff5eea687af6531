package mend

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// splitJunctions splits facets where a vertex lies on their open edge: a
// T-junction, where a long edge on one side meets two short ones on the other.
// A split may bring others to light, hence a few rounds. A round that closes
// nothing is undone.
func (w *work) splitJunctions(tol float64) error {
	total := 0
	for range 4 {
		open := w.openSides()
		if len(open) == 0 || len(open) > mostOpen {
			break
		}
		tris, turned, flipped := slices.Clone(w.tris), slices.Clone(w.turned), w.report.Flipped
		n := w.splitOpenSides(open, tol)
		if n == 0 {
			break
		}
		w.connect()
		if err := w.orient(); err != nil {
			return err
		}
		if len(w.openSides()) >= len(open) {
			w.tris, w.turned, w.report.Flipped = tris, turned, flipped
			w.connect()
			if err := w.orient(); err != nil {
				return err
			}
			break
		}
		total += n
	}
	if total > 0 {
		w.report.Junctions = total
		w.mended("split facets at %s that lay on their open edges, within %s",
			count(total, "vertex"), unit(w.opt.Unit).length(tol))
	}
	return nil
}

// A mesh with more open sides than mostOpen, or more pairs of a vertex and an
// open side near it than mostVisits, is no surface: no junctions are sought.
const (
	mostOpen   = 200_000
	mostVisits = 5_000_000
)

// splitOpenSides splits the triangles of open sides at the vertices of other
// open sides that lie on them, and returns the number of places; zero when
// there is too much to look at.
func (w *work) splitOpenSides(open []uint32, tol float64) int {
	sides := newTree(len(open), func(i int) box {
		from, to := w.ends(open[i])
		return boxOf(w.verts[from], w.verts[to])
	})
	type stop struct {
		at     float64
		vertex uint32
	}
	stops := make(map[uint32][]stop) // by side
	n := 0
	budget := mostVisits
	for _, v := range w.openVertices() {
		p := w.verts[v]
		b := boxOf(p)
		if !sides.within(&b, tol, func(i uint32) bool {
			budget--
			h := open[i]
			from, to := w.ends(h)
			if v == from || v == to || v == w.apex(h) {
				return budget > 0
			}
			a, b := w.verts[from], w.verts[to]
			at, off := toSegment(p, a, b)
			if off <= tol && norm(r3.Sub(p, a)) > tol && norm(r3.Sub(p, b)) > tol {
				stops[h] = append(stops[h], stop{at, v})
				n++
			}
			return budget > 0
		}) {
			return 0
		}
	}
	// In rising order of the sides, so that the outcome is always the same.
	list := make([]uint32, 0, len(stops))
	for h := range stops {
		list = append(list, h)
	}
	slices.Sort(list)
	for i := 0; i < len(list); {
		t := list[i] / 3
		var on [3][]uint32
		for ; i < len(list) && list[i]/3 == t; i++ {
			s := stops[list[i]]
			slices.SortFunc(s, func(a, b stop) int {
				return cmp.Or(cmp.Compare(a.at, b.at), compareVec(w.verts[a.vertex], w.verts[b.vertex]))
			})
			for _, x := range s {
				on[list[i]%3] = append(on[list[i]%3], x.vertex)
			}
		}
		pieces := split(w.tris[t], on, nil)
		w.tris[t] = pieces[0]
		for _, p := range pieces[1:] {
			w.add(p)
			if w.turned != nil {
				w.turned[len(w.turned)-1] = w.turned[t]
			}
		}
	}
	return n
}

// split appends to pieces the triangles that t falls into when its sides have
// the given vertices on them, in the sides' own direction.
func split(t [3]uint32, on [3][]uint32, pieces [][3]uint32) [][3]uint32 {
	for k := range 3 {
		if len(on[k]) == 0 {
			continue
		}
		a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
		last := on[k][len(on[k])-1]
		// The first piece has the side before, the last the side after.
		pieces = split([3]uint32{a, on[k][0], c}, [3][]uint32{2: on[(k+2)%3]}, pieces)
		for i := 1; i < len(on[k]); i++ {
			pieces = append(pieces, [3]uint32{on[k][i-1], on[k][i], c})
		}
		return split([3]uint32{last, b, c}, [3][]uint32{1: on[(k+1)%3]}, pieces)
	}
	return append(pieces, t)
}
