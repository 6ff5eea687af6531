package plots

import (
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Swept draws results over one variable, one chart under the other, with
// today's design and the bounds marked and the values shaded at which all
// requirements hold.
type Swept struct {
	Title  string // may be empty
	Over   Variable
	Charts []Chart
	Note   string // small, under everything; may be empty
}

// Variable is what was varied. Numbers are in its Unit.
type Variable struct {
	Name, Unit string
	Values     []float64 // ascending
	Today      *float64  // today's design; nil marks none
	TodayText  string    // beside it; empty means "today"
	// Ticks replaces the theme's, for an axis in round shares of something.
	Ticks []plot.Tick
	// Holds are the values between which all requirements hold. Nil leaves
	// out what says so; no requirements are known.
	Holds []Interval
	// Gaps are where there is no answer.
	Gaps []Gap
}

// Interval is a range of a variable, ends included.
type Interval struct{ From, To float64 }

// Gap is a range of a variable without an answer, and why: "sinks".
type Gap struct {
	Interval
	Why string
}

// Chart is one or several results of one kind over the variable. Numbers are in
// its Unit.
type Chart struct {
	Name, Unit string
	Traces     []Trace
	// Water draws the water surface at zero, for heights above it.
	Water bool
	// Range fixes the y axis, for charts that share it; nil fits the data.
	Range *Interval
}

// Trace is one result over the variable.
type Trace struct {
	Name      string    // shown where a chart has several
	Values    []float64 // one for each value of the variable, NaN for no answer
	Low, High []float64 // the band that tolerances give; nil for none
	AtLeast   *Bound
	AtMost    *Bound
	// Today is the result of today's design, drawn where the variable has
	// today's value; nil draws none.
	Today     *float64
	TodayText string // beside it
}

// Bound is a bound of a requirement and its words.
type Bound struct {
	Value float64
	Text  string // "at least 3 deg"
}

// holdsStyle is the look of ranges in which all requirements hold.
var holdsStyle = AreaStyle{
	Fill:  Tint(Green, 0.10),
	Hatch: &Hatch{Angle: math.Pi / 4, Spacing: 7, Style: draw.LineStyle{Color: Tint(Green, 0.45), Width: 0.5}},
}

// strips shade ranges of x over the whole height of a plot. A range of one
// value shows as a line.
type strips struct {
	spans []Interval
	style AreaStyle
}

// Plot draws the strips.
func (s strips) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	for _, v := range s.spans {
		r := c.Rectangle
		r.Min.X, r.Max.X = max(tx(v.From)-0.6, c.Min.X), min(tx(v.To)+0.6, c.Max.X)
		if r.Max.X > r.Min.X {
			s.style.fill(c, [][]vg.Point{{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}})
		}
	}
}

// Thumbnail draws a sample for a legend.
func (s strips) Thumbnail(c *draw.Canvas) { s.style.Thumbnail(c) }

const (
	sweptWidth  = 12 * vg.Centimeter
	chartHeight = 4.6 * vg.Centimeter // of one chart's row
	axisHeight  = vg.Length(30)       // of tick labels and title under the lowest
)

// Size returns the size that suits the figure.
func (s *Swept) Size() (w, h vg.Length) { return sweptWidth, s.HeightFor(sweptWidth) }

// HeightFor returns the height that a figure of the given width needs.
func (s *Swept) HeightFor(width vg.Length) vg.Length {
	h := headerHeight(s.Title, s.Note, width) + chartHeight*vg.Length(len(s.Charts)) + s.axis()
	h += layoutGap * vg.Length(len(s.Charts)-1)
	if k := s.keyHeight(width - 2*pageMargin); k > 0 {
		h += k + layoutGap
	}
	return h
}

// axis returns the height of what stands under the lowest chart.
func (s *Swept) axis() vg.Length {
	for _, t := range s.Over.Ticks {
		for _, r := range t.Label {
			if r == '\n' {
				return axisHeight + TickSize
			}
		}
	}
	return axisHeight
}

const layoutGap = vg.Length(5)

// key explains the shadings.
func (s *Swept) key() *Legend {
	l := &Legend{}
	if len(s.Over.Holds) > 0 {
		l.Add("meets all requirements", strips{style: holdsStyle})
	} else if s.Over.Holds != nil {
		l.Add("no value here meets all requirements")
	}
	if len(s.Over.Gaps) > 0 {
		l.Add("no answer", strips{style: NoAnswer})
	}
	for _, c := range s.Charts {
		for _, t := range c.Traces {
			if t.Low != nil {
				l.Add("two standard deviations of the tolerances", NewBand(nil, nil, nil, 0))
				return l
			}
		}
	}
	return l
}

// keyHeight returns the height of the key, zero without one.
func (s *Swept) keyHeight(width vg.Length) vg.Length {
	k := s.key()
	if len(k.entries) == 0 {
		return 0
	}
	return entryHeight * vg.Length(k.rows(nil, vg.Point{}, width, keyStyle))
}

// Draw draws the figure on c.
func (s *Swept) Draw(c draw.Canvas) {
	l := Layout{Title: s.Title, Note: s.Note, Gap: layoutGap, Widths: []float64{1}}
	s.draw(c, l, []Swept{*s})
}

// draw draws columns with the same charts under the key of s.
func (s *Swept) draw(c draw.Canvas, l Layout, columns []Swept) {
	first := 0
	if h := s.keyHeight(c.Rectangle.Size().X - 2*pageMargin); h > 0 {
		first = 1
		l.Heights = append(l.Heights, float64(h))
		l.Panels = append(l.Panels, Panel{ColSpan: len(columns), Draw: func(c draw.Canvas) {
			s.key().rows(&c, vg.Point{X: c.Min.X, Y: c.Max.Y}, c.Max.X-c.Min.X, keyStyle)
		}})
	}
	for i := range s.Charts {
		h, lowest := chartHeight, i == len(s.Charts)-1
		if lowest {
			h += s.axis()
		}
		l.Heights = append(l.Heights, float64(h))
		for col := range columns {
			l.Panels = append(l.Panels, Panel{Row: first + i, Col: col, Plot: columns[col].plot(i, lowest)})
		}
	}
	l.Draw(c)
}

// plot returns chart i; the lowest one has the labels of the x axis.
func (s *Swept) plot(i int, lowest bool) *plot.Plot {
	ch, v := &s.Charts[i], &s.Over
	p := New("")
	p.Y.Label.Text = strings.Join(wrap(Label(ch.Name, ch.Unit), p.Y.Label.TextStyle, chartHeight-8), "\n")
	p.Y.Tick.Marker = Ticks{Want: 5}
	if v.Ticks != nil {
		p.X.Tick.Marker = plot.ConstantTicks(v.Ticks)
	}
	if lowest {
		p.X.Label.Text = Label(v.Name, v.Unit)
	} else {
		p.X.Tick.Marker = unlabeled{p.X.Tick.Marker}
	}
	// What is shaded lies under the grid's curves but over the paper.
	p.Add(strips{v.Holds, holdsStyle})
	n := &Notes{}
	for k, g := range v.Gaps {
		p.Add(strips{[]Interval{g.Interval}, NoAnswer})
		line := VLine{X: g.From, Style: NoteStyle()}
		if i == 0 && (k == 0 || v.Gaps[k-1].Why != g.Why) {
			line.Label = g.Why
		}
		n.VLines = append(n.VLines, line)
	}
	if v.Today != nil {
		n.VLines = append(n.VLines, VLine{X: *v.Today, Label: s.todayLabel(i), Style: NoteStyle()})
	}
	if ch.Water {
		n.HLines = append(n.HLines, HLine{Y: 0, Label: "water surface", Style: draw.LineStyle{Color: Blue, Width: 1}})
	}
	ends := &EndLabels{}
	for k, t := range ch.Traces {
		style := traceStyle(k)
		if t.Low != nil {
			p.Add(NewBand(v.Values, t.Low, t.High, style))
		}
		curve := NewCurve(v.Values, t.Values, style)
		p.Add(curve)
		n.Curves = append(n.Curves, curve)
		if len(ch.Traces) > 1 {
			ends.Labels = append(ends.Labels, EndLabel{curve, t.Name})
		}
		n.HLines = append(n.HLines, t.bounds()...)
		if t.Today != nil && v.Today != nil {
			n.Marks = append(n.Marks, Mark{X: *v.Today, Y: *t.Today, Symbol: TodayMark, Label: t.TodayText})
		}
	}
	p.Add(ends)
	n.AddTo(p)
	lo, hi := v.Values[0], v.Values[len(v.Values)-1]
	if v.Today != nil {
		lo, hi = math.Min(lo, *v.Today), math.Max(hi, *v.Today)
	}
	Range(&p.X, lo, hi)
	Headroom(p, 0.03, 0.1)
	if ch.Range != nil {
		Range(&p.Y, ch.Range.From, ch.Range.To)
	}
	return p
}

// traceStyle returns the number of the curve style of a trace, and leaves out
// the color of bounds.
func traceStyle(k int) int {
	if k > 0 {
		k++
	}
	return k
}

// todayLabel returns the words beside today's value of the variable; once is
// enough.
func (s *Swept) todayLabel(i int) string {
	switch {
	case i > 0:
		return ""
	case s.Over.TodayText != "":
		return s.Over.TodayText
	}
	return "today"
}

// bounds returns the lines of a trace's bounds.
func (t *Trace) bounds() []HLine {
	var out []HLine
	if b := t.AtLeast; b != nil {
		out = append(out, HLine{Y: b.Value, Label: b.Text, Miss: Below, Style: BoundStyle()})
	}
	if b := t.AtMost; b != nil {
		out = append(out, HLine{Y: b.Value, Label: b.Text, Miss: Above, Style: BoundStyle()})
	}
	return out
}

// unlabeled keeps the ticks of an axis and blanks their labels. An empty label
// would make them minor ticks, which have no line of the grid.
type unlabeled struct{ plot.Ticker }

func (u unlabeled) Ticks(min, max float64) []plot.Tick {
	ts := u.Ticker.Ticks(min, max)
	out := make([]plot.Tick, len(ts))
	for i, t := range ts {
		out[i] = plot.Tick{Value: t.Value, Label: " "}
	}
	return out
}
