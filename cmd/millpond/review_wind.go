package main

import (
	"fmt"
	"strings"

	"millpond/hydro/design"
	"millpond/plots/page"
)

// reviewWind is what the wind does to it at rest.
func reviewWind(r *reviewed) ([]page.Block, error) {
	if !isCraftFile(r.file.Path) || !r.upright() {
		return nil, nil
	}
	w := &windReport{trial: r.trial}
	flags := windFlags{speed: "5 m/s"}
	if err := flags.read(w); err != nil {
		return nil, err
	}
	if err := w.solve(); err != nil {
		return []page.Block{page.Text("There is no answer: " + err.Error())}, nil
	}
	var blocks []page.Block
	for _, line := range append(w.warnings(), w.verdict(r.style)...) {
		blocks = append(blocks, page.Text(line))
	}
	fig := w.figure()
	fig.Title = ""
	worst := w.worst()
	figures, err := wholeFigure(fig.Draw, fmt.Sprintf("Angles and heights above the water over the speed of a steady wind from %s, the worst direction.", design.Beam(worst.from)))
	if err != nil {
		return nil, err
	}
	return append(blocks, figures,
		headedTable("Wind that puts a place to keep dry or a float under, and that turns it over", w.limits()),
		page.Text(assumedText(w.assumed(r.style))),
		page.Text("Left out: "+strings.Join(windLeftOut, "; ")+".")), nil
}
