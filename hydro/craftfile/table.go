package craftfile

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"millpond/hydro/design"
)

// table is one table of a craft file being read. Each of its methods that takes
// a key makes that key known, whether it is there or not; so all keys that a
// table may have must be asked for whatever else is wrong.
type table struct {
	*reader
	node  *node
	what  string // in messages: "part "float"", "[mass]"; empty for the file
	known []string
}

// open returns the table that a node of the tree is.
func (r *reader) open(n *node, what string) *table {
	t := &table{reader: r, node: n, what: what}
	r.tables = append(r.tables, t)
	return t
}

// get returns the entry of a key, nil when it is not there.
func (t *table) get(key string) *entry {
	if !slices.Contains(t.known, key) {
		t.known = append(t.known, key)
	}
	return t.node.find(key)
}

// has reports whether a key is there.
func (t *table) has(key string) bool { return t.get(key) != nil }

// place returns where a key stands, or the table's heading.
func (t *table) place(key string) span {
	if e := t.get(key); e != nil {
		return e.at
	}
	return t.node.at
}

// of names a key of the table in a message.
func (t *table) of(key string) string {
	if t.what == "" {
		return key
	}
	return key + " of " + t.what
}

// fail records an error at a place.
func (t *table) fail(at span, format string, args ...any) {
	t.faults = append(t.faults, fault{Error: t.fault(at, fmt.Sprintf(format, args...), nil), at: at})
}

// miss records that something is not there. It is left out when the table has
// an unknown key, which is then most likely what was meant.
func (t *table) miss(format string, args ...any) {
	message := fmt.Sprintf(format, args...)
	t.faults = append(t.faults, fault{Error: t.fault(t.node.at, message, nil), at: t.node.at, missing: t})
}

// unknown returns the entries that nobody asked for.
func (t *table) unknown() []*entry {
	var out []*entry
	for _, e := range t.node.keys {
		if !slices.Contains(t.known, e.name) {
			out = append(out, e)
		}
	}
	return out
}

// refuseUnknown records an error for each entry that nobody asked for.
func (t *table) refuseUnknown() {
	for _, e := range t.unknown() {
		in := ""
		if t.what != "" {
			in = " in " + t.what
		}
		t.fail(e.at, "unknown key %q%s; %s", e.name, in, design.Offer(e.name, t.known))
	}
}

// is reports whether a value is of a kind, and records an error when it is not.
func (t *table) is(n *node, k kind, label, example string) bool {
	if n.kind != k {
		t.fail(n.at, "%s must be %s, such as %s, and not %s", label, k, example, n.kind)
	}
	return n.kind == k
}

// text returns a text, and false when there is none that can be used.
func (t *table) text(key, example string) (string, bool) {
	e := t.get(key)
	if e == nil || !t.is(e.value, aText, t.of(key), key+` = "`+example+`"`) {
		return "", false
	}
	s := strings.Join(strings.Fields(e.value.text), " ")
	switch {
	case s == "":
		t.fail(e.value.at, "%s is empty; write something like %s = %q", t.of(key), key, example)
		return "", false
	case !printable(e.value.text):
		t.fail(e.value.at, "%s has characters that do not print; a backslash is written twice, or the text put in single quotes", t.of(key))
		return "", false
	}
	return s, true
}

// printable reports whether a text can be shown in a terminal.
func printable(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }) < 0
}

// choice returns which of the words a text is, -1 when the key is not there or
// is none of them.
func (t *table) choice(key string, words ...string) int {
	s, ok := t.text(key, words[0])
	if !ok {
		return -1
	}
	i := slices.Index(words, s)
	if i < 0 {
		t.fail(t.get(key).value.at, "%s cannot be %q; %s", t.of(key), s, offerOf(s, words))
	}
	return i
}

// offerOf offers the nearest words and lists all of a short list.
func offerOf(word string, words []string) string {
	list := `one of "` + strings.Join(words, `", "`) + `" is wanted`
	if offer := design.Offer(word, words); strings.HasPrefix(offer, "did") {
		return list + ": " + offer
	}
	return list
}

// flag returns whether a key is there and true.
func (t *table) flag(key string) bool {
	e := t.get(key)
	return e != nil && t.is(e.value, aFlag, t.of(key), key+" = true") && e.value.text == "true"
}

// name returns the table's name, which must be there and differ from all others
// of the same set, whatever the case, and makes the table go by it.
func (t *table) name(set string) string {
	kind := t.what
	e := t.get("name")
	if e == nil {
		t.miss("%s has no name; write name = \"...\"", kind)
		return ""
	}
	name, ok := t.text("name", "float")
	if !ok {
		return ""
	}
	noun, _, _ := strings.Cut(kind, " ")
	t.what = noun + ` "` + name + `"`
	key := set + " " + strings.ToLower(name)
	if first, taken := t.names[key]; taken {
		t.fail(e.value.at, "the name %q is taken by the %s at line %d; names must differ, and case does not count", name, first.noun, t.line(first.at))
		return name
	}
	t.names[key] = holder{noun, e.value.at.from}
	return name
}

// on returns the index of the part that the table says it moves with, -1 for
// none. Parts are read before anything that can be on them.
func (t *table) on() int {
	name, ok := t.text("on", "float")
	if !ok {
		return -1
	}
	var parts []string
	for i, p := range t.file.Craft.Parts {
		if strings.EqualFold(p.Name, name) {
			return i
		}
		parts = append(parts, p.Name)
	}
	t.fail(t.get("on").value.at, "%s: no part is called %q; %s", t.of("on"), name, design.Offer(name, parts))
	return -1
}

// single opens the table under a key, nil when there is none.
func (t *table) single(key string) *table {
	e := t.get(key)
	switch {
	case e == nil:
		return nil
	case e.value.kind == aTable:
		return t.reader.open(e.value, "["+key+"]")
	case e.value.kind == aList:
		t.fail(e.at, "there is one %s only: write [%s] for its heading", key, key)
	default:
		t.fail(e.value.at, "%s is a table and not %s: write [%s] on a line of its own and its keys below", key, e.value.kind, key)
	}
	return nil
}

// each opens the tables of the list under a key.
func (t *table) each(key string) []*table {
	e := t.get(key)
	if e == nil {
		return nil
	}
	noun := key
	heading := fmt.Sprintf("write [[%s]] for the heading of each", key)
	if t.what != "" {
		noun = t.of(key)
		heading = fmt.Sprintf("write %s = [ { ... }, { ... } ]", key)
	}
	if e.value.kind != aList {
		t.fail(e.at, "%s is a list, even of one: %s", noun, heading)
		return nil
	}
	var all []*table
	for i, n := range e.value.items {
		what := fmt.Sprintf("%s %d", key, i+1)
		if t.what != "" {
			what += " of " + t.what
		}
		if n.kind != aTable {
			t.fail(n.at, "%s is a table and not %s: %s", what, n.kind, heading)
			continue
		}
		all = append(all, t.reader.open(n, what))
	}
	return all
}
