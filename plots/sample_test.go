package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// figure is a picture kept as a golden image.
type figure struct {
	name string
	w, h vg.Length
	draw func(draw.Canvas)
	dpi  int // of the golden image; zero means DPI
}

// samples are made-up figures that use every helper of the theme.
func samples() []figure {
	level, heeled := boxCraft(2.5, 0), boxCraft(-3, 12)
	w, h := level.Size()
	w2, h2 := heeled.Size()
	return append(append(append(reviewSamples(), rightingSamples()...), underLoadSamples()...), []figure{
		{"profile", w, h, level.Draw, 0},
		{"heeled", w2, h2, heeled.Draw, 0},
		{"curves", 12 * vg.Centimeter, 8 * vg.Centimeter, curvesFigure, 0},
		{"map", 12 * vg.Centimeter, 9 * vg.Centimeter, mapFigure, 0},
		{"layout", 20 * vg.Centimeter, 12 * vg.Centimeter, layoutFigure, 0},
	}...)
}

// line samples f at n+1 places from a to b.
func line(a, b float64, n int, f func(float64) float64) (x, y []float64) {
	for i := range n + 1 {
		v := a + (b-a)*float64(i)/float64(n)
		x, y = append(x, v), append(y, f(v))
	}
	return x, y
}

func curvesFigure(c draw.Canvas) { Layout{Panels: []Panel{{Plot: curvesPlot()}}}.Draw(c) }

func curvesPlot() *plot.Plot {
	p := New("Angle of attack at rest, ρ = 1000 kg/m³")
	p.X.Label.Text = Label("Mass", "kg")
	p.Y.Label.Text = Label("Angle of attack α", "°")
	x, y := line(1.8, 2.6, 40, func(m float64) float64 { return 5 - 3*(m-1.8) - 2*(m-1.8)*(m-1.8) })
	_, lo := line(1.8, 2.6, 40, func(m float64) float64 { return 4.5 - 3.2*(m-1.8) - 2*(m-1.8)*(m-1.8) })
	_, hi := line(1.8, 2.6, 40, func(m float64) float64 { return 5.5 - 2.8*(m-1.8) - 2*(m-1.8)*(m-1.8) })
	_, y2 := line(1.8, 2.6, 40, func(m float64) float64 {
		if m > 2.1 && m < 2.2 {
			return math.NaN()
		}
		return 2.5 + math.Sin(9*m)
	})
	_, y3 := line(1.8, 2.6, 40, func(m float64) float64 { return 2.2 + math.Sin(9*m) })
	band := NewBand(x, lo, hi, 0)
	a, b, d := NewCurve(x, y, 0), NewCurve(x, y2, 1), NewCurve(x, y3, 2)
	p.Add(band, a, b, d)
	p.Add(&EndLabels{[]EndLabel{{a, "as drawn"}, {b, "10 mm aft"}, {d, "10 mm fore"}}})
	l := &Legend{}
	l.Add("as drawn, 2 σ", band, a)
	l.Add("CG 10 mm aft", b)
	l.Add("CG 10 mm fore", d)
	Range(&p.X, 1.8, 2.6)
	n := &Notes{
		HLines: []HLine{
			{Y: 3, Label: "at least 3°", Miss: Below, Style: BoundStyle()},
			{Y: 6, Label: "at most 6°", Miss: Above, Style: BoundStyle()},
		},
		VLines: []VLine{{X: 1.9, Label: "today", Style: NoteStyle()}},
		Marks:  []Mark{{X: 1.9, Y: 4.68, Symbol: TodayMark, Label: "1.90 kg"}},
		Legend: l,
		Curves: []*Curve{a, b, d},
	}
	n.AddTo(p)
	Headroom(p, 0, 0.08)
	return p
}

func mapSamples() (value, margin Samples) {
	value.Xs, _ = line(0.7, 1.1, 30, math.Abs)
	value.Ys, _ = line(0.07, 0.13, 24, math.Abs)
	margin.Xs, margin.Ys = value.Xs, value.Ys
	for _, x := range value.Xs {
		for _, y := range value.Ys {
			v := 100*(x*x*y*22-1) + 8*math.Sin(20*x)
			m := math.Min(v-60, 14-100*math.Hypot(x-0.95, 3*(y-0.1)))
			if x+5*y < 1.15 {
				v, m = math.NaN(), math.NaN()
			}
			value.Values = append(value.Values, v)
			margin.Values = append(margin.Values, m)
		}
	}
	return value, margin
}

func mapFigure(c draw.Canvas) {
	v, m := mapSamples()
	p := New("Reserve buoyancy of the floats")
	p.X.Label.Text = Label("Float length", "m")
	p.Y.Label.Text = Label("Float height", "m")
	levels := []float64{20, 40, 60, 80, 100, 120, 140, 160, 180}
	f := NewField(v, levels...)
	r := NewRegion(m)
	marks := []Mark{
		{X: 0.74, Y: 0.095, Symbol: TodayMark, Label: "today"},
		{X: 0.9, Y: 0.102, Symbol: ChosenMark, Label: "chosen"},
	}
	lines := NewContours(v, levels...)
	lines.Avoid = marks
	p.Add(f, lines, r)
	l := &Legend{Place: Outside}
	l.Add("meets all requirements", r)
	l.Add("no answer", NoAnswer)
	n := &Notes{Marks: marks, Legend: l}
	n.AddTo(p)
	Layout{Panels: []Panel{{Draw: WithBar(p, ColorBar{f, Label("Reserve buoyancy", "%")})}}}.Draw(c)
}

func layoutFigure(c draw.Canvas) {
	gz := New("Righting arm")
	gz.X.Label.Text = Label("Heel", "°")
	gz.Y.Label.Text = Label("GZ", "mm")
	gz.X.Tick.Marker = DegreeTicks{}
	x, y := line(-180, 180, 120, func(d float64) float64 { return 90 * math.Sin(d*math.Pi/180) * math.Cos(d*math.Pi/360) })
	k := NewCurve(x, y, 0)
	gz.Add(k)
	(&Notes{HLines: []HLine{{Y: 0, Style: NoteStyle()}}}).AddTo(gz)
	Headroom(gz, 0, 0.08)
	small := New("")
	small.Y.Label.Text = Label("Draft", "mm")
	small.X.Label.Text = Label("Heel", "°")
	small.X.Tick.Marker = DegreeTicks{}
	_, y2 := line(-180, 180, 120, func(d float64) float64 { return 12345 - 20*math.Abs(math.Cos(d*math.Pi/180)) })
	small.Add(NewCurve(x, y2, 1))
	Headroom(small, 0, 0.08)
	Layout{
		Title: "Fieldfare: righting", Note: "Calm-water statics of the geometry given.",
		Widths: []float64{2, 1}, Heights: []float64{2, 1},
		Panels: []Panel{
			{Plot: gz}, {Row: 1, Plot: small},
			{Col: 1, RowSpan: 2, Plot: curvesPlot()},
		},
	}.Draw(c)
}
