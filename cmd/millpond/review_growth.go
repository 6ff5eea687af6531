package main

import (
	"millpond/hydro/design"
	"millpond/plots"
	"millpond/plots/page"
)

// usualGrowth is what a review looks at: up to 30 % more mass, and a CG up to
// 10 mm off.
var usualGrowth = growth{share: 0.3, shift: 0.010}

// reviewGrowth is what mass growth and a CG shift do.
func reviewGrowth(r *reviewed) ([]page.Block, error) {
	if r.rest == nil || !r.upright() {
		return nil, nil
	}
	o := usualGrowth
	o.show = design.Telling(r.trial)
	g := newGrowReport(r.file, r.trial, o)
	columns := g.columns()
	plots.ShareRanges(columns)
	var figures page.Figures
	var blocks []page.Block
	for i := range columns {
		c := &columns[i]
		f, err := page.Draw(page.Half, c.HeightFor(page.Half), c.Draw, g.causes[i].heading)
		if err != nil {
			return nil, err
		}
		figures = append(figures, f)
		for _, line := range g.words(&g.causes[i], r.style) {
			blocks = append(blocks, page.Text(line))
		}
	}
	if len(r.file.Tolerances) > 0 {
		blocks = append(blocks, page.Text("The bands are two standard deviations to either side, by derivatives from the tolerances assumed under \"How sure, and what matters most\"."))
	}
	return append(blocks, figures), nil
}
