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

// straddling adds the wet part of a triangle that the plane passes through, in
// the cut's coordinates. Corner a is alone on its side of the plane: wet, with
// sign 1 and rest 0, and the wet part is the tip at a; or dry, with sign -1 and
// rest 1, and the wet part is the triangle without its tip.
func (c *cut) straddling(a, b, d r3.Vec, sign, rest float64) {
	au, av, ah := a.X, a.Y, a.Z
	bu, bv, bh := b.X, b.Y, b.Z
	du, dv, dh := d.X, d.Y, d.Z

	// The tetrahedron on the tip is to the one on the triangle as the
	// areas are: the product of the shares that the tip has of the edges
	// ab and ad.
	shareB, shareD := ah/(ah-bh), ah/(ah-dh)
	six := au*(bv*dh-bh*dv) + av*(bh*du-bu*dh) + ah*(bu*dv-bv*du)
	all := six * rest
	tip := sign * six * shareB * shareD
	c.near.six += all + tip
	c.near.four.Z += all*(ah+bh+dh) + tip*ah
	mu, mv := au+bu+du, av+bv+dv

	// From here on b and d are where the edges meet the plane.
	bu, du = au+shareB*(bu-au), au+shareD*(du-au)
	bv, dv = av+shareB*(bv-av), av+shareD*(dv-av)
	u, v := bu+du, bv+dv
	// The integrals of Green's theorem along the side of the cut face: from
	// d to b for a wet corner, which is anticlockwise seen from above, and
	// back for a dry one.
	w := sign * (du*bv - dv*bu)
	c.near.four.X += all*mu + tip*(au+u)
	c.near.four.Y += all*mv + tip*(av+v)
	c.w += w
	c.uu += w * (u*u - bu*du)
	c.vv += w * (v*v - bv*dv)
	c.uv += w * (u*v + bu*bv + du*dv)
	c.u += w * u
	c.v += w * v
}

// parting says in which order, with which sign and which rest straddling wants
// a triangle.
type parting struct {
	lone, next, last uint8 // corners
	sign, rest       float64
}

// partings go by which corners are wet: corner i counts 1<<i.
var partings = [8]parting{
	1: {0, 1, 2, 1, 0}, 2: {1, 2, 0, 1, 0}, 4: {2, 0, 1, 1, 0},
	6: {0, 1, 2, -1, 1}, 5: {1, 2, 0, -1, 1}, 3: {2, 0, 1, -1, 1},
}

// mixed adds a triangle, in the cut's coordinates, of which some but not all
// corners are wet, in the numbering of partings.
func (c *cut) mixed(p *[3]r3.Vec, wet uint8) {
	t := &partings[wet&7]
	switch t.lone {
	case 0:
		c.straddling(p[0], p[1], p[2], t.sign, t.rest)
	case 1:
		c.straddling(p[1], p[2], p[0], t.sign, t.rest)
	default:
		c.straddling(p[2], p[0], p[1], t.sign, t.rest)
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
	var p [3]r3.Vec
	for from := 0; from < len(s.triangles); from += block {
		before := c.wet
		c.wet = tetrahedra{}
		for _, t := range s.triangles[from:min(from+block, len(s.triangles))] {
			switch wet := m[t[0]] | m[t[1]]<<1 | m[t[2]]<<2; wet {
			case 0:
			case 7:
				c.below(&s.vertices[t[0]], &s.vertices[t[1]], &s.vertices[t[2]])
			default:
				for k := range p {
					p[k] = c.local(&s.vertices[t[k]])
				}
				c.mixed(&p, wet)
			}
		}
		c.wet.join(before)
	}
	return c.section(), c.apex
}
