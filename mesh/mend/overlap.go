package mend

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
)

// markOverlaps finds shells that overlap themselves. Only those are looked at
// that have edges with more than two facets: there two bodies may have been
// taken for one shell. A shell without such edges that crosses itself is not
// found.
func (w *work) markOverlaps(list, start []uint32, surfaces []*surface) {
	onFan := make(map[uint32]bool)
	for _, fan := range w.fans {
		for _, h := range fan {
			onFan[h/3] = true
		}
	}
	for i := range w.shells {
		s := &w.shells[i]
		if s.Kind != Outer || s.SharedEdges == 0 {
			continue
		}
		var facets []uint32 // numbers within the surface
		for j, t := range list[start[i]:start[i+1]] {
			if onFan[t] {
				facets = append(facets, uint32(j))
			}
		}
		if surfaces[i].overlapsItself(facets) {
			s.Overlaps = true
			w.report.Warnings = append(w.report.Warnings,
				fmt.Sprintf("shell %d overlaps itself: the water there is counted twice", i+1))
		}
	}
}

// overlapsItself reports whether a line through one of the facets runs through
// something twice enclosed, or enclosed inside out, that is thicker than the
// tolerance.
func (s *surface) overlapsItself(facets []uint32) bool {
	tol := tolerance(&s.box, &s.box)
	random := rand.New(rand.NewPCG(3, 4))
	step := len(facets)/mostLines + 1
	for i := 0; i < len(facets); i += step {
		t := s.triangle(facets[i])
		n, ok := facing(t, tol)
		if !ok {
			continue
		}
		hits, ok := s.lineHits(t.Centroid(), n, random)
		if !ok {
			continue
		}
		slices.SortFunc(hits, func(a, b hit) int { return cmp.Compare(a.t, b.t) })
		winding := 0
		for j, h := range hits[:max(0, len(hits)-1)] {
			winding += h.turn
			next := hits[j+1]
			if (winding > 1 || winding < 0) && (next.t-h.t)*min(h.lean, next.lean) > tol {
				return true
			}
		}
	}
	return false
}
