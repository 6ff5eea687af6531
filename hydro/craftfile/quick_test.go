package craftfile

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
)

func TestQuick(t *testing.T) {
	f, err := quick(QuickOptions{Mesh: "boats/float.stl", Unit: "mm", Mass: "1.2kg", CG: "10mm,0mm,35mm", Water: "salt", Forward: "-x"}, fromLibrary)
	if err != nil {
		t.Fatal(err)
	}
	c := f.Craft
	if len(c.Parts) != 1 || c.Parts[0].Name != "float" || c.Parts[0].Role != craft.Flotation || c.Name != "float" {
		t.Errorf("craft %q has parts %+v, want one, flotation, called float", c.Name, c.Parts)
	}
	near(t, "volume", c.FlotationVolume(), 3.84e-3)
	near(t, "mass", c.Loaded().Mass, 1.2)
	nearVec(t, "CG", c.Loaded().At, r3.Vec{X: 0.01, Z: 0.035})
	near(t, "water", c.Water.Density, 1025)
	nearVec(t, "image of the file's x", c.Parts[0].Place().Vector(r3.Vec{X: 1000}), r3.Vec{X: -1})
	if len(f.Warnings) != 0 {
		t.Errorf("warnings %q, want none", f.Warnings)
	}
	b, err := c.Body()
	if err != nil {
		t.Fatal(err)
	}
	rest, err := b.Rest()
	if err != nil {
		t.Fatal(err)
	}
	// A box floats at mass / (density x area), if it floats upright.
	if got, want := rest.Volume, 1.2/1025; got < want*(1-1e-9) || got > want*(1+1e-9) {
		t.Errorf("displaced volume = %g, want %g", got, want)
	}
}

func TestQuickMesh(t *testing.T) {
	f, err := quickMesh(QuickOptions{Mesh: "wing.stl", Unit: "cm"}, fromLibrary)
	if err != nil {
		t.Fatal(err)
	}
	if f.Craft.Stated != nil || f.Craft.Water != fresh {
		t.Errorf("stated mass %v and water %v, want none and fresh", f.Craft.Stated, f.Craft.Water)
	}
	if len(f.Warnings) != 2 {
		t.Errorf("warnings %q, want that of the reader and a doubt about a wing of 14 m", f.Warnings)
	}
}

func TestQuickErrors(t *testing.T) {
	good := QuickOptions{Mesh: "float.stl", Unit: "mm", Mass: "1.2kg", CG: "10mm,0mm,35mm"}
	for _, c := range []struct {
		change func(o *QuickOptions)
		want   string
	}{
		{func(o *QuickOptions) { o.Mass = "" }, "--mass is missing: say what it weighs, such as --mass 1.2kg"},
		{func(o *QuickOptions) { o.Mass = "1.2" }, `--mass: "1.2" has no unit; write one of g, kg, oz, lb, mg`},
		{func(o *QuickOptions) { o.Mass = "0kg" }, `--mass: "0kg" must be over zero`},
		{func(o *QuickOptions) { o.Mass = "-1kg" }, `--mass: "-1kg" must be over zero`},
		{func(o *QuickOptions) { o.Mass = "1e200kg" }, `--mass: "1e200kg" is beyond all measure; is the unit right?`},
		{func(o *QuickOptions) { o.CG = "" }, "--cg is missing: say where it balances, x forward, y to port and z up, such as --cg 10mm,0mm,35mm"},
		{func(o *QuickOptions) { o.CG = "10mm,0" }, `--cg: "10mm,0" has 2 values; three lengths are wanted, such as "10mm,0mm,35mm", with a point for decimals`},
		{func(o *QuickOptions) { o.CG = "0,0,-1e9m" }, `--cg: "0,0,-1e9m" is beyond all measure; is the unit right?`},
		{func(o *QuickOptions) { o.Unit = "" }, "--unit is missing: an STL file does not say what its numbers are in; give --unit mm, or cm, m, in, ft"},
		{func(o *QuickOptions) { o.Unit = "kg" }, `--unit: "kg" is a mass; a length is wanted: mm, cm, m, in, ft, yd, um`},
		{func(o *QuickOptions) { o.Water = "sea" }, `--water: "sea" is no water; "fresh", "salt" or a density such as "1003 kg/m3" is wanted`},
		{func(o *QuickOptions) { o.Water = "1003" }, `--water: "1003" has no unit; write one of kg/m3, g/cm3, g/mL, kg/L, g/L, lb/ft3, lb/in3, oz/in3; or "fresh" or "salt"`},
		{func(o *QuickOptions) { o.Forward = "nose" }, `--forward: "nose" is no axis; one of +x, -x, +y, -y, +z, -z is wanted`},
		{func(o *QuickOptions) { o.Up = "x" }, "--up: forward and up lie along the same axis; they must be at right angles"},
		{func(o *QuickOptions) { o.Mesh = "none.stl" }, "none.stl: no such file; check the name and the folder"},
	} {
		o := good
		c.change(&o)
		if _, err := quick(o, fromLibrary); err == nil || err.Error() != c.want {
			t.Errorf("Quick(%+v):\ngot  %v\nwant %s", o, err, c.want)
		}
	}
}
