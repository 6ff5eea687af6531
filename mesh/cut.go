package mesh

import (
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// cut gathers the integrals below one plane, triangle by triangle. Everything
// is relative to apex, the point of the plane nearest the solid's origin: a
// tetrahedron from there to a triangle of the plane has no volume, so the cut
// face itself never needs to be built.
type cut struct {
	apex  r3.Vec
	u, v  r3.Vec // unit vectors that span the plane, u x v along its normal
	solid tetrahedra

	// Line integrals around the cut face in the coordinates (u.p, v.p).
	x0         float64 // twice the area
	x, y       float64 // six times the first moments
	xx, yy, xy float64 // 12, 12 and 24 times the second moments
}

// newCut prepares for the plane normal.p + offset = 0, whose normal need not
// be of unit length.
func newCut(normal r3.Vec, offset float64) cut {
	var c cut
	c.apex = r3.Scale(-offset/r3.Norm2(normal), normal)
	c.u, c.v = basis(r3.Unit(normal))
	return c
}

// wet adds a triangle that is below the plane.
func (c *cut) wet(p, q, r r3.Vec) {
	c.solid.add(r3.Sub(p, c.apex), r3.Sub(q, c.apex), r3.Sub(r, c.apex))
}

// straddling adds the wet part of a triangle with corners p at heights h of
// which one or two are wet.
func (c *cut) straddling(p *[3]r3.Vec, h *[3]float64) {
	// Turn the corners so that corner a is the one on its own side.
	a := 0
	switch wet0, wet1, wet2 := h[0] < 0, h[1] < 0, h[2] < 0; {
	case wet0 == wet2:
		a = 1
	case wet0 == wet1:
		a = 2
	}
	b, d := (a+1)%3, (a+2)%3
	pa, pb, pd := r3.Sub(p[a], c.apex), r3.Sub(p[b], c.apex), r3.Sub(p[d], c.apex)
	ab := crossing(pa, pb, h[a], h[b])
	ad := crossing(pa, pd, h[a], h[d])
	if h[a] < 0 {
		c.solid.add(pa, ab, ad)
		c.edge(ad, ab)
	} else {
		c.solid.add(ab, pb, pd)
		c.solid.add(ab, pd, ad)
		c.edge(ab, ad)
	}
}

// crossing returns where the edge from p to q meets the plane. It is always
// computed from the wet end, so that both triangles at an edge get the same
// bits and the cut face closes.
func crossing(p, q r3.Vec, hp, hq float64) r3.Vec {
	if !(hp < 0) {
		p, q, hp, hq = q, p, hq, hp
	}
	return r3.Add(p, r3.Scale(hp/(hp-hq), r3.Sub(q, p)))
}

// edge adds one side of the cut face, which runs anticlockwise seen from
// above. The integrals are those of Green's theorem over a polygon.
func (c *cut) edge(p, q r3.Vec) {
	px, py := r3.Dot(c.u, p), r3.Dot(c.v, p)
	qx, qy := r3.Dot(c.u, q), r3.Dot(c.v, q)
	w := px*qy - qx*py
	c.x0 += w
	c.x += w * (px + qx)
	c.y += w * (py + qy)
	c.xx += w * (px*px + px*qx + qx*qx)
	c.yy += w * (py*py + py*qy + qy*qy)
	c.xy += w * (px*qy + 2*px*py + 2*qx*qy + qx*py)
}

// section returns what was gathered, about the apex.
func (c *cut) section() Section {
	s := Section{Volume: c.solid.volume(), Moment: c.solid.moment(), Area: c.x0 / 2}
	s.AreaMoment = r3.Add(r3.Scale(c.x/6, c.u), r3.Scale(c.y/6, c.v))
	s.AreaSecond = Outer(c.xx/12, c.u).Add(Outer(c.yy/12, c.v)).Add(symOuter2(c.u, c.v).Scale(c.xy / 24))
	return s
}

// scratch lends the height of every vertex to a straight pass.
var scratch = sync.Pool{New: func() any { return new([]float64) }}

// heights fills a borrowed slice with the height of every vertex over the
// plane given in coordinates relative to s.origin. Give it back to scratch.
func (s *Solid) heights(normal r3.Vec, offset float64) *[]float64 {
	p := scratch.Get().(*[]float64)
	if cap(*p) < len(s.vertices) {
		*p = make([]float64, len(s.vertices))
	}
	*p = (*p)[:len(s.vertices)]
	h := *p
	for i := range s.vertices {
		h[i] = height(normal, offset, s.vertices[i])
	}
	return p
}

// below integrates the part of s below the plane normal.q + offset = 0, given
// in coordinates relative to s.origin with a normal of any length, by a
// straight pass over all triangles. The section is about the apex, which is
// returned with it.
func (s *Solid) below(normal r3.Vec, offset float64) (Section, r3.Vec) {
	borrowed := s.heights(normal, offset)
	defer scratch.Put(borrowed)
	h := *borrowed
	sum := newCut(normal, offset)
	for from := 0; from < len(s.triangles); from += block {
		part := sum
		part.solid = tetrahedra{}
		for _, t := range s.triangles[from:min(from+block, len(s.triangles))] {
			hs := [3]float64{h[t[0]], h[t[1]], h[t[2]]}
			wet0, wet1, wet2 := hs[0] < 0, hs[1] < 0, hs[2] < 0
			switch {
			case !wet0 && !wet1 && !wet2:
			case wet0 && wet1 && wet2:
				part.wet(s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]])
			default:
				part.straddling(&[3]r3.Vec{s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]}, &hs)
			}
		}
		part.solid.six += sum.solid.six
		part.solid.four = r3.Add(part.solid.four, sum.solid.four)
		sum = part
	}
	return sum.section(), sum.apex
}
