package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Place is where a legend stands.
type Place int

const (
	Free        Place = iota // the corner or edge of the data area with the fewest lines in it
	TopLeft                  // within the data area
	TopRight                 // within the data area
	BottomLeft               // within the data area
	BottomRight              // within the data area
	Outside                  // in a row above the frame; needs a plot with a title
)

// Legend names the things of a plot, on a background of its own. It is drawn
// as part of [Notes].
type Legend struct {
	Place   Place
	entries []legendEntry
}

type legendEntry struct {
	text   string
	thumbs []plot.Thumbnailer
}

const (
	thumbWidth  = vg.Length(22)
	thumbHeight = vg.Length(7)
	entryHeight = vg.Length(11)
	legendPad   = vg.Length(4)
)

// Add names a thing; several samples are drawn over one another, such as a
// band and its middle.
func (l *Legend) Add(text string, thumbs ...plot.Thumbnailer) {
	l.entries = append(l.entries, legendEntry{text, thumbs})
}

// draw draws the legend and takes its place from pl.
func (l *Legend) draw(c draw.Canvas, pl *placer) {
	if len(l.entries) == 0 {
		return
	}
	sty := textStyle(TickSize, Ink, false)
	if l.Place == Outside {
		w := c.Max.X - c.Min.X
		n := l.rows(nil, vg.Point{}, w, sty)
		l.rows(&c, vg.Point{X: c.Min.X, Y: c.Max.Y + legendPad + entryHeight*vg.Length(n)}, w, sty)
		return
	}
	var w vg.Length
	for _, e := range l.entries {
		w = max(w, sty.Width(e.text))
	}
	size := vg.Point{
		X: w + thumbWidth + 5 + 2*legendPad,
		Y: entryHeight*vg.Length(len(l.entries)) + 2*legendPad - 2,
	}
	r := l.box(c, pl, size)
	pl.keep(r)
	fillRect(c, r, Paper)
	strokeRect(c, r, draw.LineStyle{Color: Tint(Frame, 0.5), Width: 0.4})
	for i, e := range l.entries {
		y := r.Max.Y - legendPad - entryHeight*(vg.Length(i)+0.5) + 1
		e.draw(c, vg.Point{X: r.Min.X + legendPad, Y: y}, sty)
	}
}

// rows draws all entries side by side from the upper left corner at, in as many
// rows as the width needs, and returns their number. A nil canvas only counts.
func (l *Legend) rows(c *draw.Canvas, at vg.Point, width vg.Length, sty draw.TextStyle) int {
	n, x := 1, vg.Length(0)
	for _, e := range l.entries {
		w := e.thumbWidth() + 5 + sty.Width(e.text)
		if x > 0 && x+w > width {
			n, x = n+1, 0
		}
		if c != nil {
			e.draw(*c, at.Add(vg.Point{X: x, Y: -entryHeight * (vg.Length(n) - 0.5)}), sty)
		}
		x += w + 14
	}
	return n
}

// thumbWidth returns the width of a sample: symbols need less, and words alone
// nothing, not even the gap after it.
func (e legendEntry) thumbWidth() vg.Length {
	if len(e.thumbs) == 0 {
		return -5
	}
	for _, t := range e.thumbs {
		if _, ok := t.(Symbol); !ok {
			return thumbWidth
		}
	}
	return 11
}

// draw draws a sample with its left middle at the given place, and its name.
func (e legendEntry) draw(c draw.Canvas, at vg.Point, sty draw.TextStyle) {
	icon := draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
		Min: vg.Point{X: at.X, Y: at.Y - thumbHeight/2},
		Max: vg.Point{X: at.X + e.thumbWidth(), Y: at.Y + thumbHeight/2},
	}}
	for _, t := range e.thumbs {
		t.Thumbnail(&icon)
	}
	sty.YAlign = draw.YCenter
	c.FillText(sty, vg.Point{X: at.X + e.thumbWidth() + 5, Y: at.Y}, e.text)
}

// box returns where a legend of the given size stands.
func (l *Legend) box(c draw.Canvas, pl *placer, size vg.Point) vg.Rectangle {
	const inset = 5
	lo := vg.Point{X: c.Min.X + inset, Y: c.Min.Y + inset}
	hi := vg.Point{X: c.Max.X - inset - size.X, Y: c.Max.Y - inset - size.Y}
	mid := lo.Add(hi).Scale(0.5)
	corners := []vg.Point{
		{X: lo.X, Y: hi.Y}, hi, lo, {X: hi.X, Y: lo.Y}, // as the constants
		{X: mid.X, Y: hi.Y}, {X: mid.X, Y: lo.Y}, {X: lo.X, Y: mid.Y}, {X: hi.X, Y: mid.Y},
	}
	at := func(q vg.Point) vg.Rectangle { return vg.Rectangle{Min: q, Max: q.Add(size)} }
	if l.Place != Free {
		return at(corners[l.Place-TopLeft])
	}
	best, least := at(corners[0]), math.Inf(1)
	for _, q := range corners {
		r := at(q)
		grown := around(q.Add(size.Scale(0.5)), size.X/2+3, size.Y/2+3)
		if cost := pl.cost(grown); cost < least {
			best, least = r, cost
		}
	}
	return best
}
