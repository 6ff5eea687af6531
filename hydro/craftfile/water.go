package craftfile

import (
	"fmt"
	"strings"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// fresh is what a craft floats on when nothing is said.
var fresh = craft.Water{Name: "fresh water", Density: hydro.FreshWater}

// Water reads a water as a user writes it: "fresh", "salt", or a density such
// as "1003 kg/m3".
func Water(text string) (craft.Water, error) {
	switch text {
	case "fresh":
		return fresh, nil
	case "salt":
		return craft.Water{Name: "salt water", Density: hydro.SaltWater}, nil
	}
	if !strings.ContainsAny(text, "0123456789") {
		return craft.Water{}, fmt.Errorf("%q is no water; \"fresh\", \"salt\" or a density such as \"1003 kg/m3\" is wanted", text)
	}
	density, err := unit.Parse(unit.Density, text)
	if err != nil {
		return craft.Water{}, fmt.Errorf("%w; or \"fresh\" or \"salt\"", err)
	}
	if wrong := plausibleWater(density); wrong != "" {
		return craft.Water{}, fmt.Errorf("%q %s", text, wrong)
	}
	return craft.Water{Name: "water of " + unit.Format(unit.Density, density), Density: density}, nil
}

// plausibleWater is the demand on a water's density. The bounds lie well
// outside boiling water (958 kg/m3) and saturated brine (1200 kg/m3).
func plausibleWater(density float64) string {
	if density < 900 || density > 1300 {
		return "is no water: its density lies between 900 and 1300 kg/m3"
	}
	return ""
}

// water reads what the craft floats on.
func (r *reader) water(top *table) {
	w := &r.file.Craft.Water
	*w = fresh
	e := top.get("water")
	switch {
	case e == nil:
	case e.value.kind == aTable:
		*w = r.open(e.value, "water").warmth()
	case e.value.kind == aText:
		water, err := Water(e.value.text)
		if err != nil {
			top.fail(e.value.at, "water: %s", err)
			return
		}
		*w = water
	default:
		top.fail(e.value.at, `water must be "fresh", "salt", a density such as "1003 kg/m3", or { temperature = "12 C", salinity = "0 g/kg" }, and not %s`, e.value.kind)
	}
}

// warmth reads a water of known temperature and salinity.
func (t *table) warmth() craft.Water {
	celsius, ok := t.quantity("temperature", unit.Temperature, anything)
	salinity, _ := t.quantity("salinity", unit.Salinity, anything)
	if !t.has("temperature") {
		t.miss(`water has no temperature; write temperature = "12 C"`)
	}
	if !ok {
		return fresh
	}
	density, err := hydro.WaterDensity(celsius, salinity)
	if err != nil {
		t.fail(t.node.at, "%s", err)
		return fresh
	}
	return craft.Water{
		Name:    fmt.Sprintf("water at %g C with %g g/kg of salt", celsius, salinity),
		Density: density,
	}
}
