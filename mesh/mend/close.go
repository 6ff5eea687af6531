package mend

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"millpond/mesh"
)

// Close turns a mesh as read into a closed solid, and reports what it found and
// did. The mesh is left as it is.
//
// Where it fails the error is an [*InputError], [*HolesError], [*SideError] or
// [*EmptyError], and the result, without a Solid, still holds the report as far
// as it went; only for an InputError it may be nil.
func Close(m *mesh.Mesh, opt Options) (*Result, error) {
	res, err := closeMesh(m, opt)
	var holes *HolesError
	if errors.As(err, &holes) && holes.OpenEdges <= mostHinted {
		seekCure(m, opt, res, holes)
	}
	return res, err
}

func closeMesh(m *mesh.Mesh, opt Options) (*Result, error) {
	w := &work{name: m.Name, opt: opt, first: true}
	w.report.Triangles = len(m.Triangles)
	var err error
	if w.verts, w.tris, err = weld(m); err != nil {
		return nil, err
	}
	if len(w.tris) == 0 {
		return &Result{Report: w.report}, &EmptyError{w.name, "it has no triangles"}
	}
	w.report.Vertices = len(w.verts)
	all := boxOf(w.verts...)
	w.report.Box, w.size, w.far = all.r3(), all.diagonal(), all.farthest()
	err = w.closeUp()
	w.tellDropped()
	list, start := w.settleShells()
	if err != nil {
		return &Result{Report: w.report}, err
	}
	s, err := w.finish(list, start)
	return &Result{Solid: s, Report: w.report}, err
}

// closeUp goes from welded triangles to closed shells.
func (w *work) closeUp() error {
	w.connect()
	w.report.Slivers = len(w.slivers())
	w.report.SharedEdges = len(w.fans)
	if len(w.tris) == 0 {
		return &EmptyError{w.name, "no facet is left: each has two equal corners, or another facet at its back"}
	}
	if err := w.orient(); err != nil {
		return err
	}
	w.report.OpenEdges = len(w.openSides())
	if w.report.OpenEdges == 0 {
		return nil
	}
	if err := w.dropLoose(); err != nil {
		return err
	}
	if w.opt.Weld > 0 && len(w.openSides()) > 0 {
		if err := w.mergeNear(); err != nil {
			return err
		}
	}
	if tol := w.junctionTolerance(); tol >= 0 && len(w.openSides()) > 0 {
		if err := w.splitJunctions(tol); err != nil {
			return err
		}
	}
	if len(w.openSides()) > 0 {
		return w.closeHoles()
	}
	return nil
}

func (w *work) junctionTolerance() float64 {
	if w.opt.Junction != 0 {
		return w.opt.Junction
	}
	return max(1e-6*w.size, coordinateNoise*w.far, w.opt.Weld)
}

// tellDropped puts what was dropped first among what was mended.
func (w *work) tellDropped() {
	r := &w.report
	after := r.Mended
	r.Mended = nil
	if r.Degenerate > 0 {
		w.mended("dropped %s with two equal corners", count(r.Degenerate, "facet"))
	}
	if r.Duplicates > 0 {
		w.mended("dropped %s that %s there twice", count(r.Duplicates, "facet"), were(r.Duplicates))
	}
	if r.Fins > 0 {
		w.mended("dropped %s of facets back to back, which bound no volume", count(r.Fins, "pair"))
	}
	if r.Loose > 0 {
		w.mended("dropped %s without area that had no place in the surface", count(r.Loose, "facet"))
	}
	r.Mended = append(r.Mended, after...)
}

func (w *work) mended(format string, args ...any) {
	w.report.Mended = append(w.report.Mended, fmt.Sprintf(format, args...))
}

// settleShells measures the shells and puts them in order: the longest box
// diagonal first, then by place, so that their numbers do not depend on the
// order of the triangles. It returns the triangles by shell in that order.
func (w *work) settleShells() (list, start []uint32) {
	if len(w.shell) != len(w.tris) { // nothing was flooded yet
		return nil, nil
	}
	list, start = w.measure()
	order := make([]int, len(w.shells))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		a, b := &w.shells[i], &w.shells[j]
		p, q := fromR3(a.Box), fromR3(b.Box)
		return cmp.Or(cmp.Compare(q.diagonal(), p.diagonal()), compareVec(a.Box.Min, b.Box.Min), compareVec(a.Box.Max, b.Box.Max),
			cmp.Compare(b.Triangles, a.Triangles), cmp.Compare(i, j))
	})
	shells := make([]Shell, len(order))
	sortedList := make([]uint32, 0, len(list))
	sortedStart := make([]uint32, 0, len(start))
	for i, o := range order {
		shells[i] = w.shells[o]
		sortedStart = append(sortedStart, uint32(len(sortedList)))
		sortedList = append(sortedList, list[start[o]:start[o+1]]...)
	}
	w.shells, w.shell = shells, nil
	w.report.Shells = shells
	return sortedList, append(sortedStart, uint32(len(sortedList)))
}

// finish sorts out which shells displace and makes the solid of them.
func (w *work) finish(list, start []uint32) (*mesh.Solid, error) {
	if w.report.Flipped > 0 {
		w.mended("turned %s that faced the other way than the rest of the shell", count(w.report.Flipped, "facet"))
	}
	surfaces := make([]*surface, len(w.shells))
	for i := range w.shells {
		if len(w.shells) > 1 || w.shells[i].SharedEdges > 0 {
			surfaces[i] = w.shellSurface(list[start[i]:start[i+1]], w.shells[i].Box)
		}
	}
	if err := w.nest(surfaces); err != nil {
		return nil, err
	}
	w.tellNesting()
	w.mate, w.fans = nil, nil // let the memory go
	scratch := make([]uint32, len(w.verts))
	for i := range scratch {
		scratch[i] = none
	}
	tris := make([][3]uint32, 0, len(list))
	for i := range w.shells {
		s := &w.shells[i]
		switch s.Kind {
		case Outer:
			for _, t := range list[start[i]:start[i+1]] {
				tris = append(tris, w.tris[t])
			}
		case Cavity, Inner:
			var err error
			if s.Solid, err = solid(w.verts, surfaces[i].tris, scratch); err != nil {
				return nil, fmt.Errorf("%s%w", prefix(w.name), err)
			}
		}
	}
	if len(tris) == 0 {
		return nil, w.noThickness()
	}
	out, err := w.unite(tris, len(w.shells) == 1 && w.shells[0].SharedEdges == 0)
	if err != nil {
		return nil, err
	}
	if w.report.Crossing > 0 {
		if out, err = w.shutIn(out); err != nil {
			return nil, err
		}
	}
	w.report.Kept, w.report.Volume, w.report.Area = out.Triangles(), out.Volume(), out.Area()
	// Shells that are each just thick enough may be too thin once they are
	// joined, since what is thin is told by the size of the whole.
	if b := fromR3(out.Box()); thin(out.Volume(), out.Area(), &b) {
		return nil, w.noThickness()
	}
	if w.report.VolumeDoubt > mostDoubt*w.report.Volume {
		return nil, w.doubtError()
	}
	if w.report.VolumeDoubt > 1e-4*w.report.Volume {
		w.report.Warnings = append(w.report.Warnings, fmt.Sprintf("closing holes leaves the volume uncertain by up to %s (%s)",
			unit(w.opt.Unit).volume(w.report.VolumeDoubt), percent(w.report.VolumeDoubt/w.report.Volume)))
	}
	return out, nil
}

func (w *work) noThickness() error {
	return &EmptyError{w.name, "it is closed but bounds no volume: it has no thickness"}
}
