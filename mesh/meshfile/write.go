package meshfile

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/hschendel/stl"
	"gonum.org/v1/gonum/spatial/r3"
)

// WriteSTL writes n triangles as a binary STL file, triangle(i) for each i from
// zero, its corners anticlockwise seen from outside. The name goes into the
// header, in ASCII and cut to 80 bytes. Coordinates are rounded to float32, the
// only kind STL has; the normals are those of the rounded triangles, zero for
// one without area. For a mesh:
//
//	meshfile.WriteSTL(w, m.Name, len(m.Triangles), m.Triangle)
//
// It fails on what [Read] would refuse: no triangles or more than MaxFacets,
// coordinates that are not finite or beyond MaxCoordinate. Such errors are of
// type *Error with the name as path; errors of w are returned as they are.
func WriteSTL(w io.Writer, name string, n int, triangle func(i int) r3.Triangle) error {
	if n <= 0 {
		return &Error{Path: name, Facet: -1, Reason: "nothing to write: the mesh has no triangles"}
	}
	if n > MaxFacets {
		return &Error{Path: name, Facet: -1, Reason: fmt.Sprintf("%d triangles are more than the %d that are written to one file", n, MaxFacets)}
	}
	solid := stl.Solid{Name: header(name), Triangles: make([]stl.Triangle, n)}
	for i := range solid.Triangles {
		t, bad := rounded(triangle(i))
		if bad != nil {
			return &Error{Path: name, Facet: i, Reason: bad.reason()}
		}
		solid.Triangles[i] = t
	}
	buf := bufio.NewWriterSize(w, 1<<16)
	if err := solid.WriteAll(buf); err != nil {
		return err
	}
	return buf.Flush()
}

// rounded returns the triangle as STL can hold it, or a coordinate it cannot.
func rounded(t r3.Triangle) (stl.Triangle, *badCoordinate) {
	var out stl.Triangle
	for corner, p := range t {
		for axis, x := range [3]float64{p.X, p.Y, p.Z} {
			if !(math.Abs(x) <= MaxCoordinate) {
				return out, &badCoordinate{corner: corner, axis: axis, value: x}
			}
			f := float32(x)
			out.Vertices[corner][axis] = f
		}
		v := out.Vertices[corner]
		t[corner] = r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}
	}
	normal := r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0]))
	if length := r3.Norm(normal); length > 0 {
		out.Normal = stl.Vec3{float32(normal.X / length), float32(normal.Y / length), float32(normal.Z / length)}
	}
	return out, nil
}

// header returns the name as the header of a binary file. It must not begin
// with the word solid, by which many readers tell an ASCII file.
func header(name string) string {
	s := strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '_'
		}
		return r
	}, clean([]byte(name)))
	if len(s) >= 5 && strings.EqualFold(s[:5], "solid") {
		s = "STL " + s
	}
	return strings.TrimSpace(s[:min(len(s), 80)])
}
