package craftfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// warnShared warns of each two parts that fill the same space. Parts that only
// touch share none.
func (f *File) warnShared() error {
	c := f.Craft
	pairs, err := c.Overlapping()
	if err != nil {
		return err
	}
	for _, p := range pairs {
		a, b := &c.Parts[p.A], &c.Parts[p.B]
		text := fmt.Sprintf("%s: %s that both fill is counted once", crossing(a, b, p), unit.Format(unit.Volume, p.Volume))
		switch inA, inB := a.Makeup.BuiltUp(), b.Makeup.BuiltUp(); {
		case inA && inB:
			text += ", but in full in the mass of each"
		case inA:
			text += fmt.Sprintf(", but in full in the mass of %q", a.Name)
		case inB:
			text += fmt.Sprintf(", but in full in the mass of %q", b.Name)
		}
		f.Warnings = append(f.Warnings, text)
	}
	return nil
}

// warnPockets warns of each space that parts shut in between them.
func (f *File) warnPockets() error {
	pockets, err := f.Craft.Pockets()
	if err != nil {
		return err
	}
	for _, p := range pockets {
		var names []string
		for _, i := range p.Parts {
			names = append(names, strconv.Quote(f.Craft.Parts[i].Name))
		}
		at := func(v float64) string { return unit.Format(unit.Length, v) }
		f.Warnings = append(f.Warnings, fmt.Sprintf("parts %s shut in a space of %s about x %s, y %s, z %s, which counts as water: if it stays dry, export these parts as one file, where it is taken for a cavity",
			strings.Join(names, ", "), unit.Format(unit.Volume, p.Volume), at(p.Center.X), at(p.Center.Y), at(p.Center.Z)))
	}
	return nil
}

// whole is the share of a part beyond which all of it lies in another.
const whole = 1 - 1e-6

// crossing says how two parts lie in one another.
func crossing(a, b *craft.Part, p craft.Overlap) string {
	first, second := fmt.Sprintf("part %q", a.Name), fmt.Sprintf("part %q", b.Name)
	if p.A == p.B {
		second = "its mirror image"
	}
	switch larger := max(a.Volume(), b.Volume()); {
	case p.Share > whole && (p.A == p.B || p.Volume > whole*larger):
		return first + " and " + second + " fill the same space"
	case p.Share > whole && a.Volume() < larger:
		return first + " lies inside " + second
	case p.Share > whole:
		return second + " lies inside " + first
	}
	return first + " and " + second + " cross"
}

// warnFilled warns when a part built up from its mesh has solids within its
// cavities, whose core is left out of the mass.
func (f *File) warnFilled(p *craft.Part, m *Mesh) {
	if p.Makeup.Core == 0 {
		return
	}
	counted := m.Solid.Volume()
	for _, h := range p.Hollows {
		counted -= h.Volume()
	}
	if off := m.Report.Material - counted; math.Abs(off) > 1e-6*m.Solid.Volume() {
		f.warn([]string{p.Name}, fmt.Sprintf("its core is counted without the solids drawn inside its cavities, %.2g %% of its volume", 100*off/m.Solid.Volume()))
	}
}
