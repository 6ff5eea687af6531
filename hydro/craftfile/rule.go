package craftfile

import (
	"millpond/hydro/craft"
	"millpond/hydro/design"
)

// auxiliary reads whether a part holds the craft upright rather than carries it.
func (t *table) auxiliary(role craft.Role) bool {
	yes := t.flag("auxiliary")
	if yes && role == craft.NonBuoyant {
		t.fail(t.place("auxiliary"), "%s is auxiliary, which is for floats that hold the craft upright, and non-buoyant; keep one of the two", t.what)
	}
	return yes
}

// rule reads what a published rule asks for.
func (t *table) rule() []design.Requirement {
	name, ok := t.text("rule", design.Rules[0].Name)
	for _, key := range []string{"what", "at_least", "at_most"} {
		if t.has(key) {
			t.fail(t.place(key), "%s goes by a rule, which says itself what it asks for; take %s out, or write a [[require]] of its own for it", t.what, key)
			ok = false
		}
	}
	if !ok {
		return nil
	}
	r, err := design.FindRule(name)
	if err != nil {
		t.fail(t.get("rule").value.at, "rule of %s: %s", t.what, err)
		return nil
	}
	return r.Requirements(t.file.Craft)
}
