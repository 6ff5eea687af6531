package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// lateral is a hull's surface with each triangle's area as projected on the
// centerplane, the plane y = 0: what the water feels of a sideways or a
// forward slip, seen from the side.
type lateral struct {
	points []r3.Vec // about the hull's center
	height []float64
	groups []lateralGroup
}

// lateralGroup is one term's share.
type lateralGroup struct {
	lo, hi       r3.Vec // box about the points
	first, count int    // of its points
	triangles    [][3]uint32
	weight       []float64 // projected area of each triangle times the term's weight
}

// newLateral copies a hull's surface for the purpose, so that nothing need be
// mapped or allocated afterwards.
func newLateral(h *Hull) *lateral {
	l := &lateral{}
	inf := math.Inf(1)
	for _, t := range h.terms {
		g := lateralGroup{first: len(l.points), count: t.Solid.Vertices(), lo: r3.Vec{X: inf, Y: inf, Z: inf}, hi: r3.Vec{X: -inf, Y: -inf, Z: -inf}}
		for i := range g.count {
			p := r3.Sub(t.Place.Point(t.Solid.Vertex(i)), h.center)
			l.points = append(l.points, p)
			g.lo = r3.Vec{X: min(g.lo.X, p.X), Y: min(g.lo.Y, p.Y), Z: min(g.lo.Z, p.Z)}
			g.hi = r3.Vec{X: max(g.hi.X, p.X), Y: max(g.hi.Y, p.Y), Z: max(g.hi.Z, p.Z)}
		}
		for i := range t.Solid.Surface() {
			c := t.Solid.Corners(i)
			for k := range c {
				c[k] += uint32(g.first)
			}
			a, b, d := l.points[c[0]], l.points[c[1]], l.points[c[2]]
			side := math.Abs((b.Z-a.Z)*(d.X-a.X)-(b.X-a.X)*(d.Z-a.Z)) / 4
			if side == 0 {
				continue // seen edge on
			}
			g.triangles = append(g.triangles, c)
			g.weight = append(g.weight, t.Weight*side)
		}
		l.groups = append(l.groups, g)
	}
	l.height = make([]float64, len(l.points))
	return l
}

// wetLateral is the wetted lateral area, its center, and how the center's
// height changes.
type wetLateral struct {
	area   float64 // m2; each float counts on its own
	center r3.Vec  // about the hull's center
	height float64 // of the center above the water, m
	turn   [2]float64
	rise   float64
}

// at returns the wetted lateral area of a pose. A quarter of every triangle's
// double area is summed, since a closed surface shows each place from both
// sides. With w the projected area per area, h the height, A = ∫ w dA and
// Z = ∫ w h dA over the wet surface, the center lies at Z/A. As h is zero on
// the waterline, Z changes only with h itself, by ∫ w dh dA; A changes with
// the share of each cut triangle that is wet, a function of its corners'
// heights.
func (l *lateral) at(p *Pose) wetLateral {
	var area, sum float64 // A, Z
	var first r3.Vec      // ∫ w q dA
	var grow float64      // dA per rise of all corners
	var growAt r3.Vec     // and weighted with where the corners are
	for gi := range l.groups {
		g := &l.groups[gi]
		if lowest(g.lo, g.hi, p.Up)+p.Rise >= 0 {
			continue
		}
		for i := g.first; i < g.first+g.count; i++ {
			l.height[i] = r3.Dot(p.Up, l.points[i]) + p.Rise
		}
		for ti, t := range g.triangles {
			h := [3]float64{l.height[t[0]], l.height[t[1]], l.height[t[2]]}
			wet := 0
			for _, v := range h {
				if v < 0 {
					wet++
				}
			}
			if wet == 0 {
				continue
			}
			w := g.weight[ti]
			q := [3]r3.Vec{l.points[t[0]], l.points[t[1]], l.points[t[2]]}
			whole := r3.Scale(1.0/3, r3.Add(q[0], r3.Add(q[1], q[2])))
			if wet == 3 {
				area += w
				sum += w * (h[0] + h[1] + h[2]) / 3
				first = r3.Add(first, r3.Scale(w, whole))
				continue
			}
			tip := corner(&h, &q, wet)
			if wet == 1 {
				area += w * tip.share
				sum += w * tip.share * tip.height / 3
				first = r3.Add(first, r3.Scale(w*tip.share, tip.center))
			} else {
				area += w * (1 - tip.share)
				sum += w * ((h[0]+h[1]+h[2])/3 - tip.share*tip.height/3)
				first = r3.Add(first, r3.Scale(w, r3.Sub(whole, r3.Scale(tip.share, tip.center))))
				w = -w
			}
			for i, s := range tip.slope {
				grow += w * s
				growAt = r3.Add(growAt, r3.Scale(w*s, q[i]))
			}
		}
	}
	if !(area > 0) {
		return wetLateral{}
	}
	out := wetLateral{area: area, center: r3.Scale(1/area, first), height: sum / area}
	for j, t := range [2]r3.Vec{p.T1, p.T2} {
		out.turn[j] = (r3.Dot(t, first) - out.height*r3.Dot(t, growAt)) / area
	}
	out.rise = 1 - out.height*grow/area
	return out
}

// lowest returns the least n.p over a box.
func lowest(lo, hi, n r3.Vec) float64 {
	return min(n.X*lo.X, n.X*hi.X) + min(n.Y*lo.Y, n.Y*hi.Y) + min(n.Z*lo.Z, n.Z*hi.Z)
}

// tip is the part of a triangle on the side of the water where it has one
// corner only.
type tip struct {
	share  float64    // of the triangle's area
	center r3.Vec     // of that part
	height float64    // of its one corner
	slope  [3]float64 // change of share by each corner's height
}

// corner returns the tip of a triangle that the water cuts, wet or dry as there
// are one or two wet corners. With the lone corner at height a and the others
// at b and c the share is a²/((a-b)(a-c)).
func corner(h *[3]float64, q *[3]r3.Vec, wet int) tip {
	i := 0
	for k := range 3 {
		if (h[k] < 0) == (wet == 1) {
			i = k
		}
	}
	j, k := (i+1)%3, (i+2)%3
	a, b, c := h[i], h[j], h[k]
	ab, ac := a-b, a-c
	u, v := a/ab, a/ac
	t := tip{share: u * v, height: a}
	t.center = r3.Add(q[i], r3.Scale(1.0/3, r3.Add(r3.Scale(u, r3.Sub(q[j], q[i])), r3.Scale(v, r3.Sub(q[k], q[i])))))
	t.slope[i] = a * (2*b*c - a*(b+c)) / (ab * ab * ac * ac)
	t.slope[j] = u * v / ab
	t.slope[k] = u * v / ac
	return t
}
