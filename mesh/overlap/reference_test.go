package overlap_test

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/mend"
	"millpond/mesh/meshfile"
	"millpond/mesh/overlap"
)

// reference is a file of testdata/reference/union: solids united and cut by two
// general-purpose geometry libraries. testdata/reference/make.sh made them.
type reference struct {
	Name  string
	Parts []struct {
		Name, File, SHA256 string
		Generated          *bigBody
		SHA256Coordinates  string `json:"sha256_coordinates"`
	}
	Size  float64
	Whole struct{ CGAL, Manifold below }

	Agreement struct {
		Volume float64 `json:"manifold_volume_over_whole_volume"`
	}
	Planes []struct {
		Kind           string
		N              [3]float64
		D              float64
		CGAL, Manifold *below
	}
}

// below is what one library said, in file units. The fields of the cut are
// missing where there is none.
type below struct {
	Volume      float64
	Centroid    *[3]float64
	WettedArea  float64     `json:"wetted_area"`
	CutArea     float64     `json:"cut_area"`
	CutCentroid *[3]float64 `json:"cut_centroid"`
	CutSecond   *[6]float64 `json:"cut_second"`
}

func vec(v [3]float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

// bigBody is a body of many facets by the formula that the references state.
type bigBody struct {
	N, M             int
	L, B, H, R, Y, Z float64
	Cos, Sin, Div    float64
	Mirrored         bool
}

func (g *bigBody) mesh() *mesh.Mesh {
	circle := func(j, m int) (c, s float64) {
		k := m / 4
		t := float64(j%k) / float64(k)
		c, s = (1-t*t)/(1+t*t), (2*t)/(1+t*t)
		switch j / k % 4 {
		case 1:
			c, s = -s, c
		case 2:
			c, s = -c, -s
		case 3:
			c, s = s, -c
		}
		return c, s
	}
	m := &mesh.Mesh{}
	put := func(C, S, c, s float64) {
		x := g.L * C
		y := g.Y + float64(g.B*float64(S*c))
		z := g.Z + (float64(g.H*float64(S*s)) + float64(g.R*float64(C*C)))
		x, y = (float64(g.Cos*x)-float64(g.Sin*y))/g.Div, (float64(g.Sin*x)+float64(g.Cos*y))/g.Div
		if g.Mirrored {
			y = -y
		}
		to32 := func(x float64) float64 { return float64(float32(x)) + 0 }
		m.Vertices = append(m.Vertices, r3.Vec{X: to32(x), Y: to32(y), Z: to32(z)})
	}
	for i := 1; i < g.N; i++ {
		C, S := circle(i, 2*g.N)
		for j := range g.M {
			c, s := circle(j, g.M)
			put(C, S, c, s)
		}
	}
	put(1, 0, 1, 0)
	put(-1, 0, 1, 0)
	first, last := (g.N-1)*g.M, (g.N-1)*g.M+1
	tri := func(a, b, c int) {
		if g.Mirrored {
			b, c = c, b
		}
		m.Triangles = append(m.Triangles, [3]uint32{uint32(a), uint32(b), uint32(c)})
	}
	for j := range g.M {
		k := (j + 1) % g.M
		tri(first, j, k)
		for i := range g.N - 2 {
			a, b := i*g.M+j, i*g.M+k
			tri(a, a+g.M, b+g.M)
			tri(a, b+g.M, b)
		}
		tri(last, (g.N-2)*g.M+k, (g.N-2)*g.M+j)
	}
	return m
}

// coordinates returns the checksum that the references state.
func coordinates(m *mesh.Mesh) string {
	sum := sha256.New()
	for i := range m.Triangles {
		for _, v := range m.Triangle(i) {
			for _, x := range [3]float64{v.X, v.Y, v.Z} {
				var b [4]byte
				binary.LittleEndian.PutUint32(b[:], math.Float32bits(float32(x)))
				sum.Write(b[:])
			}
		}
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// welded gives equal vertices one number.
func welded(m *mesh.Mesh) ([]r3.Vec, [][3]uint32) {
	number := map[r3.Vec]uint32{}
	var verts []r3.Vec
	var tris [][3]uint32
	for _, t := range m.Triangles {
		for k, v := range t {
			p := m.Vertices[v]
			n, ok := number[p]
			if !ok {
				n = uint32(len(verts))
				number[p] = n
				verts = append(verts, p)
			}
			t[k] = n
		}
		tris = append(tris, t)
	}
	return verts, tris
}

// references reads all of testdata/reference/union.
func references(t testing.TB) []*reference {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) < 10 {
		t.Fatalf("%d references in %s, want ten at least", len(paths), folder)
	}
	var all []*reference
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		ref := &reference{}
		if err := json.Unmarshal(text, ref); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		all = append(all, ref)
	}
	return all
}

var folder = filepath.Join("..", "..", "testdata", "reference", "union")

// solids returns the parts, each enclosing nothing twice.
func (ref *reference) solids(t testing.TB) []*mesh.Solid {
	t.Helper()
	var all []*mesh.Solid
	for _, p := range ref.Parts {
		var m *mesh.Mesh
		if p.Generated != nil {
			m = p.Generated.mesh()
			if sum := coordinates(m); sum != p.SHA256Coordinates {
				t.Fatalf("%s: not the body that was cut: SHA-256 %s, want %s", p.Name, sum, p.SHA256Coordinates)
			}
		} else {
			path := filepath.Join(folder, p.File)
			if sum, err := meshfile.SHA256(path); err != nil || sum != p.SHA256 {
				t.Fatalf("%s is not the mesh that was cut: SHA-256 %s, %v, want %s", path, sum, err, p.SHA256)
			}
			file, err := meshfile.Read(path)
			if err != nil {
				t.Fatal(err)
			}
			m = file.Mesh
		}
		if ref.Name != "cavity_filled" {
			all = append(all, once(t, m))
			continue
		}
		// There water does not reach the cavity: so says package mend.
		res, err := mend.Close(m, mend.Options{})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, res.Solid)
	}
	return all
}

// once makes a solid that encloses nothing twice.
func once(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	verts, tris := welded(m)
	verts, tris, _, err := overlap.Once(verts, tris, false)
	if err != nil {
		t.Fatal(err)
	}
	s, err := mesh.NewSolid(verts, tris)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// union is placed solids with what they share taken away.
type union struct{ parts, shared []mesh.Placed }

func unite(t testing.TB, parts ...mesh.Placed) union {
	t.Helper()
	u := union{parts: parts}
	for i, p := range parts {
		s, err := overlap.Shared(p, parts[:i])
		if err != nil {
			t.Fatalf("Shared(part %d): %v", i, err)
		}
		if s != nil {
			u.shared = append(u.shared, mesh.Placed{Solid: s, Place: p.Place})
		}
	}
	return u
}

func (u union) below(pl mesh.Plane, about r3.Vec) mesh.Section {
	var sum mesh.Section
	for _, p := range u.parts {
		sum = sum.Add(p.Below(pl, about))
	}
	for _, p := range u.shared {
		sum = sum.Add(p.Below(pl, about).Scale(-1))
	}
	return sum
}

func (u union) wetArea(pl mesh.Plane) float64 {
	sum := 0.0
	for _, p := range u.parts {
		sum += p.WetArea(pl)
	}
	for _, p := range u.shared {
		sum -= p.WetArea(pl)
	}
	return sum
}

func (u union) volume() float64 {
	sum := 0.0
	for _, p := range u.parts {
		sum += p.Volume()
	}
	for _, p := range u.shared {
		sum -= p.Volume()
	}
	return sum
}

func inPlace(s *mesh.Solid) mesh.Placed { return mesh.Placed{Solid: s, Place: mesh.Identity()} }

func TestUnionAgainstGeometryLibraries(t *testing.T) {
	for _, ref := range references(t) {
		t.Run(ref.Name, func(t *testing.T) {
			if testing.Short() && ref.Parts[0].Generated != nil {
				t.Skip("200,000 facets")
			}
			ref.check(t)
		})
	}
}

func (ref *reference) check(t *testing.T) {
	var parts []mesh.Placed
	for _, s := range ref.solids(t) {
		parts = append(parts, inPlace(s))
	}
	u := unite(t, parts...)

	// CGAL unites and clips in exact arithmetic; its numbers are right to the
	// last digit.
	const tol = 1e-12
	volume, area, size := ref.Whole.CGAL.Volume, ref.Whole.CGAL.WettedArea, ref.Size
	under := mesh.Plane{Normal: r3.Vec{Z: 1}, Offset: -1e9}
	if got := u.volume(); !(math.Abs(got-volume) <= tol*volume) {
		t.Errorf("volume = %.17g, CGAL has %.17g, off by %.2g", got, volume, (got-volume)/volume)
	}
	if got := u.wetArea(under); !(math.Abs(got-area) <= tol*area) {
		t.Errorf("area = %.17g, CGAL has %.17g, off by %.2g", got, area, (got-area)/area)
	}
	for _, plane := range ref.Planes {
		pl := mesh.Plane{Normal: vec(plane.N), Offset: plane.D}
		about := vec(*ref.Whole.CGAL.Centroid)
		got, want := u.below(pl, about), plane.CGAL
		if !(math.Abs(got.Volume-want.Volume) <= tol*volume) {
			t.Errorf("%s plane: volume = %.17g, CGAL has %.17g, off by %.2g of the whole", plane.Kind, got.Volume, want.Volume, (got.Volume-want.Volume)/volume)
		}
		if want.Centroid != nil {
			moment := r3.Scale(want.Volume, r3.Sub(vec(*want.Centroid), about))
			if off := r3.Norm(r3.Sub(got.Moment, moment)); !(off <= tol*volume*size) {
				t.Errorf("%s plane: moment = %v, CGAL has %v, off by %.2g of the whole", plane.Kind, got.Moment, moment, off/volume/size)
			}
		}
		if plane.Kind != "random" {
			continue // a facet may lie in the plane: then areas jump
		}
		if !(math.Abs(got.Area-want.CutArea) <= 1e-9*size*size) {
			t.Errorf("%s plane: cut area = %.17g, CGAL has %.17g", plane.Kind, got.Area, want.CutArea)
		}
		if wet := u.wetArea(pl); !(math.Abs(wet-want.WettedArea) <= 1e-9*area) {
			t.Errorf("%s plane: wetted area = %.17g, CGAL has %.17g", plane.Kind, wet, want.WettedArea)
		}
	}
}
