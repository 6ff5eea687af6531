package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Mesh is a set of triangles as read from a file: it may be open, inverted,
// doubled or worse. Triangles hold indices into Vertices, anticlockwise seen
// from outside where the file keeps to that habit. A reader of a format
// without shared vertices gives three of their own to each triangle; welding
// is left to package mend.
type Mesh struct {
	Name      string   // where it came from, for messages
	Vertices  []r3.Vec // in the file's own unit and axes
	Triangles [][3]uint32
	// Unit is the length of one file unit in meters where the format states
	// it, zero where it does not (as in STL).
	Unit float64
}

// Triangle returns the three corners of triangle i.
func (m *Mesh) Triangle(i int) r3.Triangle {
	t := m.Triangles[i]
	return r3.Triangle{m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]}
}
