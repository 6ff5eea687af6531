package unit

import (
	"math"
	"strconv"
)

// System is a choice of units to show numbers in.
type System int

// The systems. Kinds that have no row of their own in InchPound are shown as
// in Metric.
const (
	Metric System = iota
	InchPound
)

// Style says how numbers are shown to people: only as fine as what goes into
// them deserves. The zero value is metric with these rules:
//
//	length      1 mm; 0.1 mm with Fine
//	mass        1 g below 1 kg, then kg with 3 decimals, from 100 kg with 1
//	angle       0.1 deg
//	share       1 %
//	density     0.1 kg/m3, from 1000 kg/m3 on 1 kg/m3
//	area        0.1 cm2, from 1 m2 on m2 with 3 decimals or fewer
//	others      at most 4 digits, and no more decimals than make sense
//
// Text is ASCII with a plain hyphen for minus. Zero never has a sign.
type Style struct {
	System System // units; zero is Metric
	Fine   bool   // lengths to 0.1 mm, for a craft under half a meter; no effect in InchPound, where they are to 0.01 in
}

// StyleFor returns the metric style for a craft of the given length in meters:
// fine under half a meter.
func StyleFor(length float64) Style { return Style{Fine: length < 0.5} }

// Display is a unit and a number of decimals, for one number or for a column.
type Display struct {
	Unit     Unit
	Decimals int
}

// step is a Display for numbers that stay below a limit once rounded.
type step struct {
	unit     string
	decimals int
	below    float64 // in the unit; the last step has no limit and holds for all others
}

// digits returns steps for four digits in all and the given decimals at most.
func digits(unit string, decimals int) []step {
	var steps []step
	for below := math.Pow10(4 - decimals); decimals > 0; below *= 10 {
		steps = append(steps, step{unit, decimals, below})
		decimals--
	}
	return append(steps, step{unit: unit})
}

// metric has steps for every kind.
var metric = [...][]step{
	None:           digits("", 3),
	Count:          {{}},
	Length:         {{unit: "mm"}},
	Area:           {{"cm2", 1, 1e4}, {"m2", 3, 10}, {"m2", 2, 0}},
	Volume:         digits("L", 3),
	SecondMoment:   digits("cm4", 1),
	Mass:           {{"g", 0, 1000}, {"kg", 3, 100}, {"kg", 1, 0}},
	MassPerLength:  digits("g/mm", 2),
	ArealDensity:   digits("g/m2", 1),
	Density:        {{"kg/m3", 1, 1000}, {"kg/m3", 0, 0}},
	Angle:          {{"deg", 1, 0}},
	Share:          {{"%", 0, 0}},
	Force:          digits("N", 2),
	Torque:         digits("N m", 3),
	MomentPerAngle: digits("N m/deg", 3),
	Pressure:       digits("Pa", 1),
	Energy:         digits("J", 3),
	Speed:          digits("m/s", 2),
	Time:           digits("s", 2),
	Temperature:    {{"C", 1, 0}},
	Salinity:       {{"g/kg", 1, 0}},
}

// fineLength takes the place of metric[Length] on a small craft.
var fineLength = []step{{"mm", 1, 0}}

// inchPound has steps for the kinds that differ.
var inchPound = map[Kind][]step{
	Length:         {{"in", 2, 0}},
	Area:           digits("in2", 1),
	Volume:         {{"in3", 1, 1728}, {"ft3", 3, 10}, {"ft3", 2, 0}},
	SecondMoment:   digits("in4", 1),
	Mass:           {{"oz", 2, 16}, {"lb", 3, 100}, {"lb", 1, 0}},
	MassPerLength:  digits("oz/in", 2),
	ArealDensity:   digits("oz/yd2", 2),
	Density:        digits("lb/ft3", 2),
	Force:          digits("lbf", 3),
	Torque:         digits("lbf in", 2),
	MomentPerAngle: digits("lbf in/deg", 2),
	Pressure:       digits("psi", 3),
	Speed:          digits("mph", 1),
	Temperature:    {{"F", 1, 0}},
}

// Format shows v, given in the unit inside the program, in the default style:
// "12 mm", "-1.5 deg".
func Format(kind Kind, v float64) string { return Style{}.Format(kind, v) }

// Format shows v, given in the unit inside the program, with its unit. What it
// returns for a finite v, [Parse] reads back as v to within half the last
// digit shown. NaN, a value that does not exist, is shown as "-".
func (s Style) Format(kind Kind, v float64) string { return s.Display(kind, v).Format(v) }

// Display returns the unit and decimals that suit all the values, given in the
// unit inside the program, for a column under one heading. The largest value
// decides; NaN and infinities do not count.
func (s Style) Display(kind Kind, values ...float64) Display {
	steps := metric[kind]
	if kind == Length && s.Fine {
		steps = fineLength
	}
	if own, ok := inchPound[kind]; ok && s.System == InchPound {
		steps = own
	}
	var d Display
	for i, st := range steps {
		d = Display{byName[canonical(st.unit)], st.decimals}
		if i == len(steps)-1 || d.allBelow(st.below, values) {
			break
		}
	}
	return d
}

// allBelow reports whether all finite values are below a limit once rounded.
func (d Display) allBelow(limit float64, values []float64) bool {
	for _, v := range values {
		x := math.Abs(d.Unit.FromSI(v))
		if math.IsNaN(x) || math.IsInf(v, 0) {
			continue
		}
		// Rounded first: 999.7 g is 1.000 kg, not 1000 g.
		if r, _ := strconv.ParseFloat(Decimal(x, d.Decimals), 64); r >= limit {
			return false
		}
	}
	return true
}

// Number shows v, given in the unit inside the program, without the unit, for
// a cell under a heading that has it.
func (d Display) Number(v float64) string { return Decimal(d.Unit.FromSI(v), d.Decimals) }

// Format shows v, given in the unit inside the program, with the unit.
func (d Display) Format(v float64) string {
	if d.Unit.Name == "" || math.IsNaN(v) {
		return d.Number(v)
	}
	return d.Number(v) + " " + d.Unit.Name
}

// Decimal shows x as it stands with a fixed number of decimals, in the form
// that all numbers for people have: no sign on zero, "-" for NaN, an exponent
// only where there would be more than 15 digits, the last of which mean nothing.
func Decimal(x float64, decimals int) string {
	switch {
	case math.IsNaN(x):
		return "-"
	case math.IsInf(x, 1):
		return "inf"
	case math.IsInf(x, -1):
		return "-inf"
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	switch r, _ := strconv.ParseFloat(text, 64); {
	case r == 0:
		return strconv.FormatFloat(0, 'f', decimals, 64)
	case math.Abs(r) >= 1e15/math.Pow10(decimals):
		return strconv.FormatFloat(x, 'e', 3, 64)
	}
	return text
}
