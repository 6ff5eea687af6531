package meshfile

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/polygon"
)

const (
	// maxVertices is the most vertices read from one file: as many as MaxFacets
	// facets have that share none.
	maxVertices = 3 * MaxFacets
	// maxCorners is the most corners a face may have.
	maxCorners = 20_000
	// maxTests bounds the comparisons for cutting all faces into triangles:
	// a second or two.
	maxTests = 500_000_000
	// notFlat is how far a face may lie off its plane, as a share of its size,
	// and count as flat. Coordinates of six digits are better than that.
	notFlat = 1e-3
)

// builder makes a mesh from vertices and from faces that name them.
type builder struct {
	mesh    *mesh.Mesh
	corners []uint32 // of the face being read

	points []r3.Vec
	tests  int     // comparisons made
	few    int     // faces of fewer than three corners
	bent   int     // faces that are not flat
	doubt  float64 // volume that depends on how these are cut
}

// vertex takes a vertex, and returns what is wrong with it.
func (b *builder) vertex(p r3.Vec) (reason string) {
	for axis, x := range [3]float64{p.X, p.Y, p.Z} {
		if !(math.Abs(x) <= MaxCoordinate) { // so that NaN fails
			return (&badCoordinate{axis: axis, value: x}).reason()
		}
	}
	if len(b.mesh.Vertices) >= maxVertices {
		return fmt.Sprintf("more than the %d vertices that are read", maxVertices)
	}
	b.mesh.Vertices = append(b.mesh.Vertices, p)
	return ""
}

// begin begins a face.
func (b *builder) begin() { b.corners = b.corners[:0] }

// corner adds the vertex of that number, counted from zero, to the face, and
// returns what is wrong with it.
func (b *builder) corner(number int64) (reason string) {
	if number < 0 || number >= int64(len(b.mesh.Vertices)) {
		return fmt.Sprintf("it names vertex %d, and there are %d", number, len(b.mesh.Vertices))
	}
	if len(b.corners) >= maxCorners {
		return fmt.Sprintf("it has more than %d corners", maxCorners)
	}
	b.corners = append(b.corners, uint32(number))
	return ""
}

// end ends the face: it is cut into triangles if it has more than three
// corners. It returns what is wrong with it.
func (b *builder) end() (reason string) {
	c := b.corners
	m := b.mesh
	if len(m.Triangles)+len(c) > MaxFacets {
		return fmt.Sprintf("more than the %d facets that are read", MaxFacets)
	}
	switch {
	case len(c) < 3:
		b.few++
		return ""
	case len(c) == 3:
		m.Triangles = append(m.Triangles, [3]uint32{c[0], c[1], c[2]})
		return ""
	}
	b.points = slices.Grow(b.points[:0], len(c))
	for _, v := range c {
		b.points = append(b.points, m.Vertices[v])
	}
	f := polygon.New(b.points)
	bent := f.OffPlane > notFlat*f.Size
	left := maxTests - b.tests
	tris, ok := f.Triangulate(&left)
	b.tests = maxTests - left
	switch {
	case left < 0:
		return "it and the faces before it are too long and winding to be cut into triangles"
	case !ok, bent && f.Normal == (r3.Vec{}): // what it runs around one way, it runs around the other way too
		return "its outline crosses itself, so it cannot be cut into triangles"
	}
	m.Triangles = slices.Grow(m.Triangles, len(tris))
	for _, t := range tris {
		m.Triangles = append(m.Triangles, [3]uint32{c[t[0]], c[t[1]], c[t[2]]})
	}
	if bent {
		b.bent++
		b.doubt += between(&f)
	}
	return ""
}

// between returns the volume that may lie between two ways to cut a face: of
// four corners, the tetrahedron they span, else no more than what is within
// reach of the corners on both sides of the plane.
func between(f *polygon.Figure) float64 {
	slab := 2 * f.OffPlane * r3.Norm(f.Area)
	if len(f.Points) == 4 {
		return slab / 3
	}
	return slab
}

// warnings says what was odd about the faces.
func (b *builder) warnings() (all []string) {
	if b.few > 0 {
		all = append(all, fmt.Sprintf("faces with fewer than three corners were ignored: %d", b.few))
	}
	if b.bent > 0 {
		all = append(all, fmt.Sprintf("faces of four corners or more that are not flat: %d; how they are cut into triangles makes a difference of up to %s cubic units of volume: export triangles to be sure",
			b.bent, plain(b.doubt)))
	}
	return all
}

// plain shows a positive number to three digits, without an exponent where that
// can be read.
func plain(x float64) string {
	if x >= 100 && x < 1e12 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// joined warns of several solids in one file.
func joined(names []string, facets []int) []string {
	if len(names) < 2 {
		return nil
	}
	text := fmt.Sprintf("%d solids in one file, all read as one mesh:", len(names))
	const most = 8
	for i, name := range names[:min(most, len(names))] {
		if i > 0 {
			text += ","
		}
		text += fmt.Sprintf(" %q (%d facets)", name, facets[i])
	}
	if len(names) > most {
		text += fmt.Sprintf(" and %d more", len(names)-most)
	}
	return []string{text}
}
