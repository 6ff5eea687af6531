package craft_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
)

// A box of 10 drawn as panels of 1 shuts in a space of 8 on each side, whether
// they cross or lie flush, one panel is mirrored or another part stands in the
// space; with a panel left out or ajar, water gets in.
func TestPockets(t *testing.T) {
	v := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	panel := func(name string, lo, hi r3.Vec) craft.Part { return block(t, name, craft.Flotation, lo, hi) }
	bottom, lid := panel("bottom", v(0, -5, 0), v(10, 5, 1)), panel("lid", v(0, -5, 9), v(10, 5, 10))
	side := panel("side", v(0, 4, 0), v(10, 5, 10))
	side.Mirrored = true
	flush := panel("side", v(1, 4, 1), v(9, 5, 9))
	flush.Mirrored = true
	bow, stern := panel("bow", v(9, -5, 0), v(10, 5, 10)), panel("stern", v(0, -5, 0), v(1, 5, 10))
	ajar := panel("lid", v(0, -5, 10.01), v(10, 5, 11))
	tight := []string{"bottom", "side", "bow", "stern", "lid"}
	for _, tt := range []struct {
		name   string
		parts  []craft.Part
		volume float64
		center r3.Vec
		names  []string
	}{
		{"crossing", []craft.Part{bottom, side, bow, stern, lid}, 512, v(5, 0, 5), tight},
		{"flush", []craft.Part{bottom, flush, panel("bow", v(9, -5, 1), v(10, 5, 9)), panel("stern", v(0, -5, 1), v(1, 5, 9)), lid}, 512, v(5, 0, 5), tight},
		{"a block in it", []craft.Part{bottom, side, bow, stern, lid, panel("block", v(1, -4, 1), v(5, 4, 9))}, 256, v(7, 0, 5), []string{"bottom", "side", "bow", "lid", "block"}},
		{"no lid", []craft.Part{bottom, side, bow, stern}, 0, r3.Vec{}, nil},
		{"lid ajar", []craft.Part{bottom, side, bow, stern, ajar}, 0, r3.Vec{}, nil},
		{"one part", []craft.Part{bottom}, 0, r3.Vec{}, nil},
	} {
		c := &craft.Craft{Name: tt.name, Parts: tt.parts, Water: craft.Water{Density: 1000}}
		got, err := c.Pockets()
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if tt.volume == 0 {
			if len(got) > 0 {
				t.Errorf("%s: Pockets = %v, want none", tt.name, got)
			}
			continue
		}
		if len(got) != 1 || math.Abs(got[0].Volume-tt.volume) > 1e-9 || r3.Norm(r3.Sub(got[0].Center, tt.center)) > 1e-9 {
			t.Errorf("%s: Pockets = %v, want one of %g about %v", tt.name, got, tt.volume, tt.center)
			continue
		}
		var names []string
		for _, i := range got[0].Parts {
			names = append(names, c.Parts[i].Name)
		}
		if slices.Sort(names); !slices.Equal(names, slices.Sorted(slices.Values(tt.names))) {
			t.Errorf("%s: shut in by %q, want %q", tt.name, names, tt.names)
		}
	}
}

// The parts of the assembly meet and shut nothing in.
func TestAssemblyHasNoPockets(t *testing.T) {
	if got, err := assembly(t).Pockets(); err != nil || len(got) > 0 {
		t.Errorf("Pockets = %v, %v; want none", got, err)
	}
}
