package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Righting is the picture of a righting curve: the arm against the angle, and
// below it the angle that was left free. Angles are in degrees, arms in the
// unit that Unit names.
type Righting struct {
	Title string
	Angle string // name of the angle: "Heel, starboard down"
	Free  string // name of the free angle: "Trim, nose up"
	Unit  string // of the arms: "mm"

	// Angles, Arms and Frees are the curve. Two neighbors at one angle are the
	// sides of a jump, which is drawn as a gap.
	Angles, Arms, Frees []float64
	// Other says of each point whether it is of another attitude, after a
	// leap that does not come back; nil for none.
	Other []bool

	Rest     float64         // the angle at rest
	Marks    []RightingMark  // largest arms
	Ends     []RightingAngle // where stability vanishes
	Wets     []RightingAngle // where places go under
	Jumps    []float64       // angles of jumps
	Heeling  []HeelingArm    // what works against the righting arm
	Balances []RightingMark  // where the two are equal
}

// RightingMark is a point on the curve worth a label.
type RightingMark struct {
	Angle, Arm float64
	Label      string
}

// RightingAngle is an angle worth a label.
type RightingAngle struct {
	Angle float64
	Label string
}

// HeelingArm is what works against the righting arm over the angle: a steady
// wind, a gust.
type HeelingArm struct {
	Name         string
	Angles, Arms []float64
}

// Size returns the size that the figure is made for.
func (r *Righting) Size() (w, h vg.Length) { return 20 * vg.Centimeter, 14 * vg.Centimeter }

// Draw draws the figure.
func (r *Righting) Draw(c draw.Canvas) {
	Layout{
		Title:   r.Title,
		Note:    Caution,
		Heights: []float64{2.4, 1},
		Panels:  []Panel{{Plot: r.arms()}, {Row: 1, Plot: r.frees()}},
	}.Draw(c)
}

// broken returns the curve with a gap at each jump: that of the attitude it
// started from, or that of others.
func (r *Righting) broken(values []float64, other bool) (x, y []float64) {
	for i, a := range r.Angles {
		if i > 0 && r.Angles[i-1] == a {
			x, y = append(x, a), append(y, math.NaN())
		}
		v := values[i]
		if (r.Other != nil && r.Other[i]) != other {
			v = math.NaN()
		}
		x, y = append(x, a), append(y, v)
	}
	return x, y
}

// after returns the curve of other attitudes, nil where there are none.
func (r *Righting) after(values []float64) *Curve {
	if !slices.Contains(r.Other, true) {
		return nil
	}
	x, y := r.broken(values, true)
	c := NewCurve(x, y, 0)
	c.Style = draw.LineStyle{Color: Muted, Width: MarkWidth, Dashes: []vg.Length{3, 2}}
	return c
}

// arms returns the upper panel.
func (r *Righting) arms() *plot.Plot {
	p := New("")
	p.Y.Label.Text = Label("Righting arm GZ", r.Unit)
	r.across(p)
	x, y := r.broken(r.Arms, false)
	gz := NewCurve(x, y, 0)
	good, bad := r.lobes(x, y)
	p.Add(good, bad, zeroLine{}, gz)
	notes := &Notes{Curves: []*Curve{gz}}
	legend := &Legend{}
	legend.Add("rights", good)
	if slices.ContainsFunc(bad.Low, finite) {
		legend.Add("turns over", bad)
	}
	if after := r.after(r.Arms); after != nil {
		p.Add(after)
		notes.Curves = append(notes.Curves, after)
		legend.Add("another attitude, after it leaps", after)
	}
	for i, w := range r.Heeling {
		arm := NewCurve(w.Angles, w.Arms, i+1)
		p.Add(arm)
		notes.Curves = append(notes.Curves, arm)
		legend.Add(w.Name, arm)
	}
	notes.Legend = legend
	for _, e := range r.Ends {
		notes.VLines = append(notes.VLines, VLine{X: e.Angle, Label: e.Label, Style: BoundStyle()})
	}
	for _, w := range r.Wets {
		notes.VLines = append(notes.VLines, VLine{X: w.Angle, Label: w.Label, Style: NoteStyle()})
	}
	notes.Marks = append(notes.Marks, Mark{X: r.Rest, Y: 0, Symbol: TodayMark, Label: "rest"})
	for _, m := range r.Marks {
		notes.Marks = append(notes.Marks, Mark{X: m.Angle, Y: m.Arm, Symbol: ChosenMark, Label: m.Label})
	}
	for _, b := range r.Balances {
		notes.Marks = append(notes.Marks, Mark{X: b.Angle, Y: b.Arm, Symbol: PointMark, Label: b.Label})
	}
	notes.AddTo(p)
	Headroom(p, 0, 0.12)
	return p
}

// frees returns the lower panel.
func (r *Righting) frees() *plot.Plot {
	p := New("")
	p.X.Label.Text = Label(r.Angle, "°")
	p.Y.Label.Text = Label(r.Free, "°")
	p.Y.Tick.Marker = DegreeTicks{Want: 4}
	r.across(p)
	x, y := r.broken(r.Frees, false)
	free := NewCurve(x, y, 0)
	p.Add(zeroLine{}, free)
	notes := &Notes{Curves: []*Curve{free}}
	if after := r.after(r.Frees); after != nil {
		p.Add(after)
		notes.Curves = append(notes.Curves, after)
	}
	for _, j := range r.Jumps {
		notes.VLines = append(notes.VLines, VLine{X: j, Label: "leaps", Style: NoteStyle()})
	}
	notes.AddTo(p)
	Headroom(p, 0, 0.12)
	return p
}

// across sets the angle's axis.
func (r *Righting) across(p *plot.Plot) {
	p.X.Tick.Marker = DegreeTicks{Want: 13}
	if n := len(r.Angles); n > 0 {
		Range(&p.X, r.Angles[0], r.Angles[n-1])
	}
}

// lobes returns the areas between the curve and zero: where the arm turns the
// craft back toward rest, and where it turns it away.
func (r *Righting) lobes(x, y []float64) (good, bad *Band) {
	var xs, lo, hi [2][]float64
	add := func(k int, a, v float64) {
		xs[k] = append(xs[k], a)
		lo[k], hi[k] = append(lo[k], math.Min(v, 0)), append(hi[k], math.Max(v, 0))
	}
	side := func(a, v float64) int {
		if (a-r.Rest)*v >= 0 {
			return 0
		}
		return 1
	}
	for i := range x {
		if i > 0 && !math.IsNaN(y[i]) && !math.IsNaN(y[i-1]) {
			// Where the sign changes both areas come to a point.
			if s, q := side(x[i-1], y[i-1]), side(x[i], y[i]); s != q {
				at := x[i-1]
				if y[i] != y[i-1] {
					at -= y[i-1] * (x[i] - x[i-1]) / (y[i] - y[i-1])
				}
				add(s, at, 0)
				add(s, at, math.NaN())
				add(q, at, 0)
			}
		}
		if math.IsNaN(y[i]) {
			add(0, x[i], y[i])
			add(1, x[i], y[i])
			continue
		}
		add(side(x[i], y[i]), x[i], y[i])
	}
	area := func(k, style int) *Band {
		b := NewBand(xs[k], lo[k], hi[k], style)
		b.Edge.Width = 0
		return b
	}
	return area(0, 2), area(1, 1)
}

// zeroLine draws y = 0.
type zeroLine struct{}

func (zeroLine) Plot(c draw.Canvas, p *plot.Plot) {
	_, y := p.Transforms(&c)
	if at := y(0); c.ContainsY(at) {
		c.StrokeLine2(draw.LineStyle{Color: Frame, Width: FrameWidth}, c.Min.X, at, c.Max.X, at)
	}
}

// DataRange makes the plot show zero.
func (zeroLine) DataRange() (xmin, xmax, ymin, ymax float64) {
	return math.Inf(1), math.Inf(-1), 0, 0
}

var _ plot.DataRanger = zeroLine{}
