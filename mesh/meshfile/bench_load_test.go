package meshfile_test

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/hschendel/stl"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/bench"
	"millpond/mesh/mend"
	"millpond/mesh/meshfile"
)

// BenchmarkLoad: a binary STL file of a float, in the page cache: its bytes, its
// triangles by the STL library alone, its triangles as a checked mesh, and that
// welded into a closed solid. What is left of the one before is collected before
// each, untimed.
func BenchmarkLoad(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		m := bench.Float(size.Count)
		path := filepath.Join(b.TempDir(), "float.stl")
		corners := func(i int) r3.Triangle {
			t := m.Triangles[i]
			return r3.Triangle{m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]}
		}
		err := meshfile.WriteWhole(path, false, func(w io.Writer) error {
			return meshfile.WriteSTL(w, "float", len(m.Triangles), corners)
		})
		if err != nil {
			b.Fatal(err)
		}
		for _, by := range []struct {
			name string
			load func() (triangles int, err error)
		}{
			{"bytes", func() (int, error) {
				data, err := os.ReadFile(path)
				return (len(data) - 84) / 50, err
			}},
			{"library", func() (int, error) {
				s, err := stl.ReadFile(path)
				if err != nil {
					return 0, err
				}
				return len(s.Triangles), nil
			}},
			{"read", func() (int, error) {
				f, err := meshfile.Read(path)
				if err != nil {
					return 0, err
				}
				return len(f.Mesh.Triangles), nil
			}},
			{"read+close", func() (int, error) {
				f, err := meshfile.Read(path)
				if err != nil {
					return 0, err
				}
				r, err := mend.Close(f.Mesh, mend.Options{})
				if err != nil {
					return 0, err
				}
				return r.Solid.Triangles(), nil
			}},
		} {
			b.Run("by="+by.name, func(b *testing.B) {
				bench.Prepared(b, 1, func(int) func() {
					return func() {
						if n, err := by.load(); err != nil || n != len(m.Triangles) {
							b.Fatalf("%d triangles, %v; want %d", n, err, len(m.Triangles))
						}
					}
				})
			})
		}
	})
}
