package meshfile

import (
	"bytes"
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/parts"
)

func TestReadBinary(t *testing.T) {
	plain := string(binarySTL("a float", 4, tetrahedron))
	for _, c := range []readCase{
		{"plain", plain, BinarySTL, []string{"a float"}, nil, tetrahedron},
		{"no name", string(binarySTL("", 4, tetrahedron)), BinarySTL, []string{""}, nil, tetrahedron},
		{"header solid", string(binarySTL("solid float", 4, tetrahedron)), BinarySTL, []string{"solid float"}, nil, tetrahedron},
		{"header with escapes", string(binarySTL("\x1b[31mred", 4, tetrahedron)), BinarySTL, []string{"[31mred"}, nil, tetrahedron},
		{"header of a zip file", string(binarySTL("PK\x03\x04", 4, tetrahedron)), BinarySTL, []string{"PK"}, nil, tetrahedron},
		{"padded by one byte", plain + "\n", BinarySTL, []string{"a float"},
			[]string{"1 bytes after the last of 4 facets were ignored: too few for a facet"}, tetrahedron},
		{"padded by 49 bytes", plain + strings.Repeat("x", 49), BinarySTL, []string{"a float"},
			[]string{"49 bytes after the last of 4 facets were ignored"}, tetrahedron},
		{"padded by zeros", plain + strings.Repeat("\x00", 20000), BinarySTL, []string{"a float"},
			[]string{"20000 zero bytes after the last of 4 facets were ignored"}, tetrahedron},
		{"padded and header solid", string(binarySTL("solid float", 4, tetrahedron)) + "\x00\x00", BinarySTL, []string{"solid float"},
			[]string{"2 zero bytes"}, tetrahedron},
		{"largest coordinate", string(binarySTL("", 4, with(3, 2, r3.Vec{X: MaxCoordinate, Y: -MaxCoordinate, Z: 1e-40}))), BinarySTL, []string{""}, nil,
			with(3, 2, r3.Vec{X: MaxCoordinate, Y: -MaxCoordinate, Z: float64(float32(1e-40))})},
	} {
		t.Run(c.name, c.run)
	}
}

// TestBinaryNormal checks that a NaN in a normal does not matter.
func TestBinaryNormal(t *testing.T) {
	data := binarySTL("", 4, tetrahedron)
	binary.LittleEndian.PutUint32(data[binaryHeader:], math.Float32bits(float32(math.NaN())))
	c := readCase{"", string(data), BinarySTL, []string{""}, nil, tetrahedron}
	c.run(t)
}

func TestBadBinary(t *testing.T) {
	full := string(binarySTL("a float", 4, tetrahedron))
	many := make([]r3.Triangle, 813)
	for i := range many {
		many[i] = strip(i)
	}
	many[812][1].X = math.NaN()
	for _, c := range []errorCase{
		{"NaN", string(binarySTL("", 813, many)), "facet 812 (byte 40684): x is NaN; export the mesh again"},
		{"infinite", string(binarySTL("", 4, with(0, 0, r3.Vec{Y: math.Inf(-1)}))), "facet 0 (byte 84): y is infinite; export the mesh again"},
		{"absurd", string(binarySTL("", 4, with(2, 2, r3.Vec{Z: -3e30}))), "facet 2 (byte 184): z is -3e+30, beyond any sensible size (1e+09); export the mesh again"},
		{"cut inside a facet", full[:len(full)-10], "cut short: the header announces 4 facets (284 bytes), but the file holds 3 (274 bytes); copy or export it again"},
		{"cut behind the header", full[:84], "cut short: the header announces 4 facets (284 bytes), but the file holds 0 (84 bytes); copy or export it again"},
		{"cut, header solid", string(binarySTL("solid x", 4, tetrahedron[:2])), "cut short: the header announces 4 facets (284 bytes), but the file holds 2 (184 bytes); copy or export it again"},
		{"cut inside the header", full[:50], "not STL, 3MF, OBJ or PLY: it has 50 bytes, and a binary STL file at least 84; export the mesh again"},
		{"absurd count", string(binarySTL("", 1<<32-1, tetrahedron)), "not an STL file, or a damaged one: as binary STL its header announces 4294967295 facets, and its 284 bytes hold no more than 4; export the mesh again"},
		{"one facet left over", string(binarySTL("", 3, tetrahedron)),
			"the header announces 3 facets, but 50 bytes are left over behind them, room for 1 more; if it is several STL files joined, export each alone; otherwise export the mesh again"},
		{"two files joined", full + full,
			"the header announces 4 facets, but 284 bytes are left over behind them, room for 5 more; if it is several STL files joined, export each alone; otherwise export the mesh again"},
		{"zeros, then a facet", full + strings.Repeat("\x00", 9000) + "x", "the header announces 4 facets, but 9001 bytes are left over behind them, room for 180 more; if it is several STL files joined, export each alone; otherwise export the mesh again"},
		{"count never filled in", string(binarySTL("", 0, tetrahedron)), "the header announces 0 facets, but 200 bytes are left over behind them, room for 4 more; the export was not finished: export the mesh again"},
		{"no facets", string(binarySTL("", 0, nil)), "the mesh has no facets; export the mesh again"},
		{"no facets, padded", string(binarySTL("", 0, nil)) + "\x00\x00", "the mesh has no facets; export the mesh again"},
	} {
		t.Run(c.name, c.run)
	}
}

// TestBadFacetInLastPart checks that facets are counted through when the file
// is decoded in parts, and that the first bad one is named.
func TestBadFacetInLastPart(t *testing.T) {
	const n = 8 * parts.Least
	facets := make([]r3.Triangle, n)
	facets[n-2][2].Z = math.NaN()
	facets[n-1][0].X = math.NaN()
	c := errorCase{"", string(binarySTL("", n, facets)), "facet 131070 (byte 6553584): z is NaN; export the mesh again"}
	c.run(t)
}

// zeros is an endless file of zeros behind a head.
type zeros struct{ head []byte }

func (z zeros) ReadAt(b []byte, offset int64) (int, error) {
	clear(b)
	if offset < int64(len(z.head)) {
		copy(b, z.head[offset:])
	}
	return len(b), nil
}

func TestTooManyFacets(t *testing.T) {
	z := zeros{binarySTL("", MaxFacets+1, nil)}
	_, err := ReadFrom(z, binaryHeader+binaryFacet*(MaxFacets+1), "float.stl")
	want := "float.stl: has 50000001 facets, more than the 50000000 that are read; export it coarser"
	if err == nil || err.Error() != want {
		t.Errorf("ReadFrom: %v, want %s", err, want)
	}
}

// TestShrinking reads a file that has become shorter since its size was taken.
func TestShrinking(t *testing.T) {
	facets := make([]r3.Triangle, 1000)
	for name, data := range map[string]string{
		"binary": string(binarySTL("", 1000, facets)),
		"ascii":  asciiSTL("float", facets),
		"head":   string(binarySTL("", 4, tetrahedron)),
	} {
		_, err := ReadFrom(strings.NewReader(data[:len(data)-60]), int64(len(data)), "float.stl")
		want := "float.stl: became shorter while it was read; wait until it is written and read it again"
		if err == nil || err.Error() != want {
			t.Errorf("%s: ReadFrom: %v, want %s", name, err, want)
		}
	}
	_, err := ReadFrom(bytes.NewReader(nil), 1, "float.stl")
	if err == nil {
		t.Error("ReadFrom of nothing: no error")
	}
}
