package mend

import (
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// A box of 10 made of six panels that are 1 thick is as tight as one with a
// cavity of 8, whether its panels cross or lie flush. With a panel left out or
// a gap, water gets in.
func TestPanels(t *testing.T) {
	bottom, lid := brick(0, 0, 0, 10, 10, 1), brick(0, 0, 9, 10, 10, 10)
	crossing := shape.Join(bottom, brick(0, 0, 0, 1, 10, 10), brick(9, 0, 0, 10, 10, 10), brick(0, 0, 0, 10, 1, 10), brick(0, 9, 0, 10, 10, 10))
	flush := shape.Join(bottom, brick(0, 0, 1, 1, 10, 9), brick(9, 0, 1, 10, 10, 9), brick(1, 0, 1, 9, 1, 9), brick(1, 9, 1, 9, 10, 9))
	ballast := brick(3, 3, 3, 5, 5, 5)
	for _, c := range []struct {
		name         string
		m            *mesh.Mesh
		volume, shut float64
		vented       float64 // the volume when water reaches the inside
	}{
		{"crossing", shape.Join(crossing, lid), 1000, 512, 488},
		{"flush", shape.Join(flush, lid), 1000, 512, 488},
		{"flush, inside out", shape.InsideOut(shape.Soup(shape.Join(flush, lid))), 1000, 512, 488},
		{"with ballast", shape.Join(crossing, lid, ballast), 1000, 504, 496},
		{"no lid", shape.Join(crossing, ballast), 1000 - 512 - 64 + 8, 0, 0},
		{"lid ajar", shape.Join(flush, shape.Transformed(lid, mesh.Translation(r3.Vec{Z: 0.01}))), 488, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			res := mustClose(t, c.m, Options{})
			wantVolume(t, "volume", res.Volume, c.volume)
			wantVolume(t, "solid's volume", res.Solid.Volume(), c.volume)
			wantVolume(t, "shut in", res.Shut, c.shut)
			if said(res.Mended, "which shells that meet shut in, for a cavity") != (c.shut > 0) {
				t.Errorf("said %q", res.Mended)
			}
			n, triangle := res.Repaired()
			var tris []r3.Triangle
			for i := range n {
				tris = append(tris, triangle(i))
			}
			again := mustClose(t, raw(tris...), Options{MaxHole: -1, Junction: -1})
			wantVolume(t, "volume when read again", again.Volume, c.volume)
			for name, r := range map[string]*Result{"as read": res, "when read again": again} {
				s, _, err := r.Vent([]r3.Vec{{X: 7, Y: 7, Z: 7}})
				if c.shut == 0 {
					if err == nil {
						t.Errorf("%s: a cavity where water gets in", name)
					}
					continue
				}
				if err != nil {
					t.Fatalf("%s: Vent = %v", name, err)
				}
				wantVolume(t, "vented volume "+name, s.Volume(), c.vented)
			}
		})
	}
}
