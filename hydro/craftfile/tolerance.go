package craftfile

import (
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// tolerances reads the tables [[tolerance]]: how variables may come out. What
// needs the meshes is done once they are there.
func (r *reader) tolerances(top *table) {
	lines := map[string]int{}
	for _, t := range top.each("tolerance") {
		v, ok := t.variable("tolerance")
		at := t.pointer("at", unit.Length, anything)
		if !ok {
			t.known = append(t.known, "within", "from", "to")
			continue
		}
		tol := design.Tolerance{Varied: v}
		var within, from, to bool
		tol.Within, within = t.quantity("within", v.Kind, overZero)
		tol.From, from = t.quantity("from", v.Kind, anything)
		tol.To, to = t.quantity("to", v.Kind, anything)
		switch {
		case t.has("within") && (t.has("from") || t.has("to")):
			t.fail(t.place("within"), "%s has within, two standard deviations about today's value, and a range besides; keep one of the two", t.what)
			continue
		case !t.has("within") && (!t.has("from") || !t.has("to")):
			t.miss(`%s needs within, two standard deviations about today's value, or from and to, a range of which every value is equally likely`, t.what)
			continue
		case !within && !(from && to):
			continue
		}
		here := t.node.at
		if first, twice := lines[v.Text()]; twice {
			t.fail(here, "%s has its tolerance at line %d already", v.Text(), first)
			continue
		}
		lines[v.Text()] = r.line(here.from)
		r.later(func(c *craft.Craft) {
			if !r.place(t, c, &tol.Varied, at, nil) {
				return
			}
			if err := tol.Check(); err != nil {
				t.fail(here, "%s", err)
				return
			}
			r.file.Tolerances = append(r.file.Tolerances, tol)
		})
	}
}
