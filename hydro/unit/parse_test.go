package unit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// TestParse wants the very float64 nearest to the exact answer.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want float64
	}{
		{Length, "12 mm", 0.012}, {Length, "12mm", 0.012}, {Length, "35 mm", 0.035}, {Length, " 2.3 mm ", 0.0023},
		{Length, "0.5 in", 0.0127}, {Length, "1 yd", 0.9144}, {Length, "-.5 cm", -0.005}, {Length, "+5. cm", 0.05},
		{Length, "1.2e3 mm", 1.2}, {Length, "1E-3 m", 0.001}, {Length, "2 feet", 0.6096},
		{Length, "3/4 in", 0.01905}, {Length, "1 3/4 in", 0.04445}, {Length, "1-3/4in", 0.04445}, {Length, "-1 1/2 in", -0.0381},
		{Length, "6 ft 2 in", 1.8796}, {Length, "6ft2in", 1.8796}, {Length, "6 ft 2 1/2 in", 1.8923}, {Length, "-6 ft 2 in", -1.8796},
		{Length, "1 m 25 cm 3 mm", 1.253},
		{Length, "\u22125 mm", -0.005}, {Length, "80 \u00b5m", 80e-6}, {Length, "80 \u03bcm", 80e-6}, {Length, "5\u00a0mm", 0.005},
		{Length, "-0 mm", 0},
		{Mass, "2.4 kg", 2.4}, {Mass, "5 lb 4 oz", 2.3813599425}, {Mass, "5lb4oz", 2.3813599425}, {Mass, "5 lbs 4.5 ounces", 2.3955347040625},
		{Mass, "200 g", 0.2}, {Mass, "1 oz", 0.028349523125},
		{ArealDensity, "68 g/m2", 0.068}, {ArealDensity, "68 g/m²", 0.068}, {ArealDensity, "68 g / m^2", 0.068},
		{ArealDensity, "2 oz/yd2", 2 * 0.028349523125 / 0.83612736},
		{Angle, "180 deg", math.Pi}, {Angle, "3°", math.Pi / 60}, {Angle, "-45 deg", -math.Pi / 4}, {Angle, "0.1 rad", 0.1},
		{Density, "1003kg/m3", 1003}, {Density, "1.24 g/cm³", 1240}, {Density, "1.24 kg/L", 1240},
		{Share, "80 %", 0.8}, {Share, "7%", 0.07}, {Share, "0.8 ratio", 0.8},
		{Temperature, "12 C", 12}, {Temperature, "12 °C", 12}, {Temperature, "53.6 F", 12}, {Temperature, "-40 °F", -40}, {Temperature, "285.15 K", 12},
		{Salinity, "8 g/kg", 8}, {Salinity, "35 ‰", 35},
		{Force, "20 N", 20}, {Force, "2 kgf", 19.6133}, {Force, "200 gf", 1.96133},
		{Torque, "0.4 N m", 0.4}, {Torque, "0.4 Nm", 0.4}, {Torque, "0.4 N·m", 0.4}, {Torque, "40 N*cm", 0.4}, {Torque, "10 kgf cm", 0.980665},
		{Speed, "5 m/s", 5}, {Speed, "36 km/h", 10}, {Speed, "12 kn", 12 * 1852. / 3600},
		{Volume, "1.5 L", 0.0015}, {Volume, "15 cc", 15e-6}, {Area, "3 dm²", 0.03}, {SecondMoment, "7 cm⁴", 7e-8},
		{MassPerLength, "0.02 kg/mm", 20}, {Pressure, "1013.25 hPa", 101325}, {Energy, "2 Wh", 7200}, {Time, "1 min 30 s", 90},
		{None, "0.62", 0.62}, {None, "5/8", 0.625}, {Count, "12", 12}, {Count, "1e3", 1000},
	} {
		if got, err := Parse(c.kind, c.text); err != nil || got != c.want || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("Parse(%v, %q) = %v, %v, want %v", c.kind, c.text, got, err, c.want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want string
	}{
		{Length, "12 g", `"12 g" is a mass; a length is wanted: mm, cm, m, in, ft, yd, um`},
		{Force, "200 g", `"200 g" is a mass; a force is wanted: N, kN, gf, kgf, ozf, lbf`},
		{Speed, "12 kN", `"12 kN" is a force; a speed is wanted: m/s, km/h, kn, mph, ft/s`},
		{Temperature, "12 deg", `"12 deg" is an angle; a temperature is wanted: C, F, K`},
		{Length, "2 furlong", `unknown unit "furlong" in "2 furlong"; a length is wanted: mm, cm, m, in, ft, yd, um`},
		{Mass, "1.2 KG", `unknown unit "KG" in "1.2 KG" (did you mean kg?); a mass is wanted: g, kg, oz, lb, mg`},
		{Length, "12", `"12" has no unit; write one of mm, cm, m, in, ft, yd, um`},
		{Length, "0", `"0" has no unit; write one of mm, cm, m, in, ft, yd, um`},
		{Mass, "5 lb 4", `"5 lb 4" has no unit; write one of g, kg, oz, lb, mg`},
		{Length, "1,5 mm", `"1,5 mm" has a comma; write a point for decimals and nothing between thousands`},
		{Length, "", `a number is missing: the text is empty`},
		{Length, " \u00a0", `a number is missing: the text is empty`},
		{Length, "mm", `"mm" does not begin with a finite number`},
		{Length, "NaN mm", `"NaN mm" does not begin with a finite number`},
		{Length, "-Inf m", `"-Inf m" does not begin with a finite number`},
		{Length, "1e999 mm", `the exponent in "1e999 mm" is out of range`},
		{Length, "1e99999999999999999999 mm", `the exponent in "1e99999999999999999999 mm" is out of range`},
		{Length, "1e309 m", `"1e309 m" is out of range`},
		{Length, "1/0 in", `"1/0 in" divides by zero`},
		{Length, strings.Repeat("9", 201) + " m", `"` + strings.Repeat("9", 60) + `..." is too long for a number with a unit`},
		{Length, "0x10 mm", `unknown unit "x10 mm" in "0x10 mm"; a length is wanted: mm, cm, m, in, ft, yd, um`},
		{Mass, "4 oz 5 lb", `in "4 oz 5 lb" each part must be less than one of the unit before it, as in "5 lb 4 oz"`},
		{Mass, "5 lb 20 oz", `in "5 lb 20 oz" each part must be less than one of the unit before it, as in "5 lb 4 oz"`},
		{Mass, "5.5 lb 4 oz", `in "5.5 lb 4 oz" only the last number may have a fraction, as in "5 lb 4.5 oz"`},
		{Angle, "3 deg 0.1 rad", `"3 deg 0.1 rad" has more than one number; one angle is wanted: deg, rad`},
		{None, "12 mm", `"12 mm" is a length; a plain number is wanted, without a unit`},
		{Count, "1.5", `"1.5" is not a whole number`},
	} {
		got, err := Parse(c.kind, c.text)
		if err == nil {
			t.Errorf("Parse(%v, %q) = %v, want error %q", c.kind, c.text, got, c.want)
		} else if err.Error() != c.want {
			t.Errorf("Parse(%v, %q)\n got error %q\nwant error %q", c.kind, c.text, err, c.want)
		}
	}
	if _, err := Parse(Length, "12"); !errors.Is(err, ErrNoUnit) {
		t.Errorf("Parse(Length, \"12\") error %v is not ErrNoUnit", err)
	}
}

func TestParseWithDefault(t *testing.T) {
	for _, c := range []struct {
		kind      Kind
		text, def string
		want      float64
	}{
		{Length, "12", "mm", 0.012}, {Length, "1 1/2", "in", 0.0381}, {Length, "12 cm", "mm", 0.12},
		{Share, "80", "%", 0.8}, {Share, "0.8", "ratio", 0.8}, {Share, "80 %", "ratio", 0.8}, {Temperature, "53.6", "F", 12},
	} {
		if got, err := ParseWithDefault(c.kind, c.text, c.def); err != nil || got != c.want {
			t.Errorf("ParseWithDefault(%v, %q, %q) = %v, %v, want %v", c.kind, c.text, c.def, got, err, c.want)
		}
	}
	for _, c := range [][2]string{{"12", "kg"}, {"12", "furlong"}, {"6 ft 2", "in"}, {"12 kg", "mm"}} {
		if got, err := ParseWithDefault(Length, c[0], c[1]); err == nil {
			t.Errorf("ParseWithDefault(Length, %q, %q) = %v, want an error", c[0], c[1], got)
		}
	}
}

func TestParseVector(t *testing.T) {
	for _, c := range []struct {
		text, def string
		want      r3.Vec
		err       string // part of the error; empty for none
	}{
		{text: "10mm,0mm,35mm", want: r3.Vec{X: 0.01, Z: 0.035}},
		{text: "-1 in, 2 cm, 6 ft 2 in", want: r3.Vec{X: -0.0254, Y: 0.02, Z: 1.8796}},
		{text: "10,0,35 mm", want: r3.Vec{X: 0.01, Z: 0.035}},
		{text: "10mm,0,35mm", want: r3.Vec{X: 0.01, Z: 0.035}},
		{text: "0,0,0"},
		{text: "10,-2.5,35", def: "mm", want: r3.Vec{X: 0.01, Y: -0.0025, Z: 0.035}},
		{text: "1in,0,2in", def: "mm", want: r3.Vec{X: 0.0254, Z: 0.0508}},
		{text: "10,0,35 in", def: "mm", err: "some values only"},
		{text: "10,0,35", err: `x of "10,0,35": "10" has no unit`},
		{text: "10 mm,2,35", err: `y of "10 mm,2,35": "2" has no unit`},
		{text: "10 mm,2,35 mm", err: `y of "10 mm,2,35 mm": "2" has no unit`},
		{text: "1,2,6 ft 2 in", err: "no unit"},
		{text: "10,5mm,0mm,35mm", err: "has 4 values; three lengths are wanted"},
		{text: "10mm,0mm", err: "has 2 values"},
		{text: "", err: "has 1 values"},
		{text: "10mm,,35mm", err: "y of"},
		{text: "1,2,3 kg", err: `"1,2,3 kg" is a mass; a length is wanted`},
		{text: "1kg,2mm,3mm", err: `x of "1kg,2mm,3mm": "1kg" is a mass`},
		{text: "1mm,2mm,NaN", err: "z of"},
		{text: "1,2,3", def: "kg", err: `"kg" is a mass`},
	} {
		got, err := ParseVector(c.text, c.def)
		switch {
		case c.err == "" && (err != nil || got != c.want):
			t.Errorf("ParseVector(%q, %q) = %v, %v, want %v", c.text, c.def, got, err, c.want)
		case c.err != "" && (err == nil || !strings.Contains(err.Error(), c.err)):
			t.Errorf("ParseVector(%q, %q) = %v, %v, want error with %q", c.text, c.def, got, err, c.err)
		}
	}
}

// TestCompound: splitting a whole number of the smaller unit into parts does
// not change it.
func TestCompound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ounces := rapid.IntRange(0, 1e6).Draw(t, "ounces")
		join := rapid.SampledFrom([]string{" ", ""}).Draw(t, "join")
		text := itoa(ounces/16) + join + "lb" + join + itoa(ounces%16) + join + "oz"
		got, err := Parse(Mass, text)
		want, wantErr := Parse(Mass, itoa(ounces)+" oz")
		if err != nil || wantErr != nil || got != want {
			t.Fatalf("Parse(Mass, %q) = %v, %v, want %v, %v", text, got, err, want, wantErr)
		}
	})
}
