package plots

import (
	"math"
	"testing"

	"gonum.org/v1/plot/plotter"
)

func nan() float64 { return math.NaN() }

// gridOf samples f on n+1 x n+1 nodes over a square from -a to a.
func gridOf(a float64, n int, f func(x, y float64) float64) Samples {
	var s Samples
	for i := range n + 1 {
		s.Xs = append(s.Xs, -a+2*a*float64(i)/float64(n))
	}
	s.Ys = s.Xs
	for _, x := range s.Xs {
		for _, y := range s.Ys {
			s.Values = append(s.Values, f(x, y))
		}
	}
	return s
}

// area returns the signed area within a closed line, positive anticlockwise.
func area(l []plotter.XY) float64 {
	a := 0.0
	for i := range l {
		k := (i + 1) % len(l)
		a += (l[i].X*l[k].Y - l[k].X*l[i].Y) / 2
	}
	return a
}

func closed(l []plotter.XY) bool { return l[0] == l[len(l)-1] }

// On a cone the line of level r is a circle; interpolation between nodes h
// apart errs by at most h²/(8r) there, since the cone's curvature is 1/r.
func TestIsolineCircle(t *testing.T) {
	for _, n := range []int{20, 40, 80} {
		g := gridOf(1, n, func(x, y float64) float64 { return -math.Hypot(x, y) })
		const r = 0.7123
		lines := Isolines(g, -r)
		if len(lines) != 1 || !closed(lines[0]) {
			t.Fatalf("n = %d: %d lines, want one closed", n, len(lines))
		}
		h := 2.0 / float64(n)
		for _, q := range lines[0] {
			if d := math.Abs(math.Hypot(q.X, q.Y) - r); d > h*h/(8*r)*1.1 {
				t.Errorf("n = %d: point %v is %g off the circle, want at most %g", n, q, d, h*h/(8*r)*1.1)
			}
		}
		// Larger values are inside, so the line runs anticlockwise.
		if got, want := area(lines[0]), math.Pi*r*r; math.Abs(got-want) > 4*h*h {
			t.Errorf("n = %d: area %g, want %g", n, got, want)
		}
	}
}

func TestLoops(t *testing.T) {
	ring := func(x, y float64) float64 { return 0.2 - math.Abs(math.Hypot(x, y)-0.6) }
	ramp := func(x, y float64) float64 { return x }
	hole := func(x, y float64) float64 {
		if math.Hypot(x, y) < 0.3 {
			return math.NaN()
		}
		return 1
	}
	for _, tc := range []struct {
		name  string
		f     func(x, y float64) float64
		level float64
		loops int
		area  float64
		tol   float64
	}{
		{"ring", ring, 0, 2, math.Pi * (0.8*0.8 - 0.4*0.4), 0.01},
		{"half of the square, exact", ramp, 0.123, 1, 2 * (1 - 0.123), 1e-12},
		{"all of it", ramp, -5, 1, 4, 1e-12},
		{"none", ramp, 5, 0, 0, 0},
		{"around NaN", hole, 0, 2, 4 - math.Pi*0.09, 0.1},
	} {
		t.Run(tc.name, func(t *testing.T) {
			loops := Loops(gridOf(1, 50, tc.f), tc.level)
			sum := 0.0
			for _, l := range loops {
				if !closed(l) {
					t.Errorf("loop of %d points is open", len(l))
				}
				sum += area(l)
			}
			if len(loops) != tc.loops || math.Abs(sum-tc.area) > tc.tol {
				t.Errorf("%d loops of area %g, want %d of %g", len(loops), sum, tc.loops, tc.area)
			}
		})
	}
}

// A cell with inside and outside at alternate corners joins the corners that
// its mean belongs to.
func TestSaddle(t *testing.T) {
	for _, tc := range []struct {
		name   string
		values []float64 // (0,0), (0,1), (1,0), (1,1)
		inside bool
	}{
		{"mean inside, corners 00 and 11", []float64{3, -1, -1, 3}, true},
		{"mean outside, corners 00 and 11", []float64{1, -3, -3, 1}, false},
		{"mean inside, corners 01 and 10", []float64{-1, 3, 3, -1}, true},
		{"mean outside, corners 01 and 10", []float64{-3, 1, 1, -3}, false},
	} {
		g := Samples{Xs: []float64{0, 1}, Ys: []float64{0, 1}, Values: tc.values}
		lines := Isolines(g, 0)
		if len(lines) != 2 {
			t.Errorf("%s: %d lines, want 2", tc.name, len(lines))
			continue
		}
		// Each line cuts off one corner. Closed over it, the area is on the
		// left if the corner is inside.
		for _, l := range lines {
			corner := plotter.XY{X: math.Round((l[0].X + l[1].X) / 2), Y: math.Round((l[0].Y + l[1].Y) / 2)}
			left := area([]plotter.XY{l[0], l[1], corner}) > 0
			if left != !tc.inside {
				t.Errorf("%s: line %v cuts off the wrong kind of corner", tc.name, l)
			}
		}
		loops := Loops(g, 0)
		if want := map[bool]int{true: 1, false: 2}[tc.inside]; len(loops) != want {
			t.Errorf("%s: %d areas, want %d", tc.name, len(loops), want)
		}
	}
}

func TestIsolineNaN(t *testing.T) {
	g := gridOf(1, 20, func(x, y float64) float64 {
		if x > 0.5 {
			return math.NaN()
		}
		return y
	})
	lines := Isolines(g, 0.05)
	if len(lines) != 1 || closed(lines[0]) {
		t.Fatalf("%d lines, want one open", len(lines))
	}
	for _, q := range lines[0] {
		if math.Abs(q.Y-0.05) > 1e-12 || q.X > 0.5 {
			t.Errorf("point %v, want y = 0.05 and x at most 0.5", q)
		}
	}
}
