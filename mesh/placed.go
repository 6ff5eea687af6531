package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Placed is a Solid set somewhere by an affine map from the file's coordinates
// to the caller's. The map may mirror and stretch; it must not flatten.
type Placed struct {
	Solid *Solid
	Place Affine
}

// Below returns the integrals of the part below pl, about the point about, in
// the coordinates that Place leads to.
func (p Placed) Below(pl Plane, about r3.Vec) Section {
	normal, offset := p.local(pl)
	switch lo, hi := boxHeights(&p.Solid.box, normal, offset); {
	case lo >= 0:
		return Section{}
	case hi < 0:
		return p.all(about)
	}
	var sec Section
	var apex r3.Vec
	if x := p.Solid.index.Load(); x != nil {
		sec, apex, _ = x.below(normal, offset)
	} else {
		sec, apex = p.Solid.below(normal, offset)
	}
	return sec.linear(p.Place, normal).Shift(r3.Sub(p.image(apex), about))
}

// local returns the plane over coordinates relative to the solid's origin. Its
// normal is not of unit length when the map is not rigid.
func (p Placed) local(pl Plane) (normal r3.Vec, offset float64) {
	return p.Place.Covector(pl.Normal), pl.Height(p.image(r3.Vec{}))
}

// image maps a point given relative to the solid's origin.
func (p Placed) image(q r3.Vec) r3.Vec {
	return r3.Add(p.Place.Vector(q), p.Place.Point(p.Solid.origin))
}

// all returns the section of a solid wholly below the plane.
func (p Placed) all(about r3.Vec) Section {
	det := math.Abs(p.Place.Det())
	sec := Section{
		Volume: det * p.Solid.whole.Volume,
		Moment: r3.Scale(det, p.Place.Vector(p.Solid.whole.Moment)),
	}
	return sec.Shift(r3.Sub(p.image(r3.Vec{}), about))
}

// boxHeights returns the heights of the lowest and the highest corner of a
// box. Rounding keeps the order of sums and products, so no point of the box
// gets a height outside them from the height formula: a box called dry or wet
// holds no vertex that is judged otherwise.
func boxHeights(box *r3.Box, normal r3.Vec, offset float64) (lo, hi float64) {
	low, high := box.Min, box.Max
	if normal.X < 0 {
		low.X, high.X = high.X, low.X
	}
	if normal.Y < 0 {
		low.Y, high.Y = high.Y, low.Y
	}
	if normal.Z < 0 {
		low.Z, high.Z = high.Z, low.Z
	}
	return height(normal, offset, low), height(normal, offset, high)
}

// Volume returns the whole volume.
func (p Placed) Volume() float64 { return math.Abs(p.Place.Det()) * p.Solid.whole.Volume }

// Centroid returns the centroid of the whole volume.
func (p Placed) Centroid() r3.Vec { return p.Place.Point(p.Solid.Centroid()) }

// Area returns the whole surface area. Under a map that is no similarity every
// triangle is visited.
func (p Placed) Area() float64 {
	if k, ok := p.Place.Similarity(); ok {
		return k * k * p.Solid.area
	}
	dry := r3.Vec{}
	return p.wetArea(dry, -1)
}

// WetArea returns the area of the part of the surface below pl, the cut itself
// not counted. Under a map that is no similarity every triangle is visited:
// areas do not map through an unequal stretch.
func (p Placed) WetArea(pl Plane) float64 {
	normal, offset := p.local(pl)
	if x := p.Solid.index.Load(); x != nil {
		if k, ok := p.Place.Similarity(); ok {
			return k * k * (x.wetArea(x.root(), normal, offset) - p.Solid.innerWetArea(normal, offset))
		}
	}
	return p.wetArea(normal, offset)
}

// innerWetArea returns the area below a plane in local coordinates of the faces
// that are no surface. They are few: the index counts them in.
func (s *Solid) innerWetArea(normal r3.Vec, offset float64) float64 {
	sum := 0.0
	for _, t := range s.triangles[s.skin:] {
		a, b, c := s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]
		if share := wetShare([3]float64{height(normal, offset, a), height(normal, offset, b), height(normal, offset, c)}); share != 0 {
			sum += share * r3.Norm(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))
		}
	}
	return sum / 2
}

// wetArea sums the mapped area below a plane in local coordinates. An area
// vector maps by the cofactors of the linear part, whatever the map.
func (p Placed) wetArea(normal r3.Vec, offset float64) float64 {
	s := p.Solid
	borrowed := s.marks(normal, offset)
	defer scratch.Put(borrowed)
	m := *borrowed
	cof := p.Place.cofactor()
	sum := 0.0
	for _, t := range s.triangles[:s.skin] {
		wet := m[t[0]] | m[t[1]]<<1 | m[t[2]]<<2
		if wet == 0 {
			continue
		}
		a, b, c := s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]
		area := r3.Norm(cof.Vector(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))))
		if wet != 7 {
			area *= wetShare([3]float64{height(normal, offset, a), height(normal, offset, b), height(normal, offset, c)})
		}
		sum += area
	}
	return sum / 2
}

// wetShare returns the part of a triangle's area that lies below the plane,
// from the heights of its corners.
func wetShare(h [3]float64) float64 {
	corner := func(a, b, c float64) float64 { return a / (a - b) * (a / (a - c)) }
	switch wet0, wet1, wet2 := h[0] < 0, h[1] < 0, h[2] < 0; {
	case wet0 && wet1 && wet2:
		return 1
	case !wet0 && !wet1 && !wet2:
		return 0
	case wet1 == wet2: // corner 0 on its own
		if wet0 {
			return corner(h[0], h[1], h[2])
		}
		return 1 - corner(h[0], h[1], h[2])
	case wet0 == wet2:
		if wet1 {
			return corner(h[1], h[2], h[0])
		}
		return 1 - corner(h[1], h[2], h[0])
	default:
		if wet2 {
			return corner(h[2], h[0], h[1])
		}
		return 1 - corner(h[2], h[0], h[1])
	}
}

// cofactor returns the map of area vectors: the cofactor matrix, no
// translation.
func (a Affine) cofactor() Affine {
	m := &a.M
	var c Affine
	for i := range 3 {
		for j := range 3 {
			i1, i2, j1, j2 := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
			c.M[i][j] = m[i1][j1]*m[i2][j2] - m[i1][j2]*m[i2][j1]
		}
	}
	return c
}

// Lowest returns the vertex that lies lowest along the upward direction up; of
// several equally low ones, the first by x, then y, then z in the file's
// coordinates.
func (p Placed) Lowest(up r3.Vec) r3.Vec {
	l := lowest{up: p.Place.Covector(up), height: math.Inf(1)}
	if x := p.Solid.index.Load(); x != nil {
		x.lowest(x.root(), &l)
	} else {
		for i := range p.Solid.vertices {
			l.try(p.Solid.vertices[i])
		}
	}
	return p.image(l.point)
}

// Box returns a box along the caller's axes that holds the placed solid. It is
// the smallest one.
func (p Placed) Box() r3.Box {
	lo := func(d r3.Vec) r3.Vec { return p.Lowest(d) }
	return r3.Box{
		Min: r3.Vec{X: lo(r3.Vec{X: 1}).X, Y: lo(r3.Vec{Y: 1}).Y, Z: lo(r3.Vec{Z: 1}).Z},
		Max: r3.Vec{X: lo(r3.Vec{X: -1}).X, Y: lo(r3.Vec{Y: -1}).Y, Z: lo(r3.Vec{Z: -1}).Z},
	}
}

// Triangle returns the corners of triangle i where they lie. Under a mirror
// two corners are swapped, so that they still run anticlockwise seen from
// outside.
func (p Placed) Triangle(i int) r3.Triangle {
	t := p.Solid.triangles[i]
	a, b, c := p.image(p.Solid.vertices[t[0]]), p.image(p.Solid.vertices[t[1]]), p.image(p.Solid.vertices[t[2]])
	if p.Place.Det() < 0 {
		b, c = c, b
	}
	return r3.Triangle{a, b, c}
}
