package craftfile

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
)

const craftOfItems = `
length_unit = "mm"
mass_unit = "g"
[[part]]
name = "float"
mesh = "float.stl"
unit = "mm"
role = "flotation"
mass = 400
[[item]]
name = "battery"
mass = 200
at = [100, 0, 50]
[[item]]
name = "camera"
mass = 100
at = [0, 0, 90]
`

func TestLoadings(t *testing.T) {
	f := mustRead(t, craftOfItems+`
[[loading]]
name = "camera out"
without = ["Camera"]
with = [{ name = "ballast", mass = 50, at = [10, 0, 20] }]
[[loading]]
name = "battery aft"
change = [{ item = "battery", at = [-50, 0, 50] }, { item = "camera", mass = 80 }]
with = [{ name = "ballast", mass = 30, at = [20, 0, 20], on = "float" }]
`)
	mass, at := 0.08, r3.Vec{X: -0.05, Z: 0.05}
	want := []craft.Loading{
		{Name: "camera out", Without: []int{1}, With: []craft.Item{{Name: "ballast", Mass: 0.05, At: r3.Vec{X: 0.01, Z: 0.02}, On: -1}}},
		{Name: "battery aft", Change: []craft.Change{{Item: 0, At: &at}, {Item: 1, Mass: &mass}},
			With: []craft.Item{{Name: "ballast", Mass: 0.03, At: r3.Vec{X: 0.02, Z: 0.02}}}},
	}
	if diff := cmp.Diff(want, f.Craft.Loadings); diff != "" {
		t.Errorf("loadings (-want +got):\n%s", diff)
	}
}
