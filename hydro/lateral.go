package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// lateral is a hull's surface with each triangle's area as projected on the
// centerplane, the plane y = 0: what the water feels of a sideways or a
// forward slip. The centerplane is that of the body: heeled with a deck under,
// this is not quite the area seen along the level, of which the waterplane would
// hide a part, and it is half the sum of both sides of each solid on its own.
// Triangles are gathered in cells of space
// with their sums, so that only cells which the water cuts are looked into.
type lateral struct {
	cells  []lateralCell
	panels []panel
}

// panel is one triangle: its corners about the hull's center, and its projected
// area times its term's weight.
type panel struct {
	q      [3]r3.Vec
	weight float64
}

// lateralCell is the panels of one cell.
type lateralCell struct {
	lo, hi   r3.Vec  // box around them
	area     float64 // Σ weight
	first    r3.Vec  // Σ weight times centroid
	from, to int     // of its panels
}

// perCell is how many panels a cell holds, about.
const perCell = 32

// newLateral gathers a hull's surface, so that nothing need be mapped or
// allocated afterwards.
func newLateral(h *Hull) *lateral {
	total := 0
	for _, t := range h.terms {
		total += t.Solid.Triangles()
	}
	l := &lateral{panels: make([]panel, 0, total)}
	for _, t := range h.terms {
		panels := make([]panel, 0, t.Solid.Triangles())
		for i := range t.Solid.Surface() {
			q := [3]r3.Vec(t.Triangle(i))
			for k := range q {
				q[k] = r3.Sub(q[k], h.center)
			}
			a, b, c := q[0], q[1], q[2]
			side := math.Abs((b.Z-a.Z)*(c.X-a.X)-(b.X-a.X)*(c.Z-a.Z)) / 4
			if side != 0 { // else seen edge on
				panels = append(panels, panel{q, t.Weight * side})
			}
		}
		l.gather(panels)
	}
	return l
}

// gather sorts panels into cells of a grid over their box.
func (l *lateral) gather(panels []panel) {
	inf := math.Inf(1)
	lo, hi := r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for i := range panels {
		c := panels[i].centroid()
		lo = r3.Vec{X: min(lo.X, c.X), Y: min(lo.Y, c.Y), Z: min(lo.Z, c.Z)}
		hi = r3.Vec{X: max(hi.X, c.X), Y: max(hi.Y, c.Y), Z: max(hi.Z, c.Z)}
	}
	// A surface passes some n² of the n³ cells of a grid.
	n := max(1, int(math.Sqrt(float64(len(panels))/perCell)))
	along := func(v, lo, hi float64) int {
		if !(hi > lo) {
			return 0
		}
		return min(n-1, int(float64(n)*(v-lo)/(hi-lo)))
	}
	cells := map[int]int{} // by place in the grid
	number := make([]int, len(panels))
	var count []int
	for i := range panels {
		c := panels[i].centroid()
		at := (along(c.X, lo.X, hi.X)*n+along(c.Y, lo.Y, hi.Y))*n + along(c.Z, lo.Z, hi.Z)
		k, known := cells[at]
		if !known {
			k = len(count)
			cells[at] = k
			count = append(count, 0)
		}
		number[i] = k
		count[k]++
	}
	first, base := len(l.cells), len(l.panels)
	for _, c := range count {
		l.cells = append(l.cells, lateralCell{
			lo: r3.Vec{X: inf, Y: inf, Z: inf}, hi: r3.Vec{X: -inf, Y: -inf, Z: -inf},
			from: base, to: base,
		})
		base += c
	}
	l.panels = append(l.panels, panels...)
	for i, p := range panels {
		c := &l.cells[first+number[i]]
		l.panels[c.to] = p
		c.to++
		c.area += p.weight
		c.first = r3.Add(c.first, r3.Scale(p.weight, p.centroid()))
		for _, q := range p.q {
			c.lo = r3.Vec{X: min(c.lo.X, q.X), Y: min(c.lo.Y, q.Y), Z: min(c.lo.Z, q.Z)}
			c.hi = r3.Vec{X: max(c.hi.X, q.X), Y: max(c.hi.Y, q.Y), Z: max(c.hi.Z, q.Z)}
		}
	}
}

func (p *panel) centroid() r3.Vec { return r3.Scale(1.0/3, r3.Add(p.q[0], r3.Add(p.q[1], p.q[2]))) }

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
func (l *lateral) at(p Pose) wetLateral {
	var s lateralSums
	for i := range l.cells {
		c := &l.cells[i]
		switch low, high := lowest(c.lo, c.hi, p.Up)+p.Rise, p.Rise-lowest(c.lo, c.hi, r3.Scale(-1, p.Up)); {
		case low >= 0:
		case high < 0:
			s.area += c.area
			s.first = r3.Add(s.first, c.first)
		default:
			for k := range l.panels[c.from:c.to] {
				s.add(&l.panels[c.from+k], p)
			}
		}
	}
	if !(s.area > 0) {
		return wetLateral{}
	}
	out := wetLateral{area: s.area, center: r3.Scale(1/s.area, s.first)}
	out.height = r3.Dot(p.Up, out.center) + p.Rise
	for j, t := range [2]r3.Vec{p.T1, p.T2} {
		out.turn[j] = (r3.Dot(t, s.first) - out.height*r3.Dot(t, s.growAt)) / s.area
	}
	out.rise = 1 - out.height*s.grow/s.area
	return out
}

// lateralSums are what is summed over the wet surface.
type lateralSums struct {
	area   float64 // A
	first  r3.Vec  // ∫ w q dA
	grow   float64 // dA per rise of all corners
	growAt r3.Vec  // and weighted with where the corners are
}

// add adds the wet part of a panel.
func (s *lateralSums) add(q *panel, p Pose) {
	var h [3]float64
	wet := 0
	for i := range h {
		h[i] = r3.Dot(p.Up, q.q[i]) + p.Rise
		if h[i] < 0 {
			wet++
		}
	}
	w := q.weight
	switch wet {
	case 0:
		return
	case 3:
		s.area += w
		s.first = r3.Add(s.first, r3.Scale(w, q.centroid()))
		return
	}
	tip := corner(&h, &q.q, wet)
	part := r3.Scale(tip.share, tip.center)
	if wet == 1 {
		s.area += w * tip.share
		s.first = r3.Add(s.first, r3.Scale(w, part))
	} else {
		s.area += w * (1 - tip.share)
		s.first = r3.Add(s.first, r3.Scale(w, r3.Sub(q.centroid(), part)))
		w = -w
	}
	for i, slope := range tip.slope {
		s.grow += w * slope
		s.growAt = r3.Add(s.growAt, r3.Scale(w*slope, q.q[i]))
	}
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
	t := tip{share: u * v}
	t.center = r3.Add(q[i], r3.Scale(1.0/3, r3.Add(r3.Scale(u, r3.Sub(q[j], q[i])), r3.Scale(v, r3.Sub(q[k], q[i])))))
	t.slope[i] = a * (2*b*c - a*(b+c)) / (ab * ab * ac * ac)
	t.slope[j] = u * v / ab
	t.slope[k] = u * v / ac
	return t
}
