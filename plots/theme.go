package plots

import (
	"image/color"
	"math"

	"golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// colorer keeps the import of image/color out of signatures that have a long
// list of parameters already.
type colorer = color.Color

// Sizes of text and widths of lines, in points.
const (
	TitleSize = vg.Length(10) // bold
	LabelSize = vg.Length(9)
	TickSize  = vg.Length(8)
	NoteSize  = vg.Length(7)

	CurveWidth  = vg.Length(1.4)
	MarkWidth   = vg.Length(0.9) // bounds, contours, dimension lines of weight
	FrameWidth  = vg.Length(0.6)
	GridWidth   = vg.Length(0.5)
	tickLength  = vg.Length(3)
	arrowLength = vg.Length(5)
)

// Colors by their use. The hues are those of Okabe and Ito, "Color universal
// design" (2008), which people with the common kinds of color blindness tell
// apart.
var (
	Ink    = color.RGBA{0x1f, 0x1f, 0x1f, 0xff} // titles, labels, outlines
	Muted  = color.RGBA{0x5e, 0x5e, 0x5e, 0xff} // ticks, notes, leaders
	Frame  = color.RGBA{0x6b, 0x6b, 0x6b, 0xff}
	Grid   = color.RGBA{0xe4, 0xe4, 0xe4, 0xff}
	Paper  = color.RGBA{0xff, 0xff, 0xff, 0xff}
	Blue   = color.RGBA{0x00, 0x72, 0xb2, 0xff}
	Orange = color.RGBA{0xe6, 0x9f, 0x00, 0xff}
	Green  = color.RGBA{0x00, 0x9e, 0x73, 0xff}
	Purple = color.RGBA{0xcc, 0x79, 0xa7, 0xff}
	Sky    = color.RGBA{0x56, 0xb4, 0xe9, 0xff}
	Red    = color.RGBA{0xd5, 0x5e, 0x00, 0xff} // vermillion: bounds, wet places
)

// curves pairs each color with the dash that tells it apart without color.
var curves = []struct {
	color color.RGBA
	dash  []vg.Length
}{
	{Blue, nil},
	{Red, []vg.Length{6, 2.5}},
	{Green, []vg.Length{8, 2, 1.5, 2}},
	{Purple, []vg.Length{2, 1.8}},
	{Ink, []vg.Length{10, 2, 1.5, 1.8, 1.5, 2}},
	{Orange, []vg.Length{4, 1.6}},
	{Sky, []vg.Length{12, 4}},
}

// CurveStyle returns the style of curve i, counted from zero: a color with a
// dash of its own. There are seven, then they repeat.
func CurveStyle(i int) draw.LineStyle {
	c := curves[((i%len(curves))+len(curves))%len(curves)]
	return draw.LineStyle{Color: c.color, Width: CurveWidth, Dashes: c.dash}
}

// Tint returns c mixed with white, opaque: 0 gives white, 1 gives c.
func Tint(c color.Color, share float64) color.Color {
	r, g, b, _ := c.RGBA()
	mix := func(v uint32) uint8 { return uint8(math.Round(255 + share*(float64(v>>8)-255))) }
	return color.RGBA{mix(r), mix(g), mix(b), 0xff}
}

// textStyle returns the style of upright text, placed by its left baseline
// corner unless the caller sets another alignment.
func textStyle(size vg.Length, c color.Color, bold bool) text.Style {
	f := face
	f.Size = size
	if bold {
		f.Weight = font.WeightBold
	}
	return text.Style{Color: c, Font: f, Handler: handler}
}

// Label returns the title of an axis: the name of a quantity and its unit, as
// in "Heel (°)". An empty unit gives the bare name, for pure numbers.
func Label(name, unit string) string {
	if unit == "" {
		return name
	}
	return name + " (" + unit + ")"
}

// New returns an empty plot in the theme, with its grid and frame. The title
// may be empty. Set p.X.Label.Text and p.Y.Label.Text by [Label].
func New(title string) *plot.Plot {
	p := plot.New()
	p.Title.Text = title
	p.Title.TextStyle = textStyle(TitleSize, Ink, true)
	p.Title.TextStyle.XAlign = draw.XCenter
	p.Title.TextStyle.YAlign = draw.YTop
	p.Title.Padding = 5
	p.BackgroundColor = Paper
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Padding = 0
		a.LineStyle.Width = 0 // the frame draws it
		a.Label.Padding = 3
		a.Label.TextStyle.Font.Size = LabelSize
		a.Label.TextStyle.Color = Ink
		a.Tick.Label.Font.Size = TickSize
		a.Tick.Label.Color = Muted
		a.Tick.LineStyle = draw.LineStyle{Color: Frame, Width: FrameWidth}
		a.Tick.Length = tickLength
		a.Tick.Marker = Ticks{}
	}
	g := plotter.NewGrid()
	g.Horizontal = draw.LineStyle{Color: Grid, Width: GridWidth}
	g.Vertical = g.Horizontal
	p.Add(g, frame{})
	return p
}

// frame draws the border of the data area.
type frame struct{}

func (frame) Plot(c draw.Canvas, _ *plot.Plot) {
	strokeRect(c, c.Rectangle, draw.LineStyle{Color: Frame, Width: FrameWidth})
}

// Headroom widens the axes so that no curve touches the frame: each end moves
// out by the given share of the range. Call it after adding the data; 0, 0.08
// suits curves that run the whole width. A range without extent gets some.
func Headroom(p *plot.Plot, x, y float64) {
	widen(&p.X, x)
	widen(&p.Y, y)
}

func widen(a *plot.Axis, share float64) {
	if math.IsInf(a.Min, 0) || math.IsInf(a.Max, 0) {
		return
	}
	d := a.Max - a.Min
	if d <= 0 {
		// One value only: show it in the middle, with ticks around it.
		d = math.Max(math.Abs(a.Max), 1)
		share = math.Max(share, 0.1)
	}
	a.Min -= share * d
	a.Max += share * d
}

// Range sets both ends of an axis, for axes that must show a round range or
// share it with another panel.
func Range(a *plot.Axis, min, max float64) { a.Min, a.Max = min, max }

// strokeRect draws the outline of r.
func strokeRect(c draw.Canvas, r vg.Rectangle, sty draw.LineStyle) {
	c.SetLineStyle(sty)
	c.Stroke(r.Path())
}

// fillRect fills r.
func fillRect(c draw.Canvas, r vg.Rectangle, clr color.Color) {
	c.SetColor(clr)
	c.Fill(r.Path())
}
