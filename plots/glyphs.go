package plots

import (
	"image/color"
	"math"
	"sort"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sortBy sorts indices stably.
func sortBy(idx []int, less func(a, b int) bool) {
	sort.SliceStable(idx, func(i, j int) bool { return less(idx[i], idx[j]) })
}

// round returns a circle made of curves: arcs are drawn wrong by the PDF
// backend. The constant is the usual one for a quarter circle by a cubic.
func round(at vg.Point, r vg.Length) vg.Path {
	k := r * 0.5522847498
	var p vg.Path
	xy := func(x, y vg.Length) vg.Point { return vg.Point{X: at.X + x, Y: at.Y + y} }
	p.Move(xy(r, 0))
	p.CubeTo(xy(r, k), xy(k, r), xy(0, r))
	p.CubeTo(xy(-k, r), xy(-r, k), xy(-r, 0))
	p.CubeTo(xy(-r, -k), xy(-k, -r), xy(0, -r))
	p.CubeTo(xy(k, -r), xy(r, -k), xy(r, 0))
	p.Close()
	return p
}

// quarter returns the sector of a circle in quadrant q, counted from 0 (upper
// right) anticlockwise.
func quarter(at vg.Point, r vg.Length, q int) vg.Path {
	k := r * 0.5522847498
	turn := func(x, y vg.Length) vg.Point {
		for range q {
			x, y = -y, x
		}
		return vg.Point{X: at.X + x, Y: at.Y + y}
	}
	var p vg.Path
	p.Move(at)
	p.Line(turn(r, 0))
	p.CubeTo(turn(r, k), turn(k, r), turn(0, r))
	p.Close()
	return p
}

// disc fills a circle.
func disc(c draw.Canvas, at vg.Point, r vg.Length, clr color.Color) {
	c.SetColor(clr)
	c.Fill(round(at, r))
}

// ring fills a circle with paper and strokes its edge.
func ring(c draw.Canvas, at vg.Point, r, width vg.Length, clr color.Color) {
	disc(c, at, r+width, Paper)
	c.SetLineStyle(draw.LineStyle{Color: clr, Width: width})
	c.Stroke(round(at, r))
}

// polygon returns a closed path through points.
func polygon(pts ...vg.Point) vg.Path {
	var p vg.Path
	for i, q := range pts {
		if i == 0 {
			p.Move(q)
		} else {
			p.Line(q)
		}
	}
	p.Close()
	return p
}

// Symbol is a mark with a meaning of its own, told apart by shape.
type Symbol int

const (
	TodayMark  Symbol = iota // today's design: a ring
	ChosenMark               // the chosen design: a solid diamond
	CGMark                   // center of gravity: a disc in black and white quarters
	CBMark                   // center of buoyancy: a disc, lower half filled
	MMark                    // metacenter: an open triangle
	PointMark                // a watched point: a small ring
	WetMark                  // a watched point under water: a small solid square
)

// Draw draws the symbol at a place on c, with a thin rim of paper so that it
// stands out from anything below.
func (s Symbol) Draw(c draw.Canvas, at vg.Point) {
	edge := draw.LineStyle{Color: Ink, Width: 0.8}
	switch s {
	case TodayMark:
		ring(c, at, 3.4, 1.4, Ink)
	case ChosenMark:
		d := func(r vg.Length) vg.Path {
			return polygon(vg.Point{X: at.X, Y: at.Y + r}, vg.Point{X: at.X - r, Y: at.Y},
				vg.Point{X: at.X, Y: at.Y - r}, vg.Point{X: at.X + r, Y: at.Y})
		}
		c.SetColor(Paper)
		c.Fill(d(6.4))
		c.SetColor(Red)
		c.Fill(d(5))
		c.SetLineStyle(edge)
		c.Stroke(d(5))
	case CGMark:
		disc(c, at, 4.9, Paper)
		c.SetColor(Ink)
		c.Fill(quarter(at, 4, 0))
		c.Fill(quarter(at, 4, 2))
		c.SetLineStyle(edge)
		c.Stroke(round(at, 4))
	case CBMark:
		disc(c, at, 4.5, Paper)
		c.SetColor(Blue)
		c.Fill(quarter(at, 3.6, 2))
		c.Fill(quarter(at, 3.6, 3))
		c.SetLineStyle(edge)
		c.Stroke(round(at, 3.6))
	case MMark:
		t := func(r vg.Length) vg.Path {
			return polygon(vg.Point{X: at.X, Y: at.Y + r}, vg.Point{X: at.X - r*0.87, Y: at.Y - r/2},
				vg.Point{X: at.X + r*0.87, Y: at.Y - r/2})
		}
		c.SetColor(Paper)
		c.Fill(t(5.8))
		c.SetLineStyle(draw.LineStyle{Color: Ink, Width: 1})
		c.Stroke(t(4.2))
	case PointMark:
		ring(c, at, 1.8, 0.8, Ink)
	case WetMark:
		sq := func(r vg.Length) vg.Path {
			return polygon(vg.Point{X: at.X - r, Y: at.Y - r}, vg.Point{X: at.X + r, Y: at.Y - r},
				vg.Point{X: at.X + r, Y: at.Y + r}, vg.Point{X: at.X - r, Y: at.Y + r})
		}
		c.SetColor(Paper)
		c.Fill(sq(2.8))
		c.SetColor(Red)
		c.Fill(sq(2))
	}
}

// Thumbnail draws the symbol for a legend.
func (s Symbol) Thumbnail(c *draw.Canvas) { s.Draw(*c, c.Center()) }

// reversed returns the points in reverse order.
func reversed(pts []vg.Point) []vg.Point {
	out := make([]vg.Point, len(pts))
	for i, q := range pts {
		out[len(pts)-1-i] = q
	}
	return out
}

// hypot returns the length of a vector.
func hypot(d vg.Point) vg.Length { return vg.Length(math.Hypot(float64(d.X), float64(d.Y))) }
