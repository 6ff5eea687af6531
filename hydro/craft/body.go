package craft

import (
	"fmt"

	"millpond/hydro"
	"millpond/mesh"
)

// Hull returns what displaces: every part that is flotation or buoyant, less
// what it shares with those before it, so that no water is displaced twice. A
// term's Part is the part's index; what parts share counts as the flotation's,
// and among equals as that of the part that comes first.
func (c *Craft) Hull() (*hydro.Hull, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	terms, err := c.terms(Flotation, Buoyant)
	if err != nil {
		return nil, err
	}
	return hydro.NewHull(terms)
}

// terms returns the terms of the hull's parts of some roles: the pieces, and what
// they share.
func (c *Craft) terms(roles ...Role) ([]hydro.Term, error) {
	sides := c.sides(roles)
	n := 0
	for i := range sides {
		n += len(sides[i].pieces)
	}
	terms := make([]hydro.Term, 0, n)
	for i := range sides {
		for _, p := range sides[i].pieces {
			terms = append(terms, hydro.Term{Placed: p, Weight: 1, Part: sides[i].part})
		}
	}
	return c.shared(sides, terms)
}

// Prepare says that about so many cuts through the craft lie ahead, with its
// parts as they are set now; see [mesh.Solid.Prepare].
func (c *Craft) Prepare(cuts int) {
	for i := range c.Parts {
		for _, q := range c.Parts[i].placed(c.Parts[i].displacer()) {
			q.Solid.Prepare(cuts)
		}
	}
}

// Body returns the craft as the water feels it, with its growth margin. It
// fails when the craft has no mass or nothing that displaces; whether it floats
// is for the solver to say.
func (c *Craft) Body() (*hydro.Body, error) {
	hull, err := c.Hull()
	if err != nil {
		return nil, err
	}
	m := c.Loaded()
	if !m.finite() {
		if m.Mass == 0 {
			return nil, fmt.Errorf("craft %q has no mass: give parts a mass or a core density and skin, add items, or state mass and cg outright", c.Name)
		}
		return nil, fmt.Errorf("craft %q: its mass adds up to %g kg, which must be over zero", c.Name, m.Mass)
	}
	return &hydro.Body{Hull: hull, Mass: m.Mass, CG: m.At, Density: c.Water.Density}, nil
}

// FlotationVolume returns the volume of the flotation parts when wholly under,
// m3, what they share counted once. It is zero when that cannot be told, which
// [Craft.Hull] then explains.
func (c *Craft) FlotationVolume() float64 {
	terms, err := c.terms(Flotation)
	if err != nil {
		return 0
	}
	sum := 0.0
	for _, t := range terms {
		sum += t.Weight * t.Volume()
	}
	return sum
}

// Flotation returns the solids of all flotation parts as set on the craft.
func (c *Craft) Flotation() []mesh.Placed {
	var out []mesh.Placed
	for i := range c.Parts {
		if c.Parts[i].Role == Flotation {
			out = append(out, c.Parts[i].Placed()...)
		}
	}
	return out
}
