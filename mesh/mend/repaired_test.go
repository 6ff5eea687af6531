package mend

import (
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gonum.org/v1/gonum/spatial/r3"
)

// What is written out is the same body when it is read again, and then needs no
// mending.
func TestRepaired(t *testing.T) {
	outer, cavity, core := brick(0, 0, 0, 8, 6, 4), shape.InsideOut(brick(1, 1, 1, 7, 5, 3)), brick(2, 2, 1.5, 4, 3, 2)
	void := shape.InsideOut(brick(2.5, 2.2, 1.6, 3, 2.8, 1.8))
	apart := brick(10, 0, 0, 12, 1, 1)
	for _, c := range []struct {
		name   string
		m      *mesh.Mesh
		opt    Options
		volume float64
		inside float64 // material
		mended bool
	}{
		{"sound", outer, Options{}, 192, 192, false},
		{"nested, upside down", shape.InsideOut(shape.Join(void, core, apart, cavity, outer)), Options{}, 194, 194 - 48 + 2*1*0.5 - 0.5*0.6*0.2, true},
		{"open, flipped and doubled", flipped(shape.Join(shape.Without(outer, 0), cavity, outer), 3, 5), Options{MaxHole: 1}, 192, 144, true},
		{"crossing", shape.Join(outer, brick(7, 5, 3, 9, 7, 5)), Options{}, 199, 199, true},
	} {
		res := mustClose(t, c.m, c.opt)
		n, triangle := res.Repaired()
		var tris []r3.Triangle
		for i := range n {
			tris = append(tris, triangle(i))
		}
		again := mustClose(t, raw(tris...), Options{MaxHole: -1})
		wantVolume(t, c.name+": volume", again.Volume, c.volume)
		wantVolume(t, c.name+": material", again.Material, c.inside)
		if (len(res.Mended) > 0) != c.mended {
			t.Errorf("%s: first mended %q", c.name, res.Mended)
		}
		if again.OpenEdges+again.Inconsistent+again.Duplicates+again.Flipped+again.Degenerate != 0 {
			t.Errorf("%s: found in what was written: %+v", c.name, again.Report)
		}
		var kinds [2][]Kind
		for k, r := range []*Result{res, again} {
			for _, s := range r.Shells {
				if s.Kind == Cavity || s.Kind == Inner {
					kinds[k] = append(kinds[k], s.Kind)
				}
			}
		}
		if diff := cmp.Diff(kinds[0], kinds[1], cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s: kinds of shells within (-first +again):\n%s", c.name, diff)
		}
	}
}
