package plots

import (
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Room around the craft in each view, for labels: left, right, bottom, top.
type room4 struct{ left, right, bottom, top vg.Length }

var (
	sideRoom  = room4{70, 70, 34, 44}
	frontRoom = room4{46, 46, 30, 40}
	planRoom  = room4{46, 46, 30, 26}
)

const (
	profileWidth = 24 * vg.Centimeter
	sideMost     = 9.5 * vg.Centimeter // of the craft's height in the side view
	planMost     = 8.5 * vg.Centimeter // of its breadth in the plan
	headHeight   = vg.Length(36)       // title and its second line
	factsWidth   = vg.Length(190)
	factHeight   = vg.Length(12)
)

// sheet is where the views are on the page, and at which scales.
type sheet struct {
	sideScale, scale         float64 // points per meter; scale is of the lower views
	side, plan, front, facts vg.Rectangle
	height                   vg.Length // of the whole page
}

// Size returns the size that suits the craft's shape: 24 cm wide, as high as
// the views need.
func (p *Profile) Size() (w, h vg.Length) {
	s := p.sheet(p.bounds(), profileWidth, 0)
	return profileWidth, s.height
}

// sheet lays out the page for a width and, if height is not zero, within that
// height. The side view comes first and largest; plan, front and facts share
// the row under it.
func (p *Profile) sheet(b r3.Box, width, height vg.Length) sheet {
	size := b.Size()
	long, wide, tall := math.Max(size.X, 1e-6), math.Max(size.Y, 1e-6), math.Max(size.Z, 1e-6)
	inner := width - 2*pageMargin
	foot := p.footHeight(width)
	fixed := headHeight + foot + 2*pageMargin +
		sideRoom.bottom + sideRoom.top + planRoom.bottom + planRoom.top
	var s sheet
	s.sideScale = math.Min(float64(inner-sideRoom.left-sideRoom.right)/long, float64(sideMost)/tall)
	rooms := float64(planRoom.left + planRoom.right + frontRoom.left + frontRoom.right)
	// The facts stand under the front view if that leaves room for them, else
	// beside it.
	need := float64(factHeight) * float64(len(p.Facts)+1)
	under := math.Min((float64(inner)-rooms)/(long+wide), float64(planMost)/wide)
	under = math.Min(under, s.sideScale)
	beside := math.Min((float64(inner-factsWidth)-rooms)/(long+wide), float64(planMost)/wide)
	beside = math.Min(beside, s.sideScale)
	s.scale = under
	stacked := (wide-tall)*under+float64(planRoom.bottom+planRoom.top-frontRoom.bottom-frontRoom.top) >= need
	if len(p.Facts) > 0 && !stacked {
		s.scale = beside
	}
	if total := vg.Length(tall*s.sideScale+rowHeight(wide, tall, s.scale)) + fixed; height > 0 && total > height {
		k := float64(height-fixed) / float64(total-fixed)
		k = math.Max(k, 0.05)
		s.sideScale *= k
		s.scale *= k
	}
	row := vg.Length(rowHeight(wide, tall, s.scale)) + planRoom.bottom + planRoom.top
	side := vg.Length(tall*s.sideScale) + sideRoom.bottom + sideRoom.top
	s.height = side + row + headHeight + foot + 2*pageMargin
	if height == 0 {
		height = s.height
	}
	top := height - pageMargin - headHeight
	s.side = vg.Rectangle{
		Min: vg.Point{X: pageMargin, Y: top - side}, Max: vg.Point{X: width - pageMargin, Y: top},
	}
	low := vg.Rectangle{
		Min: vg.Point{X: pageMargin, Y: top - side - row}, Max: vg.Point{X: width - pageMargin, Y: top - side},
	}
	s.plan, s.front, s.facts = low, low, low
	s.plan.Max.X = low.Min.X + vg.Length(long*s.scale) + planRoom.left + planRoom.right
	s.front.Min.X = s.plan.Max.X
	s.front.Min.Y = low.Max.Y - vg.Length(tall*s.scale) - frontRoom.bottom - frontRoom.top
	if stacked {
		s.facts.Min.X = s.plan.Max.X + 14
		s.facts.Max.Y = s.front.Min.Y
	} else {
		s.front.Max.X = s.front.Min.X + vg.Length(wide*s.scale) + frontRoom.left + frontRoom.right
		s.facts.Min.X = s.front.Max.X + 14
	}
	return s
}

// rowHeight returns the height of the craft in the lower row.
func rowHeight(wide, tall, scale float64) float64 { return math.Max(wide, tall) * scale }

// Draw draws the page on c, smaller if c is too small for [Profile.Size].
func (p *Profile) Draw(c draw.Canvas) {
	fillRect(c, c.Rectangle, Paper)
	b := p.bounds()
	if !(b.Max.X >= b.Min.X) {
		return // nothing but water
	}
	size := c.Rectangle.Size()
	s := p.sheet(b, size.X, size.Y)
	at := func(r vg.Rectangle) draw.Canvas {
		return draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{Min: c.Min.Add(r.Min), Max: c.Min.Add(r.Max)}}
	}
	p.head(c)
	p.drawSide(at(s.side), s.sideScale, b)
	p.drawPlan(at(s.plan), s.scale, b)
	p.drawFront(at(s.front), s.scale, b)
	p.drawFacts(at(s.facts))
	p.foot(c)
}

// head writes the title and the angles.
func (p *Profile) head(c draw.Canvas) {
	sty := textStyle(TitleSize+2, Ink, true)
	sty.YAlign = draw.YTop
	pt := vg.Point{X: c.Min.X + pageMargin, Y: c.Max.Y - pageMargin}
	c.FillText(sty, pt, p.Title)
	sty = textStyle(LabelSize, Muted, false)
	sty.YAlign = draw.YTop
	c.FillText(sty, pt.Sub(vg.Point{Y: TitleSize + 6}), strings.Join(p.angles(), "  ·  "))
}

// angles returns the attitude in words.
func (p *Profile) angles() []string {
	words := []string{"At rest"}
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

// drawFacts writes the table, as wide as its longest line needs.
func (p *Profile) drawFacts(c draw.Canvas) {
	name, value := textStyle(TickSize, Muted, false), textStyle(TickSize, Ink, true)
	value.XAlign = draw.XRight
	width := factsWidth
	for _, f := range p.Facts {
		width = max(width, name.Width(f.Name)+value.Width(f.Value)+12)
	}
	right := min(c.Max.X, c.Min.X+width)
	y := c.Max.Y - factHeight
	for _, f := range p.Facts {
		if y < c.Min.Y {
			return
		}
		c.StrokeLine2(draw.LineStyle{Color: Grid, Width: GridWidth}, c.Min.X, y-3, right, y-3)
		c.FillText(name, vg.Point{X: c.Min.X, Y: y}, f.Name)
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
	return entryHeight*vg.Length(n) + NoteSize + 12
}

// foot draws the key and the note.
func (p *Profile) foot(c draw.Canvas) {
	at := vg.Point{X: c.Min.X + pageMargin, Y: c.Min.Y + pageMargin}
	width := c.Max.X - c.Min.X
	p.key().rows(&c, at.Add(vg.Point{Y: p.footHeight(width) - 6}), width-2*pageMargin, keyStyle)
	note := p.Note
	if note == "" {
		note = Caution
	}
	c.FillText(textStyle(NoteSize, Muted, false), at.Sub(vg.Point{Y: 1}), note)
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
