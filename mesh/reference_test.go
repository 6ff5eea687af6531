package mesh_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/meshfile"
)

// reference is a file of testdata/reference/cut: a mesh cut by two
// general-purpose geometry libraries. testdata/reference/make.sh made them.
type reference struct {
	Name, About, File, SHA256 string
	Size                      float64 // of the largest side
	Libraries                 struct {
		CGAL     struct{ Version, Calls string }
		Manifold struct {
			Version, Calls string
			Tolerance      float64
		}
	}
	Whole struct {
		CGAL, Manifold integralsBelow
	}
	Planes []struct {
		Kind     string
		N        [3]float64
		D        float64
		CGAL     *integralsBelow // missing where clip refused a mesh that crosses itself
		Direct   *integralsBelow
		Manifold *integralsBelow
	}
}

// integralsBelow is what one library said, in file units. The fields of the
// cut are missing where there is none.
type integralsBelow struct {
	Volume      float64
	Centroid    *[3]float64
	WettedArea  float64     `json:"wetted_area"`
	CutArea     float64     `json:"cut_area"`
	CutCentroid *[3]float64 `json:"cut_centroid"`
	CutSecond   *[6]float64 `json:"cut_second"` // about the cut's centroid: xx, yy, zz, xy, xz, yz
}

// moment returns ∫ (p - about) dV.
func (in *integralsBelow) moment(about r3.Vec) r3.Vec {
	if in.Centroid == nil {
		return r3.Vec{}
	}
	return r3.Scale(in.Volume, r3.Sub(vec(*in.Centroid), about))
}

func vec(v [3]float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

// welded gives equal vertices one number.
func welded(m *mesh.Mesh) *mesh.Mesh {
	w := &mesh.Mesh{Name: m.Name}
	number := map[r3.Vec]uint32{}
	for _, t := range m.Triangles {
		for k, v := range t {
			p := m.Vertices[v]
			n, ok := number[p]
			if !ok {
				n = uint32(len(w.Vertices))
				number[p] = n
				w.Vertices = append(w.Vertices, p)
			}
			t[k] = n
		}
		w.Triangles = append(w.Triangles, t)
	}
	return w
}

func TestBelowAgainstGeometryLibraries(t *testing.T) {
	folder := filepath.Join("..", "testdata", "reference", "cut")
	paths, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) < 3 {
		t.Fatalf("%d references in %s, want three at least", len(paths), folder)
	}
	cad := false
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var ref reference
		if err := json.Unmarshal(text, &ref); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		cad = cad || strings.Contains(ref.About, "exported by openscad")
		t.Run(ref.Name, func(t *testing.T) { ref.check(t, folder) })
	}
	if !cad {
		t.Errorf("no reference in %s comes from a CAD program", folder)
	}
}

func (ref *reference) check(t *testing.T, folder string) {
	path := filepath.Join(folder, ref.File)
	if sum, err := meshfile.SHA256(path); err != nil || sum != ref.SHA256 {
		t.Fatalf("%s is not the mesh that was cut: SHA-256 %s, %v, want %s", path, sum, err, ref.SHA256)
	}
	file, err := meshfile.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	m := welded(file.Mesh)
	p := inPlace(t, m)
	if len(ref.Planes) < 10 {
		t.Errorf("%d planes, want ten at least", len(ref.Planes))
	}
	about := p.Solid.Box().Center()
	size := reach(m, about)
	volume, area := ref.Whole.CGAL.Volume, ref.Whole.CGAL.WettedArea

	// CGAL clips in exact arithmetic; its numbers are right to the last digit,
	// so the tolerance is ours: a thousand times what rounding leaves. Manifold
	// works in float64 and moves vertices by up to its tolerance, as it says
	// itself, which changes the volume by that times the surface.
	exact := 1e-12 * volume
	rough := max(1e-9*volume, ref.Libraries.Manifold.Tolerance*area)

	compare := func(call, library string, got mesh.Section, want *integralsBelow, tol float64) {
		t.Helper()
		if !(math.Abs(got.Volume-want.Volume) <= tol) {
			t.Errorf("%s.Volume = %.17g, %s has %.17g, off by %.2g of the whole", call, got.Volume, library, want.Volume, (got.Volume-want.Volume)/volume)
		}
		if off := r3.Norm(r3.Sub(got.Moment, want.moment(about))); !(off <= tol*size) {
			t.Errorf("%s.Moment = %v, %s has %v, off by %.2g of the whole", call, got.Moment, library, want.moment(about), off/volume/size)
		}
	}
	whole := mesh.Section{Volume: p.Volume(), Moment: r3.Scale(p.Volume(), r3.Sub(p.Centroid(), about))}
	compare("whole", "CGAL", whole, &ref.Whole.CGAL, exact)
	compare("whole", "Manifold", whole, &ref.Whole.Manifold, rough)
	if got := p.Area(); !(math.Abs(got-area) <= 1e-12*area) {
		t.Errorf("Area() = %.17g, CGAL has %.17g", got, area)
	}

	cuts, clipped := 0, 0
	for _, plane := range ref.Planes {
		pl := mesh.Plane{Normal: vec(plane.N), Offset: plane.D}
		call := plane.Kind + " plane: Below"
		got, wet := p.Below(pl, about), p.WetArea(pl)
		compare(call, "exact arithmetic", got, plane.Direct, exact)
		compare(call, "Manifold", got, plane.Manifold, rough)
		if plane.CGAL != nil {
			clipped++
			compare(call, "CGAL", got, plane.CGAL, exact)
		}

		// A facet in the plane makes the areas jump, and whether it is a hair
		// above or below is lost in rounding. The cut moves by the rounding of
		// heights, which grows with the distance of the file's origin.
		cut := slack(m, pl) * max(1, reach(m, r3.Vec{})/size)
		if cut > 1e-9 {
			continue
		}
		cuts++
		cut = max(cut, 1e-12)
		if !(math.Abs(got.Area-plane.Direct.CutArea) <= cut*size*size) {
			t.Errorf("%s.Area = %.17g, exact arithmetic has %.17g", call, got.Area, plane.Direct.CutArea)
		}
		if !(math.Abs(wet-plane.Direct.WettedArea) <= cut*area) {
			t.Errorf("%s plane: WetArea = %.17g, exact arithmetic has %.17g", plane.Kind, wet, plane.Direct.WettedArea)
		}
		if plane.CGAL == nil || plane.CGAL.CutCentroid == nil {
			continue
		}
		c := vec(*plane.CGAL.CutCentroid)
		s := plane.CGAL.CutSecond
		want := mesh.Section{
			Volume: plane.CGAL.Volume, Moment: plane.CGAL.moment(c),
			Area:       plane.CGAL.CutArea,
			AreaSecond: mesh.Sym{XX: s[0], YY: s[1], ZZ: s[2], XY: s[3], XZ: s[4], YZ: s[5]},
		}
		if d := differ(p.Below(pl, c), want, 2*size, cut); d != "" {
			t.Errorf("%s about the cut's centroid against CGAL:%s", call, d)
		}
	}
	if cuts < 10 || clipped < 5 {
		t.Errorf("areas compared on %d planes, volumes with CGAL on %d: too few to tell", cuts, clipped)
	}
}
