package main

import (
	"fmt"

	"millpond/hydro/design"
	"millpond/plots/page"
)

// How often the review builds the craft, and with which random numbers: as
// `sure` does when it is told nothing, or less often where a requirement takes
// a whole curve each time.
const (
	sureSamples = 1000
	sureCurves  = 200
	sureSeed    = 1
)

// takesCurves reports whether a requirement of the craft takes a whole curve of
// solves.
func (r *reviewed) takesCurves() bool {
	for _, q := range r.file.Requirements {
		if q.Curve {
			return true
		}
	}
	return false
}

// reviewSure is how sure the answers are, and what matters most.
func reviewSure(r *reviewed) ([]page.Block, error) {
	if len(r.file.Tolerances) == 0 || r.restErr != nil {
		return nil, nil
	}
	d := design.Doubt{
		Craft: r.file.Craft, Tolerances: r.file.Tolerances, Show: design.Usual(r.file.Craft),
		Requirements: requirements(r.file), Samples: sureSamples, Seed: sureSeed,
	}
	if r.takesCurves() {
		d.Samples = sureCurves
	}
	got, err := d.Work(r.ctx)
	if err != nil {
		return nil, err
	}
	s := &sureReport{trial: r.trial, file: r.file, sure: got, seed: sureSeed}
	blocks := []page.Block{page.Text(fmt.Sprintf("From %d builds with inputs as uncertain as assumed here (seed %d). The answer is as good as the assumptions.", got.Samples, s.seed))}
	for _, lost := range s.lost() {
		blocks = append(blocks, page.Text(sentence(lost)))
	}
	for _, t := range []page.Table{
		headedTable("Requirements", s.chances()),
		pageTable("What matters most (share of the scatter)", s.matters(), "Result", ""),
		headedTable("Where it comes out (± is two standard deviations)", s.bands()),
		headedTable("What may come out otherwise", s.assumed()),
	} {
		if len(t.Rows) > 0 {
			blocks = append(blocks, t)
		}
	}
	return blocks, nil
}
