package mesh

import (
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/parts"
)

// Solid is a closed, oriented set of triangles in the coordinates of the file
// it came from. It is immutable and safe for concurrent use; where it sits on
// a craft is said by a [Placed], never by a changed copy.
//
// All that is asked of the triangles is that they form a closed chain: every
// directed edge is met by as many of its reverse. Shells may be many, touch or
// cross; each region counts as often as the surface winds around it.
type Solid struct {
	// origin is subtracted from every vertex. It is the middle of the box,
	// rounded to float32, so that the subtraction is exact for vertices that
	// came from float32 within 2^29 of their size from zero: what the file
	// says is kept wherever its own origin lies.
	origin    r3.Vec
	vertices  []r3.Vec // relative to origin
	triangles [][3]uint32
	// skin is how many of the triangles, the first ones, are surface. The
	// others close a piece against the other pieces of the same body.
	skin    int
	box     r3.Box  // relative to origin
	whole   Section // of all of it, about origin
	area    float64 // of the skin
	skinArm r3.Vec  // first moment of that area, about origin

	prepare sync.Once
	index   atomic.Pointer[index] // nil before Prepare finds it worth building
}

// NewSolid returns the solid bounded by the triangles, whose three indices run
// anticlockwise seen from outside. It takes both slices over: they must not be
// changed afterwards. It fails when an index is out of range, a coordinate is
// not finite, the triangles do not form a closed chain, or the volume they
// enclose is not positive.
func NewSolid(vertices []r3.Vec, triangles [][3]uint32) (*Solid, error) {
	s, err := newPiece(vertices, triangles, len(triangles))
	if err == nil && !(s.whole.Volume > 0) {
		return nil, fmt.Errorf("mesh: the enclosed volume is %g, it must be positive: is the surface inside out?", s.whole.Volume)
	}
	return s, err
}

// newPiece is NewSolid for a piece of a body, of which only the first skin
// triangles are surface. A piece may be so flat that it has no volume.
func newPiece(vertices []r3.Vec, triangles [][3]uint32, skin int) (*Solid, error) {
	if len(triangles) == 0 {
		return nil, fmt.Errorf("mesh: no triangles")
	}
	box, err := boundingBox(vertices)
	if err != nil {
		return nil, err
	}
	if err := checkClosed(triangles, len(vertices)); err != nil {
		return nil, err
	}
	mid := box.Center()
	s := &Solid{
		origin:    r3.Vec{X: float64(float32(mid.X)), Y: float64(float32(mid.Y)), Z: float64(float32(mid.Z))},
		vertices:  vertices,
		triangles: triangles,
		skin:      skin,
	}
	for i, v := range vertices {
		vertices[i] = r3.Sub(v, s.origin)
	}
	s.box = r3.Box{Min: r3.Sub(box.Min, s.origin), Max: r3.Sub(box.Max, s.origin)}
	s.sumWhole()
	return s, nil
}

// boundingBox returns the smallest box that holds all vertices.
func boundingBox(vertices []r3.Vec) (r3.Box, error) {
	inf := math.Inf(1)
	box := r3.Box{Min: r3.Vec{X: inf, Y: inf, Z: inf}, Max: r3.Vec{X: -inf, Y: -inf, Z: -inf}}
	for i, v := range vertices {
		if d := v.X - v.X + v.Y - v.Y + v.Z - v.Z; d != 0 { // NaN for NaN and infinities alike
			return r3.Box{}, fmt.Errorf("mesh: vertex %d is not finite: %v", i, v)
		}
		box.Min = r3.Vec{X: min(box.Min.X, v.X), Y: min(box.Min.Y, v.Y), Z: min(box.Min.Z, v.Z)}
		box.Max = r3.Vec{X: max(box.Max.X, v.X), Y: max(box.Max.Y, v.Y), Z: max(box.Max.Z, v.Z)}
	}
	return box, nil
}

// checkClosed reports an error unless the triangles are a closed chain. Each
// directed edge adds a 64-bit hash of its two ends, its reverse takes the same
// away; the sum is zero for a closed chain, and for an open one with a chance
// of 2^-64. That needs no memory; where the holes are is for package mend to
// find.
func checkClosed(triangles [][3]uint32, vertices int) error {
	var sum atomic.Uint64
	var bad atomic.Int64 // the first triangle that names a vertex too many
	bad.Store(int64(len(triangles)))
	parts.Do(len(triangles), func(from, to int) {
		var part uint64
		for i, t := range triangles[from:to] {
			if int(max(t[0], t[1], t[2])) >= vertices {
				for i := int64(from + i); ; {
					if least := bad.Load(); least <= i || bad.CompareAndSwap(least, i) {
						return
					}
				}
			}
			for k := range 3 {
				a, b := t[k], t[(k+1)%3]
				if a < b {
					part += mix(uint64(a)<<32 | uint64(b))
				} else if a > b {
					part -= mix(uint64(b)<<32 | uint64(a))
				}
			}
		}
		sum.Add(part)
	})
	if i := bad.Load(); i < int64(len(triangles)) {
		t := triangles[i]
		for _, v := range t {
			if int(v) >= vertices {
				return fmt.Errorf("mesh: triangle %d names vertex %d of %d", i, v, vertices)
			}
		}
	}
	if sum.Load() != 0 {
		return fmt.Errorf("mesh: the %d triangles do not close: some edge has no partner", len(triangles))
	}
	return nil
}

// mix is the output function of SplitMix64 (Steele, Lea and Flood, "Fast
// splittable pseudorandom number generators", OOPSLA 2014).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// block is how many triangles are summed on their own before the sum joins the
// total. Two levels of summation keep the rounding error of a million terms
// near that of a thousand.
const block = 1024

// sumWhole sets the integrals over the whole solid. The blocks are summed at
// once but joined in order, so that the sum is the same whoever summed them.
func (s *Solid) sumWhole() {
	type sums struct {
		wet  Section
		skin surface
	}
	blocks := make([]sums, (len(s.triangles)+block-1)/block)
	parts.Blocks(len(blocks), block, func(from, to int) {
		for n := from; n < to; n++ {
			var part cut // with its apex at zero
			b := &blocks[n]
			for i := n * block; i < min((n+1)*block, len(s.triangles)); i++ {
				t := s.triangles[i]
				p, q, r := &s.vertices[t[0]], &s.vertices[t[1]], &s.vertices[t[2]]
				part.below(p, q, r)
				if i < s.skin {
					b.skin.add(r3.Norm(r3.Cross(r3.Sub(*q, *p), r3.Sub(*r, *p)))/2, *p, *q, *r)
				}
			}
			b.wet.Volume, b.wet.Moment = part.wet.volume(), part.wet.moment()
		}
	})
	for i := range blocks {
		b := &blocks[i]
		s.whole.Volume += b.wet.Volume
		s.whole.Moment = r3.Add(s.whole.Moment, b.wet.Moment)
		s.area += b.skin.area
		s.skinArm = r3.Add(s.skinArm, b.skin.arm)
	}
}

// tetrahedra sums signed tetrahedra that share the apex zero.
type tetrahedra struct {
	six  float64 // six times the volume
	four r3.Vec  // 24 times the first moment
}

// add adds the tetrahedron on the triangle a, b, c.
func (t *tetrahedra) add(a, b, c r3.Vec) {
	six := a.X*(b.Y*c.Z-b.Z*c.Y) + a.Y*(b.Z*c.X-b.X*c.Z) + a.Z*(b.X*c.Y-b.Y*c.X)
	t.six += six
	t.four.X += six * (a.X + b.X + c.X)
	t.four.Y += six * (a.Y + b.Y + c.Y)
	t.four.Z += six * (a.Z + b.Z + c.Z)
}

// join adds what u has summed.
func (t *tetrahedra) join(u tetrahedra) {
	t.six += u.six
	t.four = r3.Add(t.four, u.four)
}

// remove takes out what u has summed.
func (t *tetrahedra) remove(u tetrahedra) {
	t.six -= u.six
	t.four = r3.Sub(t.four, u.four)
}

func (t *tetrahedra) volume() float64 { return t.six / 6 }
func (t *tetrahedra) moment() r3.Vec  { return r3.Scale(1.0/24, t.four) }

// Triangles returns the number of triangles.
func (s *Solid) Triangles() int { return len(s.triangles) }

// Triangle returns the corners of triangle i in the file's coordinates.
func (s *Solid) Triangle(i int) r3.Triangle {
	t := s.triangles[i]
	return r3.Triangle{s.Vertex(int(t[0])), s.Vertex(int(t[1])), s.Vertex(int(t[2]))}
}

// Surface returns how many of the triangles are surface: the first ones. They
// are all of them but for a piece from [Solid.Split], whose others are faces
// toward its fellow pieces, where there is neither skin nor water.
func (s *Solid) Surface() int { return s.skin }

// Corners returns the vertex numbers of triangle i.
func (s *Solid) Corners(i int) [3]uint32 { return s.triangles[i] }

// Vertices returns the number of vertices.
func (s *Solid) Vertices() int { return len(s.vertices) }

// Vertex returns vertex i in the file's coordinates.
func (s *Solid) Vertex(i int) r3.Vec { return r3.Add(s.vertices[i], s.origin) }

// Volume returns the enclosed volume in the file's unit cubed.
func (s *Solid) Volume() float64 { return s.whole.Volume }

// Area returns the area of the surface in the file's unit squared.
func (s *Solid) Area() float64 { return s.area }

// Centroid returns the centroid of the enclosed volume in the file's
// coordinates. A piece without volume has the middle of its box instead.
func (s *Solid) Centroid() r3.Vec {
	if s.whole.Volume == 0 {
		return s.origin
	}
	return r3.Add(s.origin, r3.Scale(1/s.whole.Volume, s.whole.Moment))
}

// Box returns the smallest box along the file's axes that holds the solid.
func (s *Solid) Box() r3.Box {
	return r3.Box{Min: r3.Add(s.box.Min, s.origin), Max: r3.Add(s.box.Max, s.origin)}
}
