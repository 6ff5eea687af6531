package mend

import (
	"cmp"
	"fmt"
	"slices"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// mostPairs is how many pairs of shells whose boxes overlap are looked at.
const mostPairs = 100_000

// nest finds how the closed shells lie to each other, and from that the kind of
// each. The shells must be measured, turned outward and sorted. A single
// shell needs no surface.
func (w *work) nest(surfaces []*surface) error {
	var closed []int
	var of []*surface
	for i := range w.shells {
		if w.shells[i].Kind == Outer {
			closed = append(closed, i)
			of = append(of, surfaces[i])
		}
	}
	around := make([][]int, len(w.shells)) // the shells around each
	pairs, all := relations(of, mostPairs)
	if !all {
		return &InputError{w.name, -1, fmt.Sprintf("more than %d pairs of its %d shells lie over one another: join them in the CAD program and export one body", mostPairs, len(w.shells))}
	}
	for _, p := range pairs {
		p.A, p.B = closed[p.A], closed[p.B]
		w.report.Pairs = append(w.report.Pairs, p)
		switch p.Relation {
		case Inside:
			around[p.A] = append(around[p.A], p.B)
		case Contains:
			around[p.B] = append(around[p.B], p.A)
		case Same:
			w.shells[p.B].Kind = Double
		}
	}
	for _, i := range closed {
		w.placeShell(i, around)
	}
	w.material(closed)
	return nil
}

// placeShell sets depth, parent and kind of shell i.
func (w *work) placeShell(i int, around [][]int) {
	s := &w.shells[i]
	if s.Kind == Double {
		return
	}
	root := -1
	for _, j := range around[i] {
		if w.shells[j].Kind == Double {
			continue
		}
		s.Depth++
		if s.Parent < 0 || w.shells[j].Volume < w.shells[s.Parent].Volume {
			s.Parent = j
		}
		if root < 0 || w.shells[j].Volume > w.shells[root].Volume {
			root = j
		}
	}
	switch {
	case root < 0:
	case s.Inverted != w.shells[root].Inverted:
		s.Kind = Cavity
	default:
		s.Kind = Inner
	}
}

// material sums the volume of what the shells bound, cavities taken out: from
// the outside in, each shell switches between solid and empty, or does nothing
// where a solid lies in a solid.
func (w *work) material(closed []int) {
	order := slices.Clone(closed)
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(w.shells[i].Depth, w.shells[j].Depth) })
	filled := make([]bool, len(w.shells))
	for _, i := range order {
		s := &w.shells[i]
		if s.Kind == Double {
			continue
		}
		around := s.Parent >= 0 && filled[s.Parent]
		filled[i] = s.Kind != Cavity
		switch {
		case filled[i] && !around:
			w.report.Material += s.Volume
		case !filled[i] && around:
			w.report.Material -= s.Volume
		}
	}
}

// solid returns the given triangles as a solid with vertices of its own,
// numbered in order of appearance. Scratch holds none for every vertex, before
// and after.
func solid(verts []r3.Vec, list [][3]uint32, scratch []uint32) (*mesh.Solid, error) {
	return mesh.NewSolid(renumber(verts, list, scratch))
}

// renumber returns triangles with vertices of their own, numbered in order of
// appearance. Scratch holds none for every vertex, before and after.
func renumber(verts []r3.Vec, list [][3]uint32, scratch []uint32) ([]r3.Vec, [][3]uint32) {
	tris := make([][3]uint32, len(list))
	own := make([]r3.Vec, 0, len(list)/2+4)
	for i, t := range list {
		for k, v := range t {
			if scratch[v] == none {
				scratch[v] = uint32(len(own))
				own = append(own, verts[v])
			}
			tris[i][k] = scratch[v]
		}
	}
	for _, t := range list {
		for _, v := range t {
			scratch[v] = none
		}
	}
	return own, tris
}

// tellNesting says in words what was made of shells that are not outer ones.
func (w *work) tellNesting() {
	u := unit(w.opt.Unit)
	for i, s := range w.shells {
		if s.Inverted && s.Kind != Cavity {
			w.mended("turned shell %d, which was inside out", i+1)
		}
		switch s.Kind {
		case Cavity:
			w.mended("took shell %d, %s near %s, for a cavity in shell %d: unless it is vented, water does not reach it and shell %d displaces as if full",
				i+1, u.volume(s.Volume), place(s.Centroid), s.Parent+1, s.Parent+1)
		case Inner:
			w.mended("left out shell %d, a solid of %s within shell %d: it displaces nothing of its own",
				i+1, u.volume(s.Volume), s.Parent+1)
		case Double:
			w.mended("left out shell %d, which is the same as another", i+1)
		case Nothing:
			w.mended("left out shell %d near %s, which is closed but bounds no volume", i+1, place(s.Box.Center()))
		}
	}
}
