package shape

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Box returns the box of length l along x, breadth b along y and height h
// along z, centered on x = 0 and y = 0, its bottom at z = 0.
func Box(l, b, h float64) *mesh.Mesh {
	return BoxBetween(r3.Vec{X: -l / 2, Y: -b / 2}, r3.Vec{X: l / 2, Y: b / 2, Z: h})
}

// BoxBetween returns the box between two opposite corners, every coordinate of
// lo below that of hi. It has 8 vertices and 12 triangles.
func BoxBetween(lo, hi r3.Vec) *mesh.Mesh {
	if !(lo.X < hi.X && lo.Y < hi.Y && lo.Z < hi.Z) {
		panic("shape: a box needs its low corner below its high one")
	}
	p := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	bottom := []r3.Vec{p(lo.X, lo.Y, lo.Z), p(hi.X, lo.Y, lo.Z), p(hi.X, hi.Y, lo.Z), p(lo.X, hi.Y, lo.Z)}
	top := []r3.Vec{p(lo.X, lo.Y, hi.Z), p(hi.X, lo.Y, hi.Z), p(hi.X, hi.Y, hi.Z), p(lo.X, hi.Y, hi.Z)}
	s := newSurface("box")
	s.strip(bottom, top)
	s.quad(bottom[3], bottom[2], bottom[1], bottom[0])
	s.quad(top[0], top[1], top[2], top[3])
	return s.mesh
}

// Extruded returns the prism of the given length along x, centered on x = 0,
// over a polygon in the y, z plane (X of each point is y, Y is z),
// anticlockwise seen from ahead: y to the right, z up. The mean of the corners
// must see all of them. Exact: volume is area times length.
func Extruded(section []r2.Vec, length float64) *mesh.Mesh {
	if !(length > 0) {
		panic("shape: a prism needs a positive length")
	}
	aft, ahead := make([]r3.Vec, len(section)), make([]r3.Vec, len(section))
	for i, p := range section {
		aft[i] = r3.Vec{X: -length / 2, Y: p.X, Z: p.Y}
		ahead[i] = r3.Vec{X: length / 2, Y: p.X, Z: p.Y}
	}
	return Loft("prism", aft, ahead)
}

// Wedge returns the triangular prism with its edge down: the section is an
// isosceles triangle with its apex at z = 0 and its base, of the given
// breadth, at z = depth. Exact: volume is length*breadth*depth/2, the centroid
// at z = 2*depth/3.
func Wedge(length, breadth, depth float64) *mesh.Mesh {
	return Extruded([]r2.Vec{{}, {X: breadth / 2, Y: depth}, {X: -breadth / 2, Y: depth}}, length)
}

// VBottom returns the prism with a V bottom and vertical sides: keel at z = 0,
// chines at half beam and z = beam/2*tan(deadrise), deck at z = depth; the
// deadrise is in radians. Exact: the section's area up to a draft d above the
// chine is beam*d - beam²*tan(deadrise)/4.
func VBottom(length, beam, deadrise, depth float64) *mesh.Mesh {
	chine := beam / 2 * math.Tan(deadrise)
	if !(beam > 0 && chine > 0 && depth > chine) {
		panic("shape: a V bottom needs its chine between keel and deck")
	}
	return Extruded([]r2.Vec{
		{},
		{X: beam / 2, Y: chine},
		{X: beam / 2, Y: depth},
		{X: -beam / 2, Y: depth},
		{X: -beam / 2, Y: chine},
	}, length)
}

// Wigley returns the closed mathematical hull
//
//	|y| = (B/2) (1 - (2x/L)²) (1 - (ζ/T)²)
//
// where ζ is the depth below the deck, with a flat deck at z = T and the keel
// at z = 0, in nx panels along the length and nz panels from keel to deck on
// each side. The form is W. C. S. Wigley's, Trans. Institution of Naval
// Architects, 1934 (from memory).
//
// For the smooth hull up to the deck: volume 4LBT/9, centroid at z = 5T/8, deck
// area 2LB/3 with second moments 4LB³/105 about the centerline and BL³/30
// across it. The facets come short of these by a share that falls as 1/nx² and
// 1/nz².
func Wigley(length, beam, depth float64, nx, nz int) *mesh.Mesh {
	if !(length > 0 && beam > 0 && depth > 0) || nx < 2 || nz < 1 {
		panic("shape: a Wigley hull needs positive lengths, nx >= 2 and nz >= 1")
	}
	rings := make([][]r3.Vec, nx+1)
	for i := range rings {
		u := 2*float64(i)/float64(nx) - 1
		// Keel to deck on the port side, then the deck's middle, then down
		// the starboard side.
		ring := make([]r3.Vec, 2*nz+2)
		for j := range nz + 1 {
			v := 1 - float64(j)/float64(nz)
			y := beam / 2 * (1 - u*u) * (1 - v*v)
			z := depth * float64(j) / float64(nz)
			ring[j] = r3.Vec{X: u * length / 2, Y: y, Z: z}
			if j > 0 {
				ring[2*nz+2-j] = r3.Vec{X: u * length / 2, Y: -y, Z: z}
			}
		}
		ring[nz+1] = r3.Vec{X: u * length / 2, Z: depth}
		rings[i] = ring
	}
	return Loft("Wigley hull", rings...)
}
