package meshfile

import (
	"archive/zip"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/hschendel/stl"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/parts"
)

// readCase is a file that must be read, with what must come out.
type readCase struct {
	name     string
	data     string
	format   string
	solids   []string
	warnings []string // the beginning of each
	facets   []r3.Triangle
}

func (c *readCase) run(t *testing.T) {
	f, err := read([]byte(c.data))
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	if f.Mesh.Name != "float.stl" || f.Mesh.Unit != 0 {
		t.Errorf("mesh name %q, unit %g, want float.stl, 0", f.Mesh.Name, f.Mesh.Unit)
	}
	if f.Format != c.format {
		t.Errorf("format %q, want %q", f.Format, c.format)
	}
	if diff := cmp.Diff(c.solids, f.Solids); diff != "" {
		t.Errorf("solids (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(c.facets, facetsOf(f)); diff != "" {
		t.Errorf("facets (-want +got):\n%s", diff)
	}
	for i, tri := range f.Mesh.Triangles {
		k := uint32(3 * i)
		if want := [3]uint32{k, k + 1, k + 2}; tri != want {
			t.Errorf("triangle %d has vertices %v, want %v", i, tri, want)
		}
	}
	if len(f.Warnings) != len(c.warnings) {
		t.Fatalf("warnings %q, want %q", f.Warnings, c.warnings)
	}
	for i, w := range c.warnings {
		if !strings.HasPrefix(f.Warnings[i], w) {
			t.Errorf("warning %q, want %q", f.Warnings[i], w)
		}
	}
}

// errorCase is a file that must be refused.
type errorCase struct {
	name string
	data string
	want string // the whole message behind the path
}

func (c *errorCase) run(t *testing.T) {
	f, err := read([]byte(c.data))
	if err == nil {
		t.Fatalf("read: %d facets, want error %q", len(f.Mesh.Triangles), c.want)
	}
	var e *Error
	if !errors.As(err, &e) {
		t.Errorf("read: error of type %T, want *Error", err)
	}
	if want := "in/float.stl: " + c.want; err.Error() != want {
		t.Errorf("read:\n got %s\nwant %s", err, want)
	}
}

func TestNotRead(t *testing.T) {
	const export = ", which is not read; export the mesh as STL, 3MF, OBJ or PLY"
	const surfaces = ", which is not read; it holds surfaces, not triangles: export it as 3MF or STL from the program that made it"
	binary := strings.Repeat("\x00", 99)
	for _, c := range []errorCase{
		{"empty", "", "the file is empty; export the mesh again"},
		{"blank", " \n\t\r\n", "the file holds nothing but blanks; export the mesh again"},
		{"short", "\x00\x01\x02", "not STL, 3MF, OBJ or PLY: it has 3 bytes, and a binary STL file at least 84; export the mesh again"},
		{"text", "Dear all,\nthe float is 12 cm wide.\n", `not STL, 3MF, OBJ or PLY: it begins with "Dear all,"; export the mesh as STL, 3MF, OBJ or PLY`},
		{"solidus", "solidus 12\nfacet", `not STL, 3MF, OBJ or PLY: it begins with "solidus 12"; export the mesh as STL, 3MF, OBJ or PLY`},
		{"vowels", "v is a letter\n", `not STL, 3MF, OBJ or PLY: it begins with "v is a letter"; export the mesh as STL, 3MF, OBJ or PLY`},
		{"script", "# a script\nprint 1\n", `not STL, 3MF, OBJ or PLY: it begins with "# a script"; export the mesh as STL, 3MF, OBJ or PLY`},
		{"zip", string(pack3MF(zip.Store)), "it looks like a zip archive, which is not read; unpack it and name the mesh file inside"},
		{"gzip", "\x1f\x8b\x08\x00" + binary, "it looks like a compressed archive, which is not read; unpack it and name the mesh file inside"},
		{"step", "ISO-10303-21;\nHEADER;\n", "it looks like a STEP file" + surfaces},
		{"iges", strings.Repeat(" ", 72) + "S      1\n", "it looks like an IGES file" + surfaces},
		{"dwg", "AC1032\x00" + binary, "it looks like a DWG drawing" + surfaces},
		{"html", "\n<!DOCTYPE html>\n<html>", "it looks like a web page (HTML), which is not read; probably the page shown instead of the download: download the file itself"},
		{"amf", "<?xml version=\"1.0\"?>\n<amf unit=\"millimeter\">", "it looks like an AMF file" + export},
		{"model of a 3mf", model3MF("", "", "").content, "it looks like the inside of a 3MF file, which is not read; name the 3MF file itself"},
		{"collada", "<?xml version=\"1.0\"?>\n<COLLADA>", "it looks like a scene in XML (COLLADA or X3D)" + export},
		{"svg", "<svg>", "it looks like an XML file" + export},
		{"off", "OFF\n8 6 12\n", "it looks like an OFF file" + export},
		{"binary gltf", "glTF\x02\x00\x00\x00" + binary, "it looks like a binary glTF file" + export},
		{"gltf", "{\n  \"asset\": {\"version\": \"2.0\"}}", "it looks like a glTF file" + export},
		{"json", "[1, 2]", "it looks like a JSON file" + export},
		{"fbx", "Kaydara FBX Binary  \x00" + binary, "it looks like an FBX file" + export},
		{"vrml", "#VRML V2.0 utf8\n", "it looks like a VRML scene" + export},
		{"vtk", "# vtk DataFile Version 3.0\n", "it looks like a VTK file" + export},
		{"dxf", "  0\r\nSECTION\r\n  2\r\nHEADER\r\n", "it looks like a DXF drawing" + export},
		{"g-code", "; sliced\nG28 ; home\nG1 X1\n", "it looks like a program for a machine (G-code), which is not read; name the mesh that it was made from"},
		{"utf-16", "\xff\xfes\x00o\x00l\x00i\x00d\x00 \x00", "it looks like text in UTF-16, which is not read; save it as plain ASCII or UTF-8 text"},
	} {
		t.Run(c.name, c.run)
	}
}

func TestReadPath(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		path, want string
		is         error
	}{
		{dir + "/missing.stl", "no such file; check the name and the folder", fs.ErrNotExist},
		{dir, "is a folder, not a mesh file; name a file in it", nil},
		{os.DevNull, "is not a regular file; save the mesh to a file first", nil},
	} {
		_, err := Read(c.path)
		if err == nil || err.Error() != c.path+": "+c.want {
			t.Errorf("Read(%s): %v, want %s", c.path, err, c.want)
		}
		if c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("Read(%s): %v does not wrap %v", c.path, err, c.is)
		}
	}

	path := filepath.Join(dir, "wing.txt")
	if err := os.WriteFile(path, binarySTL("", 4, tetrahedron), 0o666); err != nil {
		t.Fatal(err)
	}
	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	if f.Mesh.Name != "wing.txt" {
		t.Errorf("Read: mesh name %q, want wing.txt", f.Mesh.Name)
	}
	if diff := cmp.Diff(tetrahedron, facetsOf(f)); diff != "" {
		t.Errorf("Read: facets (-want +got):\n%s", diff)
	}
}

// TestAgreesWithLibrary compares files large enough for several batches and
// several goroutines with what the library makes of them by itself.
func TestAgreesWithLibrary(t *testing.T) {
	const n = 6*parts.Least + 17
	facets := make([]r3.Triangle, n)
	for i := range facets {
		facets[i] = strip(i)
	}
	for name, data := range map[string][]byte{
		"binary": binarySTL("strip", n, facets),
		"ascii":  []byte(asciiSTL("strip", facets[:2*batchFacets+17])),
	} {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		solid, err := stl.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Read(path)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Mesh.Triangles) != len(solid.Triangles) {
			t.Fatalf("%s: %d facets, want %d", name, len(f.Mesh.Triangles), len(solid.Triangles))
		}
		for i := range solid.Triangles {
			got := f.Mesh.Triangle(i)
			for k, v := range solid.Triangles[i].Vertices {
				if want := (r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}); got[k] != want {
					t.Fatalf("%s: facet %d corner %d is %v, want %v", name, i, k, got[k], want)
				}
			}
		}
	}
}

// TestMemory reads small files that announce much.
func TestMemory(t *testing.T) {
	for name, data := range map[string][]byte{
		"count 2^32-1":      binarySTL("", 1<<32-1, tetrahedron),
		"count MaxFacets":   binarySTL("", MaxFacets, tetrahedron),
		"count of MaxInt32": binarySTL("", 1<<31-1, nil),
		"endless word":      []byte("solid " + strings.Repeat("x", 1<<20)),
		"endless blanks":    []byte("solid x" + strings.Repeat("\n", 1<<20)),
		"endless name":      []byte("solid " + strings.Repeat("x ", 1<<20)),
		"faces in PLY":      []byte("ply\nformat binary_big_endian 1.0\nelement face 4294967295\nproperty list uchar int vertex_indices\nend_header\n\x03"),
		"elements in PLY":   []byte("ply\nformat ascii 1.0\nelement vertex 4294967295\nproperty float x\nproperty float y\nproperty float z\nend_header\n0 0 0\n"),
		"nothings in PLY":   []byte("ply\nformat ascii 1.0\nelement nothing 4294967295\nend_header\n"),
		"a list in PLY": []byte("ply\nformat binary_big_endian 1.0\nelement thing 1\nproperty list uint double of\nend_header\n\xff\xff\xff\xff" +
			strings.Repeat("\x00", 8)),
		"a bomb":          pack3MF(zip.Deflate, partOf{"3D/3dmodel.model", strings.Repeat(" ", 20<<20)}),
		"endless line":    []byte("v 0 0 0\n" + strings.Repeat("# ", 1<<19)),
		"endless polygon": []byte("v 0 0 0\nf" + strings.Repeat(" 1", 1<<19)),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := read(data)
		runtime.ReadMemStats(&after)
		if err == nil {
			t.Errorf("%s: read, want an error", name)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 1<<20 {
			t.Errorf("%s: took %d bytes of memory, want at most 1 MB", name, used)
		}
	}
}

func TestSHA256(t *testing.T) {
	// The sum of "abc" is the first example of FIPS 180-2, appendix B.1.
	const want = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	path := filepath.Join(t.TempDir(), "abc")
	if err := os.WriteFile(path, []byte("abc"), 0o666); err != nil {
		t.Fatal(err)
	}
	got, err := SHA256(path)
	if err != nil || got != want {
		t.Errorf("SHA256(abc): %q, %v, want %q", got, err, want)
	}
	if _, err := SHA256(path + "d"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("SHA256(missing): %v, want %v", err, fs.ErrNotExist)
	}
}
