package meshfile

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// FuzzRead checks that no file can do harm, above all those taken for STL.
func FuzzRead(f *testing.F) {
	plain := binarySTL("float", 4, tetrahedron)
	text := asciiSTL("float", tetrahedron)
	f.Add(plain)
	f.Add(append(slices.Clone(plain), 0, 0))
	f.Add(binarySTL("solid", 1<<32-1, tetrahedron))
	f.Add([]byte(text))
	f.Add([]byte(strings.ReplaceAll(strings.ToUpper(text), "\n", "\r\n") + text))
	f.Add([]byte(strings.ReplaceAll(text, "\n", " ")))
	f.Add([]byte(simple3MF("", object3MF(1, ""), `<item objectid="1"/>`)))
	f.Fuzz(func(t *testing.T, data []byte) { harmless(t, data) })
}

func FuzzOBJ(f *testing.F) {
	f.Add([]byte(objTetrahedron))
	f.Add([]byte(objText(box8, boxFaces)))
	f.Add([]byte("v 0 0 0\nf" + strings.Repeat(" 1", 20_000)))
	f.Add([]byte("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 \\\n 2// 3/1\nl 1 2\nf -1 -2 -3 -3\n"))
	f.Fuzz(func(t *testing.T, data []byte) { harmless(t, data) })
}

func FuzzPLY(f *testing.F) {
	f.Add([]byte(plyTetrahedronText()))
	f.Add([]byte(plyTetrahedron("binary_little_endian", binary.LittleEndian)))
	f.Add([]byte(plyTetrahedron("binary_big_endian", binary.BigEndian)))
	f.Fuzz(func(t *testing.T, data []byte) { harmless(t, data) })
}

// Fuzz3MF tries models. The archive around them is made here: its checksums
// would stop every change but these.
func Fuzz3MF(f *testing.F) {
	f.Add([]byte(model3MF("", object3MF(1, ""), `<item objectid="1"/>`).content))
	f.Add([]byte(model3MF(` unit="foot" xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06" requiredextensions="p"`,
		object3MF(1, ` name="a&amp;b" p:UUID="1"`)+`<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></components></object>`+
			"<!-- c --><basematerials id='9'><base name='a' displaycolor='#aabbccdd'/></basematerials>",
		`<item objectid="2"/><item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0" partnumber="7"><metadatagroup><metadata name="p:x">y</metadata></metadatagroup></item>`).content))
	f.Fuzz(func(t *testing.T, data []byte) {
		harmless(t, pack3MF(zip.Store, partOf{"3D/3dmodel.model", string(data)}))
	})
}

// harmless checks that a file does no harm: no panic, memory bounded by the
// file's size, only finite coordinates, only errors of type *Error on one line.
// What was read must survive writing and reading.
func harmless(t *testing.T, data []byte) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	file, err := read(data)
	runtime.ReadMemStats(&after)
	if used, most := after.TotalAlloc-before.TotalAlloc, mostMemory(data); used > most {
		t.Errorf("read of %d bytes took %d bytes of memory, want %d at most", len(data), used, most)
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
	if len(m.Triangles) == 0 {
		t.Fatal("read: no triangles and no error")
	}
	for i, tri := range m.Triangles {
		if int(max(tri[0], tri[1], tri[2])) >= len(m.Vertices) {
			t.Fatalf("read: triangle %d is %v of %d vertices", i, tri, len(m.Vertices))
		}
	}
	for i, p := range m.Vertices {
		if !(math.Abs(p.X) <= MaxCoordinate && math.Abs(p.Y) <= MaxCoordinate && math.Abs(p.Z) <= MaxCoordinate) {
			t.Fatalf("read: vertex %d is %v", i, p)
		}
	}
	for _, w := range append(file.Warnings, file.Solids...) {
		if strings.ContainsAny(w, "\n\r\x1b\x00") {
			t.Errorf("not fit to print: %q", w)
		}
	}
	stl := file.Format == BinarySTL || file.Format == ASCIISTL
	if n := len(m.Triangles); stl && (len(m.Vertices) != 3*n || binaryFacet*n > len(data)) {
		t.Fatalf("read of %d bytes: %d triangles, %d vertices", len(data), n, len(m.Vertices))
	}
	var first, second bytes.Buffer
	if err := WriteSTL(&first, "name", len(m.Triangles), m.Triangle); err != nil {
		t.Fatal(err)
	}
	again, err := read(first.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if len(again.Warnings) > 0 || again.Format != BinarySTL || stl && !slices.Equal(m.Vertices, again.Mesh.Vertices) {
		t.Errorf("read(write(mesh)): %s, warnings %q, vertices equal %v", again.Format, again.Warnings, slices.Equal(m.Vertices, again.Mesh.Vertices))
	}
	if err := WriteSTL(&second, "name", len(again.Mesh.Triangles), again.Mesh.Triangle); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("write(read(file)) is not the file")
	}
}

// mostMemory is how much may be allocated in all for a file, most of it not at
// the same time.
func mostMemory(data []byte) uint64 {
	n := uint64(len(data))
	if bytes.HasPrefix(data, []byte("PK")) {
		// Some instances of each facet, and what unpacks from little.
		return 100<<20 + 100*n
	}
	// The buffers; some 300 bytes for each facet of 50 or more in STL; for a
	// corner of a polygon, two bytes of text, some 100.
	return 1<<20 + 60*n
}
