package main

import (
	"fmt"
	"io"
	"slices"

	"millpond/hydro/design"
)

// requirementTitle names what is required, and the rule that asks for it.
func requirementTitle(r design.Requirement) string {
	if r.Rule == nil {
		return r.Title()
	}
	return r.Title() + " (" + r.Rule.Name + ")"
}

// rulesOf returns the rules behind verdicts, each once.
func rulesOf(verdicts []design.Verdict) []*design.Rule {
	var out []*design.Rule
	for _, v := range verdicts {
		if v.Rule != nil && !slices.Contains(out, v.Rule) {
			out = append(out, v.Rule)
		}
	}
	return out
}

// printRules says what each rule says, and what a pass is worth.
func printRules(w io.Writer, rules []*design.Rule) {
	for _, r := range rules {
		fmt.Fprintf(w, "\n%s\n", ruleText(r))
	}
	if len(rules) > 0 {
		fmt.Fprintf(w, "This is %s.\n", design.Caution)
	}
}

// ruleText says what a rule says.
func ruleText(r *design.Rule) string {
	old := ""
	if r.Old != "" {
		old = " (" + r.Old + ")"
	}
	return fmt.Sprintf("%s%s: %s.", r.Name, old, r.Says)
}
