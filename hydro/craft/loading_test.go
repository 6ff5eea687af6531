package craft_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
)

// A loading acts on the craft as it is, once, whatever was done before: the
// masses and the CG are those of sums by hand.
func TestUnder(t *testing.T) {
	mass, place := 0.5, r3.Vec{X: -1}
	c := &craft.Craft{
		Items: []craft.Item{
			{Name: "battery", Mass: 1, At: r3.Vec{X: 1}, On: -1},
			{Name: "camera", Mass: 2, At: r3.Vec{Z: 3}, On: -1},
		},
		Growth: craft.Growth{Share: 0.1},
	}
	before := *c
	before.Items = append([]craft.Item(nil), c.Items...)
	for _, l := range []struct {
		craft.Loading
		built craft.Mass
	}{
		{craft.Loading{Name: "camera out", Without: []int{1}}, craft.Mass{Mass: 1, At: r3.Vec{X: 1}}},
		{craft.Loading{Name: "moved", Change: []craft.Change{{Item: 0, At: &place}}}, craft.Mass{Mass: 3, At: r3.Vec{X: -1.0 / 3, Z: 2}}},
		{craft.Loading{Name: "smaller", Change: []craft.Change{{Item: 1, Mass: &mass}}}, craft.Mass{Mass: 1.5, At: r3.Vec{X: 1 / 1.5, Z: 1}}},
		{craft.Loading{Name: "ballast", With: []craft.Item{{Name: "lead", Mass: 3, At: r3.Vec{Y: 1}, On: -1}}}, craft.Mass{Mass: 6, At: r3.Vec{X: 1.0 / 6, Y: 0.5, Z: 1}}},
	} {
		under := c.Under(&l.Loading)
		got := under.Built()
		if d := got.Mass - l.built.Mass; d > 1e-12 || d < -1e-12 || r3.Norm(r3.Sub(got.At, l.built.At)) > 1e-12 {
			t.Errorf("Under(%q).Built() = %v, want %v", l.Name, got, l.built)
		}
		if under.Loading != l.Name || under.Items[0].Name != "battery" || under.Items[1].Name != "camera" {
			t.Errorf("Under(%q) = loading %q with items %v", l.Name, under.Loading, under.Items)
		}
		if diff := cmp.Diff(&before, c); diff != "" {
			t.Fatalf("Under(%q) changed the craft (-before +after):\n%s", l.Name, diff)
		}
	}
}
