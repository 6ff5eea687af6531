package mend

import (
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// Repaired returns the mended mesh, cavities and what lies in them included:
// the number of triangles and a function that gives each, for a writer of
// files. Cavities are inside out, as they should be drawn, so that reading the
// file gives the same body once more; unless they share edges with other
// shells, where a reader cannot tell whose is whose. It needs a Solid.
func (r *Result) Repaired() (n int, triangle func(i int) r3.Triangle) {
	type piece struct {
		first    int
		triangle func(i int) r3.Triangle
	}
	pieces := []piece{{0, r.Solid.Triangle}}
	n = r.Solid.Triangles()
	for i := range r.Shells {
		s := &r.Shells[i]
		if s.Kind != Cavity && s.Kind != Inner || s.Solid == nil {
			continue
		}
		get := s.Solid.Triangle
		if s.Kind == Cavity {
			get = func(i int) r3.Triangle {
				t := s.Solid.Triangle(i)
				t[1], t[2] = t[2], t[1]
				return t
			}
		}
		pieces = append(pieces, piece{n, get})
		n += s.Solid.Triangles()
	}
	return n, func(i int) r3.Triangle {
		k := sort.Search(len(pieces), func(k int) bool { return pieces[k].first > i }) - 1
		return pieces[k].triangle(i - pieces[k].first)
	}
}
