package craftfile

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
)

const plain = `length_unit = "mm"
[[part]]
name = "float"
mesh = "float.stl"
unit = "mm"
role = "flotation"
at = [0, 200, 0]
mirror = true
mass = "400 g"
mass_follows = "area"
`

func TestLimits(t *testing.T) {
	f := mustRead(t, plain+`
[[vary]]
what = "Plug height of FLOAT"
from = 0
to = "4 cm"
step = 5
at = 30
[[vary]]
what = "plug length of float"
only = [100, "50 mm", 50]
[[vary]]
what = "length scale of float"
from = "90 %"
to = "120 %"
anchor = [-20, 0, 5]
`)
	if len(f.Limits) != 3 {
		t.Fatalf("%d limits, want 3", len(f.Limits))
	}
	h := f.Limits["plug height of float"]
	near(t, "from", h.From, 0)
	near(t, "to", h.To, 0.04)
	near(t, "step", h.Step, 0.005)
	near(t, "at", h.At, 0.03)
	if diff := cmp.Diff([]float64{0.05, 0.1}, f.Limits["plug length of float"].Values(0)); diff != "" {
		t.Errorf("only (-want +got):\n%s", diff)
	}
	p := &f.Craft.Parts[0]
	nearVec(t, "anchor", p.Fit.Stretch.Anchor, r3.Vec{X: -0.02, Z: 0.005})
	if p.Fit != p.Base || p.Reshaped() {
		t.Error("limits alone change the part")
	}
	if p.Makeup.Follows != craft.Area {
		t.Errorf("mass_follows = %v, want area", p.Makeup.Follows)
	}
}

func TestChanges(t *testing.T) {
	f := mustRead(t, plain+`
[[change]]
what = "plug height of float"
to = 25
at = 30
[[change]]
what = "drop of float"
to = "12 mm"
`)
	p := &f.Craft.Parts[0]
	near(t, "depth", p.Size().Z, 0.105)
	near(t, "volume", p.Volume(), 2*0.6*0.08*0.105)
	near(t, "z", p.Fit.At.Z, -0.012)
	var words []string
	for _, c := range f.Changes {
		words = append(words, c.Words())
	}
	want := []string{"plug height of float = 25 mm (let in at z = 30.0 mm of float)", "drop of float = 12 mm"}
	if diff := cmp.Diff(want, words); diff != "" {
		t.Errorf("changes (-want +got):\n%s", diff)
	}
}

// A changed craft may foul another part, and that is told.
func TestChangesAreLookedAt(t *testing.T) {
	text := `length_unit = "mm"
[[part]]
name = "float"
mesh = "float.stl"
unit = "mm"
role = "flotation"
[[part]]
name = "pad"
box = [[-20, -20, 90], [20, 20, 100]]
role = "flotation"
`
	if f := mustRead(t, text); len(f.Warnings) > 0 {
		t.Errorf("as drawn: %q", f.Warnings)
	}
	f := mustRead(t, text+"[[change]]\nwhat = \"plug height of float\"\nto = 15\nat = 40\n")
	if len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0], `part "float" and part "pad" cross`) {
		t.Errorf("with a plug of 15 mm: %q", f.Warnings)
	}
}

// Simple shapes by their corners, the wedge's ends in either order.
func TestShapes(t *testing.T) {
	f := mustRead(t, `length_unit = "mm"
[[part]]
name = "strip"
box = [[100, 5, 0], [-100, -5, "2 cm"]]
role = "flotation"
at = [0, 0, 500]
[[part]]
name = "wedge"
wedge = [[0, 0, 0], [30, 0, 0], [0, 0, 20], [0, 10, 0], [30, 10, 0], [0, 10, 20]]
role = "buoyant"
[[part]]
name = "same wedge"
wedge = [[0, 10, 0], [30, 10, 0], [0, 10, 20], [0, 0, 0], [30, 0, 0], [0, 0, 20]]
role = "buoyant"
at = [0, 100, 0]
core = "30 kg/m3"
`)
	c := f.Craft
	near(t, "strip", c.Parts[0].Volume(), 0.2*0.01*0.02)
	near(t, "wedge", c.Parts[1].Volume(), 0.03*0.02/2*0.01)
	near(t, "same wedge", c.Parts[2].Volume(), 0.03*0.02/2*0.01)
	nearVec(t, "middle of the wedge", c.Parts[1].Placed()[0].Centroid(), r3.Vec{X: 0.01, Y: 0.005, Z: 0.02 / 3})
	near(t, "core of the wedge", c.Built().Mass, 30*0.03*0.02/2*0.01)
	if len(f.Meshes) != 0 || len(f.Warnings) != 0 {
		t.Errorf("meshes %v, warnings %q", f.Meshes, f.Warnings)
	}
}

// A file that names its base is the base with its changes; a base that is not
// what it was is told.
func TestBase(t *testing.T) {
	dir := t.TempDir()
	base := filepath.Join(dir, "craft.toml")
	if err := os.WriteFile(base, []byte(plain), 0o666); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256([]byte(plain))
	text := `name = "deeper"
base = "craft.toml"
base_sha256 = "` + strings.ToUpper(hex.EncodeToString(sum[:])) + `"
[[change]]
what = "plug height of float"
to = "25 mm"
at = "30 mm"
`
	readIn := func(text string) (*File, error) {
		return read(filepath.Join(dir, "deeper.toml"), []byte(text), fromLibrary)
	}
	f, err := readIn(text)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "depth", f.Craft.Parts[0].Size().Z, 0.105)
	if f.Craft.Name != "deeper" || f.Base != base || len(f.Changes) != 1 || len(f.Warnings) != 0 {
		t.Errorf("name %q, base %q, changes %v, warnings %q", f.Craft.Name, f.Base, f.Changes, f.Warnings)
	}
	if f, err = readIn(strings.Replace(text, "SHA", "sha", 1) + "# more\n"); err != nil || len(f.Warnings) != 0 {
		t.Errorf("with a comment: %v", err)
	}
	if err := os.WriteFile(base, []byte(plain+"# changed\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if f, err = readIn(text); err != nil || len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0], "another base") {
		t.Errorf("with another base: %v, warnings %q", err, f.Warnings)
	}
	for _, tt := range []struct{ base, text, want string }{
		{"name = 3\n", text, "craft.toml:1:8: name"}, // told as the base's
		{text, text, "has a base itself"},
		{plain, strings.Replace(text, "height of float", "height of wing", 1), "deeper.toml:5:8: what"},
	} {
		if err := os.WriteFile(base, []byte(tt.base), 0o666); err != nil {
			t.Fatal(err)
		}
		if _, err := readIn(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("base %q: %v\nwant it to say %q", tt.base, err, tt.want)
		}
	}
}
