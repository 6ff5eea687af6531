package design

import (
	"fmt"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Variables is the table of all that can be varied, in the order in which it is
// listed to people.
var Variables = []Variable{
	{Key: "plug height of *", Label: "plug height of *", Kind: unit.Length, Of: OfPart, plug: true, cut: craft.AlongZ, now: plugNow, set: setPlug},
	{Key: "plug length of *", Label: "plug length of *", Kind: unit.Length, Of: OfPart, plug: true, cut: craft.AlongX, now: plugNow, set: setPlug},
	{Key: "length scale of *", Label: "length scale of *", Kind: unit.Share, Of: OfPart, Note: "scaling the length changes keel angles", now: scaleNow(lengthOf), set: setScale(lengthOf)},
	{Key: "beam scale of *", Label: "beam scale of *", Kind: unit.Share, Of: OfPart, Note: "scaling the beam changes the deadrise", now: scaleNow(beamOf), set: setScale(beamOf)},
	{Key: "height scale of *", Label: "height scale of *", Kind: unit.Share, Of: OfPart, Note: "scaling the height changes the deadrise and keel angles", now: scaleNow(heightOf), set: setScale(heightOf)},
	{Key: "drop of *", Label: "drop of *", Kind: unit.Length, Of: OfPart, now: placeNow(drop), set: setPlace(drop)},
	{Key: "fore-aft of *", Label: "fore-aft of *", Kind: unit.Length, Of: OfPart, now: placeNow(foreAft), set: setPlace(foreAft)},
	{Key: "spread of *", Label: "spread of *, from the middle", Kind: unit.Length, Of: OfPart, now: placeNow(spread), set: setPlace(spread)},
	{Key: "incidence of *", Label: "incidence of *", Kind: unit.Angle, Of: OfPart, now: placeNow(incidence), set: setPlace(incidence)},

	{Key: "mass", Label: "mass", Kind: unit.Mass, now: massNow, set: setMass},
	{Key: "growth", Label: "growth margin", Kind: unit.Share, now: growthNow, set: setGrowth},
	{Key: "cg x", Label: "CG x, forward", Kind: unit.Length, now: cgNow(0), set: setCG(0)},
	{Key: "cg y", Label: "CG y, to port", Kind: unit.Length, now: cgNow(1), set: setCG(1)},
	{Key: "cg z", Label: "CG z, up", Kind: unit.Length, now: cgNow(2), set: setCG(2)},
	{Key: "water density", Label: "water density", Kind: unit.Density, now: densityNow, set: setDensity},

	{Key: "mass of *", Label: "mass of *", Kind: unit.Mass, Of: OfWeighed, now: weighedNow, set: setWeighed},
	{Key: "x of *", Label: "x of *, forward", Kind: unit.Length, Of: OfItem, now: itemNow(0), set: setItem(0)},
	{Key: "y of *", Label: "y of *, to port", Kind: unit.Length, Of: OfItem, now: itemNow(1), set: setItem(1)},
	{Key: "z of *", Label: "z of *, up", Kind: unit.Length, Of: OfItem, now: itemNow(2), set: setItem(2)},
}

type getter = func(*craft.Craft, *Varied) (float64, error)
type setter = func(*craft.Craft, *Varied, float64) error

func plugNow(c *craft.Craft, v *Varied) (float64, error) {
	return v.plugOf(&c.Parts[v.index]).Add, nil
}

func setPlug(c *craft.Craft, v *Varied, to float64) error {
	p := &c.Parts[v.index]
	lo, hi := p.Extent(v.cut)
	if to > 10*(hi-lo) {
		return fmt.Errorf("%s of %s is more than ten times the part itself; is the unit right?", v.Text(), mm(to))
	}
	// One percent of the even band must be left.
	if even := v.to - v.At; to < -0.99*even {
		return fmt.Errorf("%s cannot be %s: beyond the plane at %s the section stays even for %s only, and no more than that can be taken out without a step in the side; plug at another place, or scale instead",
			v.Text(), mm(to), mm(v.At), mm(even))
	}
	g := v.plugOf(p)
	g.At, g.To, g.Add = v.At, v.to, to
	// What holds the part's origin stays: the step, the keel. The other
	// piece moves.
	g.FarStays = v.cut == craft.AlongX && v.At < 0
	return nil
}

// mm shows a length to a tenth of a millimeter.
func mm(v float64) string { return unit.Style{Fine: true}.Format(unit.Length, v) }

func lengthOf(s *craft.Stretch) *float64 { return &s.Length }
func beamOf(s *craft.Stretch) *float64   { return &s.Beam }
func heightOf(s *craft.Stretch) *float64 { return &s.Height }

// scaleNow and setScale make the rows of a stretch about the part's origin, or
// the anchor that the craft file gives it.
func scaleNow(of func(*craft.Stretch) *float64) getter {
	return func(c *craft.Craft, v *Varied) (float64, error) {
		if f := *of(&c.Parts[v.index].Fit.Stretch); f != 0 {
			return f, nil
		}
		return 1, nil
	}
}

func setScale(of func(*craft.Stretch) *float64) setter {
	return func(c *craft.Craft, v *Varied, to float64) error {
		if to < 0.05 || to > 20 {
			return fmt.Errorf("%s cannot be %s: a part can be scaled from 5 %% to 2000 %% of what was drawn", v.Text(), unit.Format(unit.Share, to))
		}
		*of(&c.Parts[v.index].Fit.Stretch) = to
		return nil
	}
}

// setting is a number of a part's fit that is a place or an angle, with its
// sign; nil where the part has none.
type setting func(*craft.Part) (value *float64, sign float64)

func drop(p *craft.Part) (*float64, float64)      { return &p.Fit.At.Z, -1 }
func foreAft(p *craft.Part) (*float64, float64)   { return &p.Fit.At.X, 1 }
func incidence(p *craft.Part) (*float64, float64) { return &p.Fit.Pitch, 1 }

// spread is how far a mirrored part's origin lies from the middle, on whichever
// side it was placed.
func spread(p *craft.Part) (*float64, float64) {
	switch {
	case !p.Mirrored:
		return nil, 0
	case p.Base.At.Y < 0:
		return &p.Fit.At.Y, -1
	}
	return &p.Fit.At.Y, 1
}

func placeNow(of setting) getter {
	return func(c *craft.Craft, v *Varied) (float64, error) {
		x, sign := of(&c.Parts[v.index])
		if x == nil {
			return 0, fmt.Errorf("%s has no %s: it is not mirrored, so there are no two to spread", v.Name, v.Text())
		}
		return sign * *x, nil
	}
}

func setPlace(of setting) setter {
	return func(c *craft.Craft, v *Varied, to float64) error {
		x, sign := of(&c.Parts[v.index])
		if x == nil {
			return fmt.Errorf("%s is not mirrored, so there are no two to spread", v.Name)
		}
		*x = sign * to
		return nil
	}
}

func massNow(c *craft.Craft, _ *Varied) (float64, error) { return c.Loaded().Mass, nil }

func setMass(c *craft.Craft, v *Varied, to float64) error {
	if to <= 0 {
		return fmt.Errorf("mass must be over zero, not %s", unit.Format(unit.Mass, to))
	}
	c.Held.Mass = &to
	return nil
}

func growthNow(c *craft.Craft, _ *Varied) (float64, error) { return c.Growth.Share, nil }

func setGrowth(c *craft.Craft, v *Varied, to float64) error {
	if to < 0 {
		return fmt.Errorf("growth is a margin and cannot be negative: %s", unit.Format(unit.Share, to))
	}
	c.Growth.Share = to
	return nil
}

func cgNow(axis int) getter {
	return func(c *craft.Craft, _ *Varied) (float64, error) {
		at := c.Loaded().At
		return [3]float64{at.X, at.Y, at.Z}[axis], nil
	}
}

func setCG(axis int) setter {
	return func(c *craft.Craft, _ *Varied, to float64) error {
		c.Held.CG[axis] = &to
		return nil
	}
}

func densityNow(c *craft.Craft, _ *Varied) (float64, error) { return c.Water.Density, nil }

func setDensity(c *craft.Craft, _ *Varied, to float64) error {
	if to <= 0 {
		return fmt.Errorf("water density must be over zero, not %s", unit.Format(unit.Density, to))
	}
	c.Water = craft.Water{Name: "water of " + unit.Format(unit.Density, to), Density: to}
	return nil
}

// weighed returns the mass of the item or weighed part that the variable is
// of: names lists items first.
func weighed(c *craft.Craft, v *Varied) (*float64, error) {
	if v.index < len(c.Items) {
		return &c.Items[v.index].Mass, nil
	}
	m := &c.Parts[v.index-len(c.Items)].Makeup
	if m.Weighed == nil {
		return nil, fmt.Errorf("the mass of %s is built up from its mesh and cannot be set; vary its size, or state its mass", v.Name)
	}
	own := *m.Weighed
	m.Weighed = &own
	return m.Weighed, nil
}

func weighedNow(c *craft.Craft, v *Varied) (float64, error) {
	m, err := weighed(c.Copy(), v)
	if err != nil {
		return 0, err
	}
	return *m, nil
}

func setWeighed(c *craft.Craft, v *Varied, to float64) error {
	if to < 0 {
		return fmt.Errorf("%s cannot be negative: %s", v.Text(), unit.Format(unit.Mass, to))
	}
	m, err := weighed(c, v)
	if err == nil {
		*m = to
	}
	return err
}

// itemAt returns a coordinate of the item that the variable is of.
func itemAt(c *craft.Craft, v *Varied, axis int) *float64 {
	at := &c.Items[v.index].At
	return [3]*float64{&at.X, &at.Y, &at.Z}[axis]
}

func itemNow(axis int) getter {
	return func(c *craft.Craft, v *Varied) (float64, error) { return *itemAt(c, v, axis), nil }
}

func setItem(axis int) setter {
	return func(c *craft.Craft, v *Varied, to float64) error {
		*itemAt(c, v, axis) = to
		return nil
	}
}
