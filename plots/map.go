package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Map shows one result over two variables as a map of heights with contours,
// the designs hatched that meet all requirements, and the bounds that limit
// them. Numbers are in the units named.
type Map struct {
	Title  string   // may be empty
	X, Y   Variable // Holds, Gaps and Ticks do not apply
	Name   string   // of the result
	Unit   string
	Values []float64 // Values[i*len(Y.Values)+j] is for X.Values[i], Y.Values[j]; NaN for no answer
	// Margins are, for each requirement, how far each design is inside its
	// bounds: negative outside, NaN where it has no value.
	Margins []Margin
	// NoAnswer says why designs have none, as "sinks"; empty where all have.
	NoAnswer string
	Chosen   *Pick  // the chosen design; nil marks none
	Note     string // small, under everything; may be empty
}

// Margin is the room that a requirement leaves over a grid of designs, each in
// whatever unit: only its sign and where it crosses zero are drawn.
type Margin struct {
	Name   string // "angle of attack at least 3 deg"
	Values []float64
}

// Pick is a design to be marked on a map.
type Pick struct {
	X, Y float64
	Text string
}

// finer is how many times finer than its designs the lines of a map are drawn.
const finer = 6

const mapWidth = 16 * vg.Centimeter

// Size returns the size that suits the figure.
func (m *Map) Size() (w, h vg.Length) { return mapWidth, m.HeightFor(mapWidth) }

// HeightFor returns the height that a figure of the given width needs.
func (m *Map) HeightFor(width vg.Length) vg.Length {
	key := m.key(nil)
	return headerHeight(m.Title, m.Note, width) + 0.6*width + layoutGap +
		entryHeight*vg.Length(key.rows(nil, vg.Point{}, width-2*pageMargin, keyStyle))
}

func (m *Map) grid(values []float64) Samples {
	return Samples{Xs: m.X.Values, Ys: m.Y.Values, Values: values}
}

// least returns, for each node of a grid fine times finer, the least margin of
// all requirements, each divided by its largest size so that none outweighs the
// others. NaN where any has no value. Between nodes margins are interpolated
// one by one before the least is taken, so that the corners where two bounds
// meet stay sharp.
func (m *Map) least(fine int) Samples {
	out := Samples{Xs: refined(m.X.Values, fine), Ys: refined(m.Y.Values, fine)}
	out.Values = make([]float64, len(out.Xs)*len(out.Ys))
	for i := range out.Values {
		out.Values[i] = math.Inf(1)
	}
	for _, g := range m.Margins {
		size := 0.0
		for _, v := range g.Values {
			if a := math.Abs(v); a > size && !math.IsInf(a, 0) {
				size = a
			}
		}
		if size == 0 {
			size = 1
		}
		for k, v := range m.finer(g.Values, fine).Values {
			out.Values[k] = math.Min(out.Values[k], v/size) // NaN stays NaN
		}
	}
	return out
}

// finer returns values on a grid n times finer, interpolated within cells: for
// lines with enough points to bend and to make room for their labels.
func (m *Map) finer(values []float64, n int) Samples {
	grid := m.grid(values)
	out := Samples{Xs: refined(grid.Xs, n), Ys: refined(grid.Ys, n)}
	for _, x := range out.Xs {
		u := find(grid.X, len(grid.Xs), x)
		for _, y := range out.Ys {
			out.Values = append(out.Values, bilinear(grid, u, find(grid.Y, len(grid.Ys), y)))
		}
	}
	return out
}

// refined returns values with others between them, n steps in place of each.
func refined(values []float64, n int) []float64 {
	var out []float64
	for i, v := range values {
		out = append(out, v)
		for k := 1; k < n && i+1 < len(values); k++ {
			out = append(out, v+(values[i+1]-v)*float64(k)/float64(n))
		}
	}
	return out
}

// key explains hatch and colors; bounds are the lines of requirements.
func (m *Map) key(bounds []bound) *Legend {
	l := &Legend{}
	if len(m.Margins) > 0 {
		if m.anyHolds() {
			l.Add("meets all requirements", NewRegion(m.grid(m.Values)))
		} else {
			l.Add("no design here meets all requirements")
		}
	}
	if m.NoAnswer != "" {
		l.Add("no answer: "+m.NoAnswer, NoAnswer)
	}
	for _, b := range bounds {
		l.Add(b.name, b)
	}
	return l
}

func (m *Map) anyHolds() bool {
	for _, v := range m.least(1).Values {
		if v >= 0 {
			return true
		}
	}
	return false
}

// bound is the line on a map along which a requirement is just met.
type bound struct {
	name string
	Contours
}

// bounds returns the lines of the requirements that are met at some designs of
// the map and missed at others.
func (m *Map) bounds() []bound {
	var out []bound
	for _, g := range m.Margins {
		grid := m.finer(g.Values, finer)
		if len(Isolines(grid, 0)) == 0 {
			continue
		}
		// Blue is the map's and green the region's.
		sty := CurveStyle([]int{1, 4, 3, 5, 6}[len(out)%5])
		sty.Width = MarkWidth + 0.6
		out = append(out, bound{g.Name, Contours{Grid: grid, Levels: []float64{0}, Style: sty, Format: func(float64) string { return "" }}})
	}
	return out
}

// Draw draws the figure on c.
func (m *Map) Draw(c draw.Canvas) {
	p := New("")
	p.X.Label.Text = Label(m.X.Name, m.X.Unit)
	p.Y.Label.Text = Label(m.Y.Name, m.Y.Unit)
	grid := m.grid(m.Values)
	levels := contourLevels(m.Values)
	f := NewField(grid, levels...)
	lines := NewContours(m.finer(m.Values, finer), levels...)
	lines.Halo = len(m.Margins) > 0
	var marks []Mark
	if m.X.Today != nil && m.Y.Today != nil {
		text := m.X.TodayText
		if text == "" {
			text = "today"
		}
		marks = append(marks, Mark{X: *m.X.Today, Y: *m.Y.Today, Symbol: TodayMark, Label: text})
	}
	if k := m.Chosen; k != nil {
		marks = append(marks, Mark{X: k.X, Y: k.Y, Symbol: ChosenMark, Label: k.Text})
	}
	lines.Avoid = marks
	p.Add(f)
	if len(m.Margins) > 0 {
		p.Add(NewRegion(m.least(finer)))
	}
	bounds := m.bounds()
	for i := range bounds {
		p.Add(&bounds[i])
	}
	p.Add(lines)
	n := &Notes{Marks: marks}
	n.AddTo(p)
	xmin, xmax, ymin, ymax := f.DataRange()
	Range(&p.X, xmin, xmax)
	Range(&p.Y, ymin, ymax)
	room := 0.0
	for _, k := range marks {
		if k.X < xmin || k.X > xmax || k.Y < ymin || k.Y > ymax {
			room = 0.04 // about a mark beside the map
		}
		p.X.Min, p.X.Max = math.Min(p.X.Min, k.X), math.Max(p.X.Max, k.X)
		p.Y.Min, p.Y.Max = math.Min(p.Y.Min, k.Y), math.Max(p.Y.Max, k.Y)
	}
	Headroom(p, room, room)
	key := m.key(bounds)
	width := c.Rectangle.Size().X - 2*pageMargin
	rows := entryHeight * vg.Length(key.rows(nil, vg.Point{}, width, keyStyle))
	rest := c.Rectangle.Size().Y - headerHeight(m.Title, m.Note, c.Rectangle.Size().X) - layoutGap - rows
	body := p.Draw
	if f.Max > f.Min {
		body = WithBar(p, ColorBar{f, Label(m.Name, m.Unit)})
	}
	Layout{
		Title: m.Title, Note: m.Note, Gap: layoutGap,
		Heights: []float64{float64(max(rows, 1)), float64(max(rest, 1))},
		Panels: []Panel{
			{Draw: func(c draw.Canvas) {
				key.rows(&c, vg.Point{X: c.Min.X, Y: c.Max.Y}, c.Max.X-c.Min.X, keyStyle)
			}},
			{Row: 1, Draw: body},
		},
	}.Draw(c)
}

// contourLevels returns some ten round levels within the range of values.
func contourLevels(values []float64) []float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	var out []float64
	for _, t := range (Ticks{Want: 9}).Ticks(lo, hi) {
		if t.Value > lo && t.Value < hi {
			out = append(out, t.Value)
		}
	}
	return out
}

var _ plot.Thumbnailer = bound{}

// Thumbnail draws a sample for a legend.
func (b bound) Thumbnail(c *draw.Canvas) { sample(c, b.Style) }
