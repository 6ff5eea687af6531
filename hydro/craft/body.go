package craft

import (
	"fmt"

	"millpond/hydro"
	"millpond/mesh"
)

// Hull returns what displaces: every part that is flotation or buoyant. A
// term's Part is the part's index.
func (c *Craft) Hull() (*hydro.Hull, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	var terms []hydro.Term
	for i := range c.Parts {
		if c.Parts[i].Role == NonBuoyant {
			continue
		}
		for _, p := range c.Parts[i].Placed() {
			terms = append(terms, hydro.Term{Placed: p, Weight: 1, Part: i})
		}
	}
	return hydro.NewHull(terms)
}

// Prepare says that about so many cuts through the craft lie ahead, with its
// parts as they are set now; see [mesh.Solid.Prepare].
func (c *Craft) Prepare(cuts int) {
	for i := range c.Parts {
		for _, q := range c.Parts[i].placed(c.Parts[i].Solid) {
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
// m3.
func (c *Craft) FlotationVolume() float64 {
	sum := 0.0
	for i := range c.Parts {
		if c.Parts[i].Role == Flotation {
			sum += c.Parts[i].Volume()
		}
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
