package overlap

import (
	"math"
	"slices"

	"millpond/mesh/parts"

	"gonum.org/v1/gonum/spatial/r3"
)

// facet is a triangle of a solid, its corners spots.
type facet struct {
	v     [3]uint32
	solid int32
	axis  uint8 // along which its shadow is largest
	seen  uint8 // along which axes it is seen which way round, as far as float64 can tell; see smooth
	back  bool  // it runs clockwise as seen along the axis
}

// body is a solid in the arrangement: the facets first to first+count-1.
type body struct {
	first, count int
	tree         *tree
	box          box
	torn         []uint32 // the corners of facets that were left out
}

// soup is a closed chain of triangles as given.
type soup struct {
	vertices  []r3.Vec
	triangles [][3]uint32
}

// arrangement is some solids over one lattice, and how their facets cut each
// other.
type arrangement struct {
	*points
	lattice lattice
	facets  []facet
	bodies  []body
	cuts    []cut
	head    map[uint32]int32 // from a facet to its last cut
	holes   map[hole]uint32  // where edges pierce facets

	smoothAt []bool // by spot, what smooth says
	doubled  int    // pairs of facets with the same three corners

	left, limit budget
}

// cut is a part of a facet's plane that a facet shares with another: a point
// (equal ends) or a stretch of a line.
type cut struct {
	from, to uint32
	line     line
	next     int32 // another cut of the same facet, -1 for no more
}

// line is what a cut lies on: within the plane of the facet it belongs to, the
// plane of another facet, or the line through an edge.
type line struct {
	facet uint32 // none for an edge
	edge  [2]uint32
}

// hole is where an edge pierces a facet.
type hole struct{ from, to, facet uint32 }

// newArrangement puts solids on one lattice of the given bits. Facets that have
// no area there are left out.
func newArrangement(soups []soup, bits int) (*arrangement, error) {
	inf := math.Inf(1)
	all := r3.Box{Min: r3.Vec{X: inf, Y: inf, Z: inf}, Max: r3.Vec{X: -inf, Y: -inf, Z: -inf}}
	vertices, facets := 0, 0
	for _, s := range soups {
		for _, v := range s.vertices {
			all.Min = r3.Vec{X: min(all.Min.X, v.X), Y: min(all.Min.Y, v.Y), Z: min(all.Min.Z, v.Z)}
			all.Max = r3.Vec{X: max(all.Max.X, v.X), Y: max(all.Max.Y, v.Y), Z: max(all.Max.Z, v.Z)}
		}
		vertices += len(s.vertices)
		facets += len(s.triangles)
	}
	lat, err := newLattice(all, bits)
	if err != nil {
		return nil, err
	}
	a := &arrangement{
		points:  newPoints(vertices),
		lattice: lat,
		facets:  make([]facet, 0, facets),
		head:    make(map[uint32]int32),
		holes:   make(map[hole]uint32),
		left:    newBudget(facets),
		limit:   newBudget(facets),
	}
	for _, s := range soups {
		a.add(s)
	}
	return a, nil
}

// add appends a solid.
func (a *arrangement) add(s soup) {
	number := make([]uint32, len(s.vertices))
	for i, v := range s.vertices {
		number[i] = a.enterSpot(a.lattice.spot(v))
	}
	b := body{first: len(a.facets), box: emptyBox()}
	a.facets = slices.Grow(a.facets, len(s.triangles))
	all := a.facets[b.first : b.first+len(s.triangles)]
	shares := make([]body, parts.Count(len(all))) // of what each part keeps, in its place
	parts.Each(len(shares), len(all), func(part, from, to int) {
		c := body{first: from, box: emptyBox()}
		for _, t := range s.triangles[from:to] {
			f := facet{v: [3]uint32{number[t[0]], number[t[1]], number[t[2]]}, solid: int32(len(a.bodies))}
			if !a.face(&f) {
				c.torn = append(c.torn, f.v[:]...)
				continue
			}
			all[from+c.count] = f
			c.count++
			for _, v := range f.v {
				c.box.add(&a.at[v])
			}
		}
		shares[part] = c
	})
	for i := range shares {
		c := &shares[i]
		a.facets = append(a.facets, all[c.first:c.first+c.count]...)
		b.torn = append(b.torn, c.torn...)
		b.box.join(&c.box)
	}
	b.count = len(a.facets) - b.first
	a.bodies = append(a.bodies, b)
}

// face finds how a facet is seen along the axes, and along which best. It
// reports false for one without area.
func (a *arrangement) face(f *facet) bool {
	p, q, r := &a.at[f.v[0]], &a.at[f.v[1]], &a.at[f.v[2]]
	bx, by, bz := q[0]-p[0], q[1]-p[1], q[2]-p[2]
	cx, cy, cz := r[0]-p[0], r[1]-p[1], r[2]-p[2]
	var area [3]float64
	f.seen, area[0] = f.seenAlong(0, by*cz, bz*cy)
	f.seen, area[1] = f.seenAlong(1, bz*cx, bx*cz)
	f.seen, area[2] = f.seenAlong(2, bx*cy, by*cx)
	best := 0
	for k := range area {
		if area[k] > area[best] {
			best = k
		}
	}
	if now := f.seen >> best; now&(1|1<<3) != 0 {
		f.axis, f.back = uint8(best), now&1 == 0
		return true
	}
	for k := range 3 { // the best by float64 may be none
		f.axis = uint8((best + k) % 3)
		if s := a.turn(f.axis, f.v[0], f.v[1], f.v[2]); s != 0 {
			f.back = s < 0
			return true
		}
	}
	return false
}

// seenAlong enters how a facet is seen along an axis, given the two products
// whose difference is twice the area of its shadow, and returns that area.
func (f *facet) seenAlong(axis uint8, x, y float64) (seen uint8, area float64) {
	det, bound := x-y, turnError*(math.Abs(x)+math.Abs(y))
	switch {
	case det > bound:
		return f.seen | 1<<axis, det
	case det < -bound:
		return f.seen | 1<<(3+axis), -det
	}
	return f.seen, math.Abs(det)
}

// side returns on which side of facet f's plane a spot lies: 1 in front of it.
func (a *arrangement) side(f *facet, v uint32) int {
	p, q, r, s := a.spotOf(f.v[0]), a.spotOf(f.v[1]), a.spotOf(f.v[2]), a.spotOf(v)
	return side(&p, &q, &r, &s)
}

// tall returns side for a tetrahedron of any four spots.
func (a *arrangement) tall(i, j, k, l uint32) int {
	p, q, r, s := a.spotOf(i), a.spotOf(j), a.spotOf(k), a.spotOf(l)
	return side(&p, &q, &r, &s)
}

// covers reports whether a facet covers a spot of its plane, its border
// counted in.
func (a *arrangement) covers(f *facet, v uint32) bool {
	for k := range 3 {
		s := a.turn(f.axis, f.v[k], f.v[(k+1)%3], v)
		if s != 0 && s < 0 != f.back {
			return false
		}
	}
	return true
}

// corner returns which corner of f a point is, -1 for none.
func (f *facet) corner(v uint32) int {
	for k := range f.v {
		if f.v[k] == v {
			return k
		}
	}
	return -1
}

// tree returns the tree over a solid's facets.
func (a *arrangement) treeOf(i int) *tree {
	b := &a.bodies[i]
	if b.tree == nil {
		b.tree = newTree(b.first, b.count, func(f uint32) box { return a.boxOf(f) })
	}
	return b.tree
}

func (a *arrangement) boxOf(f uint32) box {
	b := emptyBox()
	for _, v := range a.facets[f].v {
		b.add(&a.at[v])
	}
	return b
}
