package mesh

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// Split is a solid taken apart at a plane. It is immutable.
type Split struct {
	// Below and Above are the two pieces in the solid's own coordinates, each
	// closed by a face in the plane that counts as no surface. One that would
	// have no triangles is nil.
	Below, Above *Solid

	plane    Plane
	vertices []r3.Vec // the solid's, then those on the plane
	wet, dry faces
	rim      []rim
	cap      [][3]uint32 // over the cut face, its normal up
}

// faces are triangles of which those that are surface come first.
type faces struct {
	triangles [][3]uint32
	skin      int
}

// rim is one side of the cut face, in the direction in which the surface below
// runs along it.
type rim struct {
	from, to uint32
	skin     bool // it lies on the surface and not on an inner face
}

// Split takes the solid apart at a plane over its own coordinates, whose normal
// need not be of unit length. All integrals of the pieces add up to the
// solid's, surfaces included.
//
// The face that closes the pieces is made of triangles that may lie over one
// another with opposite signs where the cut face is not convex. That closes
// exactly whatever the cut looks like, holes and touching loops included, and
// all integrals are right; it is no surface to look at or to give to a builder:
// see [Split.Joined] for that.
func (s *Solid) Split(pl Plane) (*Split, error) {
	c := &Split{plane: pl, vertices: make([]r3.Vec, len(s.vertices), len(s.vertices)+len(s.vertices)/8)}
	for i := range s.vertices {
		c.vertices[i] = s.Vertex(i)
	}
	c.share(s)
	c.cap = cover(loopsOf(c.rim))
	var err error
	if c.Below, err = c.piece(c.wet, c.cap); err != nil {
		return nil, fmt.Errorf("below the cut: %w", err)
	}
	if c.Above, err = c.piece(c.dry, reversed(c.cap)); err != nil {
		return nil, fmt.Errorf("above the cut: %w", err)
	}
	return c, nil
}

// share gives every triangle to the side it is on, and parts those on both.
func (c *Split) share(s *Solid) {
	normal, offset := c.plane.Normal, c.plane.Height(s.origin)
	h := make([]float64, len(s.vertices))
	for i := range h {
		h[i] = height(normal, offset, s.vertices[i])
	}
	made := make(map[uint64]uint32) // the vertex on the plane by the edge it is on
	crossing := func(i, j uint32) uint32 {
		if !(h[i] < 0) {
			i, j = j, i
		}
		if h[j] == 0 { // the edge ends on the plane
			return j
		}
		key := uint64(i)<<32 | uint64(j)
		k, ok := made[key]
		if !ok {
			k = uint32(len(c.vertices))
			made[key] = k
			p, q := c.vertices[i], c.vertices[j]
			c.vertices = append(c.vertices, r3.Add(p, r3.Scale(h[i]/(h[i]-h[j]), r3.Sub(q, p))))
		}
		return k
	}
	for n, t := range s.triangles {
		if n == s.skin {
			c.wet.skin, c.dry.skin = len(c.wet.triangles), len(c.dry.triangles)
		}
		wet0, wet1, wet2 := h[t[0]] < 0, h[t[1]] < 0, h[t[2]] < 0
		switch {
		case wet0 && wet1 && wet2:
			c.wet.add(t)
			continue
		case !wet0 && !wet1 && !wet2:
			c.dry.add(t)
			continue
		}
		// Turn the corners so that the first is alone on its side.
		a, b, d := t[0], t[1], t[2]
		switch {
		case wet0 == wet2:
			a, b, d = t[1], t[2], t[0]
		case wet0 == wet1:
			a, b, d = t[2], t[0], t[1]
		}
		ab, ad := crossing(a, b), crossing(a, d)
		side, other := &c.wet, &c.dry
		edge := rim{ab, ad, n < s.skin}
		if !(h[a] < 0) {
			side, other = other, side
			edge.from, edge.to = ad, ab
		}
		side.add([3]uint32{a, ab, ad})
		other.add([3]uint32{ab, b, d})
		other.add([3]uint32{ab, d, ad})
		if ab != ad {
			c.rim = append(c.rim, edge)
		}
	}
	if s.skin == len(s.triangles) {
		c.wet.skin, c.dry.skin = len(c.wet.triangles), len(c.dry.triangles)
	}
}

// add adds a triangle unless two of its corners are one.
func (f *faces) add(t [3]uint32) {
	if t[0] != t[1] && t[1] != t[2] && t[2] != t[0] {
		f.triangles = append(f.triangles, t)
	}
}

// piece makes a solid of faces and what closes them, nil of none.
func (c *Split) piece(f faces, inner [][3]uint32) (*Solid, error) {
	if len(f.triangles) == 0 {
		return nil, nil
	}
	b := newBuilder(c.vertices)
	for _, t := range f.triangles {
		b.add(t, r3.Vec{})
	}
	for _, t := range inner {
		b.add(t, r3.Vec{})
	}
	return newPiece(b.vertices, b.triangles, f.skin)
}

// builder gathers triangles over the vertices that they use.
type builder struct {
	from      []r3.Vec
	number    [2][]uint32 // 1 + the new number of each vertex, as it is and moved
	vertices  []r3.Vec
	triangles [][3]uint32
}

func newBuilder(from []r3.Vec) *builder {
	return &builder{from: from, number: [2][]uint32{make([]uint32, len(from)), nil}}
}

// add adds a triangle moved by a vector. All moved ones are moved alike.
func (b *builder) add(t [3]uint32, by r3.Vec) {
	moved := 0
	if by != (r3.Vec{}) {
		moved = 1
	}
	b.triangles = append(b.triangles, [3]uint32{b.vertex(t[0], moved, by), b.vertex(t[1], moved, by), b.vertex(t[2], moved, by)})
}

// vertex returns the new number of a vertex as it is, or moved.
func (b *builder) vertex(i uint32, moved int, by r3.Vec) uint32 {
	if b.number[moved] == nil {
		b.number[moved] = make([]uint32, len(b.from))
	}
	n := &b.number[moved][i]
	if *n == 0 {
		b.vertices = append(b.vertices, r3.Add(b.from[i], by))
		*n = uint32(len(b.vertices))
	}
	return *n - 1
}

// wall adds the two triangles between a side of the cut face and its image
// moved by a vector.
func (b *builder) wall(e rim, by r3.Vec) {
	from, to := b.vertex(e.from, 0, r3.Vec{}), b.vertex(e.to, 0, r3.Vec{})
	far, near := b.vertex(e.to, 1, by), b.vertex(e.from, 1, by)
	b.triangles = append(b.triangles, [3]uint32{to, from, near}, [3]uint32{to, near, far})
}

// Prism returns the solid over which the cut face sweeps when it moves by a
// vector that leads upward, its two end faces counting as no surface. It is nil
// where the plane misses the solid.
func (c *Split) Prism(by r3.Vec) (*Solid, error) {
	if !(r3.Dot(by, c.plane.Normal) > 0) {
		return nil, fmt.Errorf("mesh: the cut face cannot be swept by %v, which does not lead away from what is below", by)
	}
	if len(c.rim) == 0 {
		return nil, nil
	}
	b := newBuilder(c.vertices)
	for _, skin := range []bool{true, false} {
		for _, e := range c.rim {
			if e.skin == skin {
				b.wall(e, by)
			}
		}
	}
	skin := 0
	for _, e := range c.rim {
		if e.skin {
			skin += 2
		}
	}
	for _, t := range reversed(c.cap) {
		b.add(t, r3.Vec{})
	}
	for _, t := range c.cap {
		b.add(t, by)
	}
	return newPiece(b.vertices, b.triangles, skin)
}

// Joined returns the solid with what is above the plane moved by a vector that
// leads upward, and walls between: one closed surface without inner faces, for
// taking back to CAD. Moved by zero it is the solid itself, its triangles
// parted along the plane.
func (c *Split) Joined(by r3.Vec) (*Solid, error) {
	if r3.Dot(by, c.plane.Normal) < 0 {
		return nil, fmt.Errorf("mesh: the upper piece cannot be moved by %v into the lower one", by)
	}
	b := newBuilder(c.vertices)
	for _, t := range c.wet.triangles {
		b.add(t, r3.Vec{})
	}
	if by != (r3.Vec{}) {
		for _, e := range c.rim {
			b.wall(e, by)
		}
	}
	for _, t := range c.dry.triangles {
		b.add(t, by)
	}
	return NewSolid(b.vertices, b.triangles)
}

// Mapped returns the solid with every vertex moved by f, which must be one map
// of space that is linear over each triangle. All of it counts as surface.
func (s *Solid) Mapped(f func(r3.Vec) r3.Vec) (*Solid, error) {
	vertices := make([]r3.Vec, len(s.vertices))
	for i := range vertices {
		vertices[i] = f(s.Vertex(i))
	}
	return NewSolid(vertices, append([][3]uint32(nil), s.triangles...))
}
