package mend

import (
	"errors"
	"fmt"

	"millpond/mesh"
	"millpond/mesh/overlap"

	"gonum.org/v1/gonum/spatial/r3"
)

// trifle is the share of the volume below which crossings are not worth a
// word: facets that rounding or a fillet pushed through their neighbors.
const trifle = 1e-6

// unite replaces the triangles by the surface of all they wind around, where
// they pass through themselves, so that water is displaced once. Shells that
// do not touch the others are unchanged.
func (w *work) unite(tris [][3]uint32, single bool) (*mesh.Solid, error) {
	verts, tris := compact(w.verts, tris)
	own, tris, crossings, err := overlap.Once(verts, tris, single)
	var tooMany *overlap.TooManyError
	switch {
	case errors.As(err, &tooMany):
		return nil, &InputError{w.name, -1, "it passes through itself too often to be put right, with " + tooMany.Error()}
	case err != nil:
		return nil, &InputError{w.name, -1, "it passes through itself and cannot be put right: join its bodies in the CAD program and export one"}
	}
	w.report.Crossing, w.report.Extra = crossings.Facets, crossings.Extra
	s, err := mesh.NewSolid(own, tris)
	if err != nil {
		return nil, fmt.Errorf("%s%w", prefix(w.name), err)
	}
	w.tellCrossing(s.Volume())
	return s, nil
}

// compact returns the triangles with vertices of their own, numbered in order
// of appearance.
func compact(verts []r3.Vec, list [][3]uint32) ([]r3.Vec, [][3]uint32) {
	scratch := make([]uint32, len(verts))
	for i := range scratch {
		scratch[i] = none
	}
	return renumber(verts, list, scratch)
}

// tellCrossing says what counting once has taken away.
func (w *work) tellCrossing(volume float64) {
	u := unit(w.opt.Unit)
	if w.report.Extra > trifle*volume {
		w.mended("%s cross or lie on others: %s that the surface winds around more than once is counted once (%s of the volume)",
			count(w.report.Crossing, "facet"), u.volume(w.report.Extra), percent(w.report.Extra/volume))
	}
	if w.report.Extra < -trifle*volume {
		w.mended("%s cross or lie on others: %s that the surface encloses inside out is left out",
			count(w.report.Crossing, "facet"), u.volume(-w.report.Extra))
	}
	for _, p := range w.report.Pairs {
		a, b := &w.shells[p.A], &w.shells[p.B]
		if p.Relation == Crossing && a.Kind == Outer && b.Kind == Outer && a.Inverted != b.Inverted {
			w.report.Warnings = append(w.report.Warnings, fmt.Sprintf(
				"shells %d and %d cross and one of them was inside out: it was turned and counts as solid; if it was meant as a pocket, cut it in the CAD program",
				p.A+1, p.B+1))
		}
	}
}
