package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/mesh"
	"millpond/mesh/shape"
)

func TestSilhouette(t *testing.T) {
	box := solidOf(t, shape.Box(2, 1, 0.5))
	ball := solidOf(t, shape.Icosphere(1, 5))
	at := func(s *mesh.Solid, x, y, z float64) mesh.Placed {
		return mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{X: x, Y: y, Z: z})}
	}
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	oblique := r3.Vec{X: 0.6, Y: 0.8}
	// A circle's part above a chord at height h: acos(h) - h sqrt(1-h²),
	// its moment 2/3 (1-h²)^(3/2).
	segment := math.Acos(0.3) - 0.3*math.Sqrt(1-0.09)
	tests := []struct {
		name                   string
		solids                 []mesh.Placed
		along, up              r3.Vec
		above                  float64
		area, across, height   float64
		tolerance              float64
		acrossFree, heightFree bool
	}{
		{name: "box from ahead", solids: []mesh.Placed{at(box, 0, 0, 0)}, along: x, up: z, above: -9, area: 0.5, height: 0.25, tolerance: 1e-12},
		{name: "box from the side, part above", solids: []mesh.Placed{at(box, 0.3, 0, 0)}, along: y, up: z, above: 0.1, area: 0.8, across: -0.3, height: 0.3, tolerance: 1e-12},
		// A box seen level from any side hides its side times |sin| plus
		// its end times |cos| of the angle.
		{name: "box from between", solids: []mesh.Placed{at(box, 0, 0, 0)}, along: oblique, up: z, above: -9, area: (2*0.8 + 1*0.6) * 0.5, height: 0.25, tolerance: 1e-12},
		{name: "one behind the other counts once", solids: []mesh.Placed{at(box, 0, 0, 0), at(box, 0, 5, 0)}, along: y, up: z, above: -9, area: 1, height: 0.25, tolerance: 1e-12},
		{name: "side by side counts both", solids: []mesh.Placed{at(box, 0, 0, 0), at(box, 3, 5, 0)}, along: y, up: z, above: -9, area: 2, across: -1.5, height: 0.25, tolerance: 1e-12},
		{name: "half behind", solids: []mesh.Placed{at(box, 0, 0, 0), at(box, 1, 5, 0)}, along: y, up: z, above: -9, area: 1.5, across: -0.5, height: 0.25, tolerance: 1e-12},
		{name: "nothing above", solids: []mesh.Placed{at(box, 0, 0, 0)}, along: y, up: z, above: 0.5, area: 0, tolerance: 1e-12},
		{name: "ball above a chord", solids: []mesh.Placed{at(ball, 0, 0, 0)}, along: oblique, up: z, above: 0.3, area: segment, height: 2.0 / 3 * math.Pow(1-0.09, 1.5) / segment, tolerance: 2e-3},
	}
	for _, tt := range tests {
		s := mesh.NewSilhouette(tt.solids, tt.along, tt.up, r3.Vec{}, mesh.Strips)
		area, across, height := s.Above(tt.above)
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"area", area, tt.area}, {"across", across, tt.across}, {"height", height, tt.height}} {
			if math.Abs(v.got-v.want) > tt.tolerance {
				t.Errorf("%s: %s = %.12g, want %.12g", tt.name, v.what, v.got, v.want)
			}
		}
	}
}

func TestSilhouetteOfNothing(t *testing.T) {
	s := mesh.NewSilhouette(nil, r3.Vec{X: 1}, r3.Vec{Z: 1}, r3.Vec{}, mesh.Strips)
	if area, across, height := s.Above(0); area != 0 || across != 0 || height != 0 {
		t.Errorf("Above(0) of nothing = %g, %g, %g, want zeros", area, across, height)
	}
}

// Cauchy's formula: the area of a convex body's outline, averaged over all
// directions of sight, is a quarter of its surface (A. Cauchy, 1841; H. Federer,
// Geometric Measure Theory, 3.2.15).
func TestSilhouetteCauchy(t *testing.T) {
	s := solidOf(t, shape.Box(1, 0.7, 0.4))
	sum := 0.0
	for i := range 400 {
		// Directions spread evenly by the golden section.
		zc := (float64(i)+0.5)/200 - 1
		a := float64(i) * math.Pi * (3 - math.Sqrt(5))
		r := math.Sqrt(1 - zc*zc)
		along := r3.Vec{X: r * math.Cos(a), Y: r * math.Sin(a), Z: zc}
		up := r3.Unit(r3.Cross(along, r3.Vec{X: 0.3, Y: 0.5, Z: 0.81}))
		area, _, _ := mesh.NewSilhouette([]mesh.Placed{{Solid: s, Place: mesh.Identity()}}, along, up, r3.Vec{}, 64).Above(math.Inf(-1))
		sum += area
	}
	got, want := sum/400, s.Area()/4
	if math.Abs(got/want-1) > 1e-3 {
		t.Errorf("mean outline = %g, want a quarter of the surface, %g", got, want)
	}
}

// The outline is the same seen from the other side, and turns with the body.
func TestSilhouetteProperties(t *testing.T) {
	s := solidOf(t, shape.Star(3, 3))
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-3, 3)
		turn := mesh.Rotation(r3.Vec{X: f.Draw(t, "x"), Y: f.Draw(t, "y"), Z: f.Draw(t, "z")}, f.Draw(t, "angle"))
		move := r3.Vec{X: f.Draw(t, "dx"), Y: f.Draw(t, "dy"), Z: f.Draw(t, "dz")}
		p := mesh.Placed{Solid: s, Place: mesh.Identity()}
		q := mesh.Placed{Solid: s, Place: turn.Then(mesh.Translation(move))}
		along, up := r3.Vec{X: 1}, r3.Vec{Z: 1}
		a, au, av := mesh.NewSilhouette([]mesh.Placed{p}, along, up, r3.Vec{}, 200).Above(0.1)
		b, bu, bv := mesh.NewSilhouette([]mesh.Placed{q}, turn.Vector(along), turn.Vector(up), move, 200).Above(0.1)
		c, cu, cv := mesh.NewSilhouette([]mesh.Placed{p}, r3.Scale(-1, along), up, r3.Vec{}, 200).Above(0.1)
		for _, d := range []float64{a - b, au - bu, av - bv, a - c, au + cu, av - cv} {
			if math.Abs(d) > 1e-9 {
				t.Fatalf("outlines differ by %g", d)
			}
		}
	})
}

func BenchmarkSilhouette(b *testing.B) {
	s := solidOf(b, shape.Icosphere(1, 7)) // 327,680 triangles
	p := []mesh.Placed{{Solid: s, Place: mesh.Identity()}}
	b.ReportAllocs()
	for b.Loop() {
		mesh.NewSilhouette(p, r3.Vec{X: 0.6, Y: 0.8}, r3.Vec{Z: 1}, r3.Vec{}, mesh.Strips)
	}
}

// A level edge counts to within half a strip: a narrow box on a broad one, and
// both inside a higher one of no breadth to speak of, which sets the strips.
func TestSilhouetteLevelEdges(t *testing.T) {
	mast := solidOf(t, shape.BoxBetween(r3.Vec{Z: -1}, r3.Vec{X: 0.001, Y: 0.001, Z: 1}))
	rapid.Check(t, func(t *rapid.T) {
		low, high := rapid.Float64Range(-0.9, 0).Draw(t, "low"), rapid.Float64Range(0.01, 0.9).Draw(t, "high")
		m := shape.BoxBetween(r3.Vec{Y: -2, Z: low}, r3.Vec{X: 0.5, Y: 2, Z: high})
		plate, err := mesh.NewSolid(m.Vertices, m.Triangles)
		if err != nil {
			t.Fatal(err)
		}
		area, _, _ := mesh.NewSilhouette([]mesh.Placed{{Solid: mast, Place: mesh.Identity()}, {Solid: plate, Place: mesh.Identity()}},
			r3.Vec{X: 1}, r3.Vec{Z: 1}, r3.Vec{}, mesh.Strips).Above(math.Inf(-1))
		want := 4*(high-low) + 0.001*(2-(high-low))
		// Half a strip at either edge, of 2 m of height.
		if most := 4.0 * 2 / mesh.Strips; math.Abs(area-want) > most*(1+1e-9) {
			t.Fatalf("plate from %g to %g: area %.6f, want %.6f to %.6f", low, high, area, want, most)
		}
	})
}
