package craftfile

import (
	"errors"
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/mesh"
)

// maxCompartments bounds the work of telling which ones share room, and of
// flooding them two by two.
const maxCompartments = 50

// compartments reads the tables [[compartment]].
func (r *reader) compartments(top *table) {
	c := r.file.Craft
	all := top.each("compartment")
	if len(all) > maxCompartments {
		top.fail(top.place("compartment"), "a craft has %d compartments at most, and not %d", maxCompartments, len(all))
		all = all[:maxCompartments]
	}
	taken := make(map[string]string) // the compartment of each name in use
	for i, t := range all {
		k, ok := t.compartment()
		for _, name := range namesOf(&k, c) {
			name = strings.ToLower(name)
			if other, clash := taken[name]; clash && k.Name != "" && !strings.EqualFold(other, k.Name) {
				t.fail(t.place("name"), "%q is also a side of compartment %q; choose another name", name, other)
			}
			taken[name] = k.Name
		}
		c.Compartments = append(c.Compartments, k)
		if ok {
			r.later(func(c *craft.Craft) { t.divide(c, i) })
		}
	}
}

// namesOf returns what a compartment can be called: its name, and for a
// mirrored part's that of either side.
func namesOf(k *craft.Compartment, c *craft.Craft) []string {
	if k.Part < len(c.Parts) && c.Parts[k.Part].Mirrored {
		return []string{k.Name, "port " + k.Name, "starboard " + k.Name}
	}
	return []string{k.Name}
}

// compartment reads one compartment, all but its solid. It returns false when
// there is none to make.
func (t *table) compartment() (craft.Compartment, bool) {
	k := craft.Compartment{Name: t.name("compartment")}
	part, hasPart := t.text("part", "float")
	if !t.has("part") {
		t.miss(`%s has no part; write part = "float"`, t.what)
	}
	ok := false
	if hasPart {
		k.Part, ok = t.partNamed("part", part)
	}
	from, hasFrom := t.quantity("from", unit.Length, anything)
	to, hasTo := t.quantity("to", unit.Length, anything)
	if hasFrom && hasTo && to <= from {
		t.fail(t.place("to"), "%s runs from aft to forward, so its to must be ahead of its from", t.what)
		ok = false
	}
	if hasFrom {
		k.Walls = append(k.Walls, craft.Bulkhead{At: r3.Vec{X: from}, Toward: r3.Vec{X: 1}})
	}
	if hasTo {
		k.Walls = append(k.Walls, craft.Bulkhead{At: r3.Vec{X: to}, Toward: r3.Vec{X: -1}})
	}
	for _, w := range t.each("wall") {
		at, hasAt := w.spot("at")
		toward, hasToward := w.toward("toward")
		if ok = ok && hasAt && hasToward; ok {
			k.Walls = append(k.Walls, craft.Bulkhead{At: at, Toward: toward})
		}
	}
	var fine bool
	k.Permeability, fine = t.fraction("permeability")
	if !t.has("permeability") {
		t.miss(`%s has no permeability, the share of it that water can fill; write permeability = 0.95 for an empty one, 0.05 for one full of foam`, t.what)
	}
	return k, ok && fine
}

// partNamed returns the index of the part that the table names.
func (t *table) partNamed(key, name string) (int, bool) {
	var parts []string
	for i, p := range t.file.Craft.Parts {
		if strings.EqualFold(p.Name, name) {
			if p.Role == craft.NonBuoyant {
				t.fail(t.place(key), "%s: part %q does not displace, so that flooding it changes nothing", t.of(key), p.Name)
				return 0, false
			}
			return i, true
		}
		parts = append(parts, p.Name)
	}
	t.fail(t.get(key).value.at, "%s: no part is called %q; %s", t.of(key), name, design.Offer(name, parts))
	return 0, false
}

// fraction reads a share between nothing and all, as 0.95 or "95 %".
func (t *table) fraction(key string) (float64, bool) {
	e := t.get(key)
	if e == nil {
		return 0, false
	}
	text, ok := t.written(e.value, t.of(key), `"95 %" or 0.95`)
	if !ok {
		return 0, false
	}
	v, err := unit.Parse(unit.None, text)
	if err != nil {
		if v, err = unit.Parse(unit.Share, text); err != nil {
			t.fail(e.value.at, "%s: %s", t.of(key), err)
			return 0, false
		}
	}
	if !(v >= 0 && v <= 1) {
		t.fail(e.value.at, "%s is %q, it lies between 0 and 1 (0 %% and 100 %%)", t.of(key), text)
		return 0, false
	}
	return v, true
}

// toward reads a direction: the name of an axis, or three plain numbers.
func (t *table) toward(key string) (r3.Vec, bool) {
	e := t.get(key)
	const example = `"+x" or [1, 0, 0.2]`
	switch {
	case e == nil:
		t.miss("%s has no %s, the side of it on which the compartment lies; write %s = %s", t.what, key, key, example)
	case e.value.kind == aText:
		v, err := axis(e.value.text)
		if err == nil {
			return v, true
		}
		t.fail(e.value.at, "%s: %s", t.of(key), err)
	case e.value.kind != aList || len(e.value.items) != 3:
		t.fail(e.value.at, "%s is a direction, such as %s", t.of(key), example)
	default:
		var v [3]float64
		for i, n := range e.value.items {
			var err error
			if v[i], err = unit.Parse(unit.None, n.text); n.kind != aNumber || err != nil || v[i] != v[i] {
				t.fail(n.at, "%s is a direction: three plain numbers, such as %s", t.of(key), example)
				return r3.Vec{}, false
			}
		}
		dir := r3.Vec{X: v[0], Y: v[1], Z: v[2]}
		if size := r3.Norm(dir); size > 1e-6 && size < 1e6 {
			return dir, true
		}
		t.fail(e.at, "%s leads nowhere; write a direction such as %s", t.of(key), example)
	}
	return r3.Vec{}, false
}

// feeds reads the compartment that a point lets water into.
func (t *table) feeds() string {
	name, ok := t.text("feeds", "stern")
	if !ok {
		return ""
	}
	var known []string
	c := t.file.Craft
	for i := range c.Compartments {
		if c.Compartments[i].Name == "" {
			continue // which is an error of its own
		}
		known = append(known, namesOf(&c.Compartments[i], c)...)
	}
	for _, k := range known {
		if strings.EqualFold(k, name) {
			return k
		}
	}
	t.fail(t.get("feeds").value.at, "%s: no compartment is called %q; %s", t.of("feeds"), name, design.Offer(name, known))
	return ""
}

// divide makes the solid of compartment i of the craft once its part has its
// own, and looks whether it lies in another one.
func (t *table) divide(c *craft.Craft, i int) {
	k := &c.Compartments[i]
	p := &c.Parts[k.Part]
	if p.Solid == nil {
		return // the part has an error of its own
	}
	var miss *craft.MissError
	switch err := k.Divide(p); {
	case errors.As(err, &miss):
		t.missed(k, p, miss)
		return
	case err != nil:
		t.fail(t.node.at, "%s: %s", t.what, err)
		return
	}
	for j := range i {
		other := &c.Compartments[j]
		if other.Part != k.Part || other.Solid == nil {
			continue
		}
		share, err := k.Shares(other, p)
		if err != nil {
			t.fail(t.node.at, "%s: %s", t.what, err)
		} else if share > 1e-6 {
			t.fail(t.node.at, "%s and compartment %q share %s of the smaller one; move the bulkheads so that each place is in one", t.what, other.Name, unit.Format(unit.Share, share))
		}
	}
}

// missed reports a bulkhead that does not cross its part, in the words of the
// file.
func (t *table) missed(k *craft.Compartment, p *craft.Part, miss *craft.MissError) {
	w := k.Walls[miss.Wall]
	along := func(distance float64) string { return unit.Format(unit.Length, distance) }
	for _, key := range []string{"from", "to"} {
		at, there := t.quantity(key, unit.Length, anything)
		if !there || w.At != (r3.Vec{X: at}) {
			continue
		}
		whole := mesh.Placed{Solid: p.Solid, Place: p.Drawn}.Box()
		lo, hi := whole.Min.X, whole.Max.X
		t.fail(t.place(key), "%s: the bulkhead at %s misses part %q, which runs from %s to %s along its own x; leave %s out for its end", t.of(key), along(at), p.Name, along(lo), along(hi), key)
		return
	}
	how := fmt.Sprintf("all of which lies on the compartment's side of it, %s away", along(miss.Lo))
	if miss.Lo < 0 {
		how = fmt.Sprintf("none of which lies on the compartment's side of it: it ends %s short", along(-miss.Hi))
	}
	t.fail(t.place("wall"), "wall of %s: the bulkhead misses part %q, or what the other bulkheads leave of it, %s", t.what, p.Name, how)
}
