package shape

import (
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// surface collects triangles and shares their vertices. Points with equal
// coordinates become one vertex, and a triangle two of whose corners are equal
// vanishes. Both of its open edges are then one edge there and back, so a
// closed surface stays closed: a ring of points may shrink to a line or to a
// single point, and the strip of quadrilaterals beside it becomes the right
// strip of triangles.
type surface struct {
	mesh  *mesh.Mesh
	index map[r3.Vec]uint32
}

func newSurface(name string) *surface {
	return &surface{&mesh.Mesh{Name: name}, make(map[r3.Vec]uint32)}
}

func (s *surface) vertex(p r3.Vec) uint32 {
	i, ok := s.index[p]
	if !ok {
		i = uint32(len(s.mesh.Vertices))
		s.index[p] = i
		s.mesh.Vertices = append(s.mesh.Vertices, p)
	}
	return i
}

// triangle adds a, b, c, anticlockwise seen from outside.
func (s *surface) triangle(a, b, c r3.Vec) {
	if a == b || b == c || c == a {
		return
	}
	s.mesh.Triangles = append(s.mesh.Triangles, [3]uint32{s.vertex(a), s.vertex(b), s.vertex(c)})
}

// quad adds the quadrilateral a, b, c, d, anticlockwise seen from outside, cut
// along its shorter diagonal. That choice is the same for a mirrored
// quadrilateral, so that a body with a plane of symmetry gets a mesh with one.
//
// A diagonal in the plane y = 0 is avoided: beside a sharp stem it would cut
// off a triangle lying in that plane, back to back with its mirror image.
func (s *surface) quad(a, b, c, d r3.Vec) {
	short := r3.Norm2(r3.Sub(c, a)) <= r3.Norm2(r3.Sub(d, b))
	if inPlane := a.Y == 0 && c.Y == 0; inPlane || b.Y == 0 && d.Y == 0 {
		short = !inPlane
	}
	if short {
		s.triangle(a, b, c)
		s.triangle(a, c, d)
	} else {
		s.triangle(a, b, d)
		s.triangle(b, c, d)
	}
}

// strip joins two rings of equally many points, both anticlockwise seen from
// the side on which ring b lies.
func (s *surface) strip(a, b []r3.Vec) {
	if len(a) != len(b) {
		panic("shape: rings of unequal length")
	}
	for i := range a {
		j := (i + 1) % len(a)
		s.quad(a[i], a[j], b[j], b[i])
	}
}

// fan closes a ring, anticlockwise seen from outside, with triangles about the
// mean of its points.
func (s *surface) fan(ring []r3.Vec) {
	if isLine(ring) {
		return
	}
	// Points are added in pairs, from the first one either way round, so that
	// the mean of a mirrored ring has y = 0 exactly.
	var mean r3.Vec
	n := len(ring)
	for i, p := range ring {
		mean = r3.Add(mean, r3.Add(p, ring[(n-i)%n]))
	}
	mean = r3.Scale(0.5/float64(n), mean)
	for i := range ring {
		s.triangle(ring[i], ring[(i+1)%len(ring)], mean)
	}
}

// isLine reports whether a ring encloses nothing because it runs along a line
// or a curve and back through the same points: then the strip beside it has
// already closed there.
func isLine(ring []r3.Vec) bool {
	edges := make(map[[2]r3.Vec]int)
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if p == q {
			continue
		}
		if edges[[2]r3.Vec{q, p}] > 0 {
			edges[[2]r3.Vec{q, p}]--
		} else {
			edges[[2]r3.Vec{p, q}]++
		}
	}
	for _, n := range edges {
		if n != 0 {
			return false
		}
	}
	return true
}

// Loft returns the body through the rings, closed at both ends. The rings have
// equally many points and follow each other in one direction (aft to forward,
// say); each is anticlockwise seen from the side of the rings after it (from
// ahead). A ring may shrink to a point, or to a line run along and back; such
// an end needs no cap, any other end gets a flat fan about the mean of its
// points, which must see all of them. Equal points within a ring are allowed.
//
// Four neighbouring points need not lie in a plane: the body is that of the
// triangles, each quadrilateral cut along its shorter diagonal.
func Loft(name string, rings ...[]r3.Vec) *mesh.Mesh {
	if len(rings) < 2 || len(rings[0]) < 3 {
		panic("shape: a loft needs two rings of three points")
	}
	s := newSurface(name)
	for i := 1; i < len(rings); i++ {
		s.strip(rings[i-1], rings[i])
	}
	s.fan(reversed(rings[0]))
	s.fan(rings[len(rings)-1])
	return s.mesh
}

// reversed returns the ring the other way round, from the same first point.
func reversed(ring []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(ring))
	for i, p := range ring {
		out[(len(ring)-i)%len(ring)] = p
	}
	return out
}
