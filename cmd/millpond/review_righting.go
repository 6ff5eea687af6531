package main

import (
	"millpond/plots/page"
)

// reviewRighting is the righting curve in heel.
func reviewRighting(r *reviewed) ([]page.Block, error) {
	if r.rest == nil || !r.upright() {
		return nil, nil
	}
	flags := rightFlags{axis: "heel", from: "-180deg", to: "180deg"}
	options, rows, areas, err := flags.read()
	if err != nil {
		return nil, err
	}
	right := rightReport{trial: r.trial, upright: true, rows: rows}
	if err := right.solve(r.rest.rest(), options, areas); err != nil {
		return []page.Block{page.Text("There is no curve: " + err.Error())}, nil
	}
	fig := right.figure()
	fig.Title = ""
	figures, err := wholeFigure(fig.Draw, "Righting arm over heel, free to sink and trim.")
	if err != nil {
		return nil, err
	}
	tables := page.Tables{headedTable("What rights it", right.summary(r.style))}
	if wet := headedTable("Heel at which the water reaches watched places", right.under(r.style)); len(wet.Rows) > 0 {
		tables = append(tables, wet)
	}
	return []page.Block{figures, tables}, nil
}
