package craftfile

import (
	"fmt"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// requirements reads the tables [[require]]. They come last, since they name
// what the other tables define.
func (r *reader) requirements(top *table) {
	for _, t := range top.each("require") {
		if t.has("rule") {
			for _, q := range t.rule() {
				r.file.Requirements = append(r.file.Requirements, Requirement{q, r.line(t.node.at.from)})
			}
			continue
		}
		if q, ok := t.requirement(); ok {
			r.file.Requirements = append(r.file.Requirements, Requirement{q, r.line(t.node.at.from)})
		}
	}
}

// requirement reads one requirement, and returns false when it cannot be used.
func (t *table) requirement() (design.Requirement, bool) {
	var q design.Requirement
	what, named := t.text("what", "clearance of propeller")
	least, most := t.get("at_least"), t.get("at_most")
	if !t.has("what") {
		t.miss(`%s has no what; write the name of a result, such as what = "trim"`, t.what)
	}
	if !named {
		return q, false
	}
	var err error
	if q.Asked, err = design.Find(t.file.Craft, what); err != nil {
		t.fail(t.get("what").value.at, "what of %s: %s", t.what, err)
		return q, false
	}
	t.what = fmt.Sprintf("the requirement on %q", q.Text())
	ok := true
	var percents []bool
	bound := func(e *entry, to **float64) {
		if e == nil {
			return
		}
		v, percent, fine := t.bound(q.Asked, e)
		ok = ok && fine
		*to, q.Percent = &v, percent
		percents = append(percents, percent)
	}
	bound(least, &q.AtLeast)
	bound(most, &q.AtMost)
	switch {
	case !ok:
		return q, false
	case len(percents) == 2 && percents[0] != percents[1]:
		t.fail(most.value.at, "%s has one bound in percent and one in %s; write both alike", t.what, q.Kind.Inside().Name)
		return q, false
	}
	if err := q.Check(); err != nil {
		if least == nil && most == nil {
			t.miss("%s: %s", t.what, err)
		} else {
			t.fail(t.node.at, "%s: %s", t.what, err)
		}
		return q, false
	}
	return q, true
}

// bound reads one bound of a requirement.
func (t *table) bound(a design.Asked, e *entry) (v float64, percent, ok bool) {
	label := t.of(e.name)
	example := `"` + unit.Format(a.Kind, 0) + `"`
	if s, known := examples[a.Kind]; known {
		example = `"` + s + `"`
	}
	text, ok := t.written(e.value, label, example)
	if !ok {
		return 0, false, false
	}
	v, percent, err := a.Bound(text, t.bareUnit(a.Kind, text))
	if err != nil {
		t.fail(e.value.at, "%s: %s", label, t.orDefault(err, a.Kind))
		return 0, false, false
	}
	k := a.Kind
	if percent {
		k = unit.Share
	}
	return v, percent, t.fits(e.value, label, text, v, k, anything)
}
