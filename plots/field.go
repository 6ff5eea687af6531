package plots

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Ramp is a color map of one hue from light to dark, so that it prints in
// black and white and small reads as light. Text in ink stays readable on its
// whole length.
type Ramp struct{ Light, Dark color.RGBA }

// BlueRamp is the ramp of the theme.
var BlueRamp = Ramp{Light: color.RGBA{0xf7, 0xfb, 0xff, 0xff}, Dark: color.RGBA{0x3f, 0x8f, 0xc4, 0xff}}

// At returns the color at t from 0 (light) to 1 (dark); outside, the end.
func (r Ramp) At(t float64) color.RGBA {
	t = math.Min(math.Max(t, 0), 1)
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + t*(float64(b)-float64(a)))) }
	return color.RGBA{mix(r.Light.R, r.Dark.R), mix(r.Light.G, r.Dark.G), mix(r.Light.B, r.Dark.B), 0xff}
}

// Places without a value are all but blank, with sparse lines that fall to the
// right, so that no step of a ramp looks like them in black and white.
var (
	noAnswer     = color.RGBA{0xf6, 0xf6, 0xf6, 0xff}
	noAnswerLine = color.RGBA{0xa0, 0xa0, 0xa0, 0xff}
)

const noAnswerGap = vg.Length(6)

// NoAnswer is the look of places of a [Field] without a value, for legends.
var NoAnswer = AreaStyle{
	Fill:  noAnswer,
	Hatch: &Hatch{Angle: -math.Pi / 4, Spacing: noAnswerGap, Style: draw.LineStyle{Color: noAnswerLine, Width: 0.5}},
}

// Field colors a map by the value of a grid, interpolated between its nodes.
// NaN values show as [NoAnswer].
type Field struct {
	Grid     plotter.GridXYZ
	Ramp     Ramp
	Min, Max float64 // values at the ends of the ramp
	// Levels, when given in ascending order, make the color change in steps
	// at these values only, as on a map of heights.
	Levels []float64
}

// NewField returns a field over the whole range of the grid's values. Use the
// levels of the contours over it, or none.
func NewField(g plotter.GridXYZ, levels ...float64) *Field {
	f := &Field{Grid: g, Ramp: BlueRamp, Min: math.Inf(1), Max: math.Inf(-1), Levels: levels}
	c, r := g.Dims()
	for i := range c {
		for j := range r {
			if v := g.Z(i, j); !math.IsNaN(v) && !math.IsInf(v, 0) {
				f.Min, f.Max = math.Min(f.Min, v), math.Max(f.Max, v)
			}
		}
	}
	return f
}

// DataRange returns the range of the grid's nodes.
func (f *Field) DataRange() (xmin, xmax, ymin, ymax float64) { return gridRange(f.Grid) }

// color returns the color of a value.
func (f *Field) color(v float64) color.RGBA {
	if math.IsNaN(v) || !(f.Max > f.Min) {
		return noAnswer
	}
	if len(f.Levels) > 0 {
		k := 0
		for k < len(f.Levels) && v >= f.Levels[k] {
			k++
		}
		return f.Ramp.At(float64(k) / float64(len(f.Levels)))
	}
	return f.Ramp.At((v - f.Min) / (f.Max - f.Min))
}

// Plot draws the map as one image.
func (f *Field) Plot(c draw.Canvas, p *plot.Plot) {
	xmin, xmax, ymin, ymax := f.DataRange()
	tx, ty := p.Transforms(&c)
	r := vg.Rectangle{
		Min: vg.Point{X: max(tx(xmin), c.Min.X), Y: max(ty(ymin), c.Min.Y)},
		Max: vg.Point{X: min(tx(xmax), c.Max.X), Y: min(ty(ymax), c.Max.Y)},
	}
	size := r.Size()
	if size.X <= 0 || size.Y <= 0 {
		return
	}
	const dpi = 2 * DPI
	w, h := int(math.Ceil(size.X.Dots(dpi))), int(math.Ceil(size.Y.Dots(dpi)))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	// The axes of a map are linear, so their transform is undone by a share.
	xs, ys := make([]lookup, w), make([]lookup, h)
	cols, rows := f.Grid.Dims()
	for i := range xs {
		x := r.Min.X + size.X*vg.Length((float64(i)+0.5)/float64(w))
		xs[i] = find(f.Grid.X, cols, p.X.Min+(p.X.Max-p.X.Min)*float64((x-c.Min.X)/(c.Max.X-c.Min.X)))
	}
	for j := range ys {
		y := r.Max.Y - size.Y*vg.Length((float64(j)+0.5)/float64(h))
		ys[j] = find(f.Grid.Y, rows, p.Y.Min+(p.Y.Max-p.Y.Min)*float64((y-c.Min.Y)/(c.Max.Y-c.Min.Y)))
	}
	// Lines at 45 degrees lie their spacing apart along the diagonal.
	gap := int(math.Round(noAnswerGap.Dots(dpi) * math.Sqrt2))
	for j, v := range ys {
		for i, u := range xs {
			shade := f.color(bilinear(f.Grid, u, v))
			if shade == noAnswer && (i-j)%gap == 0 {
				shade = noAnswerLine
			}
			img.SetRGBA(i, j, shade)
		}
	}
	c.DrawImage(r, img)
}

// lookup is a place between two nodes of one axis of a grid.
type lookup struct {
	i int
	t float64
}

func find(node func(int) float64, n int, x float64) lookup {
	if n < 2 {
		return lookup{}
	}
	lo, hi := 0, n-1
	for hi-lo > 1 {
		if m := (lo + hi) / 2; node(m) <= x {
			lo = m
		} else {
			hi = m
		}
	}
	t := (x - node(lo)) / (node(lo+1) - node(lo))
	return lookup{lo, math.Min(math.Max(t, 0), 1)}
}

// bilinear interpolates a cell; any NaN corner that counts gives NaN.
func bilinear(g plotter.GridXYZ, u, v lookup) float64 {
	sum := 0.0
	for di, wi := range [2]float64{1 - u.t, u.t} {
		for dj, wj := range [2]float64{1 - v.t, v.t} {
			if w := wi * wj; w > 0 {
				sum += w * g.Z(u.i+di, v.i+dj)
			}
		}
	}
	return sum
}

// ColorBar explains the colors of a field.
type ColorBar struct {
	Field *Field
	Title string // with unit, see Label
}

// BarWidth is the width that a color bar takes beside a plot.
const BarWidth = vg.Length(58)

// Draw draws the bar into c, over its whole height: bar at the left, numbers
// and then the title to the right.
func (b ColorBar) Draw(c draw.Canvas) {
	bar := c.Rectangle
	bar.Min.X += 12
	bar.Max.X = bar.Min.X + 10
	h := bar.Max.Y - bar.Min.Y
	f := b.Field
	at := func(v float64) vg.Length { return bar.Min.Y + h*vg.Length((v-f.Min)/(f.Max-f.Min)) }
	var stops []float64
	if len(f.Levels) > 0 {
		stops = append(append([]float64{f.Min}, f.Levels...), f.Max)
	} else {
		const n = 64
		for i := range n + 1 {
			stops = append(stops, f.Min+(f.Max-f.Min)*float64(i)/n)
		}
	}
	for i := 0; i+1 < len(stops); i++ {
		lo, hi := math.Max(stops[i], f.Min), math.Min(stops[i+1], f.Max)
		if hi <= lo {
			continue
		}
		r := bar
		r.Min.Y = at(lo) // up to the top, so that no seam shows
		fillRect(c, r, f.color((lo+hi)/2))
	}
	strokeRect(c, bar, draw.LineStyle{Color: Frame, Width: FrameWidth})
	sty := textStyle(TickSize, Muted, false)
	sty.YAlign = draw.YCenter
	marks := Ticks{}.Ticks(f.Min, f.Max)
	if len(f.Levels) > 0 {
		marks = marks[:0]
		format := levelFormat(f.Levels)
		for _, v := range f.Levels {
			if v >= f.Min && v <= f.Max {
				marks = append(marks, plot.Tick{Value: v, Label: format(v)})
			}
		}
	}
	var w vg.Length
	for _, m := range marks {
		y := at(m.Value)
		c.StrokeLine2(draw.LineStyle{Color: Frame, Width: FrameWidth}, bar.Max.X, y, bar.Max.X+tickLength, y)
		c.FillText(sty, vg.Point{X: bar.Max.X + tickLength + 2, Y: y}, m.Label)
		w = max(w, sty.Width(m.Label))
	}
	ts := textStyle(LabelSize, Ink, false)
	ts.Rotation = math.Pi / 2
	ts.XAlign, ts.YAlign = draw.XCenter, draw.YTop
	c.FillText(ts, vg.Point{X: bar.Max.X + tickLength + 5 + w, Y: (bar.Min.Y + bar.Max.Y) / 2}, b.Title)
}

// WithBar returns a drawing of a plot with a color bar at its right, as tall
// as the data area.
func WithBar(p *plot.Plot, b ColorBar) func(draw.Canvas) {
	return func(c draw.Canvas) {
		left := draw.Crop(c, 0, -BarWidth, 0, 0)
		p.Draw(left)
		data := p.DataCanvas(left)
		b.Draw(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: data.Max.X, Y: data.Min.Y},
			Max: vg.Point{X: c.Max.X, Y: data.Max.Y},
		}})
	}
}

// Samples is a grid held as a slice: Values[i*len(Ys)+j] belongs to Xs[i] and
// Ys[j]. It is what the maps of this package take.
type Samples struct {
	Xs, Ys []float64
	Values []float64
}

var _ plotter.GridXYZ = Samples{}

// Dims returns the numbers of columns and rows.
func (s Samples) Dims() (c, r int) { return len(s.Xs), len(s.Ys) }

// X returns the x of column i.
func (s Samples) X(i int) float64 { return s.Xs[i] }

// Y returns the y of row j.
func (s Samples) Y(j int) float64 { return s.Ys[j] }

// Z returns the value at column i, row j.
func (s Samples) Z(i, j int) float64 { return s.Values[i*len(s.Ys)+j] }
