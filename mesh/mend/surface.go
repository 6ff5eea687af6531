package mend

import (
	"math"
	"math/rand/v2"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// surface is a closed set of triangles that is asked how it lies to others.
// What it takes to answer is worked out when first needed.
type surface struct {
	verts []r3.Vec
	tris  [][3]uint32
	box   box
	tree  *tree
	parts []uint32 // a triangle of each part connected over vertices
}

// shellSurface returns the surface of some triangles of the mesh.
func (w *work) shellSurface(list []uint32, b r3.Box) *surface {
	s := &surface{verts: w.verts, tris: make([][3]uint32, len(list)), box: fromR3(b)}
	for i, t := range list {
		s.tris[i] = w.tris[t]
	}
	return s
}

// placedSurface returns the surface of a placed solid, where it lies. Under a
// mirror its facets face inward; nothing here minds.
func placedSurface(p mesh.Placed) *surface {
	s := &surface{
		verts: make([]r3.Vec, p.Solid.Vertices()),
		tris:  make([][3]uint32, p.Solid.Triangles()),
		box:   emptyBox(),
	}
	for i := range s.verts {
		s.verts[i] = p.Place.Point(p.Solid.Vertex(i))
		s.box.add(s.verts[i])
	}
	for i := range s.tris {
		s.tris[i] = p.Solid.Corners(i)
	}
	return s
}

func (s *surface) triangle(t uint32) r3.Triangle {
	c := s.tris[t]
	return r3.Triangle{s.verts[c[0]], s.verts[c[1]], s.verts[c[2]]}
}

// index builds the tree.
func (s *surface) index() *tree {
	if s.tree == nil {
		s.tree = newTree(len(s.tris), func(i int) box {
			c := s.tris[i]
			return boxOf(s.verts[c[0]], s.verts[c[1]], s.verts[c[2]])
		})
	}
	return s.tree
}

// wholeParts returns one facet of each part.
func (s *surface) wholeParts() []uint32 {
	if s.parts == nil {
		s.parts = s.partsWithout(nil)
	}
	return s.parts
}

// partsWithout returns the largest facet of each part that stays connected
// over vertices when the touched facets are taken out.
func (s *surface) partsWithout(touched map[uint32]bool) []uint32 {
	sets := newSets(len(s.verts))
	for t, c := range s.tris {
		if !touched[uint32(t)] {
			sets.join(int(c[0]), int(c[1]))
			sets.join(int(c[1]), int(c[2]))
		}
	}
	type candidate struct {
		tri  uint32
		area float64
	}
	best := make(map[int]int) // from root to place in list
	var list []candidate
	for t, c := range s.tris {
		if touched[uint32(t)] {
			continue
		}
		a, _ := area(s.triangle(uint32(t)))
		root := sets.root(int(c[0]))
		i, ok := best[root]
		if !ok {
			best[root] = len(list)
			list = append(list, candidate{uint32(t), a})
		} else if a > list[i].area {
			list[i] = candidate{uint32(t), a}
		}
	}
	parts := make([]uint32, len(list))
	for i, c := range list {
		parts[i] = c.tri
	}
	return parts
}

// tries is how many lines are tried through a point before it is given up.
const tries = 8

// tilted returns a unit vector some way off n, so that the line along it is not
// parallel to other facets.
func tilted(n r3.Vec, random *rand.Rand) r3.Vec {
	off := r3.Vec{X: random.Float64() - 0.5, Y: random.Float64() - 0.5, Z: random.Float64() - 0.5}
	return unitVec(r3.Add(n, r3.Scale(0.3, off)))
}

// hit is where a line passes through a surface.
type hit struct {
	t    float64 // along the line
	turn int     // change of winding number
	lean float64 // cosine between line and facet normal, 0 to 1
}

// hits returns where the line through p along the unit vector d passes through
// the surface, in no order. It reports false when the line passes too near to
// an edge, or too flat, to be sure.
func (s *surface) hits(p, d r3.Vec) (list []hit, sure bool) {
	sure = true
	winding := 0
	s.index().line(p, d, func(t uint32) {
		tri := s.triangle(t)
		a, b, c := r3.Sub(tri[0], p), r3.Sub(tri[1], p), r3.Sub(tri[2], p)
		// On which side of each edge the line passes: six times the volume
		// of the tetrahedron on the edge and d.
		ab, ba := passes(d, a, b)
		bc, cb := passes(d, b, c)
		ca, ac := passes(d, c, a)
		if ab > ba && bc < -cb || ab < -ba && bc > cb || bc > cb && ca < -ac || bc < -cb && ca > ac || ca > ac && ab < -ba || ca < -ac && ab > ba {
			return // surely on different sides of two edges
		}
		n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
		area2 := norm(n)
		lean := r3.Dot(n, d)
		if math.Abs(ab) <= ba || math.Abs(bc) <= cb || math.Abs(ca) <= ac || math.Abs(lean) < flat*area2 {
			sure = false
			return
		}
		h := hit{t: r3.Dot(n, a) / lean, turn: 1, lean: math.Abs(lean) / area2}
		if lean > 0 {
			h.turn = -1 // out through a facet that faces along the line
		}
		winding += h.turn
		list = append(list, h)
	})
	return list, sure && winding == 0
}

// flat is the cosine between line and facet normal below which the place of a
// hit is not trusted.
const flat = 1e-4

// passes returns d.(a x b) and a bound on its rounding error, which also
// covers vertices that share an edge being rounded differently.
func passes(d, a, b r3.Vec) (x, bound float64) {
	return r3.Dot(d, r3.Cross(a, b)), 1e-14 * (math.Abs(a.X) + math.Abs(a.Y) + math.Abs(a.Z)) * (math.Abs(b.X) + math.Abs(b.Y) + math.Abs(b.Z))
}
