package design

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Variable is one row of the table of what can be varied. Setting one is
// absolute: it puts a copy of the craft as drawn up to a value, and is no
// change of the result of another change.
type Variable struct {
	Key   string // "mass", or with the part or item for a name "drop of *"
	Label string // for people
	Kind  unit.Kind
	Of    Of
	// Note is what a builder should know before trusting it, or empty.
	Note string
	// plug says that it lets a slice into a part, across the axis cut.
	plug bool
	cut  craft.Axis
	now  func(c *craft.Craft, v *Varied) (float64, error)
	set  func(c *craft.Craft, v *Varied, to float64) error
}

// Varied is a variable of something: a row and, where the row is of something
// named, which.
type Varied struct {
	*Variable
	Name  string
	index int     // of it in the craft's list
	At    float64 // of a plug: where it is let in, in the part's own axes, m
	to    float64 // of a plug: where the even section ends that it can be taken from
}

// Text returns the words that [Vary] reads back.
func (v Varied) Text() string { return strings.Replace(v.Key, "*", v.Name, 1) }

// Title returns the label for people.
func (v Varied) Title() string { return strings.Replace(v.Label, "*", v.Name, 1) }

// IsPlug reports whether the variable lets a slice into a part, At a plane.
func (v Varied) IsPlug() bool { return v.plug }

// Where says where a plug goes, for people; it is empty for other variables.
func (v Varied) Where() string {
	if !v.plug {
		return ""
	}
	at := unit.Style{Fine: true}.Format(unit.Length, v.At)
	if v.cut == craft.AlongX {
		return "let in at x = " + at + " of " + v.Name
	}
	return "let in at z = " + at + " of " + v.Name
}

// JSONKey returns the key in JSON and CSV: all its words and the unit's suffix.
func (v Varied) JSONKey() string { return jsonKey(v.Kind, v.Text()) }

// Column returns the key of a result in the JSON and CSV of a sweep, where one
// row may hold several results of a kind: all its words and the unit's suffix.
func (a Asked) Column() string { return jsonKey(a.Kind, a.Text()) }

func jsonKey(k unit.Kind, text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == '-' })
	return k.Key(strings.Join(words, "_"))
}

// Now returns the value that the craft has today.
func (v Varied) Now(c *craft.Craft) (float64, error) { return v.now(c, &v) }

// Check returns an error when the variable cannot have a value: the reason, and
// what values it can have.
func (v Varied) Check(c *craft.Craft, to float64) error {
	if to-to != 0 {
		return fmt.Errorf("%s cannot be %g", v.Text(), to)
	}
	return v.set(c.Copy(), &v, to)
}

// Set gives the variable a value on the craft, which should be a copy.
func (v Varied) Set(c *craft.Craft, to float64) error { return v.set(c, &v, to) }

// Vary reads the name of a variable as a user writes it, for the given craft.
// Case and spacing do not matter. A plug goes where the part's section is
// fullest, or at the given place in the part's own axes.
func Vary(c *craft.Craft, text string, at *float64) (Varied, error) {
	v, err := FindVariable(c, text)
	if err != nil {
		return v, err
	}
	if !v.plug {
		if at != nil {
			return v, fmt.Errorf("%s is let in nowhere: a place is for plugs only", v.Text())
		}
		_, err := v.Now(c)
		return v, err
	}
	p := &c.Parts[v.index]
	if at == nil {
		v.At = roundPlace(p.Fullest(v.cut))
		if set := v.plugOf(p).At; set != 0 {
			v.At = set
		}
	} else {
		v.At = *at
	}
	lo, hi := p.Extent(v.cut)
	if margin := 1e-3 * (hi - lo); v.At < lo+margin || v.At > hi-margin {
		mm := func(x float64) string { return unit.Style{Fine: true}.Format(unit.Length, x) }
		return v, fmt.Errorf("%s cannot be let in at %s: along that axis %s reaches from %s to %s of its own origin; choose a place well within, or see whether the part's unit is right",
			v.Text(), mm(v.At), v.Name, mm(lo), mm(hi))
	}
	v.to = p.EvenFrom(v.cut, v.At)
	return v, nil
}

// Anchor sets the place, in the part's own axes, that stays where it is when the
// part is scaled.
func (v Varied) Anchor(c *craft.Craft, at r3.Vec) error {
	if v.Of != OfPart || v.Kind != unit.Share {
		return fmt.Errorf("%s has no anchor: one is for scales only", v.Text())
	}
	p := &c.Parts[v.index]
	p.Fit.Stretch.Anchor, p.Base.Stretch.Anchor = at, at
	return nil
}

// Written shows a value as a user would write it and [ParseSpan] would read it
// back, to nine digits.
func (v Varied) Written(x float64) string { return written(v.Kind, x, 9) }

// Exact is Written with as many digits as it takes to read the same value back.
func (v Varied) Exact(x float64) string { return written(v.Kind, x, -1) }

// ExactPlace returns the place of a plug in the same way.
func (v Varied) ExactPlace() string { return written(unit.Length, v.At, -1) }

func written(k unit.Kind, x float64, digits int) string {
	d := unit.Style{Fine: true}.Display(k, x)
	text := strconv.FormatFloat(d.Unit.FromSI(x), 'g', digits, 64)
	if d.Unit.Name == "" {
		return text
	}
	return text + " " + d.Unit.Name
}

// plugOf returns the plug of the part that the variable sets.
func (v Varied) plugOf(p *craft.Part) *craft.Plug {
	if v.cut == craft.AlongX {
		return &p.Fit.Longer
	}
	return &p.Fit.Deeper
}

// roundPlace rounds a place that nobody chose to two digits and a half, which
// keeps it where it is and makes it one that can be read and marked off.
func roundPlace(x float64) float64 {
	if x == 0 {
		return 0
	}
	digit := math.Pow10(int(math.Floor(math.Log10(math.Abs(x)))) - 1)
	half := digit / 2
	return math.Round(x/half) * half
}

// FindVariable is [Vary] for what needs no solids yet: the row, and which part or
// item, but not where a plug goes. Use it for names, and Vary for values.
func FindVariable(c *craft.Craft, text string) (Varied, error) {
	want := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for i := range Variables {
		if v := &Variables[i]; v.Of == OfCraft && v.Key == want {
			return Varied{Variable: v, index: -1}, nil
		}
	}
	for i := range Variables {
		v := &Variables[i]
		if v.Of == OfCraft {
			continue
		}
		head, _ := strings.CutSuffix(v.Key, "*")
		rest, ok := strings.CutPrefix(want, head)
		if !ok {
			continue
		}
		all := names(c, v.Of)
		for k, n := range all {
			if strings.ToLower(n) == rest {
				return Varied{Variable: v, Name: n, index: k}, nil
			}
		}
		return Varied{}, fmt.Errorf("nothing can be varied by the name %q: %q names none of %s", text, rest, listed(all, rest))
	}
	var known []string
	for _, v := range Variables {
		if v.Of == OfCraft {
			known = append(known, v.Key)
		}
		for _, n := range names(c, v.Of) {
			known = append(known, strings.Replace(v.Key, "*", n, 1))
		}
	}
	if near := nearest(want, known); len(near) > 0 {
		return Varied{}, fmt.Errorf("nothing can be varied by the name %q; did you mean %s?", text, quoted(near))
	}
	return Varied{}, fmt.Errorf("nothing can be varied by the name %q; %s", text, "known are "+quoted(VariableKeys()))
}

// VariableKeys returns the keys of all variables.
func VariableKeys() []string {
	var out []string
	for _, v := range Variables {
		out = append(out, v.Key)
	}
	return out
}

// AllVariables returns every variable that the craft has a value for, rows in
// table order.
func AllVariables(c *craft.Craft) []Varied {
	var out []Varied
	for i := range Variables {
		v := &Variables[i]
		if v.Of == OfCraft {
			out = append(out, Varied{Variable: v, index: -1})
			continue
		}
		for k, n := range names(c, v.Of) {
			out = append(out, Varied{Variable: v, Name: n, index: k})
		}
	}
	return slices.DeleteFunc(out, func(v Varied) bool { _, err := v.Now(c); return err != nil })
}

// Changed returns a copy of the craft with variables set to values.
func Changed(c *craft.Craft, vars []Varied, to []float64) (*craft.Craft, error) {
	d := c.Copy()
	for i, v := range vars {
		if err := v.Set(d, to[i]); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// Distinct returns an error when two of the variables are one.
func Distinct(vars []Varied) error {
	for i := range vars {
		for k := range i {
			if vars[i].Text() == vars[k].Text() {
				return errors.New(vars[i].Text() + " is varied twice: give it one range")
			}
		}
	}
	return nil
}
