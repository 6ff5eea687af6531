package mend

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// blade is one side of an edge with more than two of them.
type blade struct {
	side    uint32
	angle   float64 // around the edge, from its lower to its higher vertex
	forward bool    // runs from the lower to the higher vertex
	done    bool
}

// sameAngle is the difference of angle below which two facets on an edge count
// as flush, in radians. float32 corners turn a facet of a hundredth of the
// part's size by 6e-6 at most.
const sameAngle = 1e-5

// pairFans gives mates to the sides of edges with more than two of them, as
// where two boxes touch along an edge. First come sides that are connected over
// other edges, so that bodies stay apart, then the rest.
func (w *work) pairFans() {
	for _, fan := range w.fans {
		blades := w.blades(fan)
		around := make([]*blade, len(blades))
		for i := range blades {
			around[i] = &blades[i]
		}
		byShell := slices.Clone(around)
		shell := func(b *blade) uint32 { return w.shell[b.side/3] }
		slices.SortStableFunc(byShell, func(a, b *blade) int { return cmp.Compare(shell(a), shell(b)) })
		for i := 0; i < len(byShell); {
			j := i + 1
			for j < len(byShell) && shell(byShell[j]) == shell(byShell[i]) {
				j++
			}
			w.pairBlades(byShell[i:j])
			i = j
		}
		w.pairBlades(around)
		// What is left faces one way only. Neighbors are paired, and the
		// flood turns one shell of them if it can.
		left := slices.DeleteFunc(around, func(b *blade) bool { return b.done })
		for ; len(left) >= 2; left = left[2:] {
			w.marry(left[0], left[1])
		}
	}
}

// pairBlades pairs sides of an edge, given in order around it. Seen along the
// edge, with angles anticlockwise, a facet that runs backward has the solid
// after it and one that runs forward has it before: so they close like
// brackets, and each wedge of solid keeps its two facets.
func (w *work) pairBlades(around []*blade) {
	n := len(around)
	var opened []*blade
	for i := range 2 * n { // the second time around for wedges across angle zero
		b := around[i%n]
		switch last := len(opened) - 1; {
		case b.done:
		case !b.forward && i < n:
			opened = append(opened, b)
		case b.forward && last >= 0:
			w.marry(b, opened[last])
			opened = opened[:last]
		}
	}
}

func (w *work) marry(a, b *blade) {
	w.mate[a.side], w.mate[b.side] = b.side, a.side
	a.done, b.done = true, true
}

// blades returns the sides of an edge in order of their angle around it. Where
// some are flush the forward ones come first, so that a forward and a backward
// one are two solids that touch, rather than one without thickness. Flush ones
// that run the same way are nested like brackets by their number, so that two
// bodies that share a face and were written one after the other stay apart.
func (w *work) blades(fan []uint32) []blade {
	a, b := w.ends(fan[0])
	lo, hi := min(a, b), max(a, b)
	axis := r3.Sub(w.verts[hi], w.verts[lo])
	u := r3.Cross(axis, leastAxis(axis))
	v := unitVec(r3.Cross(axis, u))
	u = unitVec(u)
	blades := make([]blade, len(fan))
	for i, h := range fan {
		from, _ := w.ends(h)
		out := r3.Sub(w.verts[w.apex(h)], w.verts[lo])
		blades[i] = blade{side: h, forward: from == lo, angle: math.Atan2(r3.Dot(out, v), r3.Dot(out, u))}
	}
	slices.SortFunc(blades, func(p, q blade) int {
		return cmp.Or(cmp.Compare(p.angle, q.angle), cmp.Compare(p.side, q.side))
	})
	blades = afterGap(blades)
	for i := 0; i < len(blades); {
		j := i + 1
		for j < len(blades) && blades[j].angle-blades[j-1].angle < sameAngle {
			j++
		}
		slices.SortFunc(blades[i:j], func(p, q blade) int {
			switch {
			case p.forward && q.forward:
				return cmp.Compare(q.side, p.side)
			case p.forward:
				return -1
			case q.forward:
				return 1
			}
			return cmp.Compare(p.side, q.side)
		})
		i = j
	}
	return blades
}

// afterGap turns the order so that it starts after the widest gap: no flush
// facets are then first and last.
func afterGap(blades []blade) []blade {
	n := len(blades)
	widest, start := blades[0].angle+2*math.Pi-blades[n-1].angle, 0
	for i := 1; i < n; i++ {
		if gap := blades[i].angle - blades[i-1].angle; gap > widest {
			widest, start = gap, i
		}
	}
	turned := slices.Concat(blades[start:], blades[:start])
	for i := n - start; i < n; i++ {
		turned[i].angle += 2 * math.Pi
	}
	return turned
}

// leastAxis returns the coordinate axis that d leans on least.
func leastAxis(d r3.Vec) r3.Vec {
	switch x, y, z := math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z); {
	case x <= y && x <= z:
		return r3.Vec{X: 1}
	case y <= z:
		return r3.Vec{Y: 1}
	}
	return r3.Vec{Z: 1}
}

// compareVec orders points by x, then y, then z.
func compareVec(a, b r3.Vec) int {
	return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y), cmp.Compare(a.Z, b.Z))
}
