package main

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// side is the lower of the two sides on which a place is, and how high the other
// one is.
type side struct {
	name, other string
	height      float64 // of the other one above the water, m
}

// sideOf returns the lower side of a place that is on two; its name is empty for
// other places and where both are equally high, to the micrometer.
func sideOf(p hydro.Place, a hydro.Attitude) side {
	twin, ok := p.(hydro.Spots)
	if !ok || len(twin) != 2 {
		return side{}
	}
	low, high := twin[0], twin[1]
	if a.HeightOf(low) > a.HeightOf(high) {
		low, high = high, low
	}
	if math.Abs(a.HeightOf(high)-a.HeightOf(low)) < 1e-6 {
		return side{}
	}
	return side{sideName(low), sideName(high), a.HeightOf(high)}
}

// sideName says on which side of the craft a point lies.
func sideName(p r3.Vec) string {
	if p.Y < 0 {
		return "starboard"
	}
	return "port"
}

// commas joins remarks, leaving out empty ones.
func commas(remarks ...string) string {
	var out []string
	for _, r := range remarks {
		if r != "" {
			out = append(out, r)
		}
	}
	return strings.Join(out, ", ")
}
