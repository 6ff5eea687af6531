package main

import (
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"millpond/plots/page"
)

// wholeFigure draws a figure of curves over the whole width of the page.
func wholeFigure(fig func(draw.Canvas), caption string) (page.Figures, error) {
	drawn, err := page.Draw(page.Whole, 13.5*vg.Centimeter, fig, caption)
	return page.Figures{drawn}, err
}

// reviewThrottle is what opening the throttle does.
func reviewThrottle(r *reviewed) ([]page.Block, error) {
	if len(r.file.Craft.Thrusts) == 0 || !r.upright() {
		return nil, nil
	}
	th := &throttleReport{trial: r.trial}
	if err := th.solve(); err != nil {
		return []page.Block{page.Text("There is no answer: " + err.Error())}, nil
	}
	var blocks []page.Block
	for _, line := range th.verdict(r.style) {
		blocks = append(blocks, page.Text(line))
	}
	fig := th.figure()
	fig.Title = ""
	figures, err := wholeFigure(fig.Draw, "Angles and heights above the water over thrust.")
	if err != nil {
		return nil, err
	}
	blocks = append(blocks, figures, headedTable("As the throttle opens: "+th.assumption(r.style), th.attitudes(r.style)))
	if t := headedTable("Height above the water", th.clearances(r.style)); len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	return append(blocks, page.Text(assumedText(th.assumed())), page.Text("Left out: "+strings.Join(throttleLeftOut, "; ")+".")), nil
}
