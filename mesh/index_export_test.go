package mesh

import (
	"unsafe"

	"gonum.org/v1/gonum/spatial/r3"
)

// BuildIndex builds the index of s whether it pays or not.
func (s *Solid) BuildIndex() { s.prepare.Do(func() { s.index.Store(newIndex(s)) }) }

// HasIndex reports whether s has an index.
func (s *Solid) HasIndex() bool { return s.index.Load() != nil }

// NewIndex builds an index of s and throws it away.
func NewIndex(s *Solid) { newIndex(s) }

// IndexBytes returns the memory that the index of s takes.
func (s *Solid) IndexBytes() int {
	x := s.index.Load()
	return cap(x.nodes)*int(unsafe.Sizeof(node{})) + cap(x.leaves)*int(unsafe.Sizeof(leaf{})) + cap(x.first)*4 + cap(x.corners)*8
}

// LeafVertices returns how many vertices a leaf of the index of s has in the
// mean.
func (s *Solid) LeafVertices() float64 {
	x := s.index.Load()
	vertices := 0
	for i := range x.leaves {
		vertices += int(x.leaves[i].count)
	}
	return float64(vertices) / float64(len(x.leaves))
}

// NodeBytes and LeafBytes are the sizes of an index's pieces.
const (
	NodeBytes = unsafe.Sizeof(node{})
	LeafBytes = unsafe.Sizeof(leaf{})
)

// Straight cuts by the straight pass, whether there is an index or not.
func (p Placed) Straight(pl Plane, about r3.Vec) Section {
	normal, offset := p.local(pl)
	sec, apex := p.Solid.below(normal, offset)
	return sec.linear(p.Place, normal).Shift(r3.Sub(p.image(apex), about))
}

// Visited returns how many triangles a cut by the index visits.
func (p Placed) Visited(pl Plane) int {
	_, _, n := p.Solid.index.Load().below(p.local(pl))
	return n
}

// StraightWetArea returns what WetArea does, by a straight pass.
func (p Placed) StraightWetArea(pl Plane) float64 { return p.wetArea(p.local(pl)) }

// Tried returns how many points Lowest tries with the index.
func (p Placed) Tried(up r3.Vec) int {
	l := lowest{up: p.Place.Covector(up), height: 1e300}
	x := p.Solid.index.Load()
	x.lowest(x.root(), &l)
	return l.tried
}

// Straddling holds the triangles that one plane parts, side by side.
type Straddling struct {
	normal    r3.Vec
	offset    float64
	triangles [][3]r3.Vec
}

// Straddling collects the triangles that pl parts.
func (p Placed) Straddling(pl Plane) *Straddling {
	s := new(Straddling)
	s.normal, s.offset = p.local(pl)
	v := p.Solid.vertices
	for _, t := range p.Solid.triangles {
		wet := 0
		for _, i := range t {
			wet += int(mark(height(s.normal, s.offset, v[i])))
		}
		if wet == 1 || wet == 2 {
			s.triangles = append(s.triangles, [3]r3.Vec{v[t[0]], v[t[1]], v[t[2]]})
		}
	}
	return s
}

// Len returns how many triangles there are.
func (s *Straddling) Len() int { return len(s.triangles) }

// Cut adds the wet parts of the triangles: what any cut has to do at least.
func (s *Straddling) Cut() Section {
	c := newCut(s.normal, s.offset)
	for i := range s.triangles {
		t := &s.triangles[i]
		p, q, r := c.local(&t[0]), c.local(&t[1]), c.local(&t[2])
		c.mixed(p, q, r, mark(p.Z)|mark(q.Z)<<1|mark(r.Z)<<2)
	}
	return c.section()
}

// Partition sorts values as the index sorts places, and returns whether the n
// least come first and none was lost.
func Partition(values []float32, n int) (first, rest []float32) {
	p := make([]place, len(values))
	for i, v := range values {
		p[i] = place{at: [3]float32{1: v}, triangle: uint32(i)}
	}
	partition(p, n, 1)
	seen := make([]bool, len(values))
	for i := range p {
		if seen[p[i].triangle] {
			panic("a place is there twice")
		}
		seen[p[i].triangle] = true
		if i < n {
			first = append(first, p[i].at[1])
		} else {
			rest = append(rest, p[i].at[1])
		}
	}
	return first, rest
}
