package meshfile

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"
)

// objTetrahedron is the tetrahedron, after the format's specification (Appendix
// B1 of the manual that first described it).
const objTetrahedron = `# corner of a box
mtllib C:\paint\
o corner
v 0 0 0
v 0 1.0e0 0
v 1 0 0 1.0
v 0 0 -2.5 0.5 0.5 0.5
vt 0.5 0.5
vn 0 0 1
usemtl a\
g
s off
f 1 2 3
f 1/1 3/1 4/1
f 1//1 4//1 2//1
f -2/1/1 -3/1/1 -1/1/1
`

// shared is a mesh by its vertices and triangles.
type shared struct {
	Vertices  []r3.Vec
	Triangles [][3]uint32
}

func sharedOf(f *File) shared { return shared{f.Mesh.Vertices, f.Mesh.Triangles} }

// corner is the tetrahedron with shared vertices.
var corner = shared{
	[]r3.Vec{{}, {Y: 1}, {X: 1}, {Z: -2.5}},
	[][3]uint32{{0, 1, 2}, {0, 2, 3}, {0, 3, 1}, {2, 1, 3}},
}

func TestReadOBJ(t *testing.T) {
	for name, text := range map[string]string{
		"plain":   objTetrahedron,
		"CRLF":    strings.ReplaceAll(objTetrahedron, "\n", "\r\n"),
		"CR":      strings.ReplaceAll(objTetrahedron, "\n", "\r"),
		"BOM":     "\xef\xbb\xbf" + objTetrahedron,
		"no end":  strings.TrimSpace(objTetrahedron),
		"padding": objTetrahedron + "\x00\x00\x1a",
		"continued": strings.NewReplacer("f 1 2 3", "f 1 2 \\\n  3 # and a comment \\", "f 1/1 3/1 4/1", "f\\\n 1/1\\\n3/1 \\\n\\\n 4/1",
			"vn 0 0 1", "vn 0 \\\n0 1").Replace(objTetrahedron),
		"long comment": "# " + strings.Repeat("a b ", 5000) + "\n" + objTetrahedron,
	} {
		f, err := read([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if f.Format != OBJ || f.Mesh.Unit != 0 || len(f.Warnings) != 0 || len(f.Solids) != 1 || f.Solids[0] != "corner" {
			t.Errorf("%s: format %q, unit %g, warnings %q, solids %q", name, f.Format, f.Mesh.Unit, f.Warnings, f.Solids)
		}
		if diff := cmp.Diff(corner, sharedOf(f)); diff != "" {
			t.Errorf("%s: (-want +got):\n%s", name, diff)
		}
	}
}

// box8 is the vertices of a box of 1 x 2 x 3, boxFaces its faces from zero.
var (
	box8     = []r3.Vec{{}, {X: 1}, {X: 1, Y: 2}, {Y: 2}, {Z: 3}, {X: 1, Z: 3}, {X: 1, Y: 2, Z: 3}, {Y: 2, Z: 3}}
	boxFaces = [][]int{{0, 3, 2, 1}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}}
)

// objText makes an OBJ file of vertices and faces.
func objText(vertices []r3.Vec, faces [][]int) string {
	var b strings.Builder
	for _, v := range vertices {
		fmt.Fprintln(&b, "v", v.X, v.Y, v.Z)
	}
	for _, f := range faces {
		b.WriteString("f")
		for _, v := range f {
			fmt.Fprintf(&b, " %d", v+1)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// Polygons become triangles that bound the same volume.
func TestPolygons(t *testing.T) {
	// A prism of height 1 over an L of area 5, with its walls in quads.
	l := []float64{0, 0, 3, 0, 3, 1, 1, 1, 1, 3, 0, 3}
	var prism []r3.Vec
	var bottom, top []int
	var walls [][]int
	for z := range 2 {
		for i := 0; i < 6; i++ {
			prism = append(prism, r3.Vec{X: l[2*i], Y: l[2*i+1], Z: float64(z)})
		}
	}
	for i := range 6 {
		bottom, top = append(bottom, 5-i), append(top, 6+i)
		walls = append(walls, []int{i, (i + 1) % 6, 6 + (i+1)%6, 6 + i})
	}
	for _, c := range []struct {
		name      string
		vertices  []r3.Vec
		faces     [][]int
		triangles int
		volume    float64
	}{
		{"box of quads", box8, boxFaces, 12, 6},
		{"prism over an L", prism, append(walls, bottom, top), 20, 5},
	} {
		f := mustRead(t, objText(c.vertices, c.faces))
		if got := volume(f); len(f.Mesh.Triangles) != c.triangles || math.Abs(got-c.volume) > 1e-12 || len(f.Warnings) != 0 {
			t.Errorf("%s: %d triangles around %g, warnings %q, want %d around %g", c.name, len(f.Mesh.Triangles), got, f.Warnings, c.triangles, c.volume)
		}
	}
}

// A box with one corner drawn in: three of its quads are not flat. Each may be
// cut in two ways, which differ by the tetrahedron over its four corners.
func TestBentFaces(t *testing.T) {
	bent := append([]r3.Vec(nil), box8...)
	bent[6] = r3.Vec{X: 0.9, Y: 1.8, Z: 2.7}
	f := mustRead(t, objText(bent, boxFaces))
	doubt := 0.0
	for _, q := range boxFaces {
		a, b, c, d := bent[q[0]], bent[q[1]], bent[q[2]], bent[q[3]]
		doubt += math.Abs(r3.Dot(r3.Sub(b, a), r3.Cross(r3.Sub(c, a), r3.Sub(d, a)))) / 6
	}
	want := fmt.Sprintf("faces of four corners or more that are not flat: 3; how they are cut into triangles makes a difference of up to %.3g cubic units of volume: export triangles to be sure", doubt)
	if diff := cmp.Diff([]string{want}, f.Warnings); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
}

func TestOddOBJ(t *testing.T) {
	extra := strings.Replace(objTetrahedron, "f 1 2 3\n", "f 1 2 3\nf 1 2\nl 1 2\np 3\no second part\nf 1 1 2\no empty\no third\n", 1)
	f := mustRead(t, extra)
	want := []string{
		`3 solids in one file, all read as one mesh: "corner" (1 facets), "second part" (1 facets), "third" (3 facets)`,
		"faces with fewer than three corners were ignored: 1",
		"lines and points were ignored: 2",
	}
	if diff := cmp.Diff(want, f.Warnings); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
}

func TestOBJErrors(t *testing.T) {
	const v = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n"
	const again = "; export the mesh again"
	var round strings.Builder
	for i := range maxCorners + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / (maxCorners + 1))
		fmt.Fprintln(&round, "v", c, s, 0)
	}
	round.WriteString("f")
	for i := range maxCorners + 1 {
		fmt.Fprint(&round, " ", i+1)
	}
	for _, c := range []errorCase{
		{"no faces", v, "the mesh has no faces" + again},
		{"only lines", v + "l 1 2 3\n", "the mesh has no faces, only lines or points; export the solid as a mesh"},
		{"short vertex", v + "v 1 2\nf 1 2 3\n", "line 5: a vertex has 2 coordinates, not three" + again},
		{"cut vertex", v + "v 1", "line 5: a vertex has 1 coordinates, not three" + again},
		{"no number", v + "v 1 2 x3\n", `line 5: z is "x3", not a number` + again},
		{"decimal comma", v + "v 1,5 2 3\n", `line 5: x is "1,5", not a number; export the mesh again, with decimal points`},
		{"NaN", v + "v nan 2 3\n", "line 5: x is NaN" + again},
		{"infinite", v + "v 1 -Inf 3\n", "line 5: y is infinite" + again},
		{"overflow", v + "v 1 1e999 3\n", "line 5: y is infinite" + again},
		{"far", v + "v 1 2e9 3\n", "line 5: y is 2e+09, beyond any sensible size (1e+09)" + again},
		{"vertex 0", v + "f 0 1 2\n", "line 5: a face names vertex 0, and 4 stand above it" + again},
		{"vertex below", v + "f 1 2 5\nv 0 0 0\n", "line 5: a face names vertex 5, and 4 stand above it" + again},
		{"too negative", v + "f 1 2 -5\n", "line 5: a face names vertex -5, and 4 stand above it" + again},
		{"no vertex", v + "f 1 2 /3\n", `line 5: a face names "/3", which is no vertex` + again},
		{"crossed", v + "f 1 3 2 4\n", "line 5: a face: its outline crosses itself, so it cannot be cut into triangles; export the mesh again, as triangles"},
		{"many corners", round.String(), "line 20002: a face: it has more than 20000 corners; export the mesh again, as triangles"},
		{"surface", v + "cstype bspline\nsurf 0 1 0 1 1 2 3 4\n", "line 6: it has curved surfaces (surf), not only flat faces; export it as triangles"},
		{"call", v + "call other.obj\n", "line 5: it wants another file to be read (call); export all of it into one file"},
		{"damage", v + "f 1 2 3\nfv 1 2 3\n", `line 6: "fv" is no keyword of an OBJ file` + again},
		{"long word", v + "g " + strings.Repeat("x", 5000), "line 5: a word of more than 4096 letters: damaged, or not OBJ" + again},
	} {
		t.Run(c.name, c.run)
	}
}
