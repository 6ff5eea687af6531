package unit

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func itoa(i int) string { return strconv.Itoa(i) }

func TestFormat(t *testing.T) {
	deg := math.Pi / 180
	ip := Style{System: InchPound}
	for _, c := range []struct {
		style Style
		kind  Kind
		v     float64
		want  string
	}{
		{Style{}, Length, 0.0124, "12 mm"}, {StyleFor(0.4), Length, 0.0124, "12.4 mm"}, {StyleFor(0.5), Length, -0.0124, "-12 mm"},
		{Style{}, Length, -0.0004, "0 mm"}, {ip, Length, 0.0127, "0.50 in"}, {Style{System: InchPound, Fine: true}, Length, 0.0127, "0.50 in"},
		{Style{}, Mass, 0.2004, "200 g"}, {Style{}, Mass, 0.9994, "999 g"}, {Style{}, Mass, 0.9996, "1.000 kg"}, {Style{}, Mass, 2.4, "2.400 kg"},
		{Style{}, Mass, -0.5, "-500 g"}, {Style{}, Mass, 612.34, "612.3 kg"}, {ip, Mass, 0.1, "3.53 oz"}, {ip, Mass, 2.3813599425, "5.250 lb"},
		{Style{}, Angle, 3.14 * deg, "3.1 deg"}, {Style{}, Angle, -0.04 * deg, "0.0 deg"}, {Style{}, Angle, math.Copysign(0, -1), "0.0 deg"},
		{Style{}, Share, 0.804, "80 %"}, {Style{}, Share, -0.004, "0 %"},
		{Style{}, Density, 998.23, "998.2 kg/m3"}, {Style{}, Density, 1025, "1025 kg/m3"}, {Style{}, Density, 999.96, "1000 kg/m3"},
		{Style{}, Volume, 0.00042, "0.420 L"}, {Style{}, Volume, 0.0123456, "12.35 L"}, {Style{}, Volume, 0.0099996, "10.00 L"}, {Style{}, Volume, 1.5, "1500 L"},
		{Style{}, Area, 0.0314159, "314.2 cm2"}, {Style{}, Area, 3.14159, "3.142 m2"},
		{Style{}, ArealDensity, 0.068, "68.0 g/m2"}, {ip, ArealDensity, 2 * 0.028349523125 / 0.83612736, "2.00 oz/yd2"},
		{Style{}, Torque, 0.4, "0.400 N m"}, {Style{}, MassPerLength, 20, "20.00 g/mm"}, {Style{}, MomentPerAngle, 180 / math.Pi, "1.000 N m/deg"},
		{Style{}, Temperature, 12, "12.0 C"}, {ip, Temperature, 12, "53.6 F"}, {ip, Salinity, 8, "8.0 g/kg"},
		{Style{}, None, 0.6217, "0.622"}, {Style{}, Count, 12, "12"},
		{Style{}, Length, math.NaN(), "-"}, {Style{}, Length, math.Inf(-1), "-inf mm"}, {Style{}, Length, 1e13, "1.000e+16 mm"},
		// 17 digits would be more than a float64 has.
		{ip, Volume, 3.133372870903937e12, "1.107e+14 ft3"}, {ip, Volume, 3.1e10, "1094754668366.15 ft3"},
	} {
		if got := c.style.Format(c.kind, c.v); got != c.want {
			t.Errorf("%+v.Format(%v, %v) = %q, want %q", c.style, c.kind, c.v, got, c.want)
		}
	}
}

func TestDisplayColumn(t *testing.T) {
	d := Style{}.Display(Mass, 0.2, math.NaN(), -1.5, math.Inf(1))
	if d.Unit.Name != "kg" || d.Decimals != 3 {
		t.Errorf("Display = %s with %d decimals, want kg with 3", d.Unit.Name, d.Decimals)
	}
	if got := d.Number(0.2); got != "0.200" {
		t.Errorf("Number(0.2) = %q, want 0.200", got)
	}
	if got := (Style{}).Display(Mass).Unit.Name; got != "g" {
		t.Errorf("Display of nothing is in %q, want g", got)
	}
}

// TestFormatParses: what is shown reads back to half the last digit, and is
// shown the same again.
func TestFormatParses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		s := Style{System: System(rapid.IntRange(0, 1).Draw(t, "system")), Fine: rapid.Bool().Draw(t, "fine")}
		v := rapid.Float64Range(-1, 1).Draw(t, "mantissa") * math.Pow10(rapid.IntRange(-6, 6).Draw(t, "exponent"))
		if err := shownReadsBack(s, k, v); err != nil {
			t.Fatal(err)
		}
	})
}

func shownReadsBack(s Style, k Kind, v float64) error {
	text := s.Format(k, v)
	got, err := Parse(k, text)
	if err != nil {
		return fmt.Errorf("%+v.Format(%v, %v) = %q, which does not parse: %w", s, k, v, text, err)
	}
	d := s.Display(k, v)
	x := d.Unit.FromSI(v)
	tol := 0.5*math.Pow10(-d.Decimals) + 1e-15*math.Abs(x)
	if math.Abs(x) >= 1e15*math.Pow10(-d.Decimals)*(1-1e-15) { // an exponent and four digits
		tol = 0.5e-3 * math.Abs(x)
	}
	if off := math.Abs(d.Unit.FromSI(got) - x); off > tol*(1+1e-9) {
		return fmt.Errorf("%+v.Format(%v, %v) = %q reads back as %v, off by %g %s", s, k, v, text, got, off, d.Unit.Name)
	}
	if again := s.Format(k, got); again != text {
		return fmt.Errorf("%+v.Format(%v, %v) = %q, but what it reads back as is shown as %q", s, k, v, text, again)
	}
	return nil
}

// FuzzParse: no text panics, what parses is finite and in range, and shown in
// any style parses back to what was shown.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"12 mm", "5 lb 4 oz", "6ft2in", "1 3/4 in", "68 g/m²", "-1e-3 deg", "80 %", "53.6 °F", "0.4 N·m",
		"10,0,35 mm", "1e400 m", "1/0", "\u22125\u00a0\u00b5m", "5 lb -4 oz", "NaN", "\xff mm", "2 m5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, k := range Kinds() {
			v, err := Parse(k, text)
			if err != nil {
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) || v == 0 && math.Signbit(v) {
				t.Fatalf("Parse(%v, %q) = %v", k, text, v)
			}
			if math.Abs(v) > 1e200 { // mm of it might not be finite
				continue
			}
			for _, s := range []Style{{}, {Fine: true}, {System: InchPound}} {
				if err := shownReadsBack(s, k, v); err != nil {
					t.Fatal(err)
				}
			}
		}
		if v, err := ParseVector(text, ""); err == nil && math.IsNaN(v.X+v.Y+v.Z) {
			t.Fatalf("ParseVector(%q) = %v", text, v)
		}
	})
}

func Example() {
	draft, err := Parse(Length, "1 3/4 in")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(draft, Length.Key("draft"))
	fmt.Println(StyleFor(0.4).Format(Length, draft))
	_, err = Parse(Length, "12 g")
	fmt.Println(err)
	// Output:
	// 0.04445 draft_m
	// 44.5 mm
	// "12 g" is a mass; a length is wanted: mm, cm, m, in, ft, yd, um
}
