package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Span returns bounds on the heights n.q of all points q of the placed solid
// relative to the point about, along the unit vector n. They come from the
// solid's box alone, so they cost nothing and may be wider than the solid.
func (p Placed) Span(n, about r3.Vec) (lo, hi float64) {
	normal, offset := p.local(Plane{Normal: n, Offset: -r3.Dot(n, about)})
	return boxHeights(&p.Solid.box, normal, offset)
}
