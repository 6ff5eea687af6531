package unit

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// ErrNoUnit is wrapped by the error about a number that needs a unit and has
// none, so that a caller who knows a place for a default can say so.
var ErrNoUnit = errors.New("no unit")

// Parse reads a number with its unit and returns it in the unit inside the
// program (see [Kind]), correctly rounded. It accepts
//
//   - decimals with a point, with or without an exponent: 12 mm, 12mm, 1.2e3 g;
//   - fractions: 3/4 in, 1 3/4 in, 1-3/4 in;
//   - lengths, masses and times in parts, of which all but the last are whole
//     and each is less than one of the unit before it: 5 lb 4 oz, 6ft2in. A
//     minus in front holds for the whole;
//   - no unit for None and Count, where one would be an error.
//
// A comma is refused, because it is a decimal point to some and a thousands
// mark to others. Bare numbers, units of another kind, unknown units, NaN and
// infinities are refused too; the error says what is accepted.
func Parse(kind Kind, text string) (float64, error) { return ParseWithDefault(kind, text, "") }

// ParseWithDefault is [Parse] that takes a bare number to be in defaultUnit. An
// empty defaultUnit stands for no default.
func ParseWithDefault(kind Kind, text, defaultUnit string) (float64, error) {
	var def Unit
	if defaultUnit != "" {
		var err error
		if def, err = Lookup(kind, defaultUnit); err != nil {
			return 0, err
		}
	}
	if strings.Contains(text, ",") {
		return 0, fmt.Errorf("%s has a comma; write a point for decimals and nothing between thousands", quote(text))
	}
	terms, err := scan(text)
	if err != nil {
		return 0, err
	}
	return evaluateTerms(kind, text, terms, def)
}

// ParseVector reads three lengths, x, y and z, separated by commas, and returns
// them in meters: "10mm,0mm,35mm". The unit may be left out where only one
// reading is possible: for zero; or after the first two numbers, when the
// third has the unit for all ("10,0,35 mm"). With a defaultUnit (empty: none)
// all three may be bare; then the short form with one unit is refused, as the
// first two could be in either. Since three values are wanted, a decimal comma
// shows as a value too many.
func ParseVector(text, defaultUnit string) (r3.Vec, error) {
	fields := strings.Split(text, ",")
	if len(fields) != 3 {
		return r3.Vec{}, fmt.Errorf("%s has %d values; three lengths are wanted, such as \"10mm,0mm,35mm\", with a point for decimals",
			quote(text), len(fields))
	}
	var lists [3][]term
	var bare, withUnit []int
	for i, field := range fields {
		var err error
		if lists[i], err = scan(field); err != nil {
			return r3.Vec{}, fmt.Errorf("%c of %s: %w", 'x'+i, quote(text), err)
		}
		switch first := lists[i][0]; {
		case first.unit != "":
			withUnit = append(withUnit, i)
		case first.number.Sign() == 0 && len(lists[i]) == 1:
			lists[i][0].unit = "m"
		default:
			bare = append(bare, i)
		}
	}
	var def Unit
	var err error
	switch {
	case defaultUnit != "" && len(bare) > 0 && len(withUnit) > 0:
		return r3.Vec{}, fmt.Errorf("%s has a unit at some values only; write it at each", quote(text))
	case defaultUnit != "":
		def, err = Lookup(Length, defaultUnit)
	case len(withUnit) == 1 && withUnit[0] == 2 && len(lists[2]) == 1:
		def, err = find(Length, text, lists[2][0].unit)
	}
	if err != nil {
		return r3.Vec{}, err
	}
	var v [3]float64
	for i, terms := range lists {
		if v[i], err = evaluateTerms(Length, strings.TrimSpace(fields[i]), terms, def); err != nil {
			return r3.Vec{}, fmt.Errorf("%c of %s: %w", 'x'+i, quote(text), err)
		}
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}

// term is a number and the unit behind it, which may be empty.
type term struct {
	number *big.Rat
	unit   string
}

// Limits that keep exact arithmetic small whatever a file holds.
const (
	maxText     = 200 // bytes
	maxExponent = 400 // of ten; beyond the range of float64
)

var (
	// numberForm: sign, then whole and fraction, or a fraction, or a decimal
	// with its exponent.
	numberForm = regexp.MustCompile(`^([+-]?) *(?:(?:(\d+)[ -])?(\d+)/(\d+)|((?:\d+\.?\d*|\.\d+)(?:[eE]([+-]?\d+))?))`)
	nextNumber = regexp.MustCompile(` \.?\d`)
	joined     = regexp.MustCompile(`[A-Za-z°%]\d`)
)

// scan splits a text into numbers and units. It does not know the kind wanted.
func scan(text string) ([]term, error) {
	if len(text) > maxText {
		return nil, fmt.Errorf("%s is too long for a number with a unit", quote(text))
	}
	rest := strings.TrimSpace(plain.Replace(text))
	if rest == "" {
		return nil, errors.New("a number is missing: the text is empty")
	}
	var terms []term
	for rest != "" {
		m := numberForm.FindStringSubmatch(rest)
		if m == nil {
			return nil, fmt.Errorf("%s does not begin with a finite number", quote(text))
		}
		number, err := exact(text, m)
		if err != nil {
			return nil, err
		}
		name := strings.TrimSpace(rest[len(m[0]):])
		rest = ""
		if at := nextNumber.FindStringIndex(name); at != nil {
			name, rest = name[:at[0]], name[at[0]+1:]
		}
		// 6ft2in: a digit may also belong to the unit, as in m2.
		if _, known := byName[canonical(name)]; !known {
			if at := joined.FindStringIndex(name); at != nil {
				if _, known := byName[canonical(name[:at[1]-1])]; known {
					name, rest = name[:at[1]-1], name[at[1]-1:]+" "+rest
				}
			}
		}
		rest = strings.TrimSpace(rest)
		terms = append(terms, term{number, strings.TrimSpace(name)})
	}
	return terms, nil
}

// exact turns a match of numberForm into a number.
func exact(text string, m []string) (*big.Rat, error) {
	sign, whole, numerator, denominator, decimal, exponent := m[1], m[2], m[3], m[4], m[5], m[6]
	if exponent != "" {
		if e, err := strconv.Atoi(exponent); err != nil || e < -maxExponent || e > maxExponent {
			return nil, fmt.Errorf("the exponent in %s is out of range", quote(text))
		}
	}
	r := new(big.Rat)
	switch {
	case decimal != "":
		r.SetString(decimal)
	case strings.Trim(denominator, "0") == "":
		return nil, fmt.Errorf("%s divides by zero", quote(text))
	default:
		r.SetString(numerator + "/" + denominator)
		if whole != "" {
			w, _ := new(big.Rat).SetString(whole)
			r.Add(r, w)
		}
	}
	if sign == "-" {
		r.Neg(r)
	}
	return r, nil
}

// evaluateTerms adds up the terms of a text. def is the unit of a bare number;
// the zero Unit stands for none.
func evaluateTerms(kind Kind, text string, terms []term, def Unit) (float64, error) {
	if len(terms) > 1 && !kind.compound() {
		return 0, fmt.Errorf("%s has more than one number; one %s is wanted%s", quote(text), kind, wanted(kind))
	}
	sum := new(big.Rat)
	negative := strings.HasPrefix(strings.TrimSpace(plain.Replace(text)), "-")
	var before Unit
	for i, t := range terms {
		u := def
		switch {
		case t.unit != "":
			var err error
			if u, err = find(kind, text, t.unit); err != nil {
				return 0, err
			}
		case kind.bare():
		case def.factor == nil || len(terms) > 1:
			return 0, fmt.Errorf("%s has %w; write one of %s", quote(text), ErrNoUnit, strings.Join(Names(kind), ", "))
		}
		part := u.exactSI(t.number)
		if i > 0 {
			switch {
			case u.factor.Cmp(before.factor) >= 0 || part.Cmp(before.factor) >= 0:
				return 0, fmt.Errorf("in %s each part must be less than one of the unit before it, as in \"5 lb 4 oz\"", quote(text))
			case !terms[i-1].number.IsInt():
				return 0, fmt.Errorf("in %s only the last number may have a fraction, as in \"5 lb 4.5 oz\"", quote(text))
			case negative:
				part.Neg(part)
			}
		}
		sum.Add(sum, part)
		before = u
	}
	if kind == Count && !sum.IsInt() {
		return 0, fmt.Errorf("%s is not a whole number", quote(text))
	}
	v := float(sum)
	if math.IsInf(v, 0) {
		return 0, fmt.Errorf("%s is out of range", quote(text))
	}
	return v, nil
}
