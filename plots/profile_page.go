package plots

import (
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Draw draws the page on c. If c is lower than [Profile.Size], the views shrink;
// on a page too small to be read it says so instead.
func (p *Profile) Draw(c draw.Canvas) {
	fillRect(c, c.Rectangle, Paper)
	b := p.bounds()
	if !(b.Max.X >= b.Min.X) {
		return // nothing but water
	}
	size := c.Rectangle.Size()
	s, ok := p.shape(b, size.X).fit(size.X, size.Y)
	if !ok {
		sty := textStyle(TickSize, Ink, false)
		sty.YAlign = draw.YTop
		c.FillText(sty, vg.Point{X: c.Min.X + 2, Y: c.Max.Y - 2}, "too small\nfor this figure")
		return
	}
	at := func(r vg.Rectangle) draw.Canvas {
		return draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{Min: c.Min.Add(r.Min), Max: c.Min.Add(r.Max)}}
	}
	p.head(c)
	p.drawSide(at(s.side), s.sideScale, b)
	p.drawPlan(at(s.plan), s.lowScale, b)
	p.drawFront(at(s.front), s.lowScale, b)
	p.drawFacts(at(s.facts))
	p.foot(c)
}

// headHeight returns the height that the title and the angles need.
func (p *Profile) headHeight() vg.Length {
	if p.Title == "" {
		return angleHeight
	}
	return titleHeight + angleHeight
}

// head writes the title and the angles.
func (p *Profile) head(c draw.Canvas) {
	sty := textStyle(TitleSize+2, Ink, true)
	sty.YAlign = draw.YTop
	pt := vg.Point{X: c.Min.X + pageMargin, Y: c.Max.Y - pageMargin}
	if p.Title != "" {
		c.FillText(sty, pt, p.Title)
		pt.Y -= titleHeight
	}
	sty = textStyle(LabelSize, Muted, false)
	sty.YAlign = draw.YTop
	c.FillText(sty, pt, strings.Join(p.angles(), "  ·  "))
}

// angles returns the attitude in words.
func (p *Profile) angles() []string {
	words := []string{"At rest"}
	if p.Lies != "" {
		words = []string{"At rest, NOT UPRIGHT: " + p.Lies}
	}
	if !math.IsNaN(p.Trim) {
		words = append(words, "trim "+withSense(p.Trim, "nose up", "nose down"))
	}
	if !math.IsNaN(p.Heel) {
		words = append(words, "heel "+withSense(p.Heel, "starboard down", "port down"))
	}
	if p.Chord != nil {
		words = append(words, "angle of attack "+degrees(p.AngleOfAttack))
	}
	return words
}

// withSense writes an angle without sign and the word for its sense, or the
// bare angle if it rounds to zero.
func withSense(rad float64, positive, negative string) string {
	s := degrees(math.Abs(rad))
	switch {
	case s == degrees(0):
		return s
	case rad > 0:
		return s + " " + positive
	}
	return s + " " + negative
}

// Styles of the names and values of facts.
var (
	factName  = textStyle(TickSize, Muted, false)
	factValue = textStyle(TickSize, Ink, true)
)

// factsWidth returns the width that the longest line of the table needs.
func (p *Profile) factsWidth() vg.Length {
	width := vg.Length(120)
	for _, f := range p.Facts {
		width = max(width, factName.Width(f.Name)+factValue.Width(f.Value)+12)
	}
	return width
}

// drawFacts writes the table.
func (p *Profile) drawFacts(c draw.Canvas) {
	right := min(c.Max.X, c.Min.X+max(p.factsWidth(), 190))
	value := factValue
	value.XAlign = draw.XRight
	y := c.Max.Y - factHeight
	for _, f := range p.Facts {
		if y < c.Min.Y {
			return
		}
		c.StrokeLine2(draw.LineStyle{Color: Grid, Width: GridWidth}, c.Min.X, y-3, right, y-3)
		c.FillText(factName, vg.Point{X: c.Min.X, Y: y}, f.Name)
		c.FillText(value, vg.Point{X: right, Y: y}, f.Value)
		y -= factHeight
	}
}

// key explains colors and symbols.
func (p *Profile) key() *Legend {
	l := &Legend{}
	for _, k := range []PartKind{Flotation, Buoyant, NonBuoyant} {
		for _, part := range p.Parts {
			if part.Kind == k {
				l.Add(partWords[k], AreaStyle{Fill: partColors[k]})
				break
			}
		}
	}
	l.Add("under water", AreaStyle{Fill: wet(partColors[Flotation])})
	l.Add("water surface", surfaceThumb{})
	l.Add("CG, center of gravity", CGMark)
	l.Add("CB, center of buoyancy", CBMark)
	if p.GM != nil {
		l.Add("M, metacenter", MMark)
	}
	dry, under := false, false
	for _, q := range p.Points {
		dry, under = dry || q.Clearance >= 0, under || q.Clearance < 0
	}
	if dry {
		l.Add("watched point", PointMark)
	}
	if under {
		l.Add("watched point under water", WetMark)
	}
	return l
}

var keyStyle = textStyle(TickSize-0.5, Ink, false)

// footHeight returns the height that the key and the note need.
func (p *Profile) footHeight(width vg.Length) vg.Length {
	n := p.key().rows(nil, vg.Point{}, width-2*pageMargin, keyStyle)
	return entryHeight*vg.Length(n) + NoteSize + 12 + noteLead*vg.Length(len(p.note(width))-1)
}

// note returns the lines of the note on a page of a width.
func (p *Profile) note(width vg.Length) []string {
	note := p.Note
	if note == "" {
		note = Caution
	}
	return wrap(note, pageNote, width-2*pageMargin)
}

// foot draws the key and the note.
func (p *Profile) foot(c draw.Canvas) {
	at := vg.Point{X: c.Min.X + pageMargin, Y: c.Min.Y + pageMargin}
	width := c.Max.X - c.Min.X
	p.key().rows(&c, at.Add(vg.Point{Y: p.footHeight(width) - 6}), width-2*pageMargin, keyStyle)
	lines := p.note(width)
	for i, l := range lines {
		c.FillText(pageNote, at.Add(vg.Point{Y: noteLead*vg.Length(len(lines)-1-i) - 1}), l)
	}
}

// wet returns what a part's color becomes under water.
func wet(dry color.RGBA) color.RGBA {
	v := blend(floats(dry), wetColor, wetShare)
	return color.RGBA{uint8(v[0]), uint8(v[1]), uint8(v[2]), 0xff}
}

// surfaceThumb is the sample of the water surface in the key.
type surfaceThumb struct{}

func (surfaceThumb) Thumbnail(c *draw.Canvas) {
	r := c.Rectangle
	mid := c.Center().Y
	r.Max.Y = mid
	fillRect(*c, r, waterColor)
	c.StrokeLine2(draw.LineStyle{Color: Blue, Width: 1}, r.Min.X, mid, r.Max.X, mid)
}

// picture renders the parts into v and makes labels keep off them. Paper tells
// the background at a y of the picture.
func (p *Profile) picture(v *View, pr projection, box r2.Box, cuts bool, paper func(float64) color.RGBA) {
	// An image whose pixels are those of the PNG needs no resampling; vector
	// formats get a finer one.
	dpi, n := 240.0, 2
	if d, ok := v.Canvas.Canvas.(interface{ DPI() float64 }); ok && d.DPI() >= 100 {
		dpi, n = d.DPI(), 3
	}
	px := vg.Length(72 / dpi)
	lo, hi := v.At(box.Min), v.At(box.Max)
	r := vg.Rectangle{
		Min: vg.Point{X: px * vg.Length(math.Floor(float64(lo.X/px))-2), Y: px * vg.Length(math.Floor(float64(lo.Y/px))-2)},
		Max: vg.Point{X: px * vg.Length(math.Ceil(float64(hi.X/px))+2), Y: px * vg.Length(math.Ceil(float64(hi.Y/px))+2)},
	}
	wide, high := int(math.Round(float64(r.Size().X/px))), int(math.Round(float64(r.Size().Y/px)))
	scale := v.scale / float64(px) * float64(n)
	min := v.World(r.Min)
	// Half a pixel off the whole number, so that rounding adds no row.
	ras := newRaster(r2.Box{Min: min, Max: r2.Add(min, r2.Vec{
		X: (float64(wide*n) - 0.5) / scale, Y: (float64(high*n) - 0.5) / scale,
	})}, scale)
	lk := look{wet: wetColor, wetShare: wetShare, paper: paper, silhouette: 2, crease: 1}
	for i, part := range p.Parts {
		lk.dry = append(lk.dry, partColors[part.Kind])
		for t := range part.Triangles {
			ras.triangle(pr, t, i)
		}
	}
	if cuts {
		for _, part := range p.Parts {
			for t := range part.Triangles {
				ras.cut(pr, t)
			}
		}
	}
	v.Canvas.DrawImage(r, ras.picture(lk, n))
	v.place.shade = func(q vg.Rectangle) float64 {
		return ras.covered(r2.Box{Min: v.World(q.Min), Max: v.World(q.Max)})
	}
}
