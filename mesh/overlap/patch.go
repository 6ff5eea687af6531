package overlap

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// The facets of a smooth patch touch along common edges and at common corners
// and nowhere else. Whether they are one shows in the rim alone, so that most
// facets need not be looked at pair by pair.

// How many facets are looked at as a patch: for fewer their pairs cost less, and
// of more many are not smooth.
const leastPatch, mostPatch = 64, 2048

// mostLooks is how many looks at two edges of the rim a facet is worth. A compact
// patch of the largest size takes about five.
const mostLooks = 32

// patcher looks at patches, one after the other.
type patcher struct {
	a     *arrangement
	table []patchEdge // by hash of the ends
	round uint32
	rim   []rimEdge
}

// patchEdge is an edge of a patch, with how facets have it in some round.
type patchEdge struct {
	lo, hi uint32
	round  uint32
	ways   uint8
}

// The ways of an edge: from its lower end to its higher, the other way, or both.
const (
	upward uint8 = 1 << iota
	downward
	both = upward | downward
)

// rimEdge is an edge of the rim, with the patch to its left as it is seen.
type rimEdge struct {
	from, to uint32
	lo, hi   [2]float64 // the box of its shadow
	above    int        // how many facets are over a point just above its middle
}

func newPatcher(a *arrangement) *patcher {
	return &patcher{a: a, table: make([]patchEdge, 4*mostPatch)}
}

// clear reports whether no two of the facets need to be looked at.
func (p *patcher) clear(facets []uint32) bool {
	return len(facets) >= leastPatch && len(facets) <= mostPatch && p.smooth(facets)
}

// smooth reports whether facets are a smooth patch, as far as it can tell. They
// are one where
//   - all are seen the same way round along some axis,
//   - each edge belongs to one of them or, run through both ways, to two,
//   - no two shadows of edges that belong to one, the rim, meet but at a common
//     corner,
//   - and no shadow of a facet is on the outer side of these.
//
// Then no two shadows of facets overlap: how many are over a point is how often
// the rim winds around it, so that it changes by one across a shadow of the rim
// and nowhere else, and it is never more than one beside any. And facets whose
// shadows touch have the edge or the corner there in common, since around it,
// from rim to rim if it is on that, facets follow on one another over common
// edges and leave no room for others.
func (p *patcher) smooth(facets []uint32) bool {
	seen := uint8(seenAll)
	for _, f := range facets {
		if seen &= p.a.facets[f].seen; seen == 0 {
			return false
		}
	}
	if !p.pairEdges(facets) {
		return false
	}
	axis := uint8(bits.TrailingZeros8(seen | seen>>3))
	p.findRim(axis, seen&(1<<axis) == 0)
	return p.simple(axis, mostLooks*len(facets))
}

// pairEdges enters the edges in the table. It reports false when one belongs to
// more than two facets, or to two that have it the same way.
func (p *patcher) pairEdges(facets []uint32) bool {
	p.round++
	last := uint32(len(p.table) - 1)
	for _, f := range facets {
		v := &p.a.facets[f].v
		for k := range v {
			lo, hi, way := v[k], v[(k+1)%3], upward
			if lo > hi {
				lo, hi, way = hi, lo, downward
			}
			h := lo*0x9e3779b1 ^ hi*0x85ebca6b
			for h = (h ^ h>>15) & last; ; h = (h + 1) & last {
				e := &p.table[h]
				if e.round != p.round {
					*e = patchEdge{lo, hi, p.round, way}
					break
				}
				if e.lo == lo && e.hi == hi {
					if e.ways&way != 0 {
						return false
					}
					e.ways |= way
					break
				}
			}
		}
	}
	return true
}

// findRim lists the edges of one facet from left to right, as seen along an axis
// or, with back, against it.
func (p *patcher) findRim(axis uint8, back bool) {
	u, v := plane(axis)
	p.rim = p.rim[:0]
	for i := range p.table {
		e := &p.table[i]
		if e.round != p.round || e.ways == both {
			continue
		}
		r := rimEdge{from: e.lo, to: e.hi}
		if e.ways == downward != back {
			r.from, r.to = r.to, r.from
		}
		s, t := &p.a.at[r.from], &p.a.at[r.to]
		r.lo = [2]float64{min(s[u], t[u]), min(s[v], t[v])}
		r.hi = [2]float64{max(s[u], t[u]), max(s[v], t[v])}
		p.rim = append(p.rim, r)
	}
	slices.SortFunc(p.rim, func(e, f rimEdge) int {
		return cmp.Or(cmp.Compare(e.lo[0], f.lo[0]), cmp.Compare(e.from, f.from), cmp.Compare(e.to, f.to))
	})
}

// simple reports whether no two shadows of the rim meet but at a common corner,
// and no facet is on the outer side of them. It is false when that takes more
// than so many looks at two edges.
func (p *patcher) simple(axis uint8, most int) bool {
	for i := range p.rim {
		e := &p.rim[i]
		for j := i + 1; j < len(p.rim) && p.rim[j].lo[0] <= e.hi[0]; j++ {
			f := &p.rim[j]
			if most--; most < 0 {
				return false
			}
			if e.lo[1] <= f.hi[1] && f.lo[1] <= e.hi[1] && !p.parted(axis, e, f) {
				return false
			}
			if !p.count(axis, e, f) || !p.count(axis, f, e) {
				return false
			}
		}
	}
	for i := range p.rim {
		want := 0
		if p.rightward(axis, &p.rim[i]) {
			want = 1
		}
		if p.rim[i].above != want {
			return false
		}
	}
	return true
}

// parted reports whether the shadows of two edges have nothing in common but
// that of a common corner.
func (p *patcher) parted(axis uint8, e, f *rimEdge) bool {
	a := p.a
	for _, v := range [2]uint32{e.from, e.to} {
		if v == f.from || v == f.to {
			s, t := e.from^e.to^v, f.from^f.to^v // the other ends
			return a.turn(axis, s, v, t) != 0 || a.beyond(axis, v, s) != a.beyond(axis, v, t)
		}
	}
	return a.turn(axis, e.from, e.to, f.from)*a.turn(axis, e.from, e.to, f.to) > 0 ||
		a.turn(axis, f.from, f.to, e.from)*a.turn(axis, f.from, f.to, e.to) > 0
}

// rightward reports whether the shadow of an edge runs to the right or, if it is
// upright, down: whether the patch is above it or, if upright, to its right.
func (p *patcher) rightward(axis uint8, e *rimEdge) bool {
	u, v := plane(axis)
	s, t := &p.a.at[e.from], &p.a.at[e.to]
	return s[u] < t[u] || s[u] == t[u] && s[v] > t[v]
}

// count enters in e what f changes on the way up from e's middle, or, if e is
// upright, from just right of it. It reports false when it cannot tell.
func (p *patcher) count(axis uint8, e, f *rimEdge) bool {
	u, v := plane(axis)
	// Twice the middle, which is exact.
	x, y := e.lo[0]+e.hi[0], e.lo[1]+e.hi[1]
	if x < 2*f.lo[0] || x >= 2*f.hi[0] || y > 2*f.hi[1] {
		return true
	}
	left, right, way := &p.a.at[f.from], &p.a.at[f.to], 1
	if left[u] > right[u] {
		left, right, way = right, left, -1
	}
	if y >= 2*f.lo[1] {
		s, t := (right[u]-left[u])*(y-2*left[v]), (right[v]-left[v])*(x-2*left[u])
		det, bound := s-t, turnError*(math.Abs(s)+math.Abs(t))
		switch {
		case det > bound:
			return true // f passes below
		case det >= -bound:
			return false
		}
	}
	e.above -= way
	return true
}
