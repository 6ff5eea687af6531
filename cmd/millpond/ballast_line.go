package main

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// stretch is a line along x on which ballast may lie, in craft axes.
type stretch struct {
	lo, hi float64
	at     r3.Vec // y and z of the line
}

// line reads --within: a part, a stretch along x, or both. Without it the line
// runs through the flotation from end to end. Of a mirrored part it is the
// middle between the two: half of the ballast goes to either side.
func (b *ballastFlags) line(t *design.Trial) (stretch, error) {
	c := t.Craft
	part, span, both := strings.Cut(b.within, "/")
	if !both && strings.Contains(part, "..") {
		part, span = "", part
	}
	var s stretch
	if part != "" {
		i := -1
		var names []string
		for k := range c.Parts {
			names = append(names, c.Parts[k].Name)
			if strings.EqualFold(c.Parts[k].Name, strings.TrimSpace(part)) {
				i = k
			}
		}
		if i < 0 {
			return s, fmt.Errorf("--within: no part is called %q; %s", part, design.Offer(part, names))
		}
		s = through(c, func(k int) bool { return k == i })
	} else {
		s = through(c, func(k int) bool { return c.Parts[k].Role == craft.Flotation })
	}
	if span == "" {
		return s, nil
	}
	from, to, ok := strings.Cut(span, "..")
	if !ok {
		return s, fmt.Errorf("--within: %q is no stretch along x; write it as -100mm..60mm", span)
	}
	lo, err := unit.Parse(unit.Length, strings.TrimSpace(from))
	if err != nil {
		return s, fmt.Errorf("--within: %w", err)
	}
	hi, err := unit.Parse(unit.Length, strings.TrimSpace(to))
	if err != nil {
		return s, fmt.Errorf("--within: %w", err)
	}
	if !(lo < hi) {
		return s, fmt.Errorf("--within: %s is not behind %s; the stretch runs from aft to forward", from, to)
	}
	if part != "" && (lo >= s.hi || hi <= s.lo) {
		return s, fmt.Errorf("--within: %s lies outside %s, which runs from %s to %s", span, part, unit.Format(unit.Length, s.lo), unit.Format(unit.Length, s.hi))
	}
	s.lo, s.hi = lo, hi
	return s, nil
}

// through returns the line through the middle of some parts, of all that
// displace where there are none.
func through(c *craft.Craft, in func(int) bool) stretch {
	s := stretch{lo: math.Inf(1), hi: math.Inf(-1)}
	volume := 0.0
	for i := range c.Parts {
		if !in(i) {
			continue
		}
		for _, p := range c.Parts[i].Placed() {
			box := p.Box()
			s.lo, s.hi = min(s.lo, box.Min.X), max(s.hi, box.Max.X)
			v := p.Volume()
			volume += v
			s.at = r3.Add(s.at, r3.Scale(v, p.Centroid()))
		}
	}
	if volume == 0 {
		return through(c, func(i int) bool { return c.Parts[i].Role != craft.NonBuoyant })
	}
	s.at = r3.Scale(1/volume, s.at)
	return s
}

// extent returns how far aft and forward the craft's parts reach.
func extent(c *craft.Craft) (lo, hi float64) {
	s := through(c, func(int) bool { return true })
	return s.lo, s.hi
}
