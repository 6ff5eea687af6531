package main

import (
	"fmt"
	"path/filepath"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/unit"
	"millpond/mesh/meshfile"
	"millpond/plots/page"
)

// reviewInputs says what was read, so that the review can be repeated and a
// wrong unit is seen at once.
func reviewInputs(r *reviewed) ([]page.Block, error) {
	c := r.file.Craft
	size := r.extent()
	facts := page.Facts{
		{Name: "Size of the whole craft", Value: r.style.Format(unit.Length, size.X) + " long", Remark: fmt.Sprintf("%s wide, %s high; are the units right?",
			r.style.Format(unit.Length, size.Y), r.style.Format(unit.Length, size.Z))},
		{Name: "Water", Value: c.Water.Name, Remark: unit.Format(unit.Density, c.Water.Density)},
		{Name: "Version", Value: "millpond " + version()},
	}
	t := page.Table{
		Caption: "Files, with the checksum of each (SHA-256)",
		Columns: []page.Column{{Title: "File"}, {Title: "Unit"}, {Title: "Size as drawn, x by y by z", Number: true}, {Title: "Checksum"}},
	}
	texts := []string{}
	if isCraftFile(r.file.Path) {
		texts = append(texts, r.file.Path)
	}
	if r.file.Base != "" {
		texts = append(texts, r.file.Base)
	}
	for _, path := range texts {
		sum, err := meshfile.SHA256(path)
		if err != nil {
			return nil, err
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{r.near(path), "", "", sum}})
	}
	for i := range r.file.Meshes {
		m := &r.file.Meshes[i]
		k := meters(m)
		size := r3.Scale(k, r3.Sub(m.Report.Box.Max, m.Report.Box.Min))
		d := unit.StyleFor(max(size.X, size.Y, size.Z)).Display(unit.Length, size.X, size.Y, size.Z)
		t.Rows = append(t.Rows, page.Row{Cells: []string{
			r.near(m.Path), m.Unit,
			fmt.Sprintf("%s x %s x %s %s", d.Number(size.X), d.Number(size.Y), d.Number(size.Z), d.Unit.Name),
			m.SHA256,
		}})
	}
	return []page.Block{facts, t}, nil
}

// near returns a path as seen from the craft file, so that the page does not
// tell where the files lay.
func (r *reviewed) near(path string) string {
	rel, err := filepath.Rel(filepath.Dir(r.file.Path), path)
	if err != nil {
		return filepath.Base(path)
	}
	return filepath.ToSlash(rel)
}

// extent returns the length, breadth and height of the craft in its own axes.
func (r *reviewed) extent() r3.Vec {
	var all r3.Box
	first := true
	for i := range r.file.Craft.Parts {
		for _, p := range r.file.Craft.Parts[i].Placed() {
			b := p.Box()
			if first {
				all, first = b, false
			} else {
				all = all.Union(b)
			}
		}
	}
	return all.Size()
}
