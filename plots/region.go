package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Region shades the part of a map where a margin is zero or more: the designs
// that meet all requirements, if the margin is the least of theirs. NaN (no
// answer) does not meet them.
type Region struct {
	Margin plotter.GridXYZ
	Style  AreaStyle
	Edge   draw.LineStyle
}

// NewRegion returns a region hatched in green with a dark edge, without a
// tint, so that it can lie on a [Field].
func NewRegion(margin plotter.GridXYZ) *Region {
	return &Region{
		Margin: margin,
		Style:  AreaStyle{Hatch: &Hatch{Angle: 0.7854, Spacing: 5, Style: draw.LineStyle{Color: Green, Width: 0.7}}},
		Edge:   draw.LineStyle{Color: Green, Width: 1.6},
	}
}

// DataRange returns the range of the grid's nodes.
func (r *Region) DataRange() (xmin, xmax, ymin, ymax float64) { return gridRange(r.Margin) }

// Plot draws the area and its edge, clipped to the data area.
func (r *Region) Plot(c draw.Canvas, p *plot.Plot) {
	var loops [][]vg.Point
	for _, l := range Loops(r.Margin, 0) {
		if pts := c.ClipPolygonXY(onCanvas(c, p, l)); len(pts) > 2 {
			loops = append(loops, pts)
		}
	}
	r.Style.fill(c, loops)
	if r.Edge.Width <= 0 {
		return
	}
	for _, l := range loops {
		// Half the width would stick out of the data area along its border.
		c.StrokeLines(r.Edge, append(l[:len(l):len(l)], l[0]))
	}
}

// Thumbnail draws a sample for a legend.
func (r *Region) Thumbnail(c *draw.Canvas) {
	r.Style.Thumbnail(c)
	strokeRect(*c, c.Rectangle, r.Edge)
}
