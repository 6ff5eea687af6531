package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Overlay shows two designs at rest on one water surface, seen from starboard:
// the later one as a picture, the earlier one as outlines over it. Where a
// watched point or a station has moved against the water, the difference is
// dimensioned. The origins of both bodies stand one above the other.
type Overlay struct {
	Title         string // may be empty
	Before, After *Profile
	// BeforeName and AfterName say which is which; empty means "before" and
	// "after".
	BeforeName, AfterName string
	Changes               []Change // the table under the view
	Note                  string   // small, under everything; may be empty
}

// Change is a line of the table: a result of both designs and the difference.
type Change struct{ Name, Before, After, Difference string }

// beforeStyle is the style of the earlier design's outlines.
var beforeStyle = draw.LineStyle{Color: Red, Width: 1.1, Dashes: []vg.Length{4, 2.2}}

var overlayMargins = margins{78, 78, 36, 30}

func (o *Overlay) names() (before, after string) {
	before, after = o.BeforeName, o.AfterName
	if before == "" {
		before = "before"
	}
	if after == "" {
		after = "after"
	}
	return before, after
}

// box returns the box of both designs in the side view, with the water surface.
func (o *Overlay) box() r2.Box {
	a, b := o.Before.bounds(), o.After.bounds()
	return r2.Box{
		Min: r2.Vec{X: math.Min(a.Min.X, b.Min.X), Y: math.Min(a.Min.Z, b.Min.Z)},
		Max: r2.Vec{X: math.Max(a.Max.X, b.Max.X), Y: math.Max(a.Max.Z, b.Max.Z)},
	}
}

// Size returns the size that suits the figure.
func (o *Overlay) Size() (w, h vg.Length) { return profileWidth, o.HeightFor(profileWidth) }

// HeightFor returns the height that a figure of the given width needs.
func (o *Overlay) HeightFor(width vg.Length) vg.Length {
	size := o.box().Size()
	scale := float64(width-2*pageMargin-overlayMargins.across()) / math.Max(size.X, 1e-6)
	view := vg.Length(math.Min(size.Y*scale, float64(sideMost))) + overlayMargins.upright()
	return headerHeight(o.Title, o.Note, width) + entryHeight + view + o.tableHeight()
}

func (o *Overlay) tableHeight() vg.Length {
	if len(o.Changes) == 0 {
		return 0
	}
	return factHeight*vg.Length(len(o.Changes)+1) + 10
}

// Draw draws the figure on c.
func (o *Overlay) Draw(c draw.Canvas) {
	c = header(c, o.Title, o.Note)
	before, after := o.names()
	l := &Legend{}
	l.Add(before, HLine{Style: beforeStyle})
	l.Add(after, AreaStyle{Fill: partColors[Flotation]})
	l.Add(after+", under water", AreaStyle{Fill: wet(partColors[Flotation])})
	l.Add("water surface", surfaceThumb{})
	l.rows(&c, vg.Point{X: c.Min.X, Y: c.Max.Y}, c.Max.X-c.Min.X, keyStyle)
	view := draw.Crop(c, 0, 0, o.tableHeight(), -entryHeight)
	o.drawView(view)
	o.drawChanges(draw.Crop(c, 0, 0, 0, o.tableHeight()-(c.Max.Y-c.Min.Y)))
}

// drawView draws the water, the picture and the outlines.
func (o *Overlay) drawView(c draw.Canvas) {
	box := o.box()
	size, room := box.Size(), c.Rectangle.Size()
	scale := math.Min(float64(room.X-overlayMargins.across())/math.Max(size.X, 1e-6),
		float64(room.Y-overlayMargins.upright())/math.Max(size.Y, 1e-6))
	if !(scale > 0) {
		return
	}
	v := o.After.elevation(c, o.After.side(), scale, box, overlayMargins, o.After.noseWord("Side, from starboard"))
	pr := o.Before.side()
	for _, part := range o.Before.Parts {
		for _, loop := range silhouette(part, pr, box, scale*3) {
			v.Line(beforeStyle, loop...)
		}
	}
	o.drawMoves(v, size.X)
	v.ScaleBar(vg.Point{X: c.Min.X + 4, Y: c.Min.Y + 6}, 110)
	v.Finish()
}

// moved is one or several places that have moved alike in the view.
type moved struct {
	was, is vg.Point
	names   []string
	text    string // of both heights
}

// moves returns what has moved against the water. Places that look like one,
// such as the two tips of a wing, are one.
func (o *Overlay) moves(v *View, long float64) []moved {
	var out []moved
	a, b := o.Before.side(), o.After.side()
	add := func(ps [][2]ProfilePoint, suffix string) {
		for _, p := range ps {
			was, is := millimeters(p[0].Clearance, long), millimeters(p[1].Clearance, long)
			if was == is {
				continue
			}
			m := moved{v.At(a.flat(p[0].At)), v.At(b.flat(p[1].At)), []string{p[0].Name + suffix}, was + " → " + is}
			known := false
			for i := range out {
				if out[i].text == m.text && hypot(out[i].is.Sub(m.is)) < 2 {
					out[i].names = append(out[i].names, m.names...)
					known = true
					break
				}
			}
			if !known {
				out = append(out, m)
			}
		}
	}
	add(pairsOf(o.Before.Points, o.After.Points), "")
	add(pairsOf(o.Before.Drafts, o.After.Drafts), " draft")
	return out
}

// drawMoves dimensions what has moved against the water: from where it was to
// where it is.
func (o *Overlay) drawMoves(v *View, long float64) {
	var used []vg.Length
	for _, m := range o.moves(v, long) {
		PointMark.Draw(v.Canvas, m.is)
		v.place.keep(around(m.is, 3, 3))
		if math.Abs(float64(m.is.Y-m.was.Y)) > 2.5 {
			x := freeNear(m.is.X, used)
			used = append(used, x)
			for _, l := range dimension(v.Canvas, vg.Point{X: x, Y: m.was.Y}, vg.Point{X: x, Y: m.is.Y}, Ink) {
				v.place.avoid(l[:]...)
			}
			for _, end := range []vg.Point{m.was, m.is} {
				v.Canvas.StrokeLine2(draw.LineStyle{Color: Muted, Width: 0.4}, end.X, end.Y, x, end.Y)
			}
		}
		v.Label(m.is, 3, Ink, false, joinNames(m.names), m.text)
	}
}

// pairsOf returns the points that both designs have by the same name, and
// whose heights differ by a tenth of a millimeter at least.
func pairsOf(before, after []ProfilePoint) [][2]ProfilePoint {
	var out [][2]ProfilePoint
	for _, b := range after {
		for _, a := range before {
			if a.Name == b.Name && math.Abs(a.Clearance-b.Clearance) >= 1e-4 {
				out = append(out, [2]ProfilePoint{a, b})
				break
			}
		}
	}
	return out
}

// drawChanges writes the table.
func (o *Overlay) drawChanges(c draw.Canvas) {
	if len(o.Changes) == 0 {
		return
	}
	before, after := o.names()
	rows := append([]Change{{"", before, after, "difference"}}, o.Changes...)
	var widths [4]vg.Length
	cells := func(r Change) [4]string { return [4]string{r.Name, r.Before, r.After, r.Difference} }
	for _, r := range rows {
		for k, txt := range cells(r) {
			widths[k] = max(widths[k], factValue.Width(txt)+16)
		}
	}
	y := c.Max.Y - factHeight
	for i, r := range rows {
		x := c.Min.X
		for k, txt := range cells(r) {
			sty := factValue
			if i == 0 || k == 0 {
				sty = factName
			}
			at := vg.Point{X: x, Y: y}
			if x += widths[k]; k > 0 {
				sty.XAlign, at.X = draw.XRight, x
			}
			c.FillText(sty, at, txt)
		}
		c.StrokeLine2(draw.LineStyle{Color: Grid, Width: GridWidth}, c.Min.X, y-3, x, y-3)
		y -= factHeight
	}
}
