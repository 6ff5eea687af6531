package plots

import (
	"bytes"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// areaWithin returns the area within closed lines, holes taken off.
func areaWithin(loops [][]r2.Vec) float64 {
	sum := 0.0
	for _, l := range loops {
		for i, p := range l {
			sum += r2.Cross(p, l[(i+1)%len(l)]) / 2
		}
	}
	return sum
}

// The silhouette of a box is a hexagon of known area from anywhere: the sum of
// its faces' areas, each by the cosine of how it faces the viewer.
func TestSilhouetteArea(t *testing.T) {
	size := r3.Vec{X: 0.8, Y: 0.3, Z: 0.12}
	part := ProfilePart{Triangles: Triangles(box(r3.Scale(-0.5, size), r3.Scale(0.5, size)))}
	for _, deg := range []float64{0, 2.5, 17, 45, 90} {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		p := &Profile{Parts: []ProfilePart{part}, Up: r3.Vec{X: sin, Z: cos}}
		b := p.bounds()
		got := areaWithin(silhouette(part, p.side(), r2.NewBox(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z), 800))
		// From the side a trimmed box shows its side face whole.
		if want := size.X * size.Z; math.Abs(got-want) > 1e-3*want {
			t.Errorf("trim %g: side area %.6f m2, want %.6f", deg, got, want)
		}
		got = areaWithin(silhouette(part, p.front(), r2.NewBox(b.Min.Y, b.Min.Z, b.Max.Y, b.Max.Z), 800))
		if want := size.Y * (size.Z*cos + size.X*sin); math.Abs(got-want) > 2e-3*want {
			t.Errorf("trim %g: front area %.6f m2, want %.6f", deg, got, want)
		}
	}
}

// Every point that simplify leaves out lies within the tolerance of the line
// that remains, and a straight line keeps its ends only.
func TestSimplify(t *testing.T) {
	var circle, straight []plotter.XY
	for i := range 721 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 360)
		circle = append(circle, plotter.XY{X: cos, Y: sin})
		straight = append(straight, plotter.XY{X: float64(i), Y: 2 * float64(i)})
	}
	if got := simplify(straight, 1e-9); len(got) != 2 {
		t.Errorf("simplify keeps %d points of a straight line, want 2", len(got))
	}
	const tolerance = 1e-3
	got := simplify(circle, tolerance)
	// A chord of a unit circle lies 1-cos(a/2) off its arc; the fewest chords
	// within the tolerance are those of that angle.
	if fewest := math.Pi / math.Acos(1-tolerance); float64(len(got)) > 2.5*fewest || float64(len(got)) < fewest {
		t.Errorf("simplify keeps %d points of a circle, want %.0f to %.0f", len(got), fewest, 2.5*fewest)
	}
	for _, q := range circle {
		least := math.Inf(1)
		for i := 1; i < len(got); i++ {
			least = math.Min(least, offLine(q, got[i-1], got[i]))
		}
		if least > tolerance {
			t.Fatalf("(%g, %g) lies %g off what is left, want %g at most", q.X, q.Y, least, tolerance)
		}
	}
}

// The region of a map is where the least margin is not negative, whatever the
// units of the margins.
func TestMapLeast(t *testing.T) {
	m := &Map{
		X: Variable{Values: []float64{0, 1}}, Y: Variable{Values: []float64{0, 1}},
		Values: []float64{1, 2, 3, math.NaN()},
		Margins: []Margin{
			{"a", []float64{-2, 500, 1000, 3}},
			{"b", []float64{0.01, 0.005, -0.001, math.NaN()}},
		},
	}
	for i, want := range []float64{-0.002, 0.5, -0.1, math.NaN()} {
		if got := m.least(1).Values[i]; math.Abs(got-want) > 1e-12 || math.IsNaN(got) != math.IsNaN(want) {
			t.Errorf("least(1)[%d] = %g, want %g", i, got, want)
		}
	}
	// In the middle a is at -2, 500 and 1000 and 3 and b has no value; along
	// the edge to (0, 1) both are linear.
	finer := m.least(4)
	for j, want := range []float64{-0.002, 0.1235, 0.249, 0.3745, 0.5} {
		if got := finer.Z(0, j); math.Abs(got-want) > 1e-12 {
			t.Errorf("least(4) at (0, %g) = %g, want %g", finer.Y(j), got, want)
		}
	}
	if !math.IsNaN(finer.Z(2, 2)) {
		t.Errorf("least(4) in a cell with a corner that has no value = %g", finer.Z(2, 2))
	}
	if !m.anyHolds() {
		t.Error("no design holds, want one")
	}
	m.Margins[0].Values[1] = -1
	if m.anyHolds() {
		t.Error("a design holds, want none")
	}
}

// Results that are missing, one of a kind, or out of all bounds are drawn too.
func TestOddFigures(t *testing.T) {
	none := []float64{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	flat := []float64{2, 2, 2, 2}
	two := []float64{0, 1}
	grid := func(values []float64, margins ...Margin) *Map {
		return &Map{X: Variable{Name: "x", Values: two}, Y: Variable{Name: "y", Values: two}, Name: "z", Values: values, Margins: margins, NoAnswer: "sinks"}
	}
	far := grid(flat)
	far.X.Today, far.Y.Today = at(7), at(-3)
	column := &Map{X: Variable{Values: []float64{1}}, Y: Variable{Values: two}, Values: two}
	sweep := func(v Variable, ts ...Trace) *Swept {
		return &Swept{Over: v, Charts: []Chart{{Name: "z", Traces: ts}}}
	}
	long := sweep(Variable{Values: two, Today: at(0), Holds: []Interval{}}, Trace{Values: two, Today: at(0)})
	long.Title = "A craft whose name is so long that it needs more than one line of the figure, " +
		"and has a wordthatislongerthanthewholewidthofthefigureandmustbebrokensomewhereinthemiddleofitself"
	still := boxCraft(1, 0)
	for name, f := range map[string]interface {
		Size() (w, h vg.Length)
		Draw(draw.Canvas)
	}{
		"map without answers":    grid(none, Margin{"a", none}),
		"map of one value":       grid(flat, Margin{"a", flat}),
		"today beside the map":   far,
		"map of one column":      column,
		"sweep without answers":  sweep(Variable{Values: []float64{0, 1, 2, 3}, Gaps: []Gap{{Interval{0, 3}, "sinks"}}}, Trace{Values: none}),
		"sweep of one value":     sweep(Variable{Values: []float64{5}, Today: at(5)}, Trace{Values: []float64{3}, Today: at(3)}),
		"title of many lines":    long,
		"no change":              &Overlay{Before: still, After: still},
		"growth without causes":  &Growth{},
		"overlay of two nothing": &Overlay{Before: &Profile{Up: r3.Vec{Z: 1}}, After: &Profile{Up: r3.Vec{Z: 1}}},
	} {
		t.Run(name, func(t *testing.T) {
			w, h := f.Size()
			var b bytes.Buffer
			if err := Write(&b, "svg", w, h, f.Draw); err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(b.Bytes(), []byte("NaN")) || bytes.Contains(b.Bytes(), []byte("Inf")) {
				t.Error("a coordinate is no number")
			}
			clipped(t, figure{name, w, h, f.Draw, 0})
		})
	}
}

// An overlay of two equal designs has nothing to dimension, and its dimensions
// pair places by name.
func TestPairsOf(t *testing.T) {
	before := []ProfilePoint{{Name: "a", Clearance: 0.1}, {Name: "b", Clearance: 0.2}, {Name: "gone"}}
	after := []ProfilePoint{{Name: "b", Clearance: 0.25}, {Name: "a", Clearance: 0.10005}, {Name: "new"}}
	got := pairsOf(before, after)
	if len(got) != 1 || got[0][0].Name != "b" || got[0][0].Clearance != 0.2 || got[0][1].Clearance != 0.25 {
		t.Errorf("pairsOf gives %v, want b from 0.2 to 0.25 only", got)
	}
}
