package design

import (
	"fmt"
	"slices"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// makeupVariables are what a part built up from its mesh weighs.
var makeupVariables = []Variable{
	{Key: "core of *", Label: "core density of *", Kind: unit.Density, Of: OfPart, now: coreNow, set: setCore},
	{Key: "skin of *", Label: "skin of *, all layers", Kind: unit.ArealDensity, Of: OfPart, now: skinNow, set: setSkin},
}

func coreNow(c *craft.Craft, v *Varied) (float64, error) {
	m := c.Parts[v.index].Makeup
	if m.Core == 0 {
		return 0, fmt.Errorf("%s has no core whose density could vary", v.Name)
	}
	return m.Core, nil
}

func setCore(c *craft.Craft, v *Varied, to float64) error {
	if to < 0 {
		return fmt.Errorf("%s cannot be negative: %s", v.Text(), unit.Format(unit.Density, to))
	}
	c.Parts[v.index].Makeup.Core = to
	return nil
}

// skinNow is the areal mass of all layers together.
func skinNow(c *craft.Craft, v *Varied) (float64, error) {
	sum := 0.0
	for _, l := range c.Parts[v.index].Makeup.Skin {
		sum += l.Areal
	}
	if sum == 0 {
		return 0, fmt.Errorf("%s has no skin whose mass could vary", v.Name)
	}
	return sum, nil
}

// setSkin scales all layers alike. The layers are copied first, since copies of
// a craft share them.
func setSkin(c *craft.Craft, v *Varied, to float64) error {
	if to < 0 {
		return fmt.Errorf("%s cannot be negative: %s", v.Text(), unit.Format(unit.ArealDensity, to))
	}
	now, err := skinNow(c, v)
	if err != nil {
		return err
	}
	m := &c.Parts[v.index].Makeup
	m.Skin = slices.Clone(m.Skin)
	for i := range m.Skin {
		m.Skin[i].Areal *= to / now
	}
	return nil
}

func init() { Variables = append(Variables, makeupVariables...) }
