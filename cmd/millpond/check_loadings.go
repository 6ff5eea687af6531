package main

import (
	"fmt"
	"io"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// checkLoadings is what `check` has to say about several loadings.
type checkLoadings []*checkReport

// no reports whether the answer is no in any of them.
func (all checkLoadings) no() bool {
	for _, r := range all {
		if r.no() {
			return true
		}
	}
	return false
}

func (all checkLoadings) text(w io.Writer) {
	t := all[0].trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s in %s%s\n\n", t.Craft.Name, t.Craft.Water.Name, marginNote(t))
	var tab table
	head := []string{"requirement", "bound"}
	for _, r := range all {
		head = append(head, loadingName(r.trial.Craft))
	}
	tab.row(head...)
	row := []string{"mass", ""}
	for _, r := range all {
		row = append(row, style.Format(unit.Mass, r.trial.Body.Mass))
	}
	tab.row(row...)
	for i, v := range all[0].verdicts {
		row := []string{requirementTitle(v.Requirement), bounds(v.Requirement)}
		for _, r := range all {
			row = append(row, verdictCell(r.verdicts[i]))
		}
		tab.row(row...)
	}
	tab.print(w, "")
	all.roomTable(style).print(w, "Mass to miss")
	for _, r := range all {
		if over := roomsOver(r.rooms, style); over != "" {
			fmt.Fprintf(w, "%s: %s\n", loadingName(r.trial.Craft), over)
		}
		fmt.Fprintf(w, "%s: %s\n", loadingName(r.trial.Craft), r.verdict())
	}
	printRules(w, rulesOf(all[0].verdicts))
}

// roomTable lists the mass to miss of every requirement, by loading.
func (all checkLoadings) roomTable(style unit.Style) *table {
	var tab table
	head := []string{"requirement"}
	for _, r := range all {
		head = append(head, loadingName(r.trial.Craft))
	}
	tab.row(head...)
	for i, v := range all[0].verdicts {
		row := []string{requirementTitle(v.Requirement)}
		for _, r := range all {
			row = append(row, roomText(r.verdicts[i], r.rooms[i], style))
		}
		tab.row(row...)
	}
	return &tab
}

func (all checkLoadings) json() object {
	list := []object{}
	for _, r := range all {
		list = append(list, r.json())
	}
	return object{{"name", all[0].trial.Craft.Name}, {"pass", !all.no()}, {"loadings", list}}
}

// verdictCell is a verdict in one cell.
func verdictCell(v design.Verdict) string {
	text := "none"
	if v.Err == nil {
		text = show(v.BoundKind(), v.Value)
	}
	if !v.Pass {
		text += " MISS"
	}
	return text
}
