package craftfile

import (
	"slices"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// reserved are the words that stand for loadings on the command line.
var reserved = []string{"base", "all"}

// loadings reads the tables [[loading]].
func (r *reader) loadings(top *table) {
	for _, t := range top.each("loading") {
		l := craft.Loading{Name: t.name("loading")}
		if slices.Contains(reserved, strings.ToLower(l.Name)) {
			t.fail(t.place("name"), "no loading can be called %q: base is the craft as the file has it, all is every loading; choose another name", l.Name)
		}
		l.Without = t.leftOut()
		l.Change = t.changes(l.Without)
		l.With = t.extra()
		switch {
		case r.file.Craft.Stated != nil:
			t.fail(t.node.at, "%s has nothing to act on: [mass] states the mass outright; give the parts and items their masses instead", t.what)
		case !t.has("without") && !t.has("change") && !t.has("with"):
			t.miss(`%s changes nothing; write without = ["battery"], change = [{ item = "battery", at = [-60, 0, 190] }] or with = [{ name = "ballast", mass = "60 g", at = [300, 0, 40] }]`, t.what)
		}
		r.file.Craft.Loadings = append(r.file.Craft.Loadings, l)
	}
}

// item returns the index of the item of a name that stands at n, and false
// when there is none.
func (t *table) item(n *node, label string) (int, bool) {
	if !t.is(n, aText, label, `"battery"`) {
		return 0, false
	}
	name := strings.Join(strings.Fields(n.text), " ")
	var names []string
	for i, it := range t.file.Craft.Items {
		if strings.EqualFold(it.Name, name) {
			return i, true
		}
		names = append(names, it.Name)
	}
	t.fail(n.at, "%s: no item is called %q; %s", label, name, design.Offer(name, names))
	return 0, false
}

// leftOut reads the items that a loading goes without.
func (t *table) leftOut() []int {
	e := t.get("without")
	if e == nil || !t.is(e.value, aList, t.of("without"), `without = ["battery"]`) {
		return nil
	}
	var out []int
	for _, n := range e.value.items {
		if i, ok := t.item(n, t.of("without")); ok {
			out = append(out, i)
		}
	}
	return out
}

// changes reads the items that go along in another place or with another mass.
func (t *table) changes(leftOut []int) []craft.Change {
	var out []craft.Change
	for _, ct := range t.each("change") {
		var c craft.Change
		e := ct.get("item")
		named := false
		if e == nil {
			ct.miss(`%s has no item; write item = "battery"`, ct.what)
		} else {
			c.Item, named = ct.item(e.value, ct.of("item"))
		}
		c.Mass = ct.pointer("mass", unit.Mass, notNegative)
		c.At = ct.vectorPointer("at")
		if !ct.has("mass") && !ct.has("at") {
			ct.miss("%s has neither at nor mass, so it changes nothing", ct.what)
		}
		if !named {
			continue
		}
		same := func(other craft.Change) bool { return other.Item == c.Item }
		switch {
		case slices.Contains(leftOut, c.Item):
			ct.fail(e.at, "%s changes an item that the loading leaves out", ct.what)
		case slices.ContainsFunc(out, same):
			ct.fail(e.at, "%s changes an item that is changed already; write both in one", ct.what)
		}
		out = append(out, c)
	}
	return out
}

// extra reads the items that only this loading has.
func (t *table) extra() []craft.Item {
	var out []craft.Item
	set := "item of " + t.what // "ballast" may be another thing in each loading
	for _, it := range t.each("with") {
		item := it.oneItem(set)
		if first, taken := t.names["item "+strings.ToLower(item.Name)]; taken && item.Name != "" {
			it.fail(it.place("name"), "the name %q is taken by the item at line %d; to give that one another place or mass write change", item.Name, t.line(first.at))
		}
		out = append(out, item)
	}
	return out
}
