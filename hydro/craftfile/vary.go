package craftfile

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// Change is one variable of a craft set to a value, as [[change]] says.
type Change struct {
	design.Varied
	To   float64
	Line int
}

// Words says the change as a sweep would: "plug height of float = 22 mm".
func (c Change) Words() string {
	s := c.Text() + " = " + c.Written(c.To)
	if where := c.Where(); where != "" {
		s += " (" + where + ")"
	}
	return s
}

// limits reads the tables [[vary]]: what values a variable is held to. What
// needs the meshes is done once they are there.
func (r *reader) limits(top *table) {
	lines := map[string]int{}
	for _, t := range top.each("vary") {
		v, ok := t.variable("range")
		at := t.pointer("at", unit.Length, anything)
		anchor := t.vectorPointer("anchor")
		s := design.Span{Varied: v}
		if !ok {
			t.known = append(t.known, "from", "to", "step", "only")
			continue
		}
		var from, to bool
		s.From, from = t.quantity("from", v.Kind, anything)
		s.To, to = t.quantity("to", v.Kind, anything)
		s.Step, _ = t.quantity("step", v.Kind, overZero)
		s.Only = t.only(v)
		switch {
		case len(s.Only) > 0 && (t.has("from") || t.has("to") || t.has("step")):
			t.fail(t.place("only"), "%s has only, which lists all its values, and from, to or step besides", t.what)
		case len(s.Only) > 0:
			s.From, s.To = s.Only[0], s.Only[len(s.Only)-1]
		case !t.has("only") && (!t.has("from") || !t.has("to")):
			t.miss("%s needs from and to, or only = [ ... ] with all its values", t.what)
		case !from || !to:
			continue
		}
		at0 := t.node.at
		if first, twice := lines[v.Text()]; twice {
			t.fail(at0, "%s has its values at line %d already", v.Text(), first)
			continue
		}
		lines[v.Text()] = r.line(at0.from)
		r.later(func(c *craft.Craft) {
			r.place(t, c, &s.Varied, at, anchor)
			if len(r.faults) == 0 {
				if err := s.Check(c); err != nil {
					t.fail(at0, "%s", err)
				}
			}
			r.file.Limits[v.Text()] = s
		})
	}
}

// changes reads the tables [[change]]: variables set to values.
func (r *reader) changes(top *table) {
	lines := map[string]int{}
	for _, t := range top.each("change") {
		v, ok := t.variable("change")
		at := t.pointer("at", unit.Length, anything)
		anchor := t.vectorPointer("anchor")
		if !ok {
			t.known = append(t.known, "to")
			continue
		}
		to, fine := t.quantity("to", v.Kind, anything)
		if !t.has("to") {
			t.miss("%s has no to; write the value to set it to", t.what)
		}
		at0 := t.node.at
		if first, twice := lines[v.Text()]; twice {
			t.fail(at0, "%s is changed at line %d already; a change is to a value, not by an amount", v.Text(), first)
			continue
		}
		lines[v.Text()] = r.line(at0.from)
		if !fine {
			continue
		}
		r.later(func(c *craft.Craft) {
			if !r.place(t, c, &v, at, anchor) {
				return
			}
			if err := v.Set(c, to); err != nil {
				t.fail(at0, "%s", err)
				return
			}
			r.file.Changes = append(r.file.Changes, Change{v, to, r.line(at0.from)})
		})
	}
}

// later leaves something to be done when the parts have their solids.
func (r *reader) later(do func(c *craft.Craft)) { r.withSolids = append(r.withSolids, do) }

// variable reads what a table varies, and makes the table go by it and a noun.
func (t *table) variable(noun string) (design.Varied, bool) {
	const example = "plug height of float"
	what, ok := t.text("what", example)
	if !t.has("what") {
		t.miss(`%s has no what; write the name of what varies, such as what = %q`, t.what, example)
	}
	if !ok {
		return design.Varied{}, false
	}
	v, err := design.FindVariable(t.file.Craft, what)
	if err != nil {
		t.fail(t.get("what").value.at, "what of %s: %s", t.what, err)
		return v, false
	}
	t.what = fmt.Sprintf("the %s of %q", noun, v.Text())
	return v, true
}

// place binds a variable to where it acts: the plane of a plug, the anchor of
// a scale.
func (r *reader) place(t *table, c *craft.Craft, v *design.Varied, at *float64, anchor *r3.Vec) bool {
	bound, err := design.Vary(c, v.Text(), at)
	if err == nil && anchor != nil {
		err = bound.Anchor(c, *anchor)
	}
	if err != nil {
		t.fail(t.node.at, "%s", err)
		return false
	}
	*v = bound
	return true
}

// only reads a list of values.
func (t *table) only(v design.Varied) []float64 {
	e := t.get("only")
	if e == nil || !t.is(e.value, aList, t.of("only"), `only = ["10 mm", "20 mm"]`) {
		return nil
	}
	var out []float64
	for _, n := range e.value.items {
		if x, ok := t.number(n, t.of("only"), v.Kind, anything); ok {
			out = append(out, x)
		}
	}
	if len(e.value.items) == 0 {
		t.fail(e.at, "%s is an empty list", t.of("only"))
	}
	slices.Sort(out)
	return slices.Compact(out)
}
