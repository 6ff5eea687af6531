package craftfile

import (
	"fmt"
	"math"

	"millpond/hydro/craft"
	"millpond/mesh"
	"millpond/mesh/mend"
)

// warnShared warns of each two parts that displace the same water. Parts that
// only touch share none.
func (f *File) warnShared() error {
	c := f.Craft
	var solids []mesh.Placed
	var part []int // of each solid
	for i := range c.Parts {
		if c.Parts[i].Role == craft.NonBuoyant {
			continue
		}
		surfaces, err := c.Parts[i].Surfaces()
		if err != nil {
			return fmt.Errorf("part %q: %w", c.Parts[i].Name, err)
		}
		for _, s := range surfaces {
			solids = append(solids, s)
			part = append(part, i)
		}
	}
	if len(solids) < 2 {
		return nil
	}
	told := make(map[[2]int]bool)
	for _, p := range mend.Pairs(solids) {
		a, b, relation := part[p.A], part[p.B], p.Relation
		if !relation.Overlap() || told[[2]int{a, b}] {
			continue
		}
		told[[2]int{a, b}] = true
		f.Warnings = append(f.Warnings, shared(c.Parts[a].Name, c.Parts[b].Name, a == b, relation)+
			": the water that both displace is counted twice; cut one of them back in CAD so that they only touch")
	}
	return nil
}

// shared says how two parts lie in one another.
func shared(a, b string, mirrored bool, r mend.Relation) string {
	if mirrored {
		b = "its mirror image"
	} else {
		b = fmt.Sprintf("part %q", b)
	}
	a = fmt.Sprintf("part %q", a)
	switch r {
	case mend.Inside:
		return a + " lies inside " + b
	case mend.Contains:
		return b + " lies inside " + a
	case mend.Same:
		return a + " and " + b + " fill the same space"
	}
	return a + " and " + b + " cross"
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
