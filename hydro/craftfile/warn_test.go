package craftfile

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"millpond/mesh/mend"
)

// of writes a part for the tests of warnings.
func of(name, mesh, lines string) string {
	return "[[part]]\nname = \"" + name + "\"\nmesh = \"" + mesh + "\"\nrole = \"flotation\"\nunit = \"mm\"\n" + lines + "\n"
}

func TestWarnings(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"none", of("a", "brick.stl", ""), nil},
		{"of the reader, once for a shared mesh", of("a", "wing.stl", `at = ["0 m", "0 m", "1 m"]`) + of("b", "./wing.stl", ""), []string{
			`parts "a", "b": the file goes on behind its last facet`,
		}},
		{"crossing", of("a", "brick.stl", "") + of("b", "brick.stl", `at = ["30 mm", "20 mm", "10 mm"]`), []string{
			`part "a" and part "b" cross: 1.224 L` + once,
		}},
		{"the same place", of("a", "brick.stl", "") + of("b", "brick.stl", ""), []string{
			`part "a" and part "b" fill the same space: 2.000 L` + once,
		}},
		{"nested", of("a", "small.stl", "") + of("b", "brick.stl", ""), []string{`part "a" lies inside part "b": 0.200 L` + once}},
		{"nested the other way", of("a", "brick.stl", "") + of("b", "small.stl", ""), []string{`part "b" lies inside part "a": 0.200 L` + once}},
		{"flush", of("a", "brick.stl", "") + of("b", "brick.stl", `at = ["200 mm", "20 mm", "10 mm"]`), nil},
		{"non-buoyant parts may cross", of("a", "brick.stl", "") +
			"[[part]]\nname = \"b\"\nmesh = \"brick.stl\"\nunit = \"mm\"\nrole = \"non-buoyant\"\n", nil},
		{"its own mirror image", of("a", "brick.stl", "mirror = true\n"+`at = ["0 mm", "30 mm", "0 mm"]`), []string{
			`part "a" and its mirror image cross: 0.800 L` + once,
		}},
		{"mirror images flush", of("a", "brick.stl", "mirror = true\n"+`at = ["0 mm", "50 mm", "0 mm"]`), nil},
		{"the other side of a mirrored part, told once",
			of("a", "brick.stl", "mirror = true\n"+`at = ["0 mm", "100 mm", "0 mm"]`) + of("b", "wing.stl", ""), []string{
				`part "b": the file goes on behind its last facet`,
				`part "a" and part "b" cross: 0.800 L` + once,
			}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := mustRead(t, c.text)
			if diff := cmp.Diff(c.want, f.Warnings); diff != "" {
				t.Errorf("warnings of\n%s(-want +got):\n%s", c.text, diff)
			}
		})
	}
}

const once = " that both fill is counted once"

// TestMeshNotes passes on what was doubted, mended and warned of, under the
// part's name, in the words of package mend.
func TestMeshNotes(t *testing.T) {
	f := mustRead(t, of("a", "meters.stl", ""))
	if doubt := mend.UnitDoubt(f.Meshes[0].Report.Box, 0.001); doubt == "" || !slices.Equal(f.Warnings, []string{`part "a": ` + doubt}) {
		t.Errorf("a float of 0.6 mm: warnings %q, want %q under the part's name", f.Warnings, doubt)
	}
	f = mustRead(t, of("a", "twisted.stl", "")+of("b", "twisted.stl", `at = ["0 m", "0 m", "1 m"]`))
	if done := f.Meshes[0].Report.Mended; len(done) != 1 || !slices.Equal(f.Warnings, []string{`parts "a", "b": ` + done[0]}) {
		t.Errorf("a mesh inside out: warnings %q, want %q under the parts' names", f.Warnings, done)
	}
}

// TestCavities leaves cavities out of a core, and says so where solids in them
// are left out too.
func TestCavities(t *testing.T) {
	const core = `core = "100 kg/m3"`
	f := mustRead(t, of("a", "hollow.stl", core))
	// A brick of 2 L with a cavity of 180 x 80 x 80 mm.
	near(t, "mass of a hollow brick", f.Craft.Built().Mass, 100*(2e-3-1.152e-3))
	near(t, "volume of a hollow brick", f.Craft.FlotationVolume(), 2e-3)

	f = mustRead(t, of("a", "filled.stl", core))
	want := `part "a": its core is counted without the solids drawn inside its cavities, 29 % of its volume`
	if !slices.Contains(f.Warnings, want) {
		t.Errorf("a solid in a cavity: warnings %q, want %q among them", f.Warnings, want)
	}
}
