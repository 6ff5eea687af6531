package unit

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Unit is one unit of the table. The zero value is that of a plain number.
// Units of the table may be compared with ==.
type Unit struct {
	Name   string  // as shown to people, ASCII, such as "N m" or "kg/m3"
	Kind   Kind    // what it measures
	Factor float64 // size of the unit in the unit inside the program: 0.0254 for in

	factor *big.Rat // the same, exact; nil in a plain number
	shift  *big.Rat // added before the factor; nil but for temperatures
}

// ToSI converts x in unit u to the unit inside the program (see [Kind]). It
// takes x for the shortest decimal that reads as x, which is what somebody
// typed, and rounds once: 35 mm gives 0.035 and not the next number above. NaN
// and infinities are returned as they are, a negative zero as zero. It takes a few
// microseconds; for bulk data, such as mesh vertices, multiply by Factor.
func (u Unit) ToSI(x float64) float64 {
	if u.same(x) {
		return x + 0 // no negative zero
	}
	return float(u.exactSI(shortest(x)))
}

// FromSI converts v from inside the program to unit u, in the same manner as
// ToSI. The two undo each other to the last bit or the next to last; for a scale
// of temperature that is of the number or of its offset, whichever is larger.
func (u Unit) FromSI(v float64) float64 {
	if u.same(v) {
		return v + 0 // no negative zero
	}
	r := shortest(v)
	r.Quo(r, u.factor)
	if u.shift != nil {
		r.Sub(r, u.shift)
	}
	return float(r)
}

// same reports whether v needs no arithmetic.
func (u Unit) same(v float64) bool {
	return u.factor == nil || u.Factor == 1 && u.shift == nil || math.IsNaN(v) || math.IsInf(v, 0)
}

// exactSI is ToSI in exact arithmetic.
func (u Unit) exactSI(x *big.Rat) *big.Rat {
	r := new(big.Rat).Set(x)
	if u.shift != nil {
		r.Add(r, u.shift)
	}
	if u.factor != nil {
		r.Mul(r, u.factor)
	}
	return r
}

// Lookup returns the unit of the given kind that goes by name. The error of an
// unknown name, or of the name of a unit of another kind, lists what is
// accepted. Blanks, ^, * and the middle dot do not matter (N m, Nm, N·m; m3, m^3,
// m³); upper and lower case do.
func Lookup(kind Kind, name string) (Unit, error) { return find(kind, name, name) }

// Names returns the names of the units of a kind, without other spellings.
func Names(kind Kind) []string {
	var names []string
	for _, r := range table {
		if r.kind == kind {
			names = append(names, r.name)
		}
	}
	return names
}

// find is Lookup with the text in which the name stands, for the error.
func find(kind Kind, text, name string) (Unit, error) {
	u, known := byName[canonical(name)]
	if known && u.Kind == kind {
		return u, nil
	}
	if known {
		return Unit{}, fmt.Errorf("%s is %s; %s is wanted%s",
			quote(text), u.Kind.withArticle(), kind.withArticle(), wanted(kind))
	}
	where, hint := "", ""
	if text != name {
		where = " in " + quote(text)
	}
	for _, n := range Names(kind) {
		if strings.EqualFold(canonical(n), canonical(name)) {
			hint = fmt.Sprintf(" (did you mean %s?)", n)
			break
		}
	}
	return Unit{}, fmt.Errorf("unknown unit %s%s%s; %s is wanted%s",
		quote(name), where, hint, kind.withArticle(), wanted(kind))
}

// wanted ends an error message with the units of a kind.
func wanted(kind Kind) string {
	if kind.bare() {
		return ", without a unit"
	}
	return ": " + strings.Join(Names(kind), ", ")
}

// byName finds units by the canonical form of all their spellings.
var byName = index()

func index() map[string]Unit {
	m := make(map[string]Unit)
	for _, r := range table {
		u := Unit{Name: r.name, Kind: r.kind, factor: evaluate(r.factor)}
		u.Factor = float(u.factor)
		if s, ok := shifts[r.name]; ok {
			u.shift = evaluate(s)
		}
		for _, name := range append(strings.Fields(r.also), r.name) {
			name = canonical(name)
			if _, taken := m[name]; taken {
				panic("unit: two units are called " + name)
			}
			m[name] = u
		}
	}
	return m
}

// evaluate works out a factor of the table. Parts are separated by * and /,
// and a / holds for the one number behind it.
func evaluate(formula string) *big.Rat {
	r := big.NewRat(1, 1)
	for i, quotient := range strings.Split(formula, "/") {
		for j, number := range strings.Split(quotient, "*") {
			if number == "pi" {
				number = pi
			}
			f, ok := new(big.Rat).SetString(number)
			switch {
			case !ok:
				panic("unit: bad factor " + formula)
			case i > 0 && j == 0:
				r.Quo(r, f)
			default:
				r.Mul(r, f)
			}
		}
	}
	return r
}

// plain maps the characters that keyboards and word processors put into
// numbers and units to those of the table. Both the micro sign and the Greek
// letter mu are in use.
var plain = strings.NewReplacer(
	"\u2212", "-", "²", "2", "³", "3", "⁴", "4", "\u00b5", "u", "\u03bc", "u", "º", "°",
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "·", " ", "⋅", " ", "\t", " ",
)

// canonical returns the form in which the name of a unit is looked up.
func canonical(name string) string { return joiner.Replace(plain.Replace(name)) }

var joiner = strings.NewReplacer(" ", "", "^", "", "*", "")

// quote quotes a text for an error message and cuts it when it is long.
func quote(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "..."
	}
	return strconv.Quote(text)
}

// shortest returns a finite x as the shortest decimal that reads as x.
func shortest(x float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(x, 'g', -1, 64))
	if !ok {
		panic("unit: not a finite number")
	}
	return r
}

// float rounds to the nearest float64, never to a negative zero.
func float(r *big.Rat) float64 {
	v, _ := r.Float64()
	if v == 0 {
		return 0
	}
	return v
}
