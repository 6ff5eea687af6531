package main

import (
	"fmt"
	"math"
	"strings"

	"millpond/hydro/unit"
	"millpond/plots/page"
)

// verdict is the answer that the page begins with.
func (r *reviewed) verdict() page.Verdict {
	switch {
	case r.restErr != nil:
		return page.Verdict{Words: "has no rest afloat", Reasons: []string{r.restErr.Error()}}
	case !r.upright():
		rest := r.rest.rest()
		return page.Verdict{Words: "does not stay upright", Reasons: []string{
			fmt.Sprintf("it rests %s, at trim %s and heel %s", lies(rest.Up), r.style.Format(unit.Angle, rest.Trim()), r.style.Format(unit.Angle, rest.Heel())),
		}}
	case r.check == nil:
		return page.Verdict{Good: true, Words: "rests upright; no requirements are stated"}
	}
	n := len(r.check.verdicts)
	v := page.Verdict{Good: r.check.missed == 0}
	switch {
	case !v.Good:
		v.Words = fmt.Sprintf("misses %d of %d requirements", r.check.missed, n)
	case n == 1:
		v.Words = "meets its one requirement"
	default:
		v.Words = fmt.Sprintf("meets all %d requirements", n)
	}
	if b := r.check.binding(); b >= 0 {
		v.Reasons = append(v.Reasons, "Binding: "+r.check.standing(b, r.style))
		for i := range r.check.verdicts {
			if !r.check.verdicts[i].Pass && i != b {
				v.Reasons = append(v.Reasons, "Also missed: "+r.check.standing(i, r.style))
			}
		}
	}
	if missed := r.loadingsMissed(); len(missed) > 0 {
		if v.Good {
			v.Words, v.But = v.Words+" as it is, not in every loading", true
		}
		v.Reasons = append(v.Reasons, missed...)
	}
	return v
}

// binding returns the requirement that decides: the one that most mass must
// come off for where any is missed, else the one that is missed first as mass
// is added at the CG. Requirements that no mass changes come last. It returns
// -1 for none.
func (r *checkReport) binding() int {
	best, least := -1, math.Inf(1)
	for i, v := range r.verdicts {
		if r.missed > 0 && v.Pass {
			continue
		}
		m := r.rooms[i].Mass
		switch {
		case math.IsNaN(m) && !v.Pass && v.Err == nil:
			m = 0 // not worked out: any other that is missed says more
		case math.IsNaN(m) || r.rooms[i].Never:
			// Missed whatever the mass is worse than any; held is better.
			m = math.MaxFloat64
			if !v.Pass {
				m = -m
			}
		}
		if m < least {
			best, least = i, m
		}
	}
	return best
}

// standing says in words how requirement i stands.
func (r *checkReport) standing(i int, style unit.Style) string {
	v, room := r.verdicts[i], r.rooms[i]
	words := []string{fmt.Sprintf("%s, %s", v.Title(), bounds(v.Requirement))}
	if v.Err != nil {
		return words[0] + ": " + v.Err.Error()
	}
	words[0] += ": it is " + show(v.BoundKind(), v.Value)
	mass := func(m float64) string { return style.Format(unit.Mass, math.Abs(m)) }
	switch {
	case math.IsNaN(room.Mass):
	case room.Never && v.Pass:
		words = append(words, "and holds until it sinks")
	case room.Never:
		words = append(words, "and no lighter craft meets it")
	case room.Over != nil:
		words = append(words, fmt.Sprintf("and with %s more at the CG it %s", mass(room.Mass), goesOver(room.Over)))
	case v.Pass:
		words = append(words, fmt.Sprintf("and is missed with %s more at the CG", mass(room.Mass)))
	default:
		words = append(words, fmt.Sprintf("and %s must come off", mass(room.Mass)))
	}
	return strings.Join(words, ", ")
}

// reviewRequirements is the table of requirements.
func reviewRequirements(r *reviewed) ([]page.Block, error) {
	if r.check == nil {
		return nil, nil
	}
	t := page.Table{Columns: []page.Column{
		{}, {Title: "Requirement"}, {Title: "Value", Number: true}, {Title: "Bound"}, {Title: "Margin", Number: true}, {Title: "Mass to miss", Number: true},
	}}
	for i, v := range r.check.verdicts {
		mark, look := "pass", page.Good
		if !v.Pass {
			mark, look = "MISS", page.Bad
		}
		value, margin := "none", ""
		if v.Err == nil {
			value, margin = show(v.BoundKind(), v.Value), signed(v.BoundKind(), v.Margin)
		}
		t.Rows = append(t.Rows, page.Row{Look: look, Cells: []string{
			mark, requirementTitle(v.Requirement), value, bounds(v.Requirement), margin, roomText(v, r.check.rooms[i], r.style),
		}})
	}
	blocks := []page.Block{t, page.Text("Mass to miss is what can be added at the CG before the requirement is missed, sinking and trimming freely; where it is missed already, what must come off.")}
	if over := roomsOver(r.check.rooms, r.style); over != "" {
		blocks = append(blocks, page.Text(sentence(over)+"."))
	}
	for _, rule := range rulesOf(r.check.verdicts) {
		blocks = append(blocks, page.Text(ruleText(rule)))
	}
	var reasons page.List
	for _, v := range r.check.verdicts {
		if v.Err != nil {
			reasons = append(reasons, fmt.Sprintf("%s has no value: %s", v.Title(), v.Err))
		}
	}
	if len(reasons) > 0 {
		blocks = append(blocks, reasons)
	}
	return blocks, nil
}
