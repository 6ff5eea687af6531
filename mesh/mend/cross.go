package mend

import (
	"math"
	"math/rand/v2"
	"slices"

	"millpond/mesh"
)

// Cross tells how two placed solids lie to each other, where their maps put
// them. Each is taken to be free of crossings with itself, and may have many
// shells.
//
// What is thinner than a tolerance does not count: 1e-6 of the smaller solid's
// box diagonal, or four float32 rounding errors of the largest coordinate if
// that is more. So solids drawn flush stay [Touching] when a file or a
// rotation rounds them.
//
// The surfaces are first searched for a facet of one that goes through a facet
// of the other. If there is none, one line is drawn through each part of
// either surface that the other does not touch, and one through each facet
// that it does touch (of more than 4096 such facets, through an even choice of
// them). What lies along these lines in one, in the other and in both decides:
// with no facet pierced, a facet lies within the other solid as a whole, but
// for the case that it is crossed just where the other has an edge in its
// plane.
func Cross(a, b mesh.Placed) Relation {
	return relate(placedSurface(a), placedSurface(b))
}

// Pairs returns the pairs of parts that are not [Apart], in order.
func Pairs(parts []mesh.Placed) []Pair {
	surfaces := make([]*surface, len(parts))
	for i, p := range parts {
		surfaces[i] = placedSurface(p)
	}
	pairs, _ := relations(surfaces, math.MaxInt)
	return pairs
}

// relations returns the pairs of surfaces that are not apart. The boxes are
// sought through a tree, so that a file of many small shells is no trouble. It
// gives up, and reports false, when more than limit pairs of boxes overlap.
func relations(surfaces []*surface, limit int) (pairs []Pair, all bool) {
	if len(surfaces) < 2 {
		return nil, true
	}
	boxes := newTree(len(surfaces), func(i int) box { return surfaces[i].box })
	margin := 0.0
	for _, s := range surfaces {
		margin = max(margin, tolerance(&s.box, &s.box))
	}
	for i, s := range surfaces {
		var others []int
		if !boxes.within(&s.box, margin, func(j uint32) bool {
			if int(j) > i {
				others = append(others, int(j))
				limit--
			}
			return limit >= 0
		}) {
			return pairs, false
		}
		slices.Sort(others)
		for _, j := range others {
			if r := relate(s, surfaces[j]); r != Apart {
				pairs = append(pairs, Pair{A: i, B: j, Relation: r})
			}
		}
	}
	return pairs, true
}

const (
	relativeTolerance = 1e-6
	// coordinateNoise is four float32 rounding errors of half a unit in the
	// last place, relative to the coordinate.
	coordinateNoise = 4 * 0x1p-24
)

// tolerance returns the thickness that does not count between two surfaces.
func tolerance(a, b *box) float64 {
	return max(relativeTolerance*min(a.diagonal(), b.diagonal()), coordinateNoise*max(a.farthest(), b.farthest()))
}

// mostLines is how many lines are drawn through the touched facets of a
// surface. Of more facets an even choice is taken.
const mostLines = 1 << 12

// relate tells how two closed surfaces lie to each other.
func relate(a, b *surface) Relation {
	tol := tolerance(&a.box, &b.box)
	if !a.box.near(&b.box, tol) {
		return Apart
	}
	c := &comparison{a: a, b: b, tol: tol, random: rand.New(rand.NewPCG(1, 2))}
	touching, pierced := c.search()
	if pierced {
		return Crossing
	}
	c.judge()
	switch {
	case !c.both && touching:
		return Touching
	case !c.both:
		return Apart
	case c.onlyA && c.onlyB:
		return Crossing
	case c.onlyB:
		return Inside
	case c.onlyA:
		return Contains
	}
	return Same
}
