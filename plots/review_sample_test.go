package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// reviewSamples are made-up figures of a design review.
func reviewSamples() []figure {
	g := growthSample()
	s := sweptSample()
	w, h := g.Size()
	w2, h2 := s.Size()
	m := mapSample()
	w3, h3 := m.Size()
	o := overlaySample()
	w4 := 16 * vg.Centimeter
	h4 := o.HeightFor(w4)
	return []figure{
		{"growth", w, h, g.Draw, 75},
		{"swept", w2, h2, s.Draw, 75},
		{"designs", w3, h3, m.Draw, 75},
		{"overlay", w4, h4, o.Draw, 75},
	}
}

func at(v float64) *float64 { return &v }

// growthSample is a craft that turns over when it is a quarter heavier.
func growthSample() *Growth {
	mass, alpha := line(2.0, 2.6, 24, func(m float64) float64 {
		if m > 2.5 {
			return math.NaN()
		}
		return 4.6 - 3*(m-2)
	})
	_, edge := line(2.0, 2.6, 24, func(m float64) float64 {
		if m > 2.5 {
			return math.NaN()
		}
		return 18 - 40*(m-2) - 30*(m-2)*(m-2)
	})
	shift, alpha2 := line(-10, 10, 20, func(x float64) float64 { return 4.6 - 0.12*x })
	_, edge2 := line(-10, 10, 20, func(x float64) float64 { return 18 + 0.9*x })
	charts := func(a, e []float64) []Chart {
		return []Chart{
			{Name: "Angle of attack", Unit: "°", Traces: []Trace{{Values: a, Today: at(4.6), TodayText: "4.6°",
				AtLeast: &Bound{3, "at least 3°"}, AtMost: &Bound{6, "at most 6°"}}}},
			{Name: "Clearance of the stern deck on the port float", Unit: "mm", Water: true, Traces: []Trace{{Values: e, Today: at(18), TodayText: "18 mm",
				AtLeast: &Bound{8, "at least 8 mm"}}}},
		}
	}
	var ticks []plot.Tick
	for _, share := range []float64{0, 10, 20, 30} {
		m := 2 * (1 + share/100)
		ticks = append(ticks, plot.Tick{Value: m, Label: Number(m, 2) + "\n+" + Number(share, 0) + " %"})
	}
	return &Growth{
		Title: "What mass growth and a CG shift do", Note: Caution,
		Causes: []Swept{
			{Over: Variable{Name: "Mass", Unit: "kg", Values: mass, Today: at(2), Ticks: ticks,
				Holds: []Interval{{2, 2.21}}, Gaps: []Gap{{Interval{2.5, 2.6}, "turns over"}}}, Charts: charts(alpha, edge)},
			{Over: Variable{Name: "CG forward of today's", Unit: "mm", Values: shift, Today: at(0),
				Holds: []Interval{{-10, 10}}}, Charts: charts(alpha2, edge2)},
		},
	}
}

// sweptSample has two results on one chart, bands, and two ranges that hold.
func sweptSample() *Swept {
	x, reserve := line(0, 40, 20, func(h float64) float64 { return 38 + 2.1*h })
	_, lo := line(0, 40, 20, func(h float64) float64 { return 34 + 2.0*h })
	_, hi := line(0, 40, 20, func(h float64) float64 { return 42 + 2.2*h })
	_, alpha := line(0, 40, 20, func(h float64) float64 { return 4.9 - 0.01*h - 0.001*h*h })
	_, port := line(0, 40, 20, func(h float64) float64 { return -6 + 0.8*h })
	_, hatch := line(0, 40, 20, func(h float64) float64 { return 0.75 * h })
	return &Swept{
		Title: "Box plover: plug height of the floats",
		Over: Variable{Name: "Plug height of float", Unit: "mm", Values: x, Today: at(0),
			Holds: []Interval{{22, 31}, {36, 40}}},
		Charts: []Chart{
			{Name: "Reserve buoyancy", Unit: "%", Traces: []Trace{{Values: reserve, Low: lo, High: hi, Today: at(38), TodayText: "38 %",
				AtLeast: &Bound{80, "at least 80 %"}}}},
			{Name: "Angle of attack", Unit: "°", Traces: []Trace{{Values: alpha, Today: at(4.9), TodayText: "4.9°",
				AtLeast: &Bound{3, "at least 3°"}, AtMost: &Bound{6, "at most 6°"}}}},
			{Name: "Clearance", Unit: "mm", Water: true, Traces: []Trace{
				{Name: "stern deck", Values: port, Today: at(-6), AtLeast: &Bound{8, "stern deck at least 8 mm"}},
				{Name: "rear hatch", Values: hatch, Today: at(0), AtLeast: &Bound{10, "rear hatch at least 10 mm"}},
			}},
		},
		Note: Caution,
	}
}

// mapSample is a grid of floats, of which the shortest sink.
func mapSample() *Map {
	m := &Map{
		Title: "Box plover: float length and height",
		X:     Variable{Name: "Plug length of float", Unit: "mm", Today: at(0), TodayText: "today"},
		Y:     Variable{Name: "Plug height of float", Unit: "mm", Today: at(0)},
		Name:  "Reserve buoyancy", Unit: "%", NoAnswer: "sinks", Chosen: &Pick{60, 24, "chosen"}, Note: Caution,
	}
	m.X.Values, _ = line(-80, 160, 24, math.Abs)
	m.Y.Values, _ = line(-20, 40, 15, math.Abs)
	reserve := Margin{Name: "reserve buoyancy at least 80 %"}
	angle := Margin{Name: "angle of attack 3° to 6°"}
	for _, x := range m.X.Values {
		for _, y := range m.Y.Values {
			v := 100 * ((1+x/820)*(1+y/76)*1.6 - 1)
			a := 4.9 - 0.035*y - 0.006*x
			if v < 18 {
				v, a = math.NaN(), math.NaN()
			}
			m.Values = append(m.Values, v)
			reserve.Values = append(reserve.Values, v-80)
			angle.Values = append(angle.Values, math.Min(a-3, 6-a))
		}
	}
	m.Margins = []Margin{reserve, angle}
	return m
}

// overlaySample is a craft that floats higher and flatter than before.
func overlaySample() *Overlay {
	before, after := boxCraft(2.5, 0), boxCraft(1, 0)
	before.Height = 0.14
	for _, set := range [][]ProfilePoint{before.Points, before.Drafts} {
		for i := range set {
			h := r3.Dot(before.Up, set[i].At) + before.Height
			if set[i].Clearance = h; set[i].Name == "step" {
				set[i].Clearance = -h
			}
		}
	}
	return &Overlay{
		Title: "Box plover: floats made deeper", Before: before, After: after,
		BeforeName: "as built", AfterName: "plug of 20 mm",
		Changes: []Change{
			{"trim", "2.5°", "1.0°", "−1.5°"},
			{"reserve buoyancy of the flotation", "38 %", "81 %", "+43 %"},
		},
		Note: Caution,
	}
}
