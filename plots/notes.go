package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Notes are the bounds, marks and legend of a plot, drawn together so that
// their texts keep off each other and off the curves, and within the frame.
// Add them by [Notes.AddTo], after everything else.
type Notes struct {
	HLines []HLine
	VLines []VLine
	Marks  []Mark
	Legend *Legend
	Curves []*Curve // what texts keep off; they are drawn by the plot itself
}

// AddTo adds the notes to p.
func (n *Notes) AddTo(p *plot.Plot) {
	if n.Legend != nil && n.Legend.Place == Outside {
		p.Title.Padding += entryHeight
	}
	p.Add(n)
}

// DataRange makes the plot show every line and mark.
func (n *Notes) DataRange() (xmin, xmax, ymin, ymax float64) {
	xmin, xmax = math.Inf(1), math.Inf(-1)
	ymin, ymax = xmin, xmax
	x := func(v float64) { xmin, xmax = math.Min(xmin, v), math.Max(xmax, v) }
	y := func(v float64) { ymin, ymax = math.Min(ymin, v), math.Max(ymax, v) }
	for _, h := range n.HLines {
		y(h.Y)
	}
	for _, v := range n.VLines {
		x(v.X)
	}
	for _, m := range n.Marks {
		x(m.X)
		y(m.Y)
	}
	return xmin, xmax, ymin, ymax
}

// tag is a text that waits for its place: the centers it may take, the best
// first, given its size.
type tag struct {
	text    string
	sty     draw.TextStyle
	centers func(size vg.Point) []vg.Point
}

// Plot draws the lines, the marks, the legend and the texts.
func (n *Notes) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	border := c.Rectangle
	border.Min = border.Min.Add(vg.Point{X: 2, Y: 2})
	border.Max = border.Max.Sub(vg.Point{X: 2, Y: 2})
	pl := &placer{border: border}
	for _, cv := range n.Curves {
		for _, run := range runs(cv.Points) {
			pl.avoid(onCanvas(c, p, run)...)
		}
	}
	var tags []tag
	add := func(text string, clr color.Color, bold bool, centers func(vg.Point) []vg.Point) {
		if text != "" {
			tags = append(tags, tag{text, textStyle(TickSize, clr, bold), centers})
		}
	}
	for _, v := range n.VLines {
		x := tx(v.X)
		if ends, ok := rule(c, true, x, v.Miss, v.Style); ok {
			pl.avoid(ends[:]...)
			add(v.Label, v.Style.Color, false, besideVLine(c, x, v.Miss))
		}
	}
	for _, h := range n.HLines {
		y := ty(h.Y)
		if ends, ok := rule(c, false, y, h.Miss, h.Style); ok {
			pl.avoid(ends[:]...)
			add(h.Label, h.Style.Color, false, besideHLine(c, y, h.Miss))
		}
	}
	for _, m := range n.Marks {
		at := vg.Point{X: tx(m.X), Y: ty(m.Y)}
		if !c.Contains(at) {
			continue
		}
		m.Symbol.Draw(c, at)
		pl.keep(around(at, 5, 5))
		add(m.Label, Ink, true, besideMark(at))
	}
	if n.Legend != nil {
		n.Legend.draw(c, pl)
	}
	// Marks first: they have the least choice.
	for i := len(tags) - 1; i >= 0; i-- {
		t := tags[i]
		size := vg.Point{X: t.sty.Width(t.text), Y: TickSize * 1.15}
		if r, ok := pl.best(size, t.centers(size)); ok {
			drawIn(c, r, t.text, t.sty)
			// Two texts on one line need room between them to be told apart; less
			// than lies between those on both sides of one line.
			const room = 5
			pl.keep(vg.Rectangle{Min: vg.Point{X: r.Min.X - room, Y: r.Min.Y}, Max: vg.Point{X: r.Max.X + room, Y: r.Max.Y}})
		}
	}
}

// drawIn draws one line of text into the rectangle of its size.
func drawIn(c draw.Canvas, r vg.Rectangle, txt string, sty draw.TextStyle) {
	sty.XAlign, sty.YAlign = draw.XCenter, draw.YCenter
	halo(c, txt, sty, r.Min.Add(r.Max).Scale(0.5), Paper)
}

// besideHLine offers places at the ends of a line and then along it, over it
// and under it, over the strokes of a bound last.
func besideHLine(c draw.Canvas, y vg.Length, miss Side) func(vg.Point) []vg.Point {
	return func(size vg.Point) []vg.Point {
		over, under := y+size.Y/2+1, y-size.Y/2-1
		if miss == Below {
			under -= tooth
		}
		first, second := over, under
		if miss == Above {
			first, second = under, over+tooth
		}
		var at []vg.Point
		for _, y := range []vg.Length{first, second} {
			for _, t := range []vg.Length{1, 0, 0.75, 0.25, 0.5} {
				x := c.Min.X + 4 + size.X/2 + t*(c.Max.X-c.Min.X-8-size.X)
				at = append(at, vg.Point{X: x, Y: y})
			}
		}
		return at
	}
}

// besideVLine offers places beside a line, from the top down.
func besideVLine(c draw.Canvas, x vg.Length, miss Side) func(vg.Point) []vg.Point {
	return func(size vg.Point) []vg.Point {
		right, left := x+size.X/2+3, x-size.X/2-3
		if miss == Below {
			left -= tooth
		}
		first, second := right, left
		if miss == Above {
			first, second = left, right+tooth
		}
		var at []vg.Point
		for _, t := range []vg.Length{1, 0, 0.85, 0.15, 0.7, 0.3, 0.5} {
			y := c.Min.Y + 3 + size.Y/2 + t*(c.Max.Y-c.Min.Y-6-size.Y)
			at = append(at, vg.Point{X: first, Y: y}, vg.Point{X: second, Y: y})
		}
		return at
	}
}

// besideMark offers places around a symbol.
func besideMark(q vg.Point) func(vg.Point) []vg.Point {
	return func(size vg.Point) []vg.Point {
		const off = 7
		dx, dy := off+size.X/2, off+size.Y/2
		var at []vg.Point
		for _, d := range []vg.Point{
			{X: dx}, {X: -dx}, {Y: dy}, {Y: -dy},
			{X: dx, Y: dy}, {X: -dx, Y: dy}, {X: dx, Y: -dy}, {X: -dx, Y: -dy},
			{X: size.X / 2, Y: dy}, {X: -size.X / 2, Y: dy},
			{X: size.X / 2, Y: -dy}, {X: -size.X / 2, Y: -dy},
		} {
			at = append(at, q.Add(d))
		}
		return at
	}
}
