package craftfile

import (
	"io/fs"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/meshfile"
	"millpond/mesh/shape"
)

// box returns a box between two corners given in millimeters.
func box(x0, y0, z0, x1, y1, z1 float64) *mesh.Mesh {
	return shape.BoxBetween(r3.Vec{X: x0, Y: y0, Z: z0}, r3.Vec{X: x1, Y: y1, Z: z1})
}

// library is the meshes that tests use, by file name. All are in millimeters
// unless the name says otherwise.
var library = map[string]func() *mesh.Mesh{
	"float.stl":  func() *mesh.Mesh { return box(-300, -40, 0, 300, 40, 80) },
	"wing.stl":   func() *mesh.Mesh { return box(-100, -700, 0, 100, 700, 20) },
	"hollow.stl": func() *mesh.Mesh { return shape.Join(brick(), shape.InsideOut(box(-90, -40, 10, 90, 40, 90))) },
	"filled.stl": func() *mesh.Mesh {
		return shape.Join(brick(), shape.InsideOut(box(-90, -40, 10, 90, 40, 90)), box(-80, -30, 20, 80, 30, 80))
	},
	"small.stl":      func() *mesh.Mesh { return box(-50, -20, 10, 50, 20, 60) },
	"brick.stl":      brick,
	"meters.stl":     func() *mesh.Mesh { return box(-0.3, -0.04, 0, 0.3, 0.04, 0.08) },
	"twisted.stl":    func() *mesh.Mesh { return shape.InsideOut(brick()) },
	"open.stl":       func() *mesh.Mesh { return shape.Without(brick(), 0) },
	"curved.stl":     curved,
	"cracked.stl":    cracked,
	"stated.unknown": func() *mesh.Mesh { m := brick(); m.Unit = 0.001; return m },
}

func brick() *mesh.Mesh { return box(-100, -50, 0, 100, 50, 100) }

// curved is a ball of 1 dm in radius without a cap.
func curved() *mesh.Mesh {
	m := shape.Transformed(shape.Icosphere(1, 4), mesh.Scaling(100, 100, 100))
	var cap []int
	for i := range m.Triangles {
		if c := m.Triangle(i).Centroid(); c.Z+0.2*c.X > 86 {
			cap = append(cap, i)
		}
	}
	return shape.Without(m, cap...)
}

// cracked is two halves of a brick, 0.02 mm apart, without the faces between.
func cracked() *mesh.Mesh {
	half := func(x0, x1, open float64) *mesh.Mesh {
		m := box(x0, -50, 0, x1, 50, 100)
		var inner []int
		for i := range m.Triangles {
			if t := m.Triangle(i); t[0].X == open && t[1].X == open && t[2].X == open {
				inner = append(inner, i)
			}
		}
		return shape.Without(m, inner...)
	}
	return shape.Join(half(-100, 0, 0), half(0.02, 100, 0.02))
}

// fromLibrary is the loader of tests: no file is touched.
func fromLibrary(path string) (*meshfile.File, string, error) {
	make, ok := library[filepath.Base(path)]
	if !ok {
		return nil, "", &meshfile.Error{Path: path, Facet: -1, Reason: "no such file", Hint: "check the name and the folder", Err: fs.ErrNotExist}
	}
	m := make()
	f := &meshfile.File{Mesh: m, Format: meshfile.BinarySTL, Solids: []string{""}}
	if filepath.Base(path) == "wing.stl" {
		f.Warnings = []string{"the file goes on behind its last facet"}
	}
	return f, "5um", nil
}

// mustRead reads a text that is without fault.
func mustRead(t *testing.T, text string) *File {
	t.Helper()
	f, err := read("boats/craft.toml", []byte(text), fromLibrary)
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	return f
}

// near fails the test when got is not want to 1e-12 of its size.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if d := got - want; d > 1e-12*max(1, want, -want) || d < -1e-12*max(1, want, -want) || d != d {
		t.Errorf("%s = %.17g, want %.17g", what, got, want)
	}
}

// nearVec is near for three numbers.
func nearVec(t *testing.T, what string, got, want r3.Vec) {
	t.Helper()
	if !(r3.Norm(r3.Sub(got, want)) <= 1e-12) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}
