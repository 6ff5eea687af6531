package mend

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// The largest dimension of a plausible part, in meters: from a tip float of a
// small model to the hull of a homebuilt.
const (
	smallestPart = 0.02
	largestPart  = 12
)

// lengthUnits are the units that a builder may name for a mesh, in meters.
var lengthUnits = []struct {
	name   string
	meters float64
}{{"mm", 0.001}, {"cm", 0.01}, {"m", 1}, {"in", 0.0254}, {"ft", 0.3048}}

// UnitDoubt returns a sentence when the largest dimension of the box, in file
// units of metersPerUnit, is not that of a part of a small seaplane (20 mm to
// 12 m), and says which units would make it one. Otherwise it returns the
// empty string.
func UnitDoubt(box r3.Box, metersPerUnit float64) string {
	size := box.Size()
	units := max(size.X, size.Y, size.Z)
	if meters := units * metersPerUnit; meters >= smallestPart && meters <= largestPart {
		return ""
	}
	var fits []string
	for _, u := range lengthUnits {
		if meters := units * u.meters; meters >= smallestPart && meters <= largestPart {
			fits = append(fits, fmt.Sprintf("in %s it would be %s", u.name, humanLength(meters)))
		}
	}
	s := fmt.Sprintf("its largest dimension is %s, which no part of a small seaplane is", humanLength(units*metersPerUnit))
	if len(fits) == 0 {
		return s + "; no usual unit makes it plausible"
	}
	return s + "; " + strings.Join(fits, ", ")
}

// humanLength prints meters in mm below half a meter, else in m.
func humanLength(meters float64) string {
	if meters < 0.5 {
		return fmt.Sprintf("%.3g mm", 1000*meters)
	}
	return fmt.Sprintf("%.3g m", meters)
}
