package craftfile

import (
	"math"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The compartments of the full file, whose float is a box of 600 x 80 x 80 mm:
// volumes by hand.
func TestCompartments(t *testing.T) {
	text, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		t.Fatal(err)
	}
	c := mustRead(t, string(text)).Craft
	var names []string
	for _, s := range c.Spaces() {
		names = append(names, s.Name)
		if (s.Centroid().Y > 0) != (s.Name[:4] == "port") {
			t.Errorf("%s has its centroid at y = %g", s.Name, s.Centroid().Y)
		}
	}
	if diff := cmp.Diff([]string{"port bow", "starboard bow", "port keel", "starboard keel"}, names); diff != "" {
		t.Errorf("spaces (-want +got):\n%s", diff)
	}
	bow, keel := c.Spaces()[1], c.Spaces()[2]
	near(t, "volume of the bow", bow.Volume(), 0.15*0.08*0.08)
	// From x = -200 - z/2 (the sloping wall) to 100, over the lower 20 mm:
	// the mean length is 300 + 5 mm.
	near(t, "volume of the keel", keel.Volume(), (0.3+0.005)*0.02*0.08)
	near(t, "permeability of the bow", bow.Permeability, 0.95)
	near(t, "permeability of the keel", keel.Permeability, 0.05)
	vents := c.Vents()
	if len(vents) != 1 || vents[0].Space != 0 || math.Abs(vents[0].At.X-0.2) > 1e-12 {
		t.Errorf("vents = %+v, want the hatch at x = 0.2 m into space 0", vents)
	}
}
