package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Side says which side of a bound misses it.
type Side int

const (
	Neither Side = iota // a plain mark
	Below               // smaller values miss (a bound "at least")
	Above               // larger values miss (a bound "at most")
)

// HLine marks a value of y across the whole plot. On the side that misses a
// bound short strokes lean away from the line, as ground is drawn in
// mechanics.
type HLine struct {
	Y     float64
	Label string
	Miss  Side
	Style draw.LineStyle
}

// VLine marks a value of x from bottom to top; as [HLine].
type VLine struct {
	X     float64
	Label string
	Miss  Side
	Style draw.LineStyle
}

// Mark puts a symbol at a place in a plot.
type Mark struct {
	X, Y   float64
	Symbol Symbol
	Label  string
}

// BoundStyle is the line style of a requirement's bound.
func BoundStyle() draw.LineStyle { return draw.LineStyle{Color: Red, Width: MarkWidth} }

// NoteStyle is the line style of a value worth marking that bounds nothing,
// such as today's design.
func NoteStyle() draw.LineStyle {
	return draw.LineStyle{Color: Muted, Width: 0.7, Dashes: []vg.Length{3, 2}}
}

// tooth is the reach of the strokes beside a bound.
const tooth = vg.Length(3.2)

// rule draws a straight line across c at a right angle to axis, and the
// strokes of a bound. It reports the ends, or false outside c.
func rule(c draw.Canvas, vertical bool, at vg.Length, miss Side, sty draw.LineStyle) (ends [2]vg.Point, ok bool) {
	if vertical && !c.ContainsX(at) || !vertical && !c.ContainsY(at) {
		return ends, false
	}
	lo, hi := c.Min.X, c.Max.X
	point := func(along, off vg.Length) vg.Point {
		return vg.Point{X: along, Y: min(max(at+off, c.Min.Y), c.Max.Y)}
	}
	if vertical {
		lo, hi = c.Min.Y, c.Max.Y
		point = func(along, off vg.Length) vg.Point {
			return vg.Point{X: min(max(at+off, c.Min.X), c.Max.X), Y: along}
		}
	}
	ends = [2]vg.Point{point(lo, 0), point(hi, 0)}
	c.StrokeLines(sty, ends[:])
	if miss == Neither {
		return ends, true
	}
	off := -tooth
	if miss == Above {
		off = tooth
	}
	var p vg.Path
	for a := lo + tooth; a < hi; a += 5 {
		p.Move(point(a, 0))
		p.Line(point(a-tooth, off))
	}
	c.SetLineStyle(draw.LineStyle{Color: sty.Color, Width: 0.5})
	c.Stroke(p)
	return ends, true
}

// Thumbnail draws a sample for a legend.
func (h HLine) Thumbnail(c *draw.Canvas) { sample(c, h.Style) }

// Thumbnail draws a sample for a legend.
func (v VLine) Thumbnail(c *draw.Canvas) { sample(c, v.Style) }

// Thumbnail draws the symbol for a legend.
func (m Mark) Thumbnail(c *draw.Canvas) { m.Symbol.Thumbnail(c) }

var _ = []plot.Thumbnailer{HLine{}, VLine{}, Mark{}}

// sample draws a piece of a line for a legend.
func sample(c *draw.Canvas, sty draw.LineStyle) {
	y := c.Center().Y
	c.StrokeLine2(sty, c.Min.X, y, c.Max.X, y)
}
