package craftfile

import (
	"slices"
	"strings"
	"testing"
)

// TestVented lets water into a cavity that a point names: it displaces no
// longer, and weighs as before.
func TestVented(t *testing.T) {
	const core = `core = "100 kg/m3"` + "\n"
	full := mustRead(t, of("a", "hollow.stl", core))
	for _, point := range []string{`["0 mm", "0 mm", "50 mm"]`, `[["0 mm", "0 mm", "50 mm"], ["80 mm", "30 mm", "20 mm"]]`} {
		f := mustRead(t, of("a", "hollow.stl", core+"vented = "+point))
		// A brick of 2 L with a cavity of 180 x 80 x 80 mm.
		near(t, "volume of a vented brick", f.Craft.FlotationVolume(), 2e-3-1.152e-3)
		near(t, "mass of a vented brick", f.Craft.Built().Mass, full.Craft.Built().Mass)
		want := `part "a": water reaches the cavity in shell 2, named as vented: it displaces 1.152 L less`
		if !slices.Contains(f.Warnings, want) {
			t.Errorf("vented = %s: warnings %q, want %q among them", point, f.Warnings, want)
		}
	}
	// A solid of 160 x 60 x 60 mm stands in the cavity, and displaces.
	f := mustRead(t, of("a", "filled.stl", `vented = ["85 mm", "0 mm", "50 mm"]`))
	near(t, "volume of a vented brick with a block in it", f.Craft.FlotationVolume(), 2e-3-1.152e-3+0.576e-3)

	// Points are in the part's axes and unit, and go along when it is set.
	f = mustRead(t, of("a", "hollow.stl", `forward = "+y"
at = ["1 m", "0 m", "0 m"]
vented = ["30 mm", "0 mm", "50 mm"]`))
	near(t, "volume of a vented brick drawn across", f.Craft.FlotationVolume(), 2e-3-1.152e-3)
}

func TestVentedBad(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{`vented = ["0 mm", "0 mm", "150 mm"]`, `vented of part "a": no cavity holds the point (0, 0, 150) of the mesh's own coordinates, which lies outside the mesh; the mesh has one, shell 2`},
		{`vented = ["0 mm", "0 mm", "5 mm"]`, "which lies in solid material"},
		{`vented = ["0 mm", "0 mm"]`, "needs three values"},
		{`vented = []`, "needs three values"},
		{`vented = [["0 mm", "0 mm"]]`, "needs three values"},
		{`vented = true`, "vented"},
	} {
		_, err := read("craft.toml", []byte(of("a", "hollow.stl", c.line)), fromLibrary)
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "craft.toml:6:") {
			t.Errorf("%s: error %v, want one at line 6 that says %q", c.line, err, c.want)
		}
	}
}
