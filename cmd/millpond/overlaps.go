package main

import (
	"fmt"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// overlapping returns the pairs of parts that share volume. That they can be
// worked out is known once a craft is read.
func overlapping(c *craft.Craft) []craft.Overlap {
	pairs, err := c.Overlapping()
	if err != nil {
		return nil
	}
	return pairs
}

// overlapNames names both of a pair.
func overlapNames(c *craft.Craft, p craft.Overlap) (a, b string) {
	if a, b = c.Parts[p.A].Name, c.Parts[p.B].Name; p.A == p.B {
		b = "its mirror image"
	}
	return a, b
}

// overlaps lists what parts share.
func overlaps(c *craft.Craft) *table {
	var tab table
	for _, p := range overlapping(c) {
		a, b := overlapNames(c, p)
		tab.row(fmt.Sprintf("%s and %s", a, b), unit.Format(unit.Volume, p.Volume), unit.Format(unit.Share, p.Share)+" of the smaller")
	}
	return &tab
}

func overlapsJSON(c *craft.Craft) []object {
	out := []object{}
	for _, p := range overlapping(c) {
		var o object
		a, b := overlapNames(c, p)
		o.add("parts", [2]string{a, b})
		o.number("overlap", unit.Volume, p.Volume)
		o.number("overlap_of_smaller", unit.Share, p.Share)
		out = append(out, o)
	}
	return out
}
