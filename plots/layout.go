package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Layout sets panels of unequal size on one page.
type Layout struct {
	Title string // over everything; may be empty
	Note  string // small, under everything; may be empty
	// Widths and Heights are the shares of the columns, from the left, and of
	// the rows, from the top. Empty means one.
	Widths, Heights []float64
	Gap             vg.Length // between panels; zero means 14 points
	Panels          []Panel
}

// Panel is one cell of a layout, or several joined. Set either Plot or Draw.
type Panel struct {
	Row, Col         int // of the upper left cell, from the top left
	RowSpan, ColSpan int // zero means 1
	// Plot is a plot whose axes line up with those of the other plots in the
	// same row and column: equal left and right ends for those that cover the
	// same columns, equal bottom and top ends for the same rows.
	Plot *plot.Plot
	// Free leaves the axes of Plot as they fall.
	Free bool
	// Draw draws anything else.
	Draw func(draw.Canvas)
}

const pageMargin = vg.Length(8)

// Draw draws the page.
func (l Layout) Draw(c draw.Canvas) {
	c = header(c, l.Title, l.Note)
	cells := make([]draw.Canvas, len(l.Panels))
	for i, p := range l.Panels {
		cells[i] = draw.Canvas{Canvas: c.Canvas, Rectangle: l.cell(c.Rectangle, p)}
	}
	l.align(cells)
	for i, p := range l.Panels {
		switch {
		case p.Plot != nil:
			p.Plot.Draw(cells[i])
		case p.Draw != nil:
			p.Draw(cells[i])
		}
	}
}

// header fills the page, draws the title at the upper left and the note at the
// lower left, and returns what is left within the margins.
func header(c draw.Canvas, title, note string) draw.Canvas {
	fillRect(c, c.Rectangle, Paper)
	c = draw.Crop(c, pageMargin, -pageMargin, pageMargin, -pageMargin)
	width := c.Max.X - c.Min.X
	if title != "" {
		lines := wrap(title, pageTitle, width)
		for i, l := range lines {
			c.FillText(pageTitle, vg.Point{X: c.Min.X, Y: c.Max.Y + 2 - titleLead*vg.Length(i)}, l)
		}
		c.Max.Y -= titleLead*vg.Length(len(lines)-1) + TitleSize + 10
	}
	if note != "" {
		lines := wrap(note, pageNote, width)
		for i, l := range lines {
			c.FillText(pageNote, vg.Point{X: c.Min.X, Y: c.Min.Y - 1 + noteLead*vg.Length(len(lines)-1-i)}, l)
		}
		c.Min.Y += noteLead*vg.Length(len(lines)-1) + NoteSize + 6
	}
	return c
}

// Styles and line spacing of a page's title and note.
var (
	pageTitle = func() draw.TextStyle {
		sty := textStyle(TitleSize+1, Ink, true)
		sty.YAlign = draw.YTop
		return sty
	}()
	pageNote  = textStyle(NoteSize, Muted, false)
	titleLead = 1.2 * (TitleSize + 1)
	noteLead  = 1.25 * NoteSize
)

// headerHeight returns the height that [header] takes from a page of a width,
// margins included.
func headerHeight(title, note string, width vg.Length) vg.Length {
	width -= 2 * pageMargin
	h := 2 * pageMargin
	if title != "" {
		h += titleLead*vg.Length(len(wrap(title, pageTitle, width))-1) + TitleSize + 10
	}
	if note != "" {
		h += noteLead*vg.Length(len(wrap(note, pageNote, width))-1) + NoteSize + 6
	}
	return h
}

// cell returns the rectangle of a panel.
func (l Layout) cell(page vg.Rectangle, p Panel) vg.Rectangle {
	x0, x1 := share(l.Widths, p.Col, p.ColSpan, page.Max.X-page.Min.X, l.gap())
	y0, y1 := share(l.Heights, p.Row, p.RowSpan, page.Max.Y-page.Min.Y, l.gap())
	return vg.Rectangle{
		Min: vg.Point{X: page.Min.X + x0, Y: page.Max.Y - y1},
		Max: vg.Point{X: page.Min.X + x1, Y: page.Max.Y - y0},
	}
}

func (l Layout) gap() vg.Length {
	if l.Gap == 0 {
		return 14
	}
	return l.Gap
}

// share returns where cells first to first+span-1 begin and end on a length
// that is divided by weights with gaps between.
func share(weights []float64, first, span int, total, gap vg.Length) (from, to vg.Length) {
	if len(weights) == 0 {
		weights = []float64{1}
	}
	span = max(span, 1)
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	unit := (total - gap*vg.Length(len(weights)-1)) / vg.Length(sum)
	pos := vg.Length(0)
	for i, w := range weights {
		if i == first {
			from = pos
		}
		pos += unit * vg.Length(w)
		if i == first+span-1 {
			return from, pos
		}
		pos += gap
	}
	return from, total
}

// align crops the cells of plots so that their data areas line up.
func (l Layout) align(cells []draw.Canvas) {
	type insets struct{ left, right, bottom, top vg.Length }
	own := make([]insets, len(cells))
	for i, p := range l.Panels {
		if p.Plot == nil || p.Free {
			continue
		}
		d := p.Plot.DataCanvas(cells[i])
		own[i] = insets{d.Min.X - cells[i].Min.X, cells[i].Max.X - d.Max.X,
			d.Min.Y - cells[i].Min.Y, cells[i].Max.Y - d.Max.Y}
	}
	for i, p := range l.Panels {
		if p.Plot == nil || p.Free {
			continue
		}
		m := own[i]
		for k, q := range l.Panels {
			if q.Plot == nil || q.Free {
				continue
			}
			// Ends line up if panels begin or end at the same column or row.
			if p.Col == q.Col {
				m.left = max(m.left, own[k].left)
			}
			if p.Col+max(p.ColSpan, 1) == q.Col+max(q.ColSpan, 1) {
				m.right = max(m.right, own[k].right)
			}
			if p.Row == q.Row {
				m.top = max(m.top, own[k].top)
			}
			if p.Row+max(p.RowSpan, 1) == q.Row+max(q.RowSpan, 1) {
				m.bottom = max(m.bottom, own[k].bottom)
			}
		}
		cells[i] = draw.Crop(cells[i], m.left-own[i].left, own[i].right-m.right,
			m.bottom-own[i].bottom, own[i].top-m.top)
	}
}
