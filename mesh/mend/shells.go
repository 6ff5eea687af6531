package mend

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// byShell returns the triangles in order of their shell, those of shell i from
// start[i] to start[i+1].
func (w *work) byShell() (list, start []uint32) {
	start = make([]uint32, len(w.shells)+1)
	for _, s := range w.shell {
		start[s+1]++
	}
	for i := range w.shells {
		start[i+1] += start[i]
	}
	list = make([]uint32, len(w.tris))
	fill := make([]uint32, len(w.shells))
	copy(fill, start)
	for t, s := range w.shell {
		list[fill[s]] = uint32(t)
		fill[s]++
	}
	return list, start
}

// measure fills in what is known of each shell from its own facets, turns the
// shells that are inside out, and returns the triangles by shell.
func (w *work) measure() (list, start []uint32) {
	list, start = w.byShell()
	for _, fan := range w.fans {
		seen := make(map[uint32]bool, 2)
		for _, h := range fan {
			if s := w.shell[h/3]; !seen[s] {
				seen[s] = true
				w.shells[s].SharedEdges++
			}
		}
	}
	lastSeen := make([]uint32, len(w.verts)) // the last shell, plus one, that used a vertex
	for i := range w.shells {
		w.measureShell(uint32(i), list[start[i]:start[i+1]], lastSeen)
	}
	return list, start
}

func (w *work) measureShell(id uint32, tris []uint32, lastSeen []uint32) {
	s := &w.shells[id]
	box := emptyBox()
	points, sides := 0, 0
	for _, t := range tris {
		for k, v := range w.tris[t] {
			if w.mate[3*t+uint32(k)] == none {
				s.OpenEdges++
			}
			if lastSeen[v] == id+1 {
				continue
			}
			lastSeen[v] = id + 1
			points++
			box.add(w.verts[v])
		}
		if w.turned != nil && w.turned[t] {
			s.Flipped++
		}
	}
	sides = 3 * len(tris)
	s.Box = box.r3()
	s.Euler = points - (sides+s.OpenEdges)/2 + len(tris)
	// Measured from the middle of the shell's own box, so that a distant
	// origin costs no digits.
	mid := s.Box.Center()
	var six float64
	var four r3.Vec
	for _, t := range tris {
		c := w.tris[t]
		p, q, r := r3.Sub(w.verts[c[0]], mid), r3.Sub(w.verts[c[1]], mid), r3.Sub(w.verts[c[2]], mid)
		n := r3.Cross(r3.Sub(q, p), r3.Sub(r, p))
		s.Area += norm(n) / 2
		d := r3.Dot(p, n)
		six += d
		four = r3.Add(four, r3.Scale(d, r3.Add(p, r3.Add(q, r))))
	}
	switch {
	case s.OpenEdges > 0:
		s.Kind = Open
		return
	case thin(math.Abs(six)/6, s.Area, &box):
		s.Kind = Nothing
		return
	}
	s.Centroid = r3.Add(mid, r3.Scale(0.25/six, four))
	s.Volume = math.Abs(six) / 6
	if six < 0 {
		for _, t := range tris {
			c := &w.tris[t]
			c[1], c[2] = c[2], c[1]
		}
		s.Inverted = !w.even[id]
	}
}

// thin reports whether a closed surface of the given area, in the given box,
// bounds next to nothing.
func thin(volume, area float64, b *box) bool { return volume <= nothing*area*b.diagonal() }

// nothing is the volume, as a share of area times diagonal, below which a
// shell bounds nothing: a flat one sums to rounding errors of 1e-16, a foil a
// thousandth of a millimeter thick on a part of 10 m to 5e-8.
const nothing = 1e-12
