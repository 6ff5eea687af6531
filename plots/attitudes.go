package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Attitudes is the picture of every way a craft can float: one row each, from
// starboard and from ahead, all to one scale.
type Attitudes struct {
	Title string
	Rows  []AttitudeRow
}

// AttitudeRow is one attitude: a heading, a few lines, and the craft as it
// lies. Of the profile only parts, attitude and CG are drawn.
type AttitudeRow struct {
	Heading string
	Lines   []string
	Profile *Profile
}

const (
	mostRows       = 12
	attitudesWidth = 20 * vg.Centimeter
	attitudesText  = vg.Length(150)
	attitudesGap   = vg.Length(14)
	attitudesTall  = vg.Length(150) // a view at most
	attitudesPad   = vg.Length(6)   // of water and air around the craft in a view
	attitudesLeast = vg.Length(84)  // a row at least, for its text
	attitudesName  = vg.Length(12)  // over a view
)

// attitudesSheet is where things go.
type attitudesSheet struct {
	boxes      []r3.Box
	scale      float64 // points per meter
	long, wide float64 // of the largest views, m
	rows       []vg.Length
}

func (a *Attitudes) sheet() attitudesSheet {
	var s attitudesSheet
	tall := 0.0
	for _, row := range a.shown() {
		b := row.Profile.bounds()
		s.boxes = append(s.boxes, b)
		size := b.Size()
		s.long, s.wide, tall = math.Max(s.long, size.X), math.Max(s.wide, size.Y), math.Max(tall, size.Z)
	}
	room := attitudesWidth - 2*pageMargin - attitudesText - attitudesGap - 4*attitudesPad
	s.scale = math.Min(float64(room)/(s.long+s.wide), float64(attitudesTall)/tall)
	for _, b := range s.boxes {
		s.rows = append(s.rows, max(vg.Length(b.Size().Z*s.scale)+2*attitudesPad+attitudesName, attitudesLeast)+attitudesGap)
	}
	return s
}

// shown returns the rows that are drawn.
func (a *Attitudes) shown() []AttitudeRow { return a.Rows[:min(len(a.Rows), mostRows)] }

// Size returns the size that the figure is made for.
func (a *Attitudes) Size() (w, h vg.Length) {
	h = 2*pageMargin + TitleSize + 10 + NoteSize + 6
	for _, row := range a.sheet().rows {
		h += row
	}
	return attitudesWidth, h
}

// Draw draws the figure.
func (a *Attitudes) Draw(c draw.Canvas) {
	note := Caution
	if n := len(a.Rows) - mostRows; n > 0 {
		note = fmt.Sprintf("%d more are not drawn. %s", n, Caution)
	}
	c = header(c, a.Title, note)
	s := a.sheet()
	for i, row := range a.shown() {
		r := c
		r.Min.Y = c.Max.Y - s.rows[i]
		a.row(r, row, s, s.boxes[i])
		c.Max.Y = r.Min.Y
	}
}

func (a *Attitudes) row(c draw.Canvas, row AttitudeRow, s attitudesSheet, b r3.Box) {
	y := c.Max.Y - LabelSize
	c.FillText(textStyle(LabelSize, Ink, true), vg.Point{X: c.Min.X, Y: y}, row.Heading)
	for _, l := range row.Lines {
		y -= TickSize * 1.45
		c.FillText(textStyle(TickSize, Muted, false), vg.Point{X: c.Min.X, Y: y}, l)
	}
	p := row.Profile
	x := c.Min.X + attitudesText
	view := func(pr projection, lo, hi, most float64, name string) {
		cell := c
		cell.Min.X, cell.Max.X = x, x+vg.Length(most*s.scale)+2*attitudesPad
		cell.Min.Y += attitudesGap
		cell.FillText(textStyle(NoteSize, Muted, false), vg.Point{X: cell.Min.X, Y: cell.Max.Y - NoteSize}, name)
		cell.Max.Y -= attitudesName
		v := NewViewAt(cell, s.scale, r2.Vec{X: (lo + hi) / 2, Y: b.Min.Z}, vg.Point{X: cell.Center().X, Y: cell.Min.Y + attitudesPad})
		surface := v.At(r2.Vec{}).Y
		water := cell.Rectangle
		water.Max.Y = surface
		fillRect(cell, water, waterColor)
		p.picture(v, pr, r2.NewBox(lo, b.Min.Z, hi, b.Max.Z), false, above)
		cell.StrokeLine2(draw.LineStyle{Color: Blue, Width: 1}, cell.Min.X, surface, cell.Max.X, surface)
		CGMark.Draw(cell, v.At(pr.flat(p.CG)))
		x = cell.Max.X + attitudesGap
	}
	view(p.side(), b.Min.X, b.Max.X, s.long, p.noseWord("from starboard"))
	view(p.front(), b.Min.Y, b.Max.Y, s.wide, "from ahead")
}
