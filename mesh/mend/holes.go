package mend

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	usualHole   = 0.01 // share of the shell's area
	usualPlanar = 1e-3 // share of the hole's size
	// mostHoles is how many holes are looked at for closing: a surface with
	// more is in pieces.
	mostHoles = 1000
	// mostDoubt is the largest share of the volume that closing holes may leave
	// uncertain: with more, no answer is worth having.
	mostDoubt = 0.1
)

// closeHoles closes the holes that the options allow, all or none, and reports
// what holes there are.
func (w *work) closeHoles() error {
	loops := w.loops()
	figures := make([]figure, len(loops))
	caps := make([][][3]uint32, len(loops))
	areas := w.shellAreas()
	holes := make([]Hole, len(loops))
	budget := mostTests
	rim := w.rim()
	for i, l := range loops {
		figures[i] = w.figure(l)
		f := &figures[i]
		holes[i] = Hole{Edges: len(l), Size: f.Size, Center: f.Center, Area: norm(f.Area), OffPlane: f.OffPlane}
		if len(loops) > mostHoles {
			holes[i].Why = fmt.Sprintf("there are too many holes (limit %d)", mostHoles)
			continue
		}
		w.judgeHole(&holes[i], f, areas[l[0]], &caps[i], &budget)
		holes[i].Doubt = holes[i].Area*holes[i].OffPlane + w.bulge(f, rim)
	}
	if len(loops) <= mostHoles {
		markRings(holes, figures)
		w.limitSum(holes)
	}
	w.report.Holes = holes
	for i := range holes {
		if holes[i].Why != "" {
			return w.holesError()
		}
	}
	for i := range holes {
		h := &holes[i]
		h.Closed = true
		for _, t := range caps[i] {
			w.add(t)
		}
		w.report.VolumeDoubt += h.Doubt
		w.tellHole(h)
	}
	w.connect()
	if err := w.orient(); err != nil {
		return err
	}
	if len(w.openSides()) > 0 {
		for i := range holes {
			holes[i].Closed, holes[i].Why = false, "the facets around it do not fit together"
		}
		return w.holesError()
	}
	return nil
}

// tellHole says how a hole was closed.
func (w *work) tellHole(h *Hole) {
	u := unit(w.opt.Unit)
	how := "planar"
	if !w.planar(h) {
		how = u.length(h.OffPlane) + " off its mean plane"
	}
	if h.Doubt > 1e-6*h.Area*h.Size {
		how += ", volume uncertain by up to " + u.volume(h.Doubt)
	}
	w.mended("closed a hole of %s, %s across, %s of its shell's surface, near %s (%s)",
		count(h.Edges, "edge"), u.length(h.Size), percent(h.Share), place(h.Center), how)
}

// limitSum marks the largest of the holes when together they are more of the
// whole surface than one may be of its shell's.
func (w *work) limitSum(holes []Hole) {
	whole, sum, worst := areaOf(w.verts, w.tris), 0.0, 0
	for i := range holes {
		sum += holes[i].Area
		if holes[i].Area > holes[worst].Area {
			worst = i
		}
	}
	if h := &holes[worst]; sum > w.maxHole()*whole && h.Why == "" {
		h.Why = fmt.Sprintf("all holes together are %s of the surface (limit %s)", percent(sum/whole), percent(w.maxHole()))
	}
}

// maxHole returns the largest share of a hole.
func (w *work) maxHole() float64 {
	if w.opt.MaxHole == 0 {
		return usualHole
	}
	return w.opt.MaxHole
}

// judgeHole works out the facets that would close a hole, and why it may not
// be closed.
func (w *work) judgeHole(h *Hole, f *figure, shellArea float64, closed *[][3]uint32, budget *int) {
	limit := w.maxHole()
	if shellArea <= 0 {
		shellArea = h.Area
	}
	h.Share = h.Area / shellArea
	switch {
	case len(f.corners) > mostCorners:
		h.Why = fmt.Sprintf("its edge has %d corners (limit %d)", len(f.corners), mostCorners)
	case !w.planar(h) && !w.opt.NonPlanar:
		h.Why = fmt.Sprintf("it is not planar (%s off its mean plane)", unit(w.opt.Unit).length(h.OffPlane))
	case limit < 0:
		h.Why = "no hole is to be closed"
	case h.Share > limit:
		h.Why = fmt.Sprintf("it is %s of its shell's surface (limit %s)", percent(h.Share), percent(limit))
	}
	if h.Why != "" {
		return
	}
	tris, ok := f.cut(budget)
	if !ok {
		h.Why = "its edge crosses itself, or is too long and winding"
		return
	}
	*closed = tris
	h.Area = areaOf(w.verts, tris)
	if h.Share = h.Area / shellArea; h.Share > limit {
		h.Why = fmt.Sprintf("it is %s of its shell's surface (limit %s)", percent(h.Share), percent(limit))
	}
}

// planar reports whether a hole counts as planar.
func (w *work) planar(h *Hole) bool {
	tol := w.opt.Planar
	if tol == 0 {
		tol = usualPlanar
	}
	return h.OffPlane <= tol*h.Size
}

// markRings marks holes of which one lies around the other in one plane: what
// is missing is a ring, and to close each loop by itself would close the bore
// as well.
func markRings(holes []Hole, figures []figure) {
	for i := range figures {
		f := &figures[i]
		if holes[i].Why != "" || f.Normal == (r3.Vec{}) {
			continue
		}
		for j := range figures {
			g := &figures[j]
			if i == j || g.Size >= f.Size || g.Normal == (r3.Vec{}) {
				continue
			}
			level := math.Abs(r3.Dot(f.Normal, r3.Sub(g.Center, f.Center))) < 0.01*f.Size
			parallel := math.Abs(r3.Dot(f.Normal, g.Normal)) > 0.99
			if level && parallel && f.Encloses(g.Points[0]) {
				const why = "it lies around another hole in the same plane: a ring is missing"
				holes[i].Why = why
			}
		}
	}
}

// shellAreas returns, by vertex, the area of the shell that uses it; where
// shells meet, that of one of them.
func (w *work) shellAreas() map[uint32]float64 {
	areas := make([]float64, len(w.shells))
	for t := range w.tris {
		a, _ := area(w.triangle(uint32(t)))
		areas[w.shell[t]] += a
	}
	byVertex := make(map[uint32]float64)
	for _, h := range w.openSides() {
		from, _ := w.ends(h)
		byVertex[from] = max(byVertex[from], areas[w.shell[h/3]])
	}
	return byVertex
}

// holesError describes the holes that are not to be closed.
func (w *work) holesError() error {
	e := &HolesError{
		Name: w.name, Unit: w.opt.Unit,
		OpenEdges: len(w.openSides()), SharedEdges: w.report.SharedEdges, Of: len(w.shells),
	}
	open := make(map[uint32]bool)
	for _, h := range w.openSides() {
		open[w.shell[h/3]] = true
	}
	e.Shells = len(open)
	for _, h := range w.report.Holes {
		if h.Why == "" {
			continue
		}
		e.Holes++
		if e.Largest.Why == "" || h.Size > e.Largest.Size {
			e.Largest = h
		}
	}
	return e
}

// doubtError refuses holes that were closed, because nobody can tell by how
// much the volume is off.
func (w *work) doubtError() error {
	worst := 0
	for i := range w.report.Holes {
		h := &w.report.Holes[i]
		h.Closed = false
		h.Why = fmt.Sprintf("closing it leaves the volume uncertain by up to %s (limit %s for all)", percent(h.Doubt/w.report.Volume), percent(mostDoubt))
		if h.Doubt > w.report.Holes[worst].Doubt {
			worst = i
		}
	}
	return &HolesError{
		Name: w.name, Unit: w.opt.Unit, OpenEdges: w.report.OpenEdges, Holes: len(w.report.Holes),
		Largest: w.report.Holes[worst], SharedEdges: w.report.SharedEdges, Of: len(w.shells), Shells: len(w.shells),
	}
}
