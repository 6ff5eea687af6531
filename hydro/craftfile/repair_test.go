package craftfile

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"millpond/mesh/mend"
)

// partOf writes a part of a mesh with more lines.
func partOf(name, mesh, lines string) string {
	return "[[part]]\nname = \"" + name + "\"\nmesh = \"" + mesh + "\"\nrole = \"flotation\"\n" + lines + "\n"
}

// TestRepair closes what is open to the extent that the part says.
func TestRepair(t *testing.T) {
	for _, c := range []struct {
		mesh, lines, want string // what the warning begins with
		liters            float64
	}{
		{"open.stl", `close_holes = "12 %"`, `part "a": closed a hole of 3 edges, 223.6 mm across`, 2},
		{"curved.stl", "close_holes = \"8 %\"\nclose_curved_holes = true", `part "a": closing holes leaves the volume uncertain by up to `, 4.18879},
		// A gap of 0.02 mm between two halves.
		{"cracked.stl", `weld = "0.05 mm"`, `part "a": merged 4 vertices with a near one, moving none farther than 0.02 mm (tolerance 0.05 mm)`, 2},
		{"cracked.stl", `weld = "50 um"`, `part "a": merged 4 vertices with a near one, moving none farther than 0.02 mm (tolerance 0.05 mm)`, 2},
	} {
		f := mustRead(t, partOf("a", c.mesh, "unit = \"mm\"\n"+c.lines))
		if len(f.Warnings) == 0 || !strings.HasPrefix(f.Warnings[0], c.want) {
			t.Errorf("%s with %s: warnings %q, want %q first", c.mesh, c.lines, f.Warnings, c.want)
		}
		if got := 1000 * f.Craft.Parts[0].Volume(); math.Abs(got-c.liters) > 0.02*c.liters {
			t.Errorf("%s with %s: %g L, want %g", c.mesh, c.lines, got, c.liters)
		}
	}
}

// TestCure follows the advice that an error about holes gives.
func TestCure(t *testing.T) {
	for _, c := range []struct{ mesh, key, flag string }{
		{"open.stl", `write close_holes = "12 %" to have it closed`, "add --close-holes 12% to have it closed"},
		{"curved.stl", `write close_holes = "8 %" and close_curved_holes = true to have it closed, which leaves its volume uncertain by up to 3.1 %`,
			"add --close-holes 8% and --close-curved-holes to have it closed, which leaves its volume uncertain by up to 3.1 %"},
		{"cracked.stl", `write weld = "0.03 mm" to merge vertices that near each other, which closes it`, "add --weld 0.03mm to merge vertices that near each other, which closes it"},
	} {
		_, err := read("c.toml", []byte(partOf("a", c.mesh, `unit = "mm"`)), fromLibrary)
		if err == nil || !strings.Contains(err.Error(), "; close it in the CAD program and export again, or "+c.key) {
			t.Errorf("%s: %v, want %q", c.mesh, err, c.key)
		}
		_, err = quickMesh(QuickOptions{Mesh: c.mesh, Unit: "mm"}, fromLibrary)
		if err == nil || !strings.HasSuffix(err.Error(), "or "+c.flag) {
			t.Errorf("%s: %v, want %q", c.mesh, err, c.flag)
		}
		lines := strings.NewReplacer("write ", "", " and ", "\n").Replace(strings.Split(strings.Split(c.key, ", which")[0], " to ")[0])
		if _, err := read("c.toml", []byte(partOf("a", c.mesh, "unit = \"mm\"\n"+lines)), fromLibrary); err != nil {
			t.Errorf("%s with %s: %v", c.mesh, lines, err)
		}
	}
}

// Each way to take a file is read by itself.
func TestRepairPerPart(t *testing.T) {
	f := mustRead(t, partOf("a", "float.stl", `unit = "mm"`)+partOf("b", "float.stl", "unit = \"mm\"\nweld = \"0.1 mm\"\nat = [\"2 m\", \"0 m\", \"0 m\"]")+
		partOf("c", "float.stl", "unit = \"mm\"\nat = [\"4 m\", \"0 m\", \"0 m\"]"))
	var got [][]string
	for _, m := range f.Meshes {
		got = append(got, m.Parts)
	}
	if diff := cmp.Diff([][]string{{"a", "c"}, {"b"}}, got); diff != "" {
		t.Errorf("parts of each mesh (-want +got):\n%s", diff)
	}
}

// TestQuickRepair reads the flags as the keys are read.
func TestQuickRepair(t *testing.T) {
	f, err := quickMesh(QuickOptions{Mesh: "open.stl", Unit: "mm", CloseHoles: "14%", Weld: "0.01mm", CurvedHoles: true}, fromLibrary)
	if err != nil {
		t.Fatal(err)
	}
	want := Repair{Weld: 1e-5, CloseHoles: 0.14, CurvedHoles: true, onCommand: true}
	if diff := cmp.Diff(want, f.Meshes[0].Repair, cmp.AllowUnexported(Repair{})); diff != "" {
		t.Errorf("repair (-want +got):\n%s", diff)
	}
	none := Repair{}
	none.holes(0)
	if opt := none.options(0.001, "mm"); opt != (mend.Options{Unit: "mm", MaxHole: -1}) {
		t.Errorf("close_holes of zero: %+v, want no hole closed", opt)
	}
}

// TestStatedUnit takes a mesh's own unit where the part names none, and takes
// no other.
func TestStatedUnit(t *testing.T) {
	near(t, "volume", mustRead(t, partOf("a", "stated.unknown", "")).Craft.FlotationVolume(), 2e-3)
	near(t, "volume", mustRead(t, partOf("a", "stated.unknown", `unit = "mm"`)).Craft.FlotationVolume(), 2e-3)
	f, err := quickMesh(QuickOptions{Mesh: "stated.unknown"}, fromLibrary)
	if err != nil || f.Meshes[0].Unit != "mm" {
		t.Errorf("QuickMesh of a file that states mm: %v, %+v", err, f.Meshes)
	}
	_, err = quickMesh(QuickOptions{Mesh: "stated.unknown", Unit: "in"}, fromLibrary)
	const want = `--unit is "in", but stated.unknown itself states "mm"; leave --unit out, or export the mesh in the unit that is meant`
	if err == nil || err.Error() != want {
		t.Errorf("QuickMesh with another unit: %v, want %s", err, want)
	}
}
