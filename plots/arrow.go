package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// head fills an arrow head with its tip at tip, pointing in direction d.
func head(c draw.Canvas, tip, d vg.Point, clr color.Color) {
	l := hypot(d)
	if l == 0 {
		return
	}
	d = d.Scale(arrowLength / l)
	side := vg.Point{X: -d.Y, Y: d.X}.Scale(0.24)
	back := tip.Sub(d)
	c.SetColor(clr)
	c.Fill(polygon(tip, back.Add(side), back.Sub(side)))
}

// arrow draws a line with a head at its end.
func arrow(c draw.Canvas, from, to vg.Point, sty draw.LineStyle) {
	d := to.Sub(from)
	if hypot(d) > arrowLength {
		stop := to.Sub(d.Scale(arrowLength * 0.8 / hypot(d)))
		c.StrokeLine2(sty, from.X, from.Y, stop.X, stop.Y)
	}
	head(c, to, d, sty.Color)
}

// dimension draws a line between p and q with a head at each, from outside if
// there is no room between, and returns the lines drawn.
func dimension(c draw.Canvas, p, q vg.Point, clr color.Color) [][2]vg.Point {
	sty := draw.LineStyle{Color: clr, Width: 0.7}
	d := q.Sub(p)
	l := hypot(d)
	if l < 1e-6 {
		return nil
	}
	c.StrokeLine2(sty, p.X, p.Y, q.X, q.Y)
	if l >= 2.6*arrowLength {
		head(c, p, d.Scale(-1), clr)
		head(c, q, d, clr)
		return [][2]vg.Point{{p, q}}
	}
	tail := d.Scale(1.9 * arrowLength / l)
	a, b := p.Sub(tail), q.Add(tail)
	c.StrokeLine2(sty, a.X, a.Y, p.X, p.Y)
	c.StrokeLine2(sty, q.X, q.Y, b.X, b.Y)
	head(c, p, d, clr)
	head(c, q, d.Scale(-1), clr)
	return [][2]vg.Point{{a, b}}
}
