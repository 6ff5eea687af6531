package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Curve draws a line through points in order. A point with NaN breaks it, so
// that values without an answer show as a gap; a point alone between two gaps
// is drawn as a dot.
type Curve struct {
	Points plotter.XYs
	Style  draw.LineStyle
}

// NewCurve returns the curve of y over x in the style of the given number; see
// [CurveStyle]. It panics if the lengths differ.
func NewCurve(x, y []float64, style int) *Curve {
	return &Curve{Points: pairs(x, y), Style: CurveStyle(style)}
}

// pairs joins coordinates; differing lengths are a bug of the caller.
func pairs(x, y []float64) plotter.XYs {
	if len(x) != len(y) {
		panic("plots: x and y differ in length")
	}
	pts := make(plotter.XYs, len(x))
	for i := range x {
		pts[i] = plotter.XY{X: x[i], Y: y[i]}
	}
	return pts
}

// DataRange returns the range of the finite points.
func (l *Curve) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(l.Points) }

// Plot draws the curve, clipped to the data area.
func (l *Curve) Plot(c draw.Canvas, p *plot.Plot) {
	for _, run := range runs(l.Points) {
		pts := onCanvas(c, p, run)
		if len(pts) == 1 {
			if c.Contains(pts[0]) {
				disc(c, pts[0], l.Style.Width, l.Style.Color)
			}
			continue
		}
		c.StrokeLines(l.Style, c.ClipLinesXY(pts)...)
	}
}

// Thumbnail draws a sample for a legend.
func (l *Curve) Thumbnail(c *draw.Canvas) { sample(c, l.Style) }

// finite reports whether a point can be drawn.
func finite(q plotter.XY) bool {
	return !math.IsNaN(q.X) && !math.IsNaN(q.Y) && !math.IsInf(q.X, 0) && !math.IsInf(q.Y, 0)
}

// runs splits points at those that cannot be drawn.
func runs(pts plotter.XYs) []plotter.XYs {
	var out []plotter.XYs
	start := 0
	for i := 0; i <= len(pts); i++ {
		if i < len(pts) && finite(pts[i]) {
			continue
		}
		if i > start {
			out = append(out, pts[start:i])
		}
		start = i + 1
	}
	return out
}

// rangeOf returns the range of the finite points, inverted if there are none,
// which plot.Plot takes for no data.
func rangeOf(sets ...plotter.XYs) (xmin, xmax, ymin, ymax float64) {
	xmin, xmax = math.Inf(1), math.Inf(-1)
	ymin, ymax = math.Inf(1), math.Inf(-1)
	for _, pts := range sets {
		for _, q := range pts {
			if !finite(q) {
				continue
			}
			xmin, xmax = math.Min(xmin, q.X), math.Max(xmax, q.X)
			ymin, ymax = math.Min(ymin, q.Y), math.Max(ymax, q.Y)
		}
	}
	return xmin, xmax, ymin, ymax
}

// onCanvas maps data points to the data area c of p.
func onCanvas(c draw.Canvas, p *plot.Plot, pts plotter.XYs) []vg.Point {
	x, y := p.Transforms(&c)
	out := make([]vg.Point, len(pts))
	for i, q := range pts {
		out[i] = vg.Point{X: x(q.X), Y: y(q.Y)}
	}
	return out
}

// EndLabels names curves at their right ends, outside the frame, instead of in
// a legend. Names that would overlap are moved apart. Add it after the curves.
type EndLabels struct {
	Labels []EndLabel
}

// EndLabel is a text beside the last drawable point of a curve.
type EndLabel struct {
	Curve *Curve
	Text  string
}

// Plot draws the names.
func (e *EndLabels) Plot(c draw.Canvas, p *plot.Plot) {
	type place struct {
		text string
		sty  draw.TextStyle
		end  vg.Point
	}
	var (
		places []place
		want   []vg.Length
	)
	for _, l := range e.Labels {
		rs := runs(l.Curve.Points)
		if len(rs) == 0 {
			continue
		}
		last := rs[len(rs)-1]
		end := onCanvas(c, p, last[len(last)-1:])[0]
		end.Y = min(max(end.Y, c.Min.Y), c.Max.Y)
		sty := textStyle(TickSize, l.Curve.Style.Color, true)
		sty.YAlign = draw.YCenter
		places = append(places, place{l.Text, sty, end})
		want = append(want, end.Y)
	}
	ys := spread(want, TickSize*1.25, c.Min.Y+TickSize/2, c.Max.Y-TickSize/2)
	for i, pl := range places {
		x := c.Max.X + 8
		leader := draw.LineStyle{Color: pl.sty.Color, Width: GridWidth}
		c.StrokeLine2(leader, min(pl.end.X, c.Max.X)+1, pl.end.Y, x-1.5, ys[i])
		c.FillText(pl.sty, vg.Point{X: x, Y: ys[i]}, pl.text)
	}
}

// GlyphBoxes reserves the room right of the frame.
func (e *EndLabels) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	var w vg.Length
	sty := textStyle(TickSize, Ink, true)
	for _, l := range e.Labels {
		w = max(w, sty.Width(l.Text))
	}
	if w == 0 {
		return nil
	}
	return []plot.GlyphBox{{X: 1, Y: 0.5, Rectangle: vg.Rectangle{
		Max: vg.Point{X: w + 10, Y: 0},
	}}}
}

// spread moves positions apart until neighbors are gap apart, within lo and
// hi if there is room, keeping their order and staying near where they were.
func spread(want []vg.Length, gap, lo, hi vg.Length) []vg.Length {
	n := len(want)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sortBy(order, func(a, b int) bool { return want[a] < want[b] })
	// Pool neighbors that collide into groups centered on their mean.
	type group struct {
		first, count int
		center       vg.Length
	}
	var gs []group
	bottom := func(g group) vg.Length { return g.center - gap*vg.Length(g.count-1)/2 }
	clamp := func(g group) group {
		half := gap * vg.Length(g.count-1) / 2
		g.center = max(min(g.center, hi-half), lo+half)
		return g
	}
	for k, i := range order {
		g := clamp(group{k, 1, want[i]})
		for len(gs) > 0 {
			l := gs[len(gs)-1]
			if bottom(g) >= bottom(l)+gap*vg.Length(l.count)-1e-9 {
				break
			}
			gs = gs[:len(gs)-1]
			m := l.count + g.count
			center := (l.center*vg.Length(l.count) + g.center*vg.Length(g.count)) / vg.Length(m)
			g = clamp(group{l.first, m, center})
		}
		gs = append(gs, g)
	}
	out := make([]vg.Length, n)
	for _, g := range gs {
		for k := range g.count {
			out[order[g.first+k]] = bottom(g) + gap*vg.Length(k)
		}
	}
	return out
}

// sampled returns points along a polyline at most step apart, ends included.
func sampled(pts []vg.Point, step vg.Length) []vg.Point {
	if len(pts) == 0 {
		return nil
	}
	out := []vg.Point{pts[0]}
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		// A segment far beyond the page needs no more than this.
		n := int(min(hypot(d)/step, 4000)) + 1
		for k := 1; k <= n; k++ {
			out = append(out, pts[i-1].Add(d.Scale(vg.Length(k)/vg.Length(n))))
		}
	}
	return out
}
