package unit

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit/constant"
	"pgregory.net/rapid"
)

// The definitions the inch-pound units hang on: international yard and pound
// agreement of 1959 (Federal Register 24 FR 5348), standard gravity as gonum
// has it.
const (
	pound = 0.45359237
	yard  = 0.9144
	foot  = yard / 3
	inch  = yard / 36
	ounce = pound / 16
	g0    = float64(constant.StandardGravity)
)

type factorCase struct {
	kind Kind
	name string
	want float64
}

func checkFactors(t *testing.T, cases []factorCase, tol float64) {
	t.Helper()
	for _, c := range cases {
		u, err := Lookup(c.kind, c.name)
		if err != nil {
			t.Errorf("Lookup(%v, %q): %v", c.kind, c.name, err)
			continue
		}
		if rel := math.Abs(u.Factor/c.want - 1); rel > tol {
			t.Errorf("Lookup(%v, %q).Factor = %v, want %v (off by %g)", c.kind, c.name, u.Factor, c.want, rel)
		}
	}
}

// TestFactorsFromDefinitions works factors out from the definitions; they must
// agree to a few roundings of the float64 arithmetic here.
func TestFactorsFromDefinitions(t *testing.T) {
	checkFactors(t, []factorCase{
		{Length, "in", 0.0254}, {Length, "in", inch}, {Length, "ft", 0.3048}, {Length, "yd", yard},
		{Mass, "lb", pound}, {Mass, "oz", 0.028349523125},
		{ArealDensity, "oz/yd2", 0.028349523125 / 0.83612736},
		{ArealDensity, "oz/ft2", ounce / (foot * foot)},
		{Density, "lb/ft3", pound / (foot * foot * foot)},
		{MassPerLength, "lb/in", pound / inch},
		{Volume, "in3", 16.387064e-6},
		{SecondMoment, "ft4", foot * foot * foot * foot},
		{Force, "kgf", g0}, {Force, "gf", g0 / 1000}, {Force, "lbf", pound * g0}, {Force, "ozf", ounce * g0},
		{Torque, "kgf cm", g0 / 100}, {Torque, "lbf ft", pound * g0 * foot}, {Torque, "ozf in", ounce * g0 * inch},
		{Pressure, "psi", pound * g0 / (inch * inch)},
		{Angle, "deg", math.Pi / 180},
		{MomentPerAngle, "N m/deg", 180 / math.Pi},
		{Speed, "kn", 1852. / 3600}, {Speed, "mph", 1760 * yard / 3600}, {Speed, "km/h", 1 / 3.6},
	}, 1e-15)
}

// TestFactorsAsPrinted compares with rounded factors as tables of units print
// them: seven digits, recalled from memory and not looked up, but for oz/yd2,
// which is 28.349523125/0.83612736 rounded. Half a unit of the seventh digit is at
// most 5e-7 of a number.
func TestFactorsAsPrinted(t *testing.T) {
	checkFactors(t, []factorCase{
		{ArealDensity, "oz/yd2", 33.90575e-3},
		{Density, "lb/ft3", 16.01846},
		{Density, "lb/in3", 27679.90},
		{Pressure, "psi", 6894.757},
		{Force, "lbf", 4.448222},
		{Force, "ozf", 0.2780139},
		{Speed, "kn", 0.5144444},
		{Torque, "ozf in", 7.061552e-3},
		{Torque, "lbf in", 0.1129848},
		{Torque, "lbf ft", 1.355818},
		{MassPerLength, "lb/ft", 1.488164},
		{SecondMoment, "in4", 4.162314e-7},
	}, 5e-7)
}

// TestTable checks what the table promises for each unit and kind.
func TestTable(t *testing.T) {
	for _, k := range Kinds() {
		if k.String() == "" {
			t.Errorf("Kind(%d) has no name", int(k))
		}
		if k.bare() {
			if names := Names(k); len(names) > 0 || k.Suffix() != "" || k.Edge() != (Unit{}) {
				t.Errorf("%v: names %v, suffix %q; want none", k, names, k.Suffix())
			}
			continue
		}
		if in := k.Inside(); in.Kind != k || in.Factor != 1 || in.shift != nil {
			t.Errorf("%v.Inside() = %+v, want the unit of factor 1", k, in)
		}
		if e := k.Edge(); e.Kind != k {
			t.Errorf("%v.Edge() = %+v, want a unit of the kind", k, e)
		}
		// A product is joined, a quotient has an underscore.
		want := "_" + strings.ToLower(strings.NewReplacer(" ", "", "/", "_", "%", "percent").Replace(k.Edge().Name))
		if got := k.Suffix(); got != want {
			t.Errorf("%v.Suffix() = %q, want %q", k, got, want)
		}
		for _, name := range Names(k) {
			if u, err := Lookup(k, name); err != nil || u.Name != name || !(u.Factor > 0) {
				t.Errorf("Lookup(%v, %q) = %+v, %v", k, name, u, err)
			}
		}
		if len(metric[k]) == 0 {
			t.Errorf("%v has no steps to be shown in", k)
		}
	}
	for _, r := range table {
		for _, name := range append(strings.Fields(r.also), r.name) {
			if name != "°" && name != "°C" && name != "°F" && name != "‰" && !regexp.MustCompile(`^[A-Za-z%][A-Za-z0-9 /]*$`).MatchString(name) {
				t.Errorf("unit %q: want letters, digits, blanks and / only", name)
			}
		}
	}
	for sys, rows := range map[string]map[Kind][]step{"inchPound": inchPound, "fine": {Length: fineLength}} {
		for k, steps := range rows {
			checkSteps(t, sys, k, steps)
		}
	}
	for k, steps := range metric {
		checkSteps(t, "metric", Kind(k), steps)
	}
}

func checkSteps(t *testing.T, table string, k Kind, steps []step) {
	t.Helper()
	for _, s := range steps {
		if u := byName[canonical(s.unit)]; s.unit != "" && u.Kind != k || (s.unit == "") != k.bare() {
			t.Errorf("%s[%v] shows in %q, want a unit of the kind", table, k, s.unit)
		}
	}
}

func TestEdge(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		in   float64
		want float64
		key  string
	}{
		{Angle, math.Pi / 2, 90, "trim_deg"},
		{Share, 0.07, 7, "trim_percent"},
		{Length, 0.035, 0.035, "trim_m"},
		{MassPerLength, 20, 0.02, "trim_kg_mm"},
		{Torque, 1.5, 1.5, "trim_nm"},
		{MomentPerAngle, 180 / math.Pi, 1, "trim_nm_deg"},
		{None, 0.62, 0.62, "trim"},
	} {
		if got := c.kind.ToEdge(c.in); got != c.want {
			t.Errorf("%v.ToEdge(%v) = %v, want %v", c.kind, c.in, got, c.want)
		}
		if got := c.kind.Key("trim"); got != c.key {
			t.Errorf("%v.Key = %q, want %q", c.kind, got, c.key)
		}
	}
	for _, k := range Kinds() {
		minus := math.Copysign(0, -1)
		if a, b := k.ToEdge(minus), k.FromEdge(minus); math.Signbit(a) || math.Signbit(b) {
			t.Errorf("%v: ToEdge(-0) = %v, FromEdge(-0) = %v, want 0", k, a, b)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := Angle.ToEdge(x); got != x && !math.IsNaN(got) {
			t.Errorf("Angle.ToEdge(%v) = %v", x, got)
		}
	}
}

// TestToSIFromSI: there and back over every unit, to one rounding each way.
// The scale is that of the number inside, since °F and K move the zero.
func TestToSIFromSI(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(table).Draw(t, "row")
		u, err := Lookup(r.kind, r.name)
		if err != nil {
			t.Fatal(err)
		}
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		if x != 0 && math.Abs(x) < 1e-290 {
			t.Skip("the number inside may be subnormal and have few digits")
		}
		got := u.FromSI(u.ToSI(x))
		if tol := 4e-16 * math.Max(math.Abs(x), zero(u)); math.Abs(got-x) > tol {
			t.Fatalf("%s: FromSI(ToSI(%v)) = %v, off by %g", u.Name, x, got, got-x)
		}
		v := u.ToSI(x)
		if plain := x * u.Factor; u.shift == nil && math.Abs(v-plain) > 4e-16*math.Abs(plain) {
			t.Fatalf("%s: ToSI(%v) = %v, but x*Factor = %v", u.Name, x, v, plain)
		}
	})
}

// zero returns how far the zero of a scale is moved.
func zero(u Unit) float64 {
	if u.shift == nil {
		return 0
	}
	return math.Abs(float(u.shift))
}
