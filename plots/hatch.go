package plots

import (
	"image/color"
	"math"
	"sort"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Hatch is a set of parallel lines that marks an area in black and white.
type Hatch struct {
	Angle   float64   // of the lines against x, in radians
	Spacing vg.Length // between lines; zero means 5 points
	Style   draw.LineStyle
}

// AreaStyle is the look of a filled area: an opaque tint and, over it, a
// hatch. Either may be absent.
type AreaStyle struct {
	Fill  color.Color
	Hatch *Hatch
}

// AreaOf returns an area in a tint of the color of a line, hatched at an angle
// in radians.
func AreaOf(line color.Color, angle float64) AreaStyle {
	return AreaStyle{
		Fill: Tint(line, 0.16),
		Hatch: &Hatch{Angle: angle, Spacing: 5,
			Style: draw.LineStyle{Color: Tint(line, 0.6), Width: 0.45}},
	}
}

// fill draws the area bounded by closed loops. A loop within another is a hole
// if it turns the other way round.
func (a AreaStyle) fill(c draw.Canvas, loops [][]vg.Point) {
	if a.Fill != nil {
		var p vg.Path
		for _, l := range loops {
			p = append(p, polygon(l...)...)
		}
		if len(p) > 0 {
			c.SetColor(a.Fill)
			c.Fill(p)
		}
	}
	if a.Hatch != nil {
		a.Hatch.draw(c, loops)
	}
}

// Thumbnail draws a sample for a legend.
func (a AreaStyle) Thumbnail(c *draw.Canvas) {
	r := c.Rectangle
	a.fill(*c, [][]vg.Point{{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}})
	strokeRect(*c, r, draw.LineStyle{Color: Frame, Width: 0.4})
}

// draw strokes the lines within the loops. Lines lie on a raster of the whole
// page, so that neighboring areas with one hatch join.
func (h *Hatch) draw(c draw.Canvas, loops [][]vg.Point) {
	gap := h.Spacing
	if gap <= 0 {
		gap = 5
	}
	sin, cos := math.Sincos(h.Angle)
	// Coordinates along (u) and across (v) the lines.
	uv := func(q vg.Point) (u, v float64) {
		return float64(q.X)*cos + float64(q.Y)*sin, float64(q.Y)*cos - float64(q.X)*sin
	}
	cuts := map[int][]float64{}
	for _, l := range loops {
		for i, q := range l {
			u0, v0 := uv(q)
			u1, v1 := uv(l[(i+1)%len(l)])
			if v0 > v1 {
				u0, v0, u1, v1 = u1, v1, u0, v0
			}
			// Half open, so that a corner on a line counts once.
			for k := math.Ceil(v0 / float64(gap)); k*float64(gap) < v1; k++ {
				t := (k*float64(gap) - v0) / (v1 - v0)
				cuts[int(k)] = append(cuts[int(k)], u0+t*(u1-u0))
			}
		}
	}
	rows := make([]int, 0, len(cuts))
	for k := range cuts {
		rows = append(rows, k)
	}
	sort.Ints(rows)
	var p vg.Path
	for _, k := range rows {
		us := cuts[k]
		sort.Float64s(us)
		v := float64(k) * float64(gap)
		for i := 0; i+1 < len(us); i += 2 {
			at := func(u float64) vg.Point {
				return vg.Point{X: vg.Length(u*cos - v*sin), Y: vg.Length(v*cos + u*sin)}
			}
			p.Move(at(us[i]))
			p.Line(at(us[i+1]))
		}
	}
	if len(p) > 0 {
		c.SetLineStyle(h.Style)
		c.Stroke(p)
	}
}
