package mend

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
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
// either surface that the other does not touch, and several through each place
// where they touch (up to a limit that only solids in contact over thousands
// of facets reach); what lies along these lines in one, in the other and in
// both decides.
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
		boxes.within(&s.box, margin, func(j uint32) {
			if int(j) > i {
				others = append(others, int(j))
			}
		})
		if limit -= len(others); limit < 0 {
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

// meeting is a pair of triangles that come near each other.
type meeting struct{ a, b uint32 }

// Limits on the work for surfaces in contact over many facets: meetings kept,
// and lines drawn. What is above is thinned evenly.
const (
	mostMeetings = 1 << 14
	mostLines    = 1 << 12
)

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

// comparison gathers what is known of two surfaces.
type comparison struct {
	a, b     *surface
	tol      float64
	random   *rand.Rand
	meetings []meeting
	stride   int             // one in so many meetings is kept
	touchedA map[uint32]bool // triangles of a that come near b
	touchedB map[uint32]bool

	both, onlyA, onlyB bool // whether there is volume thicker than tol
}

// search goes through the pairs of triangles that are near each other. It
// stops at the first that pierce.
func (c *comparison) search() (touching, pierce bool) {
	c.touchedA, c.touchedB = make(map[uint32]bool), make(map[uint32]bool)
	c.stride = 1
	seen := 0
	done := c.a.index().pairs(c.b.index(), c.tol, func(i, j uint32) bool {
		t, u := c.a.triangle(i), c.b.triangle(j)
		switch meet(t, u, c.tol) {
		case noContact:
			return true
		case pierced:
			return false
		}
		c.touchedA[i], c.touchedB[j] = true, true
		touching = touching || apart(t, u) <= c.tol
		if seen%c.stride == 0 {
			c.meetings = append(c.meetings, meeting{i, j})
			if len(c.meetings) == mostMeetings {
				c.thin()
			}
		}
		seen++
		return true
	})
	return touching, !done
}

// thin drops every other meeting.
func (c *comparison) thin() {
	n := 0
	for i := 0; i < len(c.meetings); i += 2 {
		c.meetings[n] = c.meetings[i]
		n++
	}
	c.meetings = c.meetings[:n]
	c.stride *= 2
}

// judge draws lines until all kinds of volume are found or none is left to
// look at.
func (c *comparison) judge() {
	partsA, partsB := c.a.wholeParts, c.b.wholeParts
	if len(c.touchedA) > 0 {
		partsA = func() []uint32 { return c.a.partsWithout(c.touchedA) }
		partsB = func() []uint32 { return c.b.partsWithout(c.touchedB) }
	}
	_ = c.drawThrough(c.a, partsA()) &&
		c.drawThrough(c.b, partsB()) &&
		c.drawThrough(c.a, keys(c.touchedA)) &&
		c.drawThrough(c.b, keys(c.touchedB)) &&
		c.drawAtMeetings()
}

// drawThrough draws a line through the middle of each triangle. It reports
// whether there is something left to find.
func (c *comparison) drawThrough(s *surface, tris []uint32) bool {
	step := len(tris)/mostLines + 1
	for i := 0; i < len(tris); i += step {
		t := s.triangle(tris[i])
		if n, ok := facing(t, c.tol); ok && !c.draw(t.Centroid(), n) {
			return false
		}
	}
	return true
}

// drawAtMeetings draws lines through either triangle of each meeting, on both
// sides of the edges that the other one has in its plane: only there can a
// triangle that nothing pierces go from inside to outside.
func (c *comparison) drawAtMeetings() bool {
	left := mostLines
	for _, m := range c.meetings {
		t, u := c.a.triangle(m.a), c.b.triangle(m.b)
		for range 2 {
			for _, p := range alongside(t, u, c.tol) {
				if left--; left < 0 {
					return true
				}
				n, _ := facing(t, c.tol)
				if !c.draw(p, n) {
					return false
				}
			}
			t, u = u, t
		}
	}
	return true
}

// alongside returns points in triangle t on both sides of the edges of u that
// lie in its plane, near and far.
func alongside(t, u r3.Triangle, tol float64) []r3.Vec {
	n, ok := facing(t, tol)
	if !ok {
		return nil
	}
	h := heights(u, t[0], n, tol)
	var points []r3.Vec
	for k := range 3 {
		j := (k + 1) % 3
		if h[k] != 0 || h[j] != 0 {
			continue
		}
		p, q, ok := clip(u[k], u[j], t, n)
		length := norm(r3.Sub(q, p))
		if !ok || length <= tol {
			continue
		}
		mid := r3.Scale(0.5, r3.Add(p, q))
		across := r3.Cross(n, r3.Scale(1/length, r3.Sub(q, p)))
		for _, off := range [2]float64{0.3 * length, max(0.01*length, 8*tol)} {
			for _, side := range [2]float64{-1, 1} {
				if at := r3.Add(mid, r3.Scale(side*off, across)); holds(t, n, at) {
					points = append(points, at)
				}
			}
		}
	}
	return points
}

// clip returns the part of segment pq that lies over triangle t.
func clip(p, q r3.Vec, t r3.Triangle, n r3.Vec) (from, to r3.Vec, ok bool) {
	lo, hi := 0.0, 1.0
	for k := range 3 {
		inward := r3.Cross(n, r3.Sub(t[(k+1)%3], t[k]))
		a, b := r3.Dot(inward, r3.Sub(p, t[k])), r3.Dot(inward, r3.Sub(q, t[k]))
		switch {
		case a < 0 && b < 0:
			return p, q, false
		case a < 0:
			lo = max(lo, a/(a-b))
		case b < 0:
			hi = min(hi, a/(a-b))
		}
	}
	d := r3.Sub(q, p)
	return r3.Add(p, r3.Scale(lo, d)), r3.Add(p, r3.Scale(hi, d)), lo < hi
}

// holds reports whether p, a point in t's plane, lies in t.
func holds(t r3.Triangle, n, p r3.Vec) bool {
	for k := range 3 {
		if r3.Dot(r3.Cross(n, r3.Sub(t[(k+1)%3], t[k])), r3.Sub(p, t[k])) < 0 {
			return false
		}
	}
	return true
}

// draw draws a line through p, some way off the direction n, and notes what it
// finds. It reports whether there is something left to find.
func (c *comparison) draw(p, n r3.Vec) bool {
	const tries = 8
	for range tries {
		tilt := r3.Vec{X: c.random.Float64() - 0.5, Y: c.random.Float64() - 0.5, Z: c.random.Float64() - 0.5}
		d := unitVec(r3.Add(n, r3.Scale(0.3, tilt)))
		ha, okA := c.a.hits(p, d, nil)
		hb, okB := c.b.hits(p, d, nil)
		if okA && okB {
			c.note(ha, hb)
			break
		}
	}
	return !(c.both && c.onlyA && c.onlyB)
}

// note goes along a line that meets the surfaces at the given hits, and marks
// the kinds of volume thicker than the tolerance. A stretch of the line counts
// as thick as its length times the lesser lean at its ends: between two flush
// facets that is their distance, however flat the line runs.
func (c *comparison) note(ha, hb []hit) {
	type event struct {
		hit
		ofB bool
	}
	var events []event
	for _, h := range ha {
		events = append(events, event{h, false})
	}
	for _, h := range hb {
		events = append(events, event{h, true})
	}
	slices.SortFunc(events, func(x, y event) int { return cmp.Compare(x.t, y.t) })
	windA, windB := 0, 0
	var last hit
	for _, e := range events {
		inA, inB := windA != 0, windB != 0
		if e.ofB {
			windB += e.turn
		} else {
			windA += e.turn
		}
		if inA == (windA != 0) && inB == (windB != 0) {
			continue // one shell of a solid begins or ends within another
		}
		if (inA || inB) && (e.t-last.t)*min(e.lean, last.lean) > c.tol {
			c.both = c.both || inA && inB
			c.onlyA = c.onlyA || inA && !inB
			c.onlyB = c.onlyB || inB && !inA
		}
		last = e.hit
	}
}

// keys returns the members of a set in rising order.
func keys(set map[uint32]bool) []uint32 {
	list := make([]uint32, 0, len(set))
	for k := range set {
		list = append(list, k)
	}
	slices.Sort(list)
	return list
}
