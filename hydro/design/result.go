package design

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Of says what a result is of.
type Of int

const (
	OfCraft    Of = iota // the craft as a whole: the key stands alone
	OfPlace              // a point, or a part that is to stay dry
	OfLine               // a line
	OfStation            // a station
	OfFloating           // a part that displaces
	OfAngle              // an angle, written with its unit: "30 deg"
	OfPart               // any part
	OfItem               // an item
	OfWeighed            // an item, or a part that is weighed
	OfSpace              // a compartment, by its side for one of a mirrored part
)

// Result is one row of the table of results.
type Result struct {
	Key   string // "trim", or with the place for a name "clearance of *"
	Label string // for people: "trim", "clearance of *"
	Kind  unit.Kind
	Of    Of
	// Share, where set, returns what a bound or a value in percent is a
	// share of.
	Share func(*Trial) (float64, error)
	// Curve says that the result takes a whole curve of solves. Such ones are
	// worked out only when asked for by name.
	Curve bool
	// Slow says that it takes so many curves that what is asked of it many
	// times over, such as [Requirement.Room], is left out.
	Slow bool
	get  func(*Trial, int) (float64, error)
	at   func(*Trial, float64) (float64, error) // instead of get for OfAngle
}

// Asked is a result asked of something: a row and, where the row is of
// something named, which.
type Asked struct {
	*Result
	Name  string  // of the place, line, station or part, or the angle; empty for the craft
	Angle float64 // for a row that is OfAngle, rad
	index int     // of it in the craft's list
}

// Text returns the words that [Find] reads back.
func (a Asked) Text() string { return strings.Replace(a.Key, "*", a.Name, 1) }

// Title returns the label for people.
func (a Asked) Title() string { return strings.Replace(a.Label, "*", a.Name, 1) }

// Value returns the result for a trial, in the unit package's inside unit of
// its Kind. An error says that there is no such answer: the craft sinks, the
// result does not apply.
func (a Asked) Value(t *Trial) (float64, error) {
	if a.Of == OfAngle {
		return a.at(t, a.Angle)
	}
	return a.get(t, a.index)
}

// JSONKey returns the key of the row, and of the angle where it is of one.
func (a Asked) JSONKey() string {
	if a.Of == OfAngle {
		return a.Kind.Key(strings.ReplaceAll(a.Text(), " ", "_"))
	}
	return a.Result.JSONKey()
}

// names returns what rows of the given kind can be of, in the order of the
// indices that get takes.
func names(c *craft.Craft, of Of) []string {
	var out []string
	switch of {
	case OfPlace:
		for _, p := range c.Points {
			out = append(out, p.Name)
		}
		for _, p := range c.Parts {
			out = append(out, p.Name)
		}
	case OfLine:
		for _, l := range c.Lines {
			out = append(out, l.Name)
		}
	case OfStation:
		for _, s := range c.Stations {
			out = append(out, s.Name)
		}
	case OfFloating, OfPart:
		for _, p := range c.Parts {
			out = append(out, p.Name)
		}
	case OfItem:
		for _, it := range c.Items {
			out = append(out, it.Name)
		}
	case OfSpace:
		out = c.SpaceNames()
	case OfWeighed:
		out = append(names(c, OfItem), names(c, OfPart)...)
	}
	return out
}

// Find reads the name of a result as a user writes it, for the given craft:
// "trim", "clearance of propeller tip". Case and spacing do not matter.
func Find(c *craft.Craft, text string) (Asked, error) {
	want := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for i := range Results {
		if r := &Results[i]; r.Of == OfCraft && r.Key == want {
			return Asked{Result: r, index: -1}, nil
		}
	}
	for i := range Results {
		r := &Results[i]
		if r.Of == OfCraft {
			continue
		}
		head, _ := strings.CutSuffix(r.Key, "*")
		rest, ok := strings.CutPrefix(want, head)
		if !ok {
			continue
		}
		if r.Of == OfAngle {
			return r.ofAngle(rest)
		}
		all := names(c, r.Of)
		for k, n := range all {
			if strings.ToLower(n) == rest {
				return Asked{Result: r, Name: n, index: k}, nil
			}
		}
		return Asked{}, fmt.Errorf("no result %q: %q names none of %s", text, rest, listed(all, rest))
	}
	return Asked{}, fmt.Errorf("no result is called %q; %s", text, Offer(want, Keys()))
}

// ofAngle asks a row of an angle as a user writes it.
func (r *Result) ofAngle(text string) (Asked, error) {
	angle, err := unit.Parse(unit.Angle, text)
	if err != nil {
		return Asked{}, fmt.Errorf("%s: %w; write for example %q", r.Key, err, strings.Replace(r.Key, "*", "30 deg", 1))
	}
	if !(angle > 0 && angle <= math.Pi) {
		return Asked{}, fmt.Errorf("%s: %s is outside 0 to 180 deg", r.Key, text)
	}
	name := strconv.FormatFloat(math.Round(angle*180/math.Pi*1e9)/1e9, 'g', -1, 64) + " deg"
	return Asked{Result: r, Name: name, Angle: angle, index: -1}, nil
}

// Keys returns the keys of all results.
func Keys() []string {
	var out []string
	for _, r := range Results {
		out = append(out, r.Key)
	}
	return out
}

// All returns every result that the craft's names give, rows in table order,
// but for those that take a curve.
func All(c *craft.Craft) []Asked {
	var out []Asked
	for i := range Results {
		r := &Results[i]
		if r.Curve {
			continue
		}
		if r.Of == OfCraft {
			out = append(out, Asked{Result: r, index: -1})
			continue
		}
		for k, n := range names(c, r.Of) {
			out = append(out, Asked{Result: r, Name: n, index: k})
		}
	}
	return out
}

// Each returns the results of one row over the craft's names, also of a row
// that takes a curve; none for an angle, of which there is no list.
func Each(c *craft.Craft, key string) []Asked {
	var out []Asked
	for i := range Results {
		r := &Results[i]
		switch {
		case r.Key != key || r.Of == OfAngle:
		case r.Of == OfCraft:
			out = append(out, Asked{Result: r, index: -1})
		default:
			for k, n := range names(c, r.Of) {
				out = append(out, Asked{Result: r, Name: n, index: k})
			}
		}
	}
	return out
}

// JSONKey returns the row's key in JSON and CSV: words joined by underscores
// and the unit's suffix.
func (r *Result) JSONKey() string {
	return r.Kind.Key(strings.ReplaceAll(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(r.Key, " *"), " of"), " at"), " ", "_"))
}
