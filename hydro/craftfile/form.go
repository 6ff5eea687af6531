package craftfile

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// form reads what a part is made of: a mesh, or a simple shape by its corners
// in the part's own axes, so that a strip, a pad or a wedge can be tried on
// before it is glued on.
func (t *table) form(index int, p *craft.Part) {
	t.has("mesh") // first in the list of what is known
	boxed, wedged := t.has("box"), t.has("wedge")
	if !boxed && !wedged {
		t.meshes = append(t.meshes, t.mesh(index))
		return
	}
	for _, key := range []string{"mesh", "unit", "forward", "up", "weld", "close_holes", "close_curved_holes", "vented"} {
		if t.has(key) {
			t.fail(t.place(key), "%s is a shape by its corners, so it has no %s; its lengths carry their unit or are in the file's length_unit", t.what, key)
		}
	}
	p.Drawn = mesh.Identity()
	if boxed && wedged {
		t.fail(t.place("wedge"), "%s is a box and a wedge; keep one of the two", t.what)
		return
	}
	if boxed {
		p.Solid = t.box()
	} else {
		p.Solid = t.wedge()
	}
}

// box reads a box by two opposite corners. It returns nil when there is none
// that can be used.
func (t *table) box() *mesh.Solid {
	c, ok := t.corners("box", 2, `[["0 mm", "-10 mm", "0 mm"], ["200 mm", "10 mm", "5 mm"]]`)
	if !ok {
		return nil
	}
	lo := r3.Vec{X: min(c[0].X, c[1].X), Y: min(c[0].Y, c[1].Y), Z: min(c[0].Z, c[1].Z)}
	hi := r3.Vec{X: max(c[0].X, c[1].X), Y: max(c[0].Y, c[1].Y), Z: max(c[0].Z, c[1].Z)}
	if size := r3.Sub(hi, lo); min(size.X, size.Y, size.Z) < shortestLine {
		t.fail(t.place("box"), "%s is a box without volume: its two corners must differ in x, y and z", t.what)
		return nil
	}
	m := shape.BoxBetween(lo, hi)
	return t.solid("box", m.Vertices, m.Triangles)
}

// wedge reads a wedge by its six corners: a triangle, and the triangle at the
// other end, its corners in the same order. It returns nil when there is none
// that can be used.
func (t *table) wedge() *mesh.Solid {
	c, ok := t.corners("wedge", 6, `[[x, y, z] three times for one end, [x, y, z] three times for the other end in the same order]`)
	if !ok {
		return nil
	}
	sides := [][3]uint32{
		{0, 2, 1}, {3, 4, 5},
		{0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5},
	}
	volume := 0.0
	for _, s := range sides {
		volume += r3.Dot(r3.Sub(c[s[0]], c[0]), r3.Cross(r3.Sub(c[s[1]], c[0]), r3.Sub(c[s[2]], c[0])))
	}
	if volume < 0 { // the ends were given the other way round
		for i, s := range sides {
			sides[i] = [3]uint32{s[0], s[2], s[1]}
		}
	}
	return t.solid("wedge", c, sides)
}

// solid makes a part's solid of corners and sides.
func (t *table) solid(key string, corners []r3.Vec, sides [][3]uint32) *mesh.Solid {
	s, err := mesh.NewSolid(corners, sides)
	size := 0.0
	if err == nil {
		size = r3.Norm(s.Box().Size())
	}
	if err != nil || s.Volume() < 1e-9*size*size*size {
		t.fail(t.place(key), "%s is a %s without volume; are its corners in order?", t.what, key)
		return nil
	}
	return s
}

// corners reads a list of places.
func (t *table) corners(key string, n int, example string) ([]r3.Vec, bool) {
	e := t.get(key)
	if !t.is(e.value, aList, t.of(key), key+" = "+example) {
		return nil, false
	}
	if len(e.value.items) != n {
		t.fail(e.at, "%s needs %d corners and has %d; write %s = %s", t.of(key), n, len(e.value.items), key, example)
		return nil, false
	}
	all := true
	out := make([]r3.Vec, n)
	for i, item := range e.value.items {
		label := t.of(fmt.Sprintf("corner %d of %s", i+1, key))
		if item.kind != aList || len(item.items) != 3 {
			t.fail(e.at, "%s needs three values, x forward, y to port and z up", label)
			return nil, false
		}
		var v [3]float64
		for k, n := range item.items {
			var ok bool
			v[k], ok = t.number(n, fmt.Sprintf("%s (%c)", label, 'x'+k), unit.Length, anything)
			all = all && ok
		}
		out[i] = r3.Vec{X: v[0], Y: v[1], Z: v[2]}
	}
	return out, all
}
