package meshfile

import (
	"bytes"
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// FuzzRead checks that no file can do harm: no panic, memory bounded by the
// file's size, only finite coordinates, only errors of type *Error on one line.
// What was read must survive writing and reading, bit by bit.
func FuzzRead(f *testing.F) {
	plain := binarySTL("float", 4, tetrahedron)
	text := asciiSTL("float", tetrahedron)
	f.Add(plain)
	f.Add(append(slices.Clone(plain), 0, 0))
	f.Add(binarySTL("solid", 1<<32-1, tetrahedron))
	f.Add([]byte(text))
	f.Add([]byte(strings.ReplaceAll(strings.ToUpper(text), "\n", "\r\n") + text))
	f.Add([]byte(strings.ReplaceAll(text, "\n", " ")))
	f.Fuzz(func(t *testing.T, data []byte) {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		file, err := read(data)
		runtime.ReadMemStats(&after)
		// The buffers; and some 300 bytes for each facet of 50 or more.
		if used := after.TotalAlloc - before.TotalAlloc; used > uint64(1<<20+20*len(data)) {
			t.Errorf("read of %d bytes took %d bytes of memory", len(data), used)
		}
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Errorf("error of type %T: %v", err, err)
			}
			if strings.ContainsAny(err.Error(), "\n\r\x1b\x00") {
				t.Errorf("error not fit to print: %q", err)
			}
			return
		}
		m := file.Mesh
		if n := len(m.Triangles); n == 0 || len(m.Vertices) != 3*n || binaryFacet*n > len(data) {
			t.Fatalf("read of %d bytes: %d triangles, %d vertices", len(data), n, len(m.Vertices))
		}
		for i, p := range m.Vertices {
			if !(math.Abs(p.X) <= MaxCoordinate && math.Abs(p.Y) <= MaxCoordinate && math.Abs(p.Z) <= MaxCoordinate) {
				t.Fatalf("read: vertex %d is %v", i, p)
			}
		}
		var first, second bytes.Buffer
		if err := WriteSTL(&first, file.Solids[0], len(m.Triangles), m.Triangle); err != nil {
			t.Fatal(err)
		}
		again, err := read(first.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Warnings) > 0 || again.Format != BinarySTL || !slices.Equal(m.Vertices, again.Mesh.Vertices) {
			t.Errorf("read(write(mesh)): %s, warnings %q, vertices equal %v", again.Format, again.Warnings, slices.Equal(m.Vertices, again.Mesh.Vertices))
		}
		if err := WriteSTL(&second, again.Solids[0], len(again.Mesh.Triangles), again.Mesh.Triangle); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Error("write(read(file)) is not the file")
		}
	})
}
