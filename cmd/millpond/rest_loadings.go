package main

import (
	"fmt"
	"io"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// restLoadings is what `rest` has to say about several loadings: what differs,
// side by side.
type restLoadings struct {
	trials []*design.Trial
}

func (r *restLoadings) text(w io.Writer) {
	c, style := r.trials[0].Craft, styleOf(r.trials[0])
	fmt.Fprintf(w, "%s at rest in %s%s\n\n", c.Name, c.Water.Name, marginNote(r.trials[0]))
	tab := newSideBySide(r.trials)
	tab.results(style, "mass")
	tab.row("CG forward of the origin", func(t *design.Trial) string { return style.Format(unit.Length, t.Body.CG.X) })
	tab.row("CG to port of it", func(t *design.Trial) string { return style.Format(unit.Length, t.Body.CG.Y) })
	tab.row("CG above it", func(t *design.Trial) string { return style.Format(unit.Length, t.Body.CG.Z) })
	tab.results(style, "trim", "heel", "angle of attack", "draft", "draft at *", "reserve buoyancy",
		"whole reserve buoyancy", "mass to first wet", "gm transverse", "gm longitudinal", "clearance of *")
	tab.print(w)
	fmt.Fprintf(w, "for all of one of them: millpond rest CRAFT --loading %q\n", loadingName(r.trials[len(r.trials)-1].Craft))
}

func (r *restLoadings) json() object {
	list := []object{}
	for _, t := range r.trials {
		if _, err := t.Rest(); err != nil {
			list = append(list, object{{"loading", loadingName(t.Craft)}, {"reason", err.Error()}})
			continue
		}
		one := restReport{trial: t}
		list = append(list, one.json())
	}
	return object{{"name", r.trials[0].Craft.Name}, {"loadings", list}}
}
