package overlap

import "math/bits"

// The facets around a corner of a smooth surface touch one another there and
// nowhere else. They are most of the pairs of facets whose boxes meet, so they
// are not looked at pair by pair, but told from one turn around the corner.

// seenAll stands for a facet that is surely seen along each axis k both
// anticlockwise (bit k) and clockwise (bit 3+k).
const seenAll = 1<<6 - 1

// smooth returns, by spot, whether the facets of a closed chain that have a
// corner there have nothing else in common but the edges that they share. It is
// false where it cannot tell.
//
// It can where all of them are seen the same way round along some axis, and the
// shadows of their edges around the corner go around that of the corner just
// once: then no two shadows overlap, let alone facets. For in a closed chain
// these shadows come in rings, each from facet to facet around and back to its
// first edge, and as all facets carry on in the same direction each ring goes
// around once at least. Facets without area that were left out may break a
// ring; torn are their corners.
func (a *arrangement) smooth(torn []uint32) []bool {
	seen := make([]uint8, len(a.at))
	for v := range seen {
		seen[v] = seenAll
	}
	for _, v := range torn {
		seen[v] = 0
	}
	for i := range a.facets {
		f := &a.facets[i]
		for _, v := range f.v {
			seen[v] &= f.seen
		}
	}
	// Each time around there is one step from before a line through the corner
	// to beyond it: no step is half a turn.
	turns := make([]uint8, len(a.at))
	for i := range a.facets {
		f := &a.facets[i]
		for k, v := range f.v {
			if how := seen[v]; how != 0 && turns[v] < 2 {
				axis := uint8(bits.TrailingZeros8(how | how>>3))
				if !a.beyond(axis, v, f.v[(k+1)%3]) && a.beyond(axis, v, f.v[(k+2)%3]) {
					turns[v]++
				}
			}
		}
	}
	smooth := make([]bool, len(a.at))
	for v, n := range turns {
		smooth[v] = n == 1
	}
	return smooth
}

// beyond reports whether the shadow of w along an axis lies on the one side of a
// line through that of v. The line counts to either side by half.
func (a *arrangement) beyond(axis uint8, v, w uint32) bool {
	i, j := plane(axis)
	p, q := &a.at[v], &a.at[w]
	return q[j] > p[j] || q[j] == p[j] && q[i] > p[i]
}
