package main

import (
	"strings"

	"millpond/plots"
)

// cautions are shown in the help and on every review.
const cautions = `These are calm-water statics of the geometry given; waves, wind, spray, leaks and
soaked foam take from the reserve. They are no evidence of airworthiness or
seaworthiness: for anything that carries people, the regulations in force and
licensed practice decide. Propellers cut and lithium batteries burn, in water
too: follow the local model-flying and boating rules.`

// leadCaution stands on the review's first page: the cautions are on its last.
const leadCaution = plots.Caution + " No evidence of airworthiness or seaworthiness: see Cautions, at the end."

// cautionText returns the cautions as one paragraph without line breaks.
func cautionText() string { return strings.ReplaceAll(cautions, "\n", " ") }
