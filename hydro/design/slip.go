package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Slips returns warnings of what a wrong unit would look like: a craft that
// hardly wets its floats, a CG or an item far away from all parts. No craft is
// refused for it.
func Slips(t *Trial) []string {
	var out []string
	// The lightest float plane that anybody would build lies deeper.
	const little = 0.01
	if under := t.Body.Need() / t.Craft.FlotationVolume(); under < little {
		out = append(out, fmt.Sprintf("only %.2g %% of the flotation's volume is needed to carry %s: are the units of the mass and of the meshes right?",
			100*under, unit.Format(unit.Mass, t.Body.Mass)))
	}
	box, ok := around(t.Craft)
	if !ok {
		return out
	}
	size := box.Size()
	most := max(size.X, size.Y, size.Z)
	far := func(what string, at r3.Vec, allowed float64) bool {
		d := away(box, at)
		if d > allowed {
			out = append(out, fmt.Sprintf("%s lies %s away from all parts, which are %s across: are the units right?",
				what, unit.Format(unit.Length, d), unit.Format(unit.Length, most)))
		}
		return d > allowed
	}
	// Of a craft whose floats alone are drawn, items lie up to a float's length
	// off them, and its CG half as far.
	lost := false // a far item takes the CG along: that need not be said too
	for i := range t.Craft.Items {
		if it := &t.Craft.Items[i]; it.Mass > 0 {
			lost = far(fmt.Sprintf("item %q", it.Name), t.Craft.Follow(it.On, it.At), most) || lost
		}
	}
	if !lost {
		far("the CG", t.Body.CG, most/2)
	}
	return out
}

// around returns the box around all parts; false without any.
func around(c *craft.Craft) (box r3.Box, ok bool) {
	for i := range c.Parts {
		for _, p := range c.Parts[i].Placed() {
			if b := p.Box(); ok {
				box = box.Union(b)
			} else {
				box, ok = b, true
			}
		}
	}
	return box, ok
}

// away returns how far a point lies outside a box, 0 inside.
func away(b r3.Box, p r3.Vec) float64 {
	out := func(x, lo, hi float64) float64 { return math.Max(0, math.Max(lo-x, x-hi)) }
	return r3.Norm(r3.Vec{X: out(p.X, b.Min.X, b.Max.X), Y: out(p.Y, b.Min.Y, b.Max.Y), Z: out(p.Z, b.Min.Z, b.Max.Z)})
}
