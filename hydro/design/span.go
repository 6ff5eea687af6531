package design

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Span is a variable and the values that it may take.
type Span struct {
	Varied
	From, To float64
	Step     float64   // from From on; 0 for any value
	Only     []float64 // if not empty, no other values, in rising order
}

// MostDesigns bounds a grid and the values of one variable.
const MostDesigns = 1_000_000

// Limits are the values that a craft file holds a variable to, by the
// variable's text.
type Limits map[string]Span

// ParseSpan reads a variable and its values as a user writes them:
//
//	plug height of float=0mm..40mm/5mm        from, to and step
//	plug height of float=0mm..40mm            from and to
//	plug height of float=0mm,10mm,15mm        these only
//	plug height of float=0mm..40mm at 45mm    with the place of a plug
//	plug height of float                      the limits of the craft file
//
// Values carry their unit.
func ParseSpan(c *craft.Craft, limits Limits, text string) (Span, error) {
	const longest = 400 // bytes; no craft has names that long
	if len(text) > longest {
		return Span{}, fmt.Errorf("%q... is too long to be a range", text[:20])
	}
	name, values, given := strings.Cut(text, "=")
	if strings.TrimSpace(name) == "" {
		return Span{}, fmt.Errorf("%q names nothing to vary; write for example \"plug height of float=0mm..40mm/5mm\"", text)
	}
	var at *float64
	rest := name
	if given {
		rest = values
	}
	if i := strings.LastIndex(rest, " at "); i >= 0 {
		place, err := unit.Parse(unit.Length, strings.TrimSpace(rest[i+4:]))
		if err == nil {
			at = &place
			rest = rest[:i]
		} else if given {
			return Span{}, fmt.Errorf("%q: the place after \"at\": %w", text, err)
		}
	}
	if given {
		values = rest
	} else {
		name = rest
	}
	v, err := Vary(c, name, at)
	if err != nil {
		return Span{}, err
	}
	s, known := limits[v.Text()]
	if known && at == nil && s.Variable != nil {
		v = s.Varied
	}
	switch {
	case given:
		s = Span{Varied: v}
		if err := s.parse(values); err != nil {
			return s, fmt.Errorf("%s: %w", v.Text(), err)
		}
	case known:
		s.Varied = v
	default:
		if s, err = natural(c, v); err != nil {
			return s, err
		}
	}
	return s, s.Check(c)
}

// natural returns the values of a variable that nobody gave any: what a part
// can reasonably be changed to.
func natural(c *craft.Craft, v Varied) (Span, error) {
	s := Span{Varied: v}
	switch {
	case v.plug:
		lo, hi := c.Parts[v.index].Extent(v.cut)
		s.To = hi - lo
	case v.Of == OfPart && v.Kind == unit.Share:
		s.From, s.To = 0.5, 2
	default:
		now, err := v.Now(c)
		if err != nil {
			return s, err
		}
		return s, fmt.Errorf("%s has no range: it is %s today; write for example \"%s=%s\", or a [[vary]] in the craft file",
			v.Text(), shown(v.Kind, now), v.Text(), example(v.Kind, now))
	}
	return s, nil
}

// example returns a range about a value, as a user would write it.
func example(k unit.Kind, now float64) string {
	reach := math.Abs(now) / 5
	if now == 0 {
		reach = map[unit.Kind]float64{unit.Length: 0.02, unit.Angle: 2 * math.Pi / 180}[k]
		if reach == 0 {
			reach = 0.1
		}
	}
	tight := func(v float64) string { return strings.ReplaceAll(shown(k, v), " ", "") }
	return tight(now-reach) + ".." + tight(now+reach)
}

// shown shows a value of a kind as finely as it was likely meant.
func shown(k unit.Kind, v float64) string { return unit.Style{Fine: true}.Format(k, v) }

// parse reads what stands behind the equals sign.
func (s *Span) parse(text string) error {
	value := func(t string) (float64, error) {
		t = strings.TrimSpace(t)
		if t == "0" { // the same in any unit
			return 0, nil
		}
		return unit.Parse(s.Kind, t)
	}
	from, to, isRange := strings.Cut(text, "..")
	if !isRange {
		for _, t := range strings.Split(text, ",") {
			v, err := value(t)
			if err != nil {
				return err
			}
			s.Only = append(s.Only, v)
		}
		slices.Sort(s.Only)
		s.Only = slices.Compact(s.Only)
		s.From, s.To = s.Only[0], s.Only[len(s.Only)-1]
		return nil
	}
	// A fraction of an inch has a slash too; only behind a unit it is a step.
	var step string
	var hasStep bool
	if i := strings.LastIndex(to, "/"); i >= 0 {
		if _, err := value(to); err != nil {
			to, step, hasStep = to[:i], to[i+1:], true
		}
		for hasStep { // 1/16in as a step
			if _, err := value(to); err == nil {
				break
			}
			i := strings.LastIndex(to, "/")
			if i < 0 {
				break
			}
			to, step = to[:i], to[i+1:]+"/"+step
		}
	}
	var err error
	if s.From, err = value(from); err != nil {
		return err
	}
	if s.To, err = value(to); err != nil {
		return err
	}
	if hasStep {
		if s.Step, err = value(step); err != nil {
			return fmt.Errorf("the step: %w", err)
		}
		if s.Step <= 0 {
			return fmt.Errorf("the step %q must be over zero", strings.TrimSpace(step))
		}
	}
	return nil
}

// Check returns an error for a range that is empty, reversed, too fine, or that
// holds values that the variable cannot have.
func (s Span) Check(c *craft.Craft) error {
	switch {
	case s.From > s.To:
		return fmt.Errorf("%s: the range runs from %s down to %s; write the smaller value first", s.Text(), shown(s.Kind, s.From), shown(s.Kind, s.To))
	case s.From == s.To && len(s.Only) == 0:
		return fmt.Errorf("%s: the range from %s to %s is empty", s.Text(), shown(s.Kind, s.From), shown(s.Kind, s.To))
	case s.Step > 0 && (s.To-s.From)/s.Step >= MostDesigns:
		return fmt.Errorf("%s: the step %s makes more than %d values", s.Text(), shown(s.Kind, s.Step), MostDesigns)
	}
	for _, v := range []float64{s.From, s.To} {
		if err := s.Varied.Check(c, v); err != nil {
			return err
		}
	}
	return nil
}

// unspaced is into how many steps a range is divided that has none of its own.
const unspaced = 10

// Values returns the values to go through, in rising order: the only ones, by
// steps up to the end, or the range in the given number of equal parts (10 for
// zero).
func (s Span) Values(parts int) []float64 {
	if len(s.Only) > 0 {
		return s.Only
	}
	var out []float64
	if s.Step > 0 {
		for i := 0; ; i++ {
			v := s.From + float64(i)*s.Step
			if v > s.To+1e-9*s.Step {
				return out
			}
			out = append(out, v)
		}
	}
	if parts == 0 {
		parts = unspaced
	}
	for i := range parts + 1 {
		out = append(out, s.From+(s.To-s.From)*float64(i)/float64(parts))
	}
	return out
}

// Discrete reports whether only some values of the range are allowed.
func (s Span) Discrete() bool { return s.Step > 0 || len(s.Only) > 0 }

// Words says in words what the values are.
func (s Span) Words() string {
	switch {
	case len(s.Only) > 0:
		var all []string
		for _, v := range s.Only {
			all = append(all, shown(s.Kind, v))
		}
		return strings.Join(all, ", ")
	case s.Step > 0:
		return fmt.Sprintf("%s to %s in steps of %s", shown(s.Kind, s.From), shown(s.Kind, s.To), shown(s.Kind, s.Step))
	}
	return fmt.Sprintf("%s to %s", shown(s.Kind, s.From), shown(s.Kind, s.To))
}
