package main

import (
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots/page"
)

// reviewRest is how the craft sits: the picture, then the numbers that a review
// asks for first, with what each is measured against.
func reviewRest(r *reviewed) ([]page.Block, error) {
	if r.rest == nil {
		return nil, nil
	}
	rest := r.rest.rest()
	fig := profileAt(r.trial, &rest.State)
	fig.Title = ""
	h := fig.HeightFor(page.Whole)
	drawn, err := page.Draw(page.Whole, min(h, page.Tallest), fig.Draw, "The craft at rest in "+r.file.Craft.Water.Name+", to scale.")
	if err != nil {
		return nil, err
	}
	var tables page.Tables
	for _, t := range []page.Table{
		pageTable("Height above the water (under 5 mm is within the water's own skin)", r.rest.clearances(r.style), "Place", "Height", ""),
		pageTable("Drafts", r.rest.stations(r.style), "Station", "Draft", ""),
		pageTable("Angle to the water, front end up", r.rest.angles(r.style), "Line", "Angle"),
		pageTable("Level is balanced but unstable: it falls to either side. The other rests", r.rest.others(r.style), "Trim", "Heel", "Draft"),
	} {
		if len(t.Rows) > 0 {
			tables = append(tables, t)
		}
	}
	blocks := []page.Block{page.Figures{drawn}, r.restFacts()}
	if len(tables) > 0 {
		blocks = append(blocks, tables)
	}
	return blocks, nil
}

// restFacts are mass, CG and the results of the craft as a whole.
func (r *reviewed) restFacts() page.Facts {
	c := r.file.Craft
	facts := page.Facts{
		{Name: "Mass", Value: r.style.Format(unit.Mass, r.trial.Body.Mass), Remark: r.marginRemark()},
		{Name: "CG", Value: pointText(r.trial.Body.CG, r.style)},
	}
	for _, key := range []string{"trim", "heel", "angle of attack", "draft", "reserve buoyancy", "whole reserve buoyancy", "mass to first wet", "gm transverse", "gm longitudinal", "gm least"} {
		a, err := design.Find(c, key)
		if err != nil {
			panic(err) // a key of our own that is no row
		}
		if v, err := a.Value(r.trial); err == nil {
			facts = append(facts, page.Fact{Name: sentence(a.Title()), Value: r.style.Format(a.Kind, v), Remark: r.rest.remark(key, r.style)})
		}
	}
	return facts
}

// marginRemark says what of the mass is the growth margin.
func (r *reviewed) marginRemark() string {
	c := r.file.Craft
	if c.Growth.Share == 0 {
		return "no growth margin"
	}
	built := c.Built().Mass
	return "of it " + r.style.Format(unit.Mass, c.Loaded().Mass-built) + " growth margin, " + unit.Format(unit.Share, c.Growth.Share) + " of " + r.style.Format(unit.Mass, built)
}

// reviewMoves is what small changes of mass and CG move.
func reviewMoves(r *reviewed) ([]page.Block, error) {
	if r.rest == nil {
		return nil, nil
	}
	return []page.Block{
		page.Text("First-order changes at rest. They add up, and scale with small amounts."),
		headedTable("", r.rest.moves(r.style)),
	}, nil
}

// reviewBuoyant says which parts count as buoyant, and what each carries.
func reviewBuoyant(r *reviewed) ([]page.Block, error) {
	c := r.file.Craft
	t := page.Table{Columns: []page.Column{
		{Title: "Part"}, {Title: "Counts as"}, {Title: "Volume", Number: true}, {Title: "Under water", Number: true}, {Title: "Reserve"},
	}}
	for i := range c.Parts {
		p := &c.Parts[i]
		cells := []string{partTitle(p), p.Role.String(), r.style.Format(unit.Volume, p.Volume()), "", ""}
		switch {
		case p.Role == craft.NonBuoyant:
			cells[4] = "carries nothing: water gets in, or it is too thin to count"
		case r.rest != nil:
			v := r.trial.Body.Hull.PartVolume(i, r.rest.rest().Attitude)
			cells[3], cells[4] = r.style.Format(unit.Volume, v), r.rest.partReserve(i, v)
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	return []page.Block{t, page.Text("The reserve buoyancy of the flotation counts flotation alone; that of the whole craft counts every part that displaces.")}, nil
}

// pageTable makes a table of the page of a table of the terminal, which has no
// headings. The first two columns hold a name and a number, the others words.
func pageTable(caption string, tab *table, heads ...string) page.Table {
	t := page.Table{Caption: caption}
	for i, h := range heads {
		number := i == 1
		for _, row := range tab.rows {
			number = number && (i >= len(row) || len(row[i]) < wordy)
		}
		t.Columns = append(t.Columns, page.Column{Title: h, Number: number})
	}
	for _, row := range tab.rows {
		for len(row) < len(heads) {
			row = append(row, "")
		}
		t.Rows = append(t.Rows, page.Row{Cells: row})
	}
	return t
}

// wordy is the length of a cell that is no number with its unit.
const wordy = 24

// headedTable makes a table of the page of a table of the terminal whose first
// row is its headings. From the second column on those with short cells are
// taken for numbers.
func headedTable(caption string, tab *table) page.Table {
	t := page.Table{Caption: caption}
	if len(tab.rows) == 0 {
		return t
	}
	for _, row := range tab.rows[1:] {
		for len(tab.rows[0]) < len(row) { // remarks have no heading
			tab.rows[0] = append(tab.rows[0], "")
		}
	}
	for i, title := range tab.rows[0] {
		number := i > 0
		for _, row := range tab.rows[1:] {
			number = number && (i >= len(row) || len(row[i]) < wordy)
		}
		t.Columns = append(t.Columns, page.Column{Title: title, Number: number})
	}
	for _, row := range tab.rows[1:] {
		t.Rows = append(t.Rows, page.Row{Cells: row})
	}
	return t
}
