package meshfile

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// written returns the triangles as a file.
func written(name string, facets []r3.Triangle) ([]byte, error) {
	var b bytes.Buffer
	err := WriteSTL(&b, name, len(facets), func(i int) r3.Triangle { return facets[i] })
	return b.Bytes(), err
}

func TestWriteSTL(t *testing.T) {
	got, err := written("float", tetrahedron)
	if err != nil {
		t.Fatal(err)
	}
	want := binarySTL("float", 4, tetrahedron)
	// The normals of the tetrahedron by hand: three along the axes, and for
	// the plane through (1,0,0), (0,1,0) and (0,0,-2.5) that of x + y - z/2.5 = 1.
	s := math.Sqrt(1 + 1 + 0.4*0.4)
	for i, n := range [][3]float64{{0, 0, -1}, {0, 1, 0}, {1, 0, 0}, {-1 / s, -1 / s, 0.4 / s}} {
		for k, x := range n {
			binary.LittleEndian.PutUint32(want[binaryHeader+binaryFacet*i+4*k:], math.Float32bits(float32(x)))
		}
	}
	for i := range want {
		// Zero may have either sign.
		if got[i] != want[i] && !(got[i] == 0x80 && want[i] == 0) {
			t.Fatalf("WriteSTL: byte %d is %#x, want %#x", i, got[i], want[i])
		}
	}
	if len(got) != len(want) {
		t.Errorf("WriteSTL: %d bytes, want %d", len(got), len(want))
	}
}

func TestWriteHeader(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"float", "float"},
		{"", ""},
		{"solid float", "STL solid float"},
		{" SOLIDfloat", "STL SOLIDfloat"},
		{"Flügel\n2", "Fl_gel2"},
		{strings.Repeat("x", 100), strings.Repeat("x", 77) + "..."},
		{"solid" + strings.Repeat("x", 75), "STL solid" + strings.Repeat("x", 71)},
	} {
		data, err := written(c.name, tetrahedron)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.TrimRight(string(data[:80]), "\x00"); got != c.want {
			t.Errorf("WriteSTL(%q): header %q, want %q", c.name, got, c.want)
		}
		if len(data) != 284 || data[80] != 4 {
			t.Errorf("WriteSTL(%q): %d bytes and count %d, want 284 and 4", c.name, len(data), data[80])
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		facets []r3.Triangle
		want   string
	}{
		{"none", nil, "float: nothing to write: the mesh has no triangles"},
		{"NaN", with(2, 1, r3.Vec{Y: math.NaN()}), "float: facet 2: y is NaN"},
		{"infinite", with(0, 0, r3.Vec{X: math.Inf(1)}), "float: facet 0: x is infinite"},
		{"large", with(3, 2, r3.Vec{Z: -1e10}), "float: facet 3: z is -1e+10, beyond any sensible size (1e+09)"},
	} {
		data, err := written("float", c.facets)
		var e *Error
		if !errors.As(err, &e) || err.Error() != c.want {
			t.Errorf("WriteSTL(%s): %v, want %s", c.name, err, c.want)
		}
		if len(data) > 0 {
			t.Errorf("WriteSTL(%s): wrote %d bytes, want none", c.name, len(data))
		}
	}
	err := WriteSTL(&bytes.Buffer{}, "float", MaxFacets+1, strip)
	if want := "float: 50000001 triangles are more than the 50000000 that are written to one file"; err == nil || err.Error() != want {
		t.Errorf("WriteSTL(50000001 triangles): %v, want %s", err, want)
	}
}

// failing is a writer with room for a few bytes.
type failing struct{ room int }

var errFull = errors.New("full")

func (f *failing) Write(b []byte) (int, error) {
	if len(b) > f.room {
		return 0, errFull
	}
	f.room -= len(b)
	return len(b), nil
}

func TestWriteFails(t *testing.T) {
	for _, n := range []int{1, 5000} {
		if err := WriteSTL(&failing{}, "float", n, strip); err != errFull {
			t.Errorf("WriteSTL of %d triangles to a full disk: %v, want %v", n, err, errFull)
		}
	}
}

// TestRoundTrip writes any triangles and reads them: the corners come back
// rounded to float32, the normals point along the right-hand rule.
func TestRoundTrip(t *testing.T) {
	coordinate := rapid.OneOf(rapid.Float64Range(-2000, 2000), rapid.Float64Range(-MaxCoordinate, MaxCoordinate), rapid.SampledFrom([]float64{0, 1e-42, 0.1}))
	rapid.Check(t, func(t *rapid.T) {
		vec := rapid.Custom(func(t *rapid.T) r3.Vec {
			return r3.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: coordinate.Draw(t, "z")}
		})
		facets := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) r3.Triangle {
			return r3.Triangle{vec.Draw(t, "a"), vec.Draw(t, "b"), vec.Draw(t, "c")}
		}), 1, 20).Draw(t, "facets")
		data, err := written("float", facets)
		if err != nil {
			t.Fatal(err)
		}
		f, err := read(data)
		if err != nil {
			t.Fatal(err)
		}
		want := make([]r3.Triangle, len(facets))
		for i, tri := range facets {
			for k, p := range tri {
				want[i][k] = r3.Vec{X: float64(float32(p.X)), Y: float64(float32(p.Y)), Z: float64(float32(p.Z))}
			}
			checkNormal(t, want[i], data[binaryHeader+binaryFacet*i:])
		}
		if diff := cmp.Diff(want, facetsOf(f)); diff != "" {
			t.Errorf("read(written(facets)) (-want +got):\n%s", diff)
		}
	})
}

// checkNormal checks the normal at the head of a facet's record: of unit
// length, square to the sides as far as they can tell, to the left of a turn.
func checkNormal(t *rapid.T, tri r3.Triangle, record []byte) {
	var x [3]float64
	for k := range x {
		x[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(record[4*k:])))
	}
	n := r3.Vec{X: x[0], Y: x[1], Z: x[2]}
	a, b := r3.Sub(tri[1], tri[0]), r3.Sub(tri[2], tri[0])
	area := r3.Cross(a, b)
	if area == (r3.Vec{}) {
		if n != (r3.Vec{}) {
			t.Errorf("normal %v of a triangle without area, want zero", n)
		}
		return
	}
	// Float32 keeps 24 bits, so each component is off by at most 2^-25.
	const eps = 1e-7
	if got := r3.Norm(n); math.Abs(got-1) > eps {
		t.Errorf("normal %v has length %g, want 1", n, got)
	}
	if got, want := r3.Dot(n, area), r3.Norm(area); math.Abs(got-want) > eps*want {
		t.Errorf("normal %v of %v: along the area %g, want %g", n, tri, got, want)
	}
}
