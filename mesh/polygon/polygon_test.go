package polygon

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// tilt is a turn that leaves no coordinate alone.
var tilt = r3.NewRotation(0.7, r3.Vec{X: 1, Y: 2, Z: 3})

// loop makes points in space of points in a plane, x and y alternating.
func loop(xy ...float64) []r3.Vec {
	var points []r3.Vec
	for i := 0; i < len(xy); i += 2 {
		points = append(points, r3.Add(r3.Vec{X: 10, Y: -3, Z: 5}, tilt.Rotate(r3.Vec{X: xy[i], Y: xy[i+1]})))
	}
	return points
}

// covered returns the sum of the area vectors of the triangles and the sum of
// their areas: the two are equally long if none lies over another.
func covered(f *Figure, tris [][3]int) (sum r3.Vec, area float64) {
	for _, t := range tris {
		a := r3.Scale(0.5, r3.Triangle{f.Points[t[0]], f.Points[t[1]], f.Points[t[2]]}.Normal())
		sum = r3.Add(sum, a)
		area += r3.Norm(a)
	}
	return sum, area
}

func TestTriangulate(t *testing.T) {
	for _, c := range []struct {
		name string
		xy   []float64
		area float64 // by the shoelace formula on paper
	}{
		{"triangle", []float64{0, 0, 4, 0, 0, 3}, 6},
		{"square", []float64{0, 0, 2, 0, 2, 2, 0, 2}, 4},
		{"dart", []float64{0, 0, 4, -2, 1, 0, 4, 2}, 2},
		{"dart from its notch", []float64{1, 0, 4, 2, 0, 0, 4, -2}, 2},
		{"L", []float64{0, 0, 3, 0, 3, 1, 1, 1, 1, 3, 0, 3}, 5},
		{"corners in line", []float64{0, 0, 1, 0, 2, 0, 3, 0, 3, 1, 2, 1, 1, 1, 0, 1}, 3},
		{"comb", []float64{0, 0, 5, 0, 5, 3, 4, 3, 4, 1, 3, 1, 3, 3, 2, 3, 2, 1, 1, 1, 1, 3, 0, 3}, 11},
		{"spiral", []float64{0, 0, 5, 0, 5, 5, 0, 5, 0, 2, 3, 2, 3, 3, 1, 3, 1, 4, 4, 4, 4, 1, 0, 1}, 17},
		// A frame: the outside, a bridge, the hole the other way round, and
		// back over the bridge.
		{"hole over a bridge", []float64{0, 0, 4, 0, 4, 4, 0, 4, 0, 0, 1, 1, 1, 3, 3, 3, 3, 1, 1, 1}, 12},
	} {
		for _, backward := range []bool{false, true} {
			points := loop(c.xy...)
			if backward {
				for i, j := 0, len(points)-1; i < j; i, j = i+1, j-1 {
					points[i], points[j] = points[j], points[i]
				}
			}
			f, budget := New(points), 1000
			tris, ok := f.Triangulate(&budget)
			if !ok || len(tris) != len(points)-2 {
				t.Errorf("%s, backward %v: %d triangles, %v, want %d", c.name, backward, len(tris), ok, len(points)-2)
				continue
			}
			sum, area := covered(&f, tris)
			if math.Abs(area-c.area) > 1e-12*c.area || r3.Norm(r3.Sub(sum, f.Area)) > 1e-12*c.area {
				t.Errorf("%s, backward %v: covers %g, as a vector %v, want %g, %v", c.name, backward, area, sum, c.area, f.Area)
			}
			if f.OffPlane > 1e-14*f.Size {
				t.Errorf("%s: %g off its plane, want 0", c.name, f.OffPlane)
			}
		}
	}
}

func TestCannotTriangulate(t *testing.T) {
	bow := New(loop(0, 0, 3, 3, 3, 0, 0, 1))
	budget := 1000
	if tris, ok := bow.Triangulate(&budget); ok {
		t.Errorf("Triangulate of a loop that crosses itself: %v, want none", tris)
	}
	var many []float64
	for i := range 100 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 100)
		many = append(many, c, s)
	}
	round := New(loop(many...))
	budget = 100
	if tris, ok := round.Triangulate(&budget); ok {
		t.Errorf("Triangulate with a budget of 100 for 100 corners: %d triangles, want none", len(tris))
	}
}

// A slit has no area, and neither have its triangles.
func TestSlit(t *testing.T) {
	f, budget := New(loop(0, 0, 2, 0, 3, 0, 1, 0)), 10
	tris, ok := f.Triangulate(&budget)
	if _, area := covered(&f, tris); !ok || len(tris) != 2 || area > 1e-12 || f.Normal != (r3.Vec{}) || f.OffPlane > 1e-14 {
		t.Errorf("Triangulate(slit) = %v, %v of area %g, normal %v, off plane %g", tris, ok, area, f.Normal, f.OffPlane)
	}
}

// A square with one corner lifted by h: the mean plane is h/4 off each corner.
func TestOffPlane(t *testing.T) {
	points := loop(0, 0, 1, 0, 1, 1, 0, 1)
	const h = 1e-6
	points[2] = r3.Add(points[2], tilt.Rotate(r3.Vec{Z: h}))
	f := New(points)
	if math.Abs(f.OffPlane-h/4) > 1e-6*h {
		t.Errorf("OffPlane = %g, want %g", f.OffPlane, h/4)
	}
}

func TestEncloses(t *testing.T) {
	f := New(loop(0, 0, 3, 0, 3, 1, 1, 1, 1, 3, 0, 3))
	for _, c := range []struct {
		x, y float64
		want bool
	}{{0.5, 2, true}, {2, 0.5, true}, {2, 2, false}, {-1, 1, false}} {
		if got := f.Encloses(loop(c.x, c.y)[0]); got != c.want {
			t.Errorf("L.Encloses(%g, %g) = %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

// Any polygon that is star-shaped about a point is cut into triangles that
// cover it once.
func TestStarShaped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "n")
		var xy []float64
		want, last, first := 0.0, 0.0, 0.0
		for i := range n {
			r := rapid.Float64Range(0.1, 1).Draw(t, "radius")
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			xy = append(xy, r*c, r*s)
			if i == 0 {
				first = r
			}
			want += last * r
			last = r
		}
		want = 0.5 * math.Sin(2*math.Pi/float64(n)) * (want + last*first)
		f, budget := New(loop(xy...)), 1_000_000
		tris, ok := f.Triangulate(&budget)
		if _, area := covered(&f, tris); !ok || math.Abs(area-want) > 1e-9*want {
			t.Errorf("Triangulate(%v): %v, covers %g, want %g", xy, ok, area, want)
		}
	})
}
