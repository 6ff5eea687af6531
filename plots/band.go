package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Band fills the area between two curves over the same x, for tolerances and
// for a range of assumptions. A NaN in either curve breaks it.
type Band struct {
	Low, High plotter.XYs // equal x at equal index
	Style     AreaStyle
	Edge      draw.LineStyle // of both curves; zero width draws none
}

// NewBand returns the band between low and high over x, in a tint and hatch of
// the curve style of the given number. It panics if the lengths differ.
func NewBand(x, low, high []float64, style int) *Band {
	line := CurveStyle(style)
	return &Band{
		Low: pairs(x, low), High: pairs(x, high),
		Style: AreaOf(line.Color, hatchAngle(style)),
		Edge:  draw.LineStyle{Color: Tint(line.Color, 0.6), Width: 0.6},
	}
}

// hatchAngle gives neighboring styles hatches that cross.
func hatchAngle(style int) float64 {
	return []float64{0.7854, -0.7854, 0.2618, -0.2618}[((style%4)+4)%4]
}

// DataRange returns the range of both curves.
func (b *Band) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(b.Low, b.High) }

// Plot draws the band, clipped to the data area.
func (b *Band) Plot(c draw.Canvas, p *plot.Plot) {
	start := 0
	for i := 0; i <= len(b.Low); i++ {
		if i < len(b.Low) && finite(b.Low[i]) && finite(b.High[i]) {
			continue
		}
		if i-start > 1 {
			low := onCanvas(c, p, b.Low[start:i])
			high := onCanvas(c, p, b.High[start:i])
			loop := append(low[:len(low):len(low)], reversed(high)...)
			if loop = c.ClipPolygonXY(loop); len(loop) > 2 {
				b.Style.fill(c, [][]vg.Point{loop})
			}
			if b.Edge.Width > 0 {
				c.StrokeLines(b.Edge, c.ClipLinesXY(low)...)
				c.StrokeLines(b.Edge, c.ClipLinesXY(high)...)
			}
		}
		start = i + 1
	}
}

// Thumbnail draws a sample for a legend.
func (b *Band) Thumbnail(c *draw.Canvas) { b.Style.Thumbnail(c) }
