package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Contours draws the lines of equal value of a grid, each with its value
// written into a gap of the line. NaN values leave holes.
type Contours struct {
	Grid   plotter.GridXYZ
	Levels []float64
	Format func(level float64) string // of the values; nil writes as few decimals as tell the levels apart
	Style  draw.LineStyle
	Avoid  []Mark // marks that the values keep off
	Halo   bool   // a rim of paper around the values, over a hatch
}

// NewContours returns contours in dark ink for a ramp or paper below.
func NewContours(g plotter.GridXYZ, levels ...float64) *Contours {
	return &Contours{Grid: g, Levels: levels, Style: draw.LineStyle{Color: Ink, Width: MarkWidth}}
}

// DataRange returns the range of the grid's nodes.
func (k *Contours) DataRange() (xmin, xmax, ymin, ymax float64) { return gridRange(k.Grid) }

func gridRange(g plotter.GridXYZ) (xmin, xmax, ymin, ymax float64) {
	c, r := g.Dims()
	return g.X(0), g.X(c - 1), g.Y(0), g.Y(r - 1)
}

// Plot draws the lines and their values.
func (k *Contours) Plot(c draw.Canvas, p *plot.Plot) {
	format := k.Format
	if format == nil {
		format = levelFormat(k.Levels)
	}
	sty := textStyle(TickSize-0.5, k.Style.Color, false)
	sty.XAlign, sty.YAlign = draw.XCenter, draw.YCenter
	var taken []vg.Rectangle
	tx, ty := p.Transforms(&c)
	for _, m := range k.Avoid {
		w := textStyle(TickSize, Ink, true).Width(m.Label) + 10
		taken = append(taken, around(vg.Point{X: tx(m.X), Y: ty(m.Y)}, w, TickSize))
	}
	for _, level := range k.Levels {
		txt := format(level)
		w := sty.Width(txt)
		for _, line := range Isolines(k.Grid, level) {
			for _, pts := range c.ClipLinesXY(onCanvas(c, p, line)) {
				at, ok := roomFor(pts, w, c.Rectangle, taken)
				if !ok {
					c.StrokeLines(k.Style, pts)
					continue
				}
				taken = append(taken, around(at.mid, w/2+3, w/2+3))
				c.StrokeLines(k.Style, pts[:at.from+1:at.from+1], pts[at.to:])
				s := sty
				s.Rotation = at.angle
				if k.Halo {
					halo(c, txt, s, at.mid, Paper)
				} else {
					c.FillText(s, at.mid, txt)
				}
			}
		}
	}
}

// Thumbnail draws a sample for a legend.
func (k *Contours) Thumbnail(c *draw.Canvas) { sample(c, k.Style) }

// levelFormat writes levels with as few decimals as keep them exact to a part
// in 1e6 of the spacing.
func levelFormat(levels []float64) func(float64) string {
	for d := range 8 {
		exact := true
		for _, v := range levels {
			f := math.Pow(10, float64(d))
			if math.Abs(math.Round(v*f)/f-v) > 1e-9*math.Max(1, math.Abs(v)) {
				exact = false
			}
		}
		if exact {
			return func(v float64) string { return Number(v, d) }
		}
	}
	return func(v float64) string { return Number(v, 3) }
}

// room is a stretch of a line that a label replaces: the points strictly
// between from and to.
type room struct {
	from, to int
	mid      vg.Point
	angle    float64
}

// roomFor finds the straightest stretch of a line, somewhat longer than width,
// that keeps away from the border and from labels set before. It fails for a
// line that is hardly longer than its label.
func roomFor(pts []vg.Point, width vg.Length, border vg.Rectangle, taken []vg.Rectangle) (room, bool) {
	gap := width + 5
	along := make([]vg.Length, len(pts))
	for i := 1; i < len(pts); i++ {
		along[i] = along[i-1] + hypot(pts[i].Sub(pts[i-1]))
	}
	total := along[len(pts)-1]
	if total < 2.5*gap {
		return room{}, false
	}
	best, worst := room{}, math.Inf(1)
	to := 0
	for from := range pts {
		for to < len(pts) && along[to]-along[from] < gap {
			to++
		}
		if to == len(pts) {
			break
		}
		// A point far beyond the gap would leave a hole; take the line
		// elsewhere.
		chord := pts[to].Sub(pts[from])
		length := hypot(chord)
		if along[to]-along[from] > 1.6*gap || length < 0.9*gap {
			continue
		}
		mid := pts[from].Add(pts[to]).Scale(0.5)
		box := around(mid, width/2+2, TickSize)
		if !within(box, border) || overlapsAny(box, taken) {
			continue
		}
		// Straightness first, then nearness to the middle of the line.
		cost := float64((along[to]-along[from])/length-1)*20 +
			math.Abs(float64((along[from]+along[to])/2/total)-0.5)
		if cost < worst {
			a := math.Atan2(float64(chord.Y), float64(chord.X))
			if a > math.Pi/2 {
				a -= math.Pi
			} else if a <= -math.Pi/2 {
				a += math.Pi
			}
			best, worst = room{from, to, mid, a}, cost
		}
	}
	return best, !math.IsInf(worst, 1)
}

// around returns the rectangle with the given center and half sides.
func around(at vg.Point, x, y vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: at.X - x, Y: at.Y - y}, Max: vg.Point{X: at.X + x, Y: at.Y + y}}
}

// within reports whether a lies in b.
func within(a, b vg.Rectangle) bool {
	return a.Min.X >= b.Min.X && a.Max.X <= b.Max.X && a.Min.Y >= b.Min.Y && a.Max.Y <= b.Max.Y
}

// overlaps reports whether a and b share area.
func overlaps(a, b vg.Rectangle) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

func overlapsAny(a vg.Rectangle, bs []vg.Rectangle) bool {
	for _, b := range bs {
		if overlaps(a, b) {
			return true
		}
	}
	return false
}
