package mend

import (
	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// shutIn fills the spaces that shells which cross or lie on each other shut in
// between them, such as the inside of a box that was drawn as six panels: water
// reaches them as little as a cavity in one shell, and the mesh, written out
// and read again, shows them as just that. They, and what lies in them, are
// added to the shells.
func (w *work) shutIn(united *mesh.Solid) (*mesh.Solid, error) {
	u := &work{name: w.name, opt: Options{MaxHole: -1, Junction: -1, Unit: w.opt.Unit}, first: true}
	m := &mesh.Mesh{Name: w.name, Vertices: make([]r3.Vec, united.Vertices()), Triangles: make([][3]uint32, united.Triangles())}
	for i := range m.Vertices {
		m.Vertices[i] = united.Vertex(i)
	}
	for i := range m.Triangles {
		m.Triangles[i] = united.Corners(i)
	}
	var err error
	if u.verts, u.tris, err = weld(m); err != nil {
		return nil, err
	}
	if err := u.closeUp(); err != nil {
		return united, nil // not to be told apart: it stays as it is
	}
	list, start := u.settleShells()
	found := false
	for i := range u.shells {
		found = found || u.shells[i].Inverted
	}
	if !found {
		return united, nil
	}
	s, err := u.finish(list, start)
	if err != nil {
		return nil, err
	}
	w.report.Shut = max(0, s.Volume()-united.Volume()) // but for rounding it is more
	w.tellShut(u.shells, s.Volume())
	return s, nil
}

// tellShut adds the shells that lie within others to the report, but for those
// of no account, and says so.
func (w *work) tellShut(within []Shell, volume float64) {
	added := make(map[int]int) // from number in within to number in the report
	for i, s := range within {
		if s.Kind != Cavity && s.Kind != Inner || s.Volume <= trifle*volume {
			continue
		}
		added[i] = len(w.shells)
		w.shells = append(w.shells, s)
		if s.Kind == Cavity {
			u := unit(w.opt.Unit)
			w.mended("took the space of %s near %s, which shells that meet shut in, for a cavity (shell %d): unless it is vented, water does not reach it and they displace as if full",
				u.volume(s.Volume), place(s.Centroid), len(w.shells))
		}
	}
	for i := range within {
		n, ok := added[i]
		if !ok {
			continue
		}
		s := &w.shells[n]
		if parent, ok := added[s.Parent]; ok {
			s.Parent = parent
		} else {
			s.Parent = -1 // what was united is in several shells
		}
	}
	w.report.Shells = w.shells
}
