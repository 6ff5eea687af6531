package plots

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// View is a drawing to scale: equal on both axes. Coordinates are meters, x to
// the right, y up. Labels are collected and placed at the end, by
// [View.Finish], where there is room for them.
type View struct {
	Canvas draw.Canvas
	scale  float64 // points per meter
	zero   vg.Point
	place  placer
	labels []viewLabel
}

// viewLabel is a label that waits for its place beside an anchor.
type viewLabel struct {
	lines  []string
	sty    draw.TextStyle
	anchor vg.Point
	radius vg.Length
}

// NewView returns a view that shows the box of the world as large as fits into
// c, in its middle.
func NewView(c draw.Canvas, world r2.Box) *View {
	size, room := world.Size(), c.Rectangle.Size()
	scale := math.Min(float64(room.X)/size.X, float64(room.Y)/size.Y)
	mid := world.Center()
	return NewViewAt(c, scale, mid, c.Center())
}

// NewViewAt returns a view of a given scale, in points per meter, that shows a
// place of the world at a place of c.
func NewViewAt(c draw.Canvas, scale float64, world r2.Vec, at vg.Point) *View {
	border := c.Rectangle
	border.Min = border.Min.Add(vg.Point{X: 1, Y: 1})
	border.Max = border.Max.Sub(vg.Point{X: 1, Y: 1})
	return &View{
		Canvas: c, scale: scale,
		zero:  vg.Point{X: at.X - vg.Length(world.X*scale), Y: at.Y - vg.Length(world.Y*scale)},
		place: placer{border: border},
	}
}

// At returns where a place of the world is on the canvas.
func (v *View) At(p r2.Vec) vg.Point {
	return vg.Point{X: v.zero.X + vg.Length(p.X*v.scale), Y: v.zero.Y + vg.Length(p.Y*v.scale)}
}

// World returns the place of the world at a place of the canvas.
func (v *View) World(q vg.Point) r2.Vec {
	return r2.Vec{X: float64(q.X-v.zero.X) / v.scale, Y: float64(q.Y-v.zero.Y) / v.scale}
}

// Scale returns the scale in points of the canvas per meter.
func (v *View) Scale() float64 { return v.scale }

// Line draws a polyline that labels keep off.
func (v *View) Line(sty draw.LineStyle, pts ...r2.Vec) {
	q := v.points(pts)
	v.Canvas.StrokeLines(sty, q)
	v.place.avoid(q...)
}

// Fill fills an area bounded by closed loops, such as a silhouette; a loop
// within another that turns the other way is a hole.
func (v *View) Fill(a AreaStyle, loops ...[]r2.Vec) {
	qs := make([][]vg.Point, len(loops))
	for i, l := range loops {
		qs[i] = v.points(l)
	}
	a.fill(v.Canvas, qs)
}

func (v *View) points(pts []r2.Vec) []vg.Point {
	q := make([]vg.Point, len(pts))
	for i, p := range pts {
		q[i] = v.At(p)
	}
	return q
}

// Mark draws a symbol with a label. Labels may have several lines.
func (v *View) Mark(s Symbol, at r2.Vec, label ...string) {
	q := v.At(at)
	s.Draw(v.Canvas, q)
	v.place.keep(around(q, 5, 5))
	v.Label(q, 5, Ink, false, label...)
}

// Label collects a label to be placed beside an anchor on the canvas, clear of
// a circle of the given radius around it.
func (v *View) Label(anchor vg.Point, radius vg.Length, clr color.Color, bold bool, lines ...string) {
	if len(lines) == 0 || len(lines) == 1 && lines[0] == "" {
		return
	}
	v.labels = append(v.labels, viewLabel{lines, textStyle(TickSize, clr, bold), anchor, radius})
}

// Arrow draws an arrow from a place to another, with a label at its tail.
func (v *View) Arrow(from, to r2.Vec, sty draw.LineStyle, label ...string) {
	a, b := v.At(from), v.At(to)
	arrow(v.Canvas, a, b, sty)
	v.place.avoid(a, b)
	v.Label(a, 2, sty.Color, false, label...)
}

// Dimension draws a dimension line between two places with arrow heads at both
// ends, outside where the places are close, and a label.
func (v *View) Dimension(a, b r2.Vec, clr color.Color, label ...string) {
	p, q := v.At(a), v.At(b)
	for _, end := range dimension(v.Canvas, p, q, clr) {
		v.place.avoid(end[:]...)
	}
	v.Label(p.Add(q).Scale(0.5), 2, clr, false, label...)
}

// Angle draws an arc about an apex from one direction to another, in radians
// anticlockwise from x, at a radius on the canvas, with a label at its middle.
func (v *View) Angle(apex r2.Vec, from, to float64, radius vg.Length, clr color.Color, label ...string) {
	o := v.At(apex)
	n := int(math.Abs(to-from)*float64(radius)/2) + 2
	pts := make([]vg.Point, n+1)
	for i := range pts {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		pts[i] = o.Add(vg.Point{X: radius * vg.Length(cos), Y: radius * vg.Length(sin)})
	}
	v.Canvas.StrokeLines(draw.LineStyle{Color: clr, Width: 0.7}, pts)
	v.place.avoid(pts...)
	v.Label(pts[n/2], 2, clr, false, label...)
}

// ScaleBar draws a scale bar of a round number of millimeters, at most the
// given width, with its left end at a place on the canvas.
func (v *View) ScaleBar(at vg.Point, most vg.Length) {
	mm := roundDown(float64(most) / v.scale * 1000)
	end := at.Add(vg.Point{X: vg.Length(mm / 1000 * v.scale)})
	c := v.Canvas
	// Two halves, dark and light, as on a map.
	half := at.Add(vg.Point{X: (end.X - at.X) / 2})
	fillRect(c, vg.Rectangle{Min: at, Max: half.Add(vg.Point{Y: 2.6})}, Ink)
	fillRect(c, vg.Rectangle{Min: half, Max: end.Add(vg.Point{Y: 2.6})}, Paper)
	strokeRect(c, vg.Rectangle{Min: at, Max: end.Add(vg.Point{Y: 2.6})}, draw.LineStyle{Color: Ink, Width: 0.5})
	sty := textStyle(NoteSize, Ink, false)
	sty.YAlign = draw.YCenter
	txt := Number(mm, max(0, -int(math.Floor(math.Log10(mm))))) + " mm"
	halo(c, txt, sty, end.Add(vg.Point{X: 4, Y: 1.3}), Paper)
	v.place.keep(vg.Rectangle{
		Min: at.Sub(vg.Point{X: 2, Y: 3}), Max: end.Add(vg.Point{X: 8 + sty.Width(txt), Y: 6}),
	})
}

// roundDown returns the largest of 1, 2 or 5 times a power of ten that is at
// most v.
func roundDown(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{5, 2} {
		if m*p <= v {
			return m * p
		}
	}
	return p
}

// Finish places and draws the labels. Where there is no room for all, it says
// how many are left out.
func (v *View) Finish() {
	const lead = 1.2 // of lines, in sizes
	lost := 0
	for _, l := range v.labels {
		var size vg.Point
		for _, s := range l.lines {
			size.X = max(size.X, l.sty.Width(s))
		}
		size.X += 3
		size.Y = l.sty.Font.Size*lead*vg.Length(len(l.lines)) + 1
		r, end, leader, ok := v.place.beside(l.anchor, l.radius, size)
		if !ok {
			lost++
			continue
		}
		if leader {
			d := end.Sub(l.anchor)
			from := l.anchor.Add(d.Scale(min(l.radius/hypot(d), 1)))
			v.Canvas.StrokeLine2(draw.LineStyle{Color: Muted, Width: 0.4}, from.X, from.Y, end.X, end.Y)
		}
		for i, s := range l.lines {
			y := r.Max.Y - l.sty.Font.Size*lead*(vg.Length(i)+0.5) - 0.5
			sty := l.sty
			sty.YAlign = draw.YCenter
			x := r.Min.X + 1.5
			switch {
			case l.anchor.X > r.Max.X: // beside its right end
				sty.XAlign, x = draw.XRight, r.Max.X-1.5
			case l.anchor.X >= r.Min.X:
				sty.XAlign, x = draw.XCenter, (r.Min.X+r.Max.X)/2
			}
			halo(v.Canvas, s, sty, vg.Point{X: x, Y: y}, Paper)
		}
	}
	v.labels = nil
	if lost > 0 {
		sty := textStyle(NoteSize, Muted, false)
		txt := strconv.Itoa(lost) + " labels left out, no room"
		size, b := vg.Point{X: sty.Width(txt), Y: NoteSize * 1.2}, v.place.border
		half := size.Scale(0.5)
		if r, ok := v.place.best(size, []vg.Point{
			{X: b.Max.X - half.X, Y: b.Min.Y + half.Y}, b.Max.Sub(half), {X: b.Min.X + half.X, Y: b.Max.Y - half.Y},
		}); ok {
			drawIn(v.Canvas, r, txt, sty)
		}
	}
}
