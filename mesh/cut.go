package mesh

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// cut gathers the integrals below one plane, triangle by triangle. Everything
// is relative to apex, a point of the plane: a tetrahedron from there to a
// triangle of the plane has no volume, so the cut face itself never needs to
// be built.
//
// Near the plane it works in coordinates of its own (u, v, h): h is the height,
// and u and v are the solid's coordinates but for the one along which the plane
// is steepest. They cost next to nothing to get, the cut face is flat in them,
// and one linear map leads back. The apex is where u, v and h are zero; as
// |dh/du| and |dh/dv| are at most |dh| along the third axis, a plane through a
// box about the solid's origin has its apex no farther from there than the
// box's three half sides together.
type cut struct {
	normal r3.Vec
	offset float64
	apex   r3.Vec
	axis   int        // 0, 1, 2: which coordinate the height replaces
	wet    tetrahedra // on wet triangles, in the solid's coordinates
	near   tetrahedra // on triangles near the plane, in the cut's

	// Line integrals around the cut face, by u and v.
	w          float64 // twice the area
	u, v       float64 // six times the first moments
	uu, vv, uv float64 // 12, 12 and 24 times the second moments
}

// newCut prepares for the plane normal.p + offset = 0, whose normal need not
// be of unit length.
func newCut(normal r3.Vec, offset float64) cut {
	c := cut{normal: normal, offset: offset}
	switch x, y, z := math.Abs(normal.X), math.Abs(normal.Y), math.Abs(normal.Z); {
	case z >= x && z >= y:
		c.axis, c.apex.Z = 2, -offset/normal.Z
	case y >= x:
		c.axis, c.apex.Y = 1, -offset/normal.Y
	default:
		c.axis, c.apex.X = 0, -offset/normal.X
	}
	return c
}

// local returns a point in the cut's coordinates.
func (c *cut) local(p *r3.Vec) r3.Vec {
	h := height(c.normal, c.offset, *p)
	switch c.axis {
	case 0:
		return r3.Vec{X: p.Y, Y: p.Z, Z: h}
	case 1:
		return r3.Vec{X: p.Z, Y: p.X, Z: h}
	default:
		return r3.Vec{X: p.X, Y: p.Y, Z: h}
	}
}

// axes returns the vectors along which only u, only v and only h grow, each at
// rate one, and the determinant of the map to u, v and h.
func (c *cut) axes() (u, v, h r3.Vec, det float64) {
	n := c.normal
	switch c.axis {
	case 0:
		return r3.Vec{X: -n.Y / n.X, Y: 1}, r3.Vec{X: -n.Z / n.X, Z: 1}, r3.Vec{X: 1 / n.X}, n.X
	case 1:
		return r3.Vec{Y: -n.Z / n.Y, Z: 1}, r3.Vec{Y: -n.X / n.Y, X: 1}, r3.Vec{Y: 1 / n.Y}, n.Y
	default:
		return r3.Vec{Z: -n.X / n.Z, X: 1}, r3.Vec{Z: -n.Y / n.Z, Y: 1}, r3.Vec{Z: 1 / n.Z}, n.Z
	}
}

// below adds a triangle, in the solid's coordinates, that is wholly below the
// plane.
func (c *cut) below(p, q, r *r3.Vec) {
	a := r3.Sub(*p, c.apex)
	// Only the triangle's own sides are multiplied with each other, so
	// that a small triangle far from the apex adds a small error.
	w := r3.Cross(r3.Sub(*q, *p), r3.Sub(*r, *p))
	six := r3.Dot(a, w)
	c.wet.six += six
	c.wet.four.X += six * (a.X + (q.X - c.apex.X) + (r.X - c.apex.X))
	c.wet.four.Y += six * (a.Y + (q.Y - c.apex.Y) + (r.Y - c.apex.Y))
	c.wet.four.Z += six * (a.Z + (q.Z - c.apex.Z) + (r.Z - c.apex.Z))
}

// tip adds the tip of a triangle that the plane passes through, from the corner
// a that is alone on its side to where the edges to b and to d meet the plane,
// in the cut's coordinates. With the corners in the triangle's own order that
// is the wet part of a triangle whose corner a is wet. In the other order it is
// what is to be taken out of one whose corner a is dry.
func (c *cut) tip(a, b, d r3.Vec) {
	au, av, ah := a.X, a.Y, a.Z
	shareB, shareD := ah/(ah-b.Z), ah/(ah-d.Z)
	bu, du := au+shareB*(b.X-au), au+shareD*(d.X-au)
	bv, dv := av+shareB*(b.Y-av), av+shareD*(d.Y-av)
	u, v := bu+du, bv+dv
	// The integrals of Green's theorem along the side of the cut face, which
	// goes from d to b: anticlockwise seen from above.
	w := du*bv - dv*bu
	c.w += w
	c.uu += w * (u*u - bu*du)
	c.vv += w * (v*v - bv*dv)
	c.uv += w * (u*v + bu*bv + du*dv)
	c.u += w * u
	c.v += w * v
	// The tetrahedron on the tip stands with another side in the plane, the
	// triangle of the apex, d and b, and has a above it.
	six := -ah * w
	c.near.six += six
	c.near.four.X += six * (au + u)
	c.near.four.Y += six * (av + v)
	c.near.four.Z += six * ah
}

// mixed adds the wet part of a triangle, in the cut's coordinates, of which
// some but not all corners are wet: corner i counts 1<<i.
func (c *cut) mixed(p, q, r r3.Vec, wet uint8) {
	switch wet {
	case 1:
		c.tip(p, q, r)
	case 2:
		c.tip(q, r, p)
	case 4:
		c.tip(r, p, q)
	case 6:
		c.near.add(p, q, r)
		c.tip(p, r, q)
	case 5:
		c.near.add(p, q, r)
		c.tip(q, p, r)
	case 3:
		c.near.add(p, q, r)
		c.tip(r, q, p)
	}
}

// section returns what was gathered, about the apex.
func (c *cut) section() Section {
	u, v, h, det := c.axes()
	near := c.near.moment()
	moment := r3.Add(r3.Add(r3.Scale(near.X, u), r3.Scale(near.Y, v)), r3.Scale(near.Z, h))
	s := Section{
		Volume: c.wet.volume() + c.near.volume()/det,
		Moment: r3.Add(c.wet.moment(), r3.Scale(1/det, moment)),
	}
	face := r3.Norm(c.normal) / det // area for an area in (u, v)
	s.Area = face * c.w / 2
	s.AreaMoment = r3.Scale(face, r3.Add(r3.Scale(c.u/6, u), r3.Scale(c.v/6, v)))
	s.AreaSecond = Outer(c.uu/12, u).Add(Outer(c.vv/12, v)).Add(symOuter2(u, v).Scale(c.uv / 24)).Scale(face)
	return s
}

// scratch lends the marks of a straight pass: one byte a vertex, 1 where it is
// wet.
var scratch = sync.Pool{New: func() any { return new([]uint8) }}

// marks fills a borrowed slice with 1 for every vertex below the plane, given
// in coordinates relative to s.origin, and 0 for the others. Give it back to
// scratch.
func (s *Solid) marks(normal r3.Vec, offset float64) *[]uint8 {
	p := scratch.Get().(*[]uint8)
	if cap(*p) < len(s.vertices) {
		*p = make([]uint8, len(s.vertices))
	}
	*p = (*p)[:len(s.vertices)]
	m := *p
	for i := range s.vertices {
		m[i] = mark(height(normal, offset, s.vertices[i]))
	}
	return p
}

// mark returns 1 for a wet height and 0 for a dry one.
func mark(h float64) uint8 {
	if h < 0 {
		return 1
	}
	return 0
}

// below integrates the part of s below the plane normal.q + offset = 0, given
// in coordinates relative to s.origin with a normal of any length, by a
// straight pass over all triangles. The section is about the apex, which is
// returned with it.
func (s *Solid) below(normal r3.Vec, offset float64) (Section, r3.Vec) {
	borrowed := s.marks(normal, offset)
	defer scratch.Put(borrowed)
	m := *borrowed
	c := newCut(normal, offset)
	for from := 0; from < len(s.triangles); from += block {
		before := c.wet
		c.wet = tetrahedra{}
		for _, t := range s.triangles[from:min(from+block, len(s.triangles))] {
			switch wet := m[t[0]] | m[t[1]]<<1 | m[t[2]]<<2; wet {
			case 0:
			case 7:
				c.below(&s.vertices[t[0]], &s.vertices[t[1]], &s.vertices[t[2]])
			default:
				c.mixed(c.local(&s.vertices[t[0]]), c.local(&s.vertices[t[1]]), c.local(&s.vertices[t[2]]), wet)
			}
		}
		c.wet.join(before)
	}
	return c.section(), c.apex
}
