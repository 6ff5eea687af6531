package main

import (
	"fmt"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
	"millpond/plots/page"
)

// sentence begins words with a capital letter.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	return strings.ToUpper(words[:1]) + words[1:]
}

// reviewMass is the mass build-up.
func reviewMass(r *reviewed) ([]page.Block, error) {
	c := r.file.Craft
	length := unit.Style{}
	num := func(v float64) string { return length.Display(unit.Length, v).Number(v) }
	gram := unit.Display{Unit: mustMass("g")}
	t := page.Table{Columns: []page.Column{
		{Title: "Part or item"}, {Title: "Made of"}, {Title: "Mass", Number: true}, {Title: "Share", Number: true},
		{Title: "x mm", Number: true}, {Title: "y mm", Number: true}, {Title: "z mm", Number: true},
	}}
	built, loaded := c.Built(), c.Loaded()
	line := func(name, what string, m craft.Mass, look page.Look) {
		share := ""
		if loaded.Mass > 0 {
			share = unit.Format(unit.Share, m.Mass/loaded.Mass)
		}
		t.Rows = append(t.Rows, page.Row{Look: look, Cells: []string{name, what, gram.Format(m.Mass), share, num(m.At.X), num(m.At.Y), num(m.At.Z)}})
	}
	for _, e := range c.Buildup() {
		line(e.Of, e.What, e.Mass, page.Plain)
	}
	name := "as built up"
	if c.Stated != nil {
		name = "as stated"
	}
	line(name, "", built, page.Sum)
	if c.Growth.Share != 0 {
		at := built.At
		if c.Growth.At != nil {
			at = *c.Growth.At
		}
		line("growth margin", unit.Format(unit.Share, c.Growth.Share), craft.Mass{Mass: loaded.Mass - built.Mass, At: at}, page.Plain)
	}
	line("all up", "", loaded, page.Sum)
	return []page.Block{t, page.Text("A mirrored part counts both sides. Shares are of the mass all up.")}, nil
}

// reviewMeshes is the health of the meshes: a number that does not agree with
// CAD shows here first.
func reviewMeshes(r *reviewed) ([]page.Block, error) {
	t := page.Table{Columns: []page.Column{
		{Title: "Mesh"}, {Title: "Used for"}, {Title: "Triangles", Number: true}, {Title: "Shells", Number: true},
		{Title: "Volume", Number: true}, {Title: "Area", Number: true}, {Title: "Health"},
	}}
	var notes page.List
	for i := range r.file.Meshes {
		m := &r.file.Meshes[i]
		rep, k := m.Report, meters(m)
		name := r.near(m.Path)
		t.Rows = append(t.Rows, page.Row{Cells: []string{
			name, strings.Join(m.Parts, ", "), fmt.Sprint(rep.Kept), fmt.Sprint(len(rep.Shells)),
			r.style.Format(unit.Volume, k*k*k*rep.Volume), r.style.Format(unit.Area, k*k*rep.Area), health(rep),
		}})
		for _, line := range rep.Mended {
			notes = append(notes, name+", mended: "+line)
		}
		for _, line := range append(append([]string{}, m.Warnings...), rep.Warnings...) {
			notes = append(notes, name+": "+line)
		}
	}
	blocks := []page.Block{t, page.Text("Compare volumes and areas with CAD.")}
	if len(notes) > 0 {
		blocks = append(blocks, notes)
	}
	return blocks, nil
}
