package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// SectionArea returns the area of the hull's cross-section below the water at
// a, in the vertical plane across the body's x axis at the distance s ahead of
// the body's origin, m2.
func (h *Hull) SectionArea(a Attitude, s float64) float64 {
	ahead, port := tangents(a.Up)
	pl := mesh.Plane{Normal: ahead, Offset: -s}
	sum := 0.0
	for _, t := range h.terms {
		area := 0.0
		// Seen from ahead with port to the right and the sky up, the pieces
		// run anticlockwise: the area is -∮ z dy, to which the water's
		// surface itself, at z = 0, adds nothing.
		t.Segments(pl, func(p, q r3.Vec) {
			z0, z1 := a.HeightOf(p), a.HeightOf(q)
			y0, y1 := r3.Dot(port, p), r3.Dot(port, q)
			switch {
			case z0 >= 0 && z1 >= 0:
				return
			case z0 >= 0:
				y0, z0 = y1+(y0-y1)*z1/(z1-z0), 0
			case z1 >= 0:
				y1, z1 = y0+(y1-y0)*z0/(z0-z1), 0
			}
			area -= (z0 + z1) / 2 * (y1 - y0)
		})
		sum += t.Weight * area
	}
	return sum
}

// SectionCurve returns the section areas at count places spread evenly over
// the length of the hull below the water, ends included, with the place of
// each as its distance ahead of the body's origin. It is empty when the hull
// is out of the water.
func (h *Hull) SectionCurve(a Attitude, count int) (at, area []float64) {
	ahead, _ := tangents(a.Up)
	lo, hi := h.wetExtent(a, ahead)
	if !(lo < hi) || count < 2 {
		return nil, nil
	}
	for i := range count {
		s := lo + (hi-lo)*float64(i)/float64(count-1)
		at = append(at, s)
		area = append(area, h.SectionArea(a, s))
	}
	return at, area
}

// wetExtent returns the least and the largest d.p over the hull's points below
// the water at a; nothing wet gives +Inf, -Inf. Shared and flooded terms do not
// count.
func (h *Hull) wetExtent(a Attitude, d r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, t := range h.terms {
		if t.Weight <= 0 {
			continue
		}
		take := func(p r3.Vec) {
			x := r3.Dot(d, p)
			lo, hi = min(lo, x), max(hi, x)
		}
		for i := range t.Solid.Triangles() {
			for _, p := range t.Triangle(i) {
				if a.HeightOf(p) < 0 {
					take(p)
				}
			}
		}
		t.Segments(a.Surface(), func(p, q r3.Vec) { take(p); take(q) })
	}
	return lo, hi
}

// waterline returns the length of the waterline ahead, from its foremost to its
// aftmost point over all hulls, and the breadth of the hulls' waterlines, each
// for itself and added up: the gap between two floats is no breadth.
func (h *Hull) waterline(a Attitude) (length, breadth float64) {
	ahead, port := tangents(a.Up)
	x0, x1 := math.Inf(1), math.Inf(-1)
	// A part may be several pieces, and its second one is its mirror image.
	type side struct {
		part     int
		mirrored bool
	}
	across := make(map[side][2]float64)
	var sides []side
	for _, t := range h.terms {
		if t.Weight <= 0 {
			continue
		}
		k := side{t.Part, t.Place.Det() < 0}
		y, seen := across[k]
		if !seen {
			y = [2]float64{math.Inf(1), math.Inf(-1)}
			sides = append(sides, k)
		}
		t.Segments(a.Surface(), func(p, q r3.Vec) {
			for _, v := range [2]r3.Vec{p, q} {
				x, w := r3.Dot(ahead, v), r3.Dot(port, v)
				x0, x1 = min(x0, x), max(x1, x)
				y = [2]float64{min(y[0], w), max(y[1], w)}
			}
		})
		across[k] = y
	}
	for _, k := range sides {
		if y := across[k]; y[0] < y[1] {
			breadth += y[1] - y[0]
		}
	}
	if x0 < x1 {
		length = x1 - x0
	}
	return length, breadth
}
