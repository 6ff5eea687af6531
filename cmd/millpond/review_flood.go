package main

import (
	"errors"
	"fmt"

	"millpond/hydro/design"
	"millpond/plots/page"
)

// reviewFlood is what becomes of it with a compartment full of water.
func reviewFlood(r *reviewed) ([]page.Block, error) {
	if r.restErr != nil || len(r.file.Craft.SpaceNames()) == 0 {
		return nil, nil
	}
	f := &floodReport{trial: r.trial}
	flags := floodFlags{trapped: "50%", soaked: "5%"}
	if err := flags.solve(f); errors.As(err, new(*design.NoSpaceError)) {
		return nil, nil
	} else if err != nil {
		return []page.Block{page.Text("There is no answer: " + err.Error())}, nil
	}
	blocks := []page.Block{page.Text(sentence(f.verdict()) + ".")}
	for i := range f.blocks {
		ends, course := f.tables(i, r.style)
		blocks = append(blocks, headedTable(f.title(i), ends))
		if len(course.rows) > 0 {
			t := pageTable("How the water goes on", course, "Flooded", "", "", "")
			blocks = append(blocks, t)
		}
	}
	return append(blocks, page.Text(fmt.Sprintf("%s.", sentence(floodedReserveNote)))), nil
}
