package meshfile

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The files are made after Greg Turk, "The PLY Polygon File Format", 1994.

// plyHead makes a header for so many vertices and faces, with properties of
// each that are of no use here, and an element that is of none.
func plyHead(format string, vertices, faces int) string {
	return fmt.Sprintf("ply\nformat %s 1.0\ncomment made by hand\nelement camera 2\nproperty list uint8 double view\nproperty short n\n"+
		"element vertex %d\nproperty uchar red\nproperty float x\nproperty double y\nproperty float32 z\n"+
		"element face %d\nproperty list uchar int vertex_indices\nproperty list ushort int8 flags\nend_header\n", format, vertices, faces)
}

// plyText makes the tetrahedron as text.
func plyTetrahedronText() string {
	var b strings.Builder
	b.WriteString(plyHead("ascii", 4, 4))
	b.WriteString("2 1.5 2.5 -7\n0 3\n")
	for _, v := range corner.Vertices {
		fmt.Fprintln(&b, 255, v.X, v.Y, v.Z)
	}
	for _, t := range corner.Triangles {
		fmt.Fprintln(&b, 3, t[0], t[1], t[2], " 1 -1")
	}
	return b.String()
}

// plyBytes makes the tetrahedron in binary.
func plyTetrahedron(format string, order binary.ByteOrder) string {
	var b bytes.Buffer
	b.WriteString(plyHead(format, 4, 4))
	put := func(values ...any) {
		for _, v := range values {
			if err := binary.Write(&b, order, v); err != nil {
				panic(err)
			}
		}
	}
	put(uint8(2), 1.5, 2.5, int16(-7), uint8(0), int16(3))
	for _, v := range corner.Vertices {
		put(uint8(255), float32(v.X), v.Y, float32(v.Z))
	}
	for _, t := range corner.Triangles {
		put(uint8(3), int32(t[0]), int32(t[1]), int32(t[2]), uint16(1), int8(-1))
	}
	return b.String()
}

func TestReadPLY(t *testing.T) {
	text := plyTetrahedronText()
	little := plyTetrahedron("binary_little_endian", binary.LittleEndian)
	endHeader := func(s, line string) string { return strings.Replace(s, "end_header\n", "end_header"+line, 1) }
	for _, c := range []struct{ name, data, format string }{
		{"text", text, ASCIIPLY},
		{"CRLF", strings.ReplaceAll(text, "\n", "\r\n"), ASCIIPLY},
		{"CR", strings.ReplaceAll(text, "\n", "\r"), ASCIIPLY},
		{"blank lines", strings.ReplaceAll(text, "\n", "\n\n"), ASCIIPLY},
		{"no end", strings.TrimSpace(text), ASCIIPLY},
		{"little endian", little, BinaryPLY},
		{"big endian", plyTetrahedron("binary_big_endian", binary.BigEndian), BinaryPLY},
		{"padding", little + "\x00\n", BinaryPLY},
		{"CR before the rows", endHeader(little, "\r"), BinaryPLY},
		{"CRLF before the rows", endHeader(little, "\r\n"), BinaryPLY},
	} {
		f, err := read([]byte(c.data))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if f.Format != c.format || f.Mesh.Unit != 0 || len(f.Warnings) != 0 {
			t.Errorf("%s: format %q, unit %g, warnings %q", c.name, f.Format, f.Mesh.Unit, f.Warnings)
		}
		if diff := cmp.Diff(corner, sharedOf(f)); diff != "" {
			t.Errorf("%s: (-want +got):\n%s", c.name, diff)
		}
	}
}

// Each type of number, in binary, as a coordinate and as an index.
func TestPLYTypes(t *testing.T) {
	for _, c := range []struct {
		names  [2]string
		number func(x int) any
		whole  bool
	}{
		{[2]string{"char", "int8"}, func(x int) any { return int8(x) }, true},
		{[2]string{"uchar", "uint8"}, func(x int) any { return uint8(x) }, true},
		{[2]string{"short", "int16"}, func(x int) any { return int16(x) }, true},
		{[2]string{"ushort", "uint16"}, func(x int) any { return uint16(x) }, true},
		{[2]string{"int", "int32"}, func(x int) any { return int32(x) }, true},
		{[2]string{"uint", "uint32"}, func(x int) any { return uint32(x) }, true},
		{[2]string{"float", "float32"}, func(x int) any { return float32(x) }, false},
		{[2]string{"double", "float64"}, func(x int) any { return float64(x) }, false},
	} {
		for i, name := range c.names {
			order := []binary.ByteOrder{binary.LittleEndian, binary.BigEndian}[i]
			format := []string{"binary_little_endian", "binary_big_endian"}[i]
			index, put := name, c.number
			if !c.whole {
				index, put = "int", func(x int) any { return int32(x) }
			}
			var b bytes.Buffer
			fmt.Fprintf(&b, "ply\nformat %s 1.0\nelement vertex 3\nproperty %s x\nproperty %s y\nproperty %s z\nelement face 1\nproperty list %s %s vertex_index\nend_header\n",
				format, name, name, name, index, index)
			for _, x := range []int{0, 0, 0, 100, 0, 0, 0, 7, 120} {
				binary.Write(&b, order, c.number(x))
			}
			for _, x := range []int{3, 2, 0, 1} {
				binary.Write(&b, order, put(x))
			}
			f, err := read(b.Bytes())
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if got := f.Mesh.Triangle(0); got[0].Y != 7 || got[0].Z != 120 || got[2].X != 100 {
				t.Errorf("%s: facet %v, want (0, 7, 120), (0, 0, 0), (100, 0, 0)", name, got)
			}
		}
	}
}

func TestPLYPolygon(t *testing.T) {
	f := mustRead(t, "ply\nformat ascii 1.0\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\n"+
		"element face 2\nproperty list uchar int vertex_index\nend_header\n0 0 0\n1 0 0\n1 1 0\n0 1 0\n4 0 1 2 3\n2 0 1\n")
	if len(f.Mesh.Triangles) != 2 || len(f.Warnings) != 1 || f.Warnings[0] != "faces with fewer than three corners were ignored: 1" {
		t.Errorf("%d triangles, warnings %q", len(f.Mesh.Triangles), f.Warnings)
	}
}

func TestPLYErrors(t *testing.T) {
	const again, copy = "; export the mesh again", "; copy or export it again"
	const head = "ply\nformat ascii 1.0\n"
	const xyz = "element vertex 3\nproperty float x\nproperty float y\nproperty float z\n"
	const face = "element face 1\nproperty list uchar int vertex_indices\n"
	const rows = "0 0 0\n1 0 0\n0 1 0\n"
	const whole = head + xyz + face + "end_header\n" + rows
	little := plyTetrahedron("binary_little_endian", binary.LittleEndian)
	size := len(little) - len(plyHead("binary_little_endian", 4, 4))
	count := func(n string) string { return strings.Replace(little, "element face 4", "element face "+n, 1) }
	for _, c := range []errorCase{
		{"cut header", head + "element", "line 3: the file ends inside its header: it was cut short" + copy},
		{"long header", head + "comment " + strings.Repeat("x", maxPLYHeader), "line 3: the header is too long" + again},
		{"no format", "ply\n" + xyz + "end_header\n", "line 6: the header does not give the format" + again},
		{"unknown format", "ply\nformat utf8 1.0\n", `line 2: the format is "utf8", not ascii, binary_little_endian or binary_big_endian` + again},
		{"version", "ply\nformat ascii 2.0\n", `line 2: the version is "2.0", not 1.0` + again},
		{"unknown line", head + "vertices 3\n", `line 3: "vertices" means nothing in the header of a PLY file` + again},
		{"count", head + "element vertex many\n", `line 3: an element needs a name and a count, and has "vertex many"` + again},
		{"negative count", head + "element vertex -1\n", `line 3: an element needs a name and a count, and has "vertex -1"` + again},
		{"early property", head + "property float x\n", "line 3: a property before any element" + again},
		{"property", head + xyz + "property list int nx\n", `line 7: a property needs a type and a name, and has "list int nx"` + again},
		{"type", head + xyz + "property complex nx\n", `line 7: "complex" is no type of number` + again},
		{"length type", head + xyz + "property list float int nx\n", `line 7: the length of a list cannot be "float"` + again},
		{"many properties", head + "element a 0\n" + strings.Repeat("property int i\n", 1001), "line 1004: more than 1000 properties" + again},
		{"no z", head + "element vertex 1\nproperty float x\nproperty float y\nend_header\n0 0\n", "the header announces vertices without x, y and z" + again},
		{"two x", head + xyz + "property float x\nend_header\n" + strings.Repeat("0 0 0 0\n", 3), "the header announces vertices with a list for their x, or two" + again},
		{"list for x", head + "element vertex 1\nproperty list int int x\nend_header\n0\n", "the header announces vertices with a list for their x, or two" + again},
		{"vertices twice", head + xyz + xyz + "end_header\n" + rows + rows, "the header announces vertices twice" + again},
		{"faces first", head + face + xyz + "end_header\n3 0 1 2\n" + rows, "the faces stand before the vertices" + again},
		{"no list", head + xyz + "element face 1\nproperty int vertex_index\nend_header\n" + rows + "0\n", "the header announces faces without a list of whole numbers called vertex_indices" + again},
		{"no faces", head + xyz + "end_header\n" + rows, "the mesh has no faces" + again},
		{"strips", head + xyz + "element tristrips 1\nproperty list int int vertex_indices\nend_header\n" + rows + "3 0 1 2\n", "the mesh has triangle strips and no faces; export the mesh again, as triangles"},
		{"text cut", whole, "cut short: the header announces elements (3 vertex, 1 face) of 20 bytes at least, and 18 bytes are left behind it" + copy},
		{"face cut", whole + "3 0", "line 13: face 0 of 1: the file ends here: it was cut short" + copy},
		{"short row", whole + "3 0 1\n2\n", "line 14: face 0 of 1: its line has fewer numbers than the header announces" + again},
		{"long row", strings.Replace(whole, "0 0 0\n", "0 0 0 9\n", 1) + "3 0 1 2\n", "line 10: vertex 1 of 3: its line has more numbers than the header announces" + again},
		{"long last row", whole + "3 0 1 2 3\n", `line 13: the file goes on with "3" where the header announces no more` + again},
		{"left over text", whole + "3 0 1 2\n3 0 1 2\n", `line 14: the file goes on with "3" where the header announces no more` + again},
		{"no number", whole + "3 0 1 two\n", `line 13: face 0 of 1: "two" is not a number` + again},
		{"decimal comma", strings.Replace(whole, "1 0 0\n", "1 0,5 0\n", 1) + "3 0 1 2\n", `line 11: vertex 1 of 3: y: "0,5" is not a number; numbers are written with decimal points` + again},
		{"fraction", whole + "3 0 1 1.5\n", "line 13: face 0 of 1: it names vertex 1.5" + again},
		{"absent vertex", whole + "3 0 1 3\n", "line 13: face 0 of 1: it names vertex 3, and there are 3" + again},
		{"negative vertex", whole + "3 0 1 -1\n", "line 13: face 0 of 1: it names vertex -1, and there are 3" + again},
		{"negative length", whole + "-3 0 1 2\n", "line 13: face 0 of 1: a list of -3 values" + again},
		{"NaN length", whole + "nan 0 1 2\n", "line 13: face 0 of 1: a list of NaN values" + again},
		{"NaN", strings.Replace(whole, "0 1 0\n", "0 nan 0\n", 1) + "3 0 1 2\n", "line 12: vertex 2 of 3: y is NaN" + again},
		{"far", strings.Replace(whole, "0 1 0\n", "0 1e99 0\n", 1) + "3 0 1 2\n", "line 12: vertex 2 of 3: y is 1e+99, beyond any sensible size (1e+09)" + again},
		{"crossed", whole + "4 0 1 2 1\n", "line 13: face 0 of 1: its outline crosses itself, so it cannot be cut into triangles" + again},
		{"long word", whole + strings.Repeat("3", 5000), "line 13: a word of more than 4096 letters: damaged, or not PLY" + again},
		{"binary cut", little[:len(little)-3], fmt.Sprintf("byte %d: face 3 of 4: the file ends here: it was cut short", len(little)-16) + copy},
		{"huge count", count("4294967295"), fmt.Sprintf("cut short: the header announces elements (2 camera, 4 vertex, 4294967295 face) of 12884901959 bytes at least, and %d bytes are left behind it", size) + copy},
		{"count too large", count("4294967296"), `line 12: an element needs a name and a count, and has "face 4294967296"` + again},
		{"count too small", count("3"), "16 bytes are left over behind what the header announces" + again},
		// The length of 255 takes the rows behind for corners: 01 ff ff 03.
		{"binary list", strings.Replace(little, "\x03\x00\x00\x00\x00\x01", "\xff\x00\x00\x00\x00\x01", 1), fmt.Sprintf("byte %d: face 0 of 4: it names vertex 67043329, and there are 4", len(little)-64) + again},
	} {
		t.Run(c.name, c.run)
	}
}
