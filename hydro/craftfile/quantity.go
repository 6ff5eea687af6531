package craftfile

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/unit"
)

// A demand says what is wrong with the size of a number, or nothing.
type demand func(v float64) string

func anything(float64) string { return "" }

func notNegative(v float64) string {
	if v < 0 {
		return "is negative"
	}
	return ""
}

func overZero(v float64) string {
	if v <= 0 {
		return "must be over zero"
	}
	return ""
}

// examples shows how a quantity of each kind is written.
var examples = map[unit.Kind]string{
	unit.Length:       "12 mm",
	unit.Mass:         "180 g",
	unit.Angle:        "3 deg",
	unit.Share:        "10 %",
	unit.Density:      "30 kg/m3",
	unit.ArealDensity: "160 g/m2",
	unit.Temperature:  "12 C",
	unit.Salinity:     "35 g/kg",
	unit.Area:         "0.12 m2",
	unit.Force:        "22 N",
	unit.Torque:       "0.3 N m",
	unit.Speed:        "5 m/s",
	unit.None:         "1.1",
}

// reach is the largest size a quantity may have, so that its powers stay
// finite. Nothing in this trade comes within a thousandth of it.
var reach = map[unit.Kind]float64{
	unit.Length:       1e5,
	unit.Mass:         1e9,
	unit.Angle:        1e3,
	unit.Share:        1e4,
	unit.Density:      1e7,
	unit.ArealDensity: 1e7,
	unit.Area:         1e9,
	unit.Force:        1e9,
	unit.Torque:       1e9,
	unit.Speed:        1e3,
	unit.None:         1e6,
}

// quantity returns the number under a key in the unit inside the program, and
// false when there is none that can be used.
func (t *table) quantity(key string, k unit.Kind, d demand) (float64, bool) {
	e := t.get(key)
	if e == nil {
		return 0, false
	}
	return t.number(e.value, t.of(key), k, d)
}

// pointer is quantity for a number that need not be there.
func (t *table) pointer(key string, k unit.Kind, d demand) *float64 {
	if v, ok := t.quantity(key, k, d); ok {
		return &v
	}
	return nil
}

// vector returns the three lengths under a key, and false when there are none
// that can be used.
func (t *table) vector(key string) (r3.Vec, bool) {
	e := t.get(key)
	if e == nil {
		return r3.Vec{}, false
	}
	if !t.is(e.value, aList, t.of(key), key+` = ["10 mm", "0 mm", "35 mm"]`) {
		return r3.Vec{}, false
	}
	if n := len(e.value.items); n != 3 {
		t.fail(e.at, "%s needs three values, x forward, y to port and z up, and has %d", t.of(key), n)
		return r3.Vec{}, false
	}
	var v [3]float64
	all := true
	for i, n := range e.value.items {
		var ok bool
		v[i], ok = t.number(n, t.of(fmt.Sprintf("%s (%c)", key, 'x'+i)), unit.Length, anything)
		all = all && ok
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, all
}

// vectorPointer is vector for a place that need not be there.
func (t *table) vectorPointer(key string) *r3.Vec {
	if v, ok := t.vector(key); ok {
		return &v
	}
	return nil
}

// number reads one value as a quantity.
func (t *table) number(n *node, label string, k unit.Kind, d demand) (float64, bool) {
	text, ok := t.written(n, label, `"`+examples[k]+`"`)
	if !ok {
		return 0, false
	}
	v, err := unit.ParseWithDefault(k, text, t.bareUnit(k, text))
	if err != nil {
		t.fail(n.at, "%s: %s", label, t.orDefault(err, k))
		return 0, false
	}
	return v, t.fits(n, label, text, v, k, d)
}

// fits reports whether a number has a size that can be used.
func (t *table) fits(n *node, label, text string, v float64, k unit.Kind, d demand) bool {
	if most, bounded := reach[k]; bounded && math.Abs(v) > most {
		t.fail(n.at, "%s: %q is beyond all measure; is the unit right?", label, text)
		return false
	}
	if wrong := d(v); wrong != "" {
		t.fail(n.at, "%s %s: %q", label, wrong, text)
		return false
	}
	return true
}

// written returns a number as it stands in the file, with or without a unit.
func (t *table) written(n *node, label, example string) (string, bool) {
	switch n.kind {
	case aText:
		return n.text, true
	case aNumber:
	default:
		t.fail(n.at, "%s must be a number with its unit, such as %s, and not %s", label, example, n.kind)
		return "", false
	}
	if strings.ContainsAny(n.text, "xX") || strings.HasPrefix(n.text, "0b") || strings.HasPrefix(n.text, "0o") {
		t.fail(n.at, "%s must be a decimal number, such as %s", label, example)
		return "", false
	}
	if strings.HasSuffix(n.text, "inf") || strings.HasSuffix(n.text, "nan") {
		t.fail(n.at, "%s must be a finite number, such as %s, and not %s", label, example, n.text)
		return "", false
	}
	return strings.ReplaceAll(n.text, "_", ""), true
}

// bareUnit returns the unit of a number without one: the file's, or for zero
// any, except where zero depends on the unit.
func (t *table) bareUnit(k unit.Kind, text string) string {
	switch {
	case k == unit.Length && t.lengthUnit != "":
		return t.lengthUnit
	case k == unit.Mass && t.massUnit != "":
		return t.massUnit
	case k == unit.None || k == unit.Count || k == unit.Temperature:
		return ""
	}
	if v, err := unit.Parse(unit.None, text); err == nil && v == 0 {
		return k.Inside().Name
	}
	return ""
}

// orDefault returns the words of an error of package unit, with the cure that
// only a file knows.
func (t *table) orDefault(err error, k unit.Kind) string {
	key := map[unit.Kind]string{unit.Length: "length_unit", unit.Mass: "mass_unit"}[k]
	if key == "" || !errors.Is(err, unit.ErrNoUnit) {
		return err.Error()
	}
	return fmt.Sprintf("%s; or set %s at the top of the file", err, key)
}
