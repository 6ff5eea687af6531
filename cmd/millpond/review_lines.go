package main

import (
	"millpond/plots/page"
)

// reviewLines is the geometry of the floats, with what common practice makes of
// it beside: an advisory, never a verdict.
func reviewLines(r *reviewed) ([]page.Block, error) {
	var blocks []page.Block
	sheets := r.file.Craft.FloatSheets()
	for i := range sheets {
		s := &sheets[i]
		blocks = append(blocks, pageTable("Lines of "+s.Part+", "+linesNote, floatLines(s), "", "", ""))
		if t := headedTable("Rules of thumb for "+s.Part+" "+adviceNote, floatAdvice(r.file.Craft, s)); len(t.Rows) > 0 {
			blocks = append(blocks, t)
		}
	}
	return blocks, nil
}
