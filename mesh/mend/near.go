package mend

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// mostWeld is the largest tolerance taken for welding, as a share of the box's
// diagonal: beyond that, shape is lost.
const mostWeld = 0.01

// mergeNear merges vertices on open edges that lie within the tolerance of each
// other. Vertices are taken in order of x, y and z; each moves to the nearest
// of those that stayed before it, if one is within the tolerance, and stays
// otherwise. So none moves farther than that, and the order of the triangles
// does not matter.
func (w *work) mergeNear() error {
	tol := w.opt.Weld
	if tol > mostWeld*w.size {
		return &InputError{w.name, -1, fmt.Sprintf("the weld tolerance of %s is more than %s of its size; it would lose its shape",
			unit(w.opt.Unit).length(tol), percent(mostWeld))}
	}
	open := w.openVertices()
	slices.SortFunc(open, func(a, b uint32) int { return compareVec(w.verts[a], w.verts[b]) })
	// Cells are several tolerances wide, so that most points need a look into
	// one or two of them only.
	type cell [3]int64
	const width = 4
	cellOf := func(p r3.Vec) cell {
		along := func(x float64) int64 { return int64(math.Floor(x / (width * tol))) }
		return cell{along(p.X), along(p.Y), along(p.Z)}
	}
	margin := r3.Vec{X: tol, Y: tol, Z: tol}
	stayed := make(map[cell][]uint32) // not many in each cell, since they are a tolerance apart
	moved := make(map[uint32]uint32)
	for _, v := range open {
		p := w.verts[v]
		lo, hi := cellOf(r3.Sub(p, margin)), cellOf(r3.Add(p, margin))
		best, distance := none, math.Inf(1)
		for x := lo[0]; x <= hi[0]; x++ {
			for y := lo[1]; y <= hi[1]; y++ {
				for z := lo[2]; z <= hi[2]; z++ {
					for _, u := range stayed[cell{x, y, z}] {
						if d := norm(r3.Sub(w.verts[u], p)); d <= tol && d < distance {
							best, distance = u, d
						}
					}
				}
			}
		}
		if best == none {
			c := cellOf(p)
			stayed[c] = append(stayed[c], v)
			continue
		}
		moved[v] = best
		w.report.MergeMove = max(w.report.MergeMove, distance)
	}
	if len(moved) == 0 {
		return nil
	}
	w.report.Merged += len(moved)
	for t := range w.tris {
		for k, v := range w.tris[t] {
			if u, ok := moved[v]; ok {
				w.tris[t][k] = u
			}
		}
	}
	u := unit(w.opt.Unit)
	w.mended("merged %s with a near one, moving none farther than %s (tolerance %s)",
		count(len(moved), "vertex"), u.length(w.report.MergeMove), u.length(tol))
	w.connect()
	return w.orient()
}

// openVertices returns the ends of open sides, each once.
func (w *work) openVertices() []uint32 {
	var list []uint32
	for _, h := range w.openSides() {
		from, to := w.ends(h)
		list = append(list, from, to)
	}
	slices.Sort(list)
	return slices.Compact(list)
}
