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
	apex    r3.Vec
	done    bool
}

// sameAngle is the difference of angle below which two facets on an edge count
// as flush, in radians. float32 corners turn a facet of a hundredth of the
// part's size by 6e-6 at most.
const sameAngle = 1e-5

// pairFans gives mates to the sides of edges with more than two of them, as
// where two boxes touch along an edge. Seen along the edge, with angles
// anticlockwise, a facet that runs backward has the solid after it and one that
// runs forward has it before: so they close like brackets, and each wedge of
// solid keeps its two facets.
func (w *work) pairFans() {
	for _, fan := range w.fans {
		blades := w.blades(fan)
		n := len(blades)
		var opened []int
		for i := range 2 * n { // the second time around for wedges across angle zero
			b := &blades[i%n]
			switch {
			case b.done:
			case !b.forward && i < n:
				opened = append(opened, i)
			case b.forward && len(opened) > 0:
				j := opened[len(opened)-1]
				opened = opened[:len(opened)-1]
				w.marry(b, &blades[j])
			}
		}
		// What is left faces one way only. Neighbors are paired, and the
		// flood turns one shell of them if it can.
		var left []int
		for i := range blades {
			if !blades[i].done {
				left = append(left, i)
			}
		}
		for ; len(left) >= 2; left = left[2:] {
			w.marry(&blades[left[0]], &blades[left[1]])
		}
	}
}

func (w *work) marry(a, b *blade) {
	w.mate[a.side], w.mate[b.side] = b.side, a.side
	a.done, b.done = true, true
}

// blades returns the sides of an edge in order of their angle around it. Where
// a forward and a backward one are flush, the forward one comes first: two
// solids that touch, rather than one without thickness.
func (w *work) blades(fan []uint32) []blade {
	a, b := w.ends(fan[0])
	lo, hi := min(a, b), max(a, b)
	axis := r3.Sub(w.verts[hi], w.verts[lo])
	u := r3.Cross(axis, leastAxis(axis))
	v := r3.Cross(axis, u)
	v = r3.Scale(1/norm(v), v)
	u = r3.Scale(1/norm(u), u)
	blades := make([]blade, len(fan))
	for i, h := range fan {
		from, _ := w.ends(h)
		apex := w.verts[w.apex(h)]
		out := r3.Sub(apex, w.verts[lo])
		blades[i] = blade{side: h, forward: from == lo, apex: apex, angle: math.Atan2(r3.Dot(out, v), r3.Dot(out, u))}
	}
	slices.SortFunc(blades, func(p, q blade) int {
		return cmp.Or(cmp.Compare(p.angle, q.angle), compareVec(p.apex, q.apex), cmp.Compare(p.side, q.side))
	})
	for i := 1; i < len(blades); i++ {
		p, q := &blades[i-1], &blades[i]
		if q.angle-p.angle < sameAngle && !p.forward && q.forward {
			*p, *q = *q, *p
		}
	}
	return blades
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
