package mend

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// comparison gathers what is known of two surfaces.
type comparison struct {
	a, b     *surface
	tol      float64
	random   *rand.Rand
	touchedA map[uint32]bool // triangles of a that come near b
	touchedB map[uint32]bool

	both, onlyA, onlyB bool // whether there is volume thicker than tol
}

// search goes through the pairs of triangles that are near each other. It
// stops at the first that pierce.
func (c *comparison) search() (touching, pierce bool) {
	c.touchedA, c.touchedB = make(map[uint32]bool), make(map[uint32]bool)
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
		return true
	})
	return touching, !done
}

// judge draws lines until all kinds of volume are found or there is no facet
// left to draw one through.
func (c *comparison) judge() {
	if len(c.touchedA) == 0 {
		_ = c.drawThrough(c.a, c.a.wholeParts()) || c.drawThrough(c.b, c.b.wholeParts())
		return
	}
	_ = c.drawThrough(c.a, c.a.partsWithout(c.touchedA)) ||
		c.drawThrough(c.b, c.b.partsWithout(c.touchedB)) ||
		c.drawThrough(c.a, keys(c.touchedA)) ||
		c.drawThrough(c.b, keys(c.touchedB))
}

// drawThrough draws a line through the middle of each triangle. It reports
// whether all kinds of volume are found.
func (c *comparison) drawThrough(s *surface, tris []uint32) bool {
	step := len(tris)/mostLines + 1
	for i := 0; i < len(tris); i += step {
		t := s.triangle(tris[i])
		if n, ok := facing(t, c.tol); ok && c.draw(t.Centroid(), n) {
			return true
		}
	}
	return false
}

// draw draws a line through p, some way off the direction n, and notes what it
// finds. It reports whether all kinds of volume are found.
func (c *comparison) draw(p, n r3.Vec) bool {
	for range tries {
		d := tilted(n, c.random)
		ha, okA := c.a.hits(p, d)
		hb, okB := c.b.hits(p, d)
		if okA && okB {
			c.note(ha, hb)
			break
		}
	}
	return c.both && c.onlyA && c.onlyB
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
