package mesh

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Silhouette is the outline of placed solids seen along a level direction: what
// the solids together hide of a background, each place counted once however
// many surfaces lie behind one another.
//
// It is kept as strips of equal height. The breadth that is hidden at the
// middle of each strip is exact for the mesh: a slice of closed solids hides
// the union of the spans of the segments in which it cuts their triangles. Only
// from strip to strip the breadth is taken as constant.
type Silhouette struct {
	low, step float64
	strips    []strip // from the lowest up
	err       float64
}

// strip is one strip and all that lies above its lower edge.
type strip struct {
	breadth      float64 // hidden at the middle of the strip
	across       float64 // ∫ u du over what is hidden there
	area, up, to float64 // of all from this strip on: area, ∫ height dA, ∫ u dA
}

// Strips is a number of strips that serves for craft. Of an edge that lies level
// up to half a strip is taken too much or too little, a thousandth of the whole
// height; for one that slopes by some strips it is far less.
const Strips = 512

// NewSilhouette returns the silhouette of the solids seen along the unit vector
// along, with up a unit vector at right angles to it, in the given number of
// strips (one at least). Heights are up.p and places across are (up x along).p,
// with p relative to the point about.
func NewSilhouette(solids []Placed, along, up, about r3.Vec, strips int) *Silhouette {
	side := r3.Cross(up, along)
	outlines := make([]outline, len(solids))
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, p := range solids {
		o := project(p, side, up, about)
		for _, h := range o.height {
			lo, hi = min(lo, h), max(hi, h)
		}
		outlines[i] = o
	}
	s := &Silhouette{}
	if !(hi > lo) {
		return s
	}
	s.low, s.step = lo, (hi-lo)/float64(strips)
	lines := make([][]covered, strips)
	for i := range outlines {
		outlines[i].scan(s.low, s.step, lines)
	}
	s.strips = make([]strip, strips)
	for i, l := range lines {
		s.strips[i].breadth, s.strips[i].across = measure(l)
	}
	s.sum()
	return s
}

// sum fills the strips' totals from the top down.
func (s *Silhouette) sum() {
	var area, up, to, odd, even float64
	for i := len(s.strips) - 1; i >= 0; i-- {
		t := &s.strips[i]
		a := t.breadth * s.step
		area += a
		up += a * (s.low + (float64(i)+0.5)*s.step)
		to += t.across * s.step
		t.area, t.up, t.to = area, up, to
		if i%2 == 0 {
			even += 2 * a
		} else {
			odd += 2 * a
		}
	}
	s.err = math.Abs(odd-even) / 2
}

// Above returns the area of what lies above the given height, and its center:
// the place across and the height. The center of no area is at zero.
func (s *Silhouette) Above(height float64) (area, across, center float64) {
	if len(s.strips) == 0 {
		return 0, 0, 0
	}
	at := (height - s.low) / s.step
	i := int(math.Floor(at))
	switch {
	case at >= float64(len(s.strips)):
		return 0, 0, 0
	case at < 0:
		i = 0
		at = 0
	}
	// The strip's own share below the height is taken off again.
	t := &s.strips[i]
	under := (at - float64(i)) * s.step
	bottom := s.low + float64(i)*s.step
	area = t.area - t.breadth*under
	if area <= 0 {
		return 0, 0, 0
	}
	up := t.up - t.breadth*under*(bottom+under/2)
	to := t.to - t.across*under
	return area, to / area, up / area
}

// Error returns how far the whole area may be wrong for having been taken in
// strips: half the difference between what the odd and the even strips alone
// would make of it. It is an estimate and no bound.
func (s *Silhouette) Error() float64 { return s.err }

// outline is a placed solid projected on the picture.
type outline struct {
	solid          *Solid
	across, height []float64 // of every vertex
}

func project(p Placed, side, up, about r3.Vec) outline {
	s := p.Solid
	o := outline{solid: s, across: make([]float64, len(s.vertices)), height: make([]float64, len(s.vertices))}
	cu, cv := p.Place.Covector(side), p.Place.Covector(up)
	base := r3.Sub(p.image(r3.Vec{}), about)
	du, dv := r3.Dot(side, base), r3.Dot(up, base)
	for i, v := range s.vertices {
		o.across[i] = r3.Dot(cu, v) + du
		o.height[i] = r3.Dot(cv, v) + dv
	}
	return o
}

// covered is a span across that is hidden.
type covered struct{ from, to float64 }

// scan adds to each line, at the middle of its strip, the spans that the
// triangles hide there. A vertex at a line's height counts as above it.
func (o *outline) scan(low, step float64, lines [][]covered) {
	for _, t := range o.solid.triangles[:o.solid.skin] {
		h := [3]float64{o.height[t[0]], o.height[t[1]], o.height[t[2]]}
		u := [3]float64{o.across[t[0]], o.across[t[1]], o.across[t[2]]}
		// A line of sight that goes in through a closed surface comes out
		// again: the triangles that face one way hide all.
		if !((u[1]-u[0])*(h[2]-h[0]) > (u[2]-u[0])*(h[1]-h[0])) {
			continue
		}
		first := max(0, int(math.Ceil((min(h[0], h[1], h[2])-low)/step-0.5)))
		last := min(len(lines)-1, int(math.Floor((max(h[0], h[1], h[2])-low)/step-0.5)))
		for k := first; k <= last; k++ {
			v := low + (float64(k)+0.5)*step
			below := [3]bool{h[0] < v, h[1] < v, h[2] < v}
			lone := 0
			switch {
			case below[0] == below[1] && below[1] == below[2]:
				continue
			case below[0] == below[2]:
				lone = 1
			case below[0] == below[1]:
				lone = 2
			}
			a, b, c := lone, (lone+1)%3, (lone+2)%3
			p := u[a] + (v-h[a])/(h[b]-h[a])*(u[b]-u[a])
			q := u[a] + (v-h[a])/(h[c]-h[a])*(u[c]-u[a])
			if q < p {
				p, q = q, p
			}
			// Neighbors in a mesh are often neighbors in its list: most
			// spans only prolong the one before.
			l := lines[k]
			if n := len(l); n > 0 && p <= l[n-1].to && q >= l[n-1].from {
				l[n-1].from, l[n-1].to = min(l[n-1].from, p), max(l[n-1].to, q)
				continue
			}
			lines[k] = append(l, covered{p, q})
		}
	}
}

// measure returns the length of the union of spans and ∫ u du over it.
func measure(spans []covered) (length, moment float64) {
	slices.SortFunc(spans, func(a, b covered) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	for i := 0; i < len(spans); {
		s := spans[i]
		for i++; i < len(spans) && spans[i].from <= s.to; i++ {
			s.to = max(s.to, spans[i].to)
		}
		length += s.to - s.from
		moment += (s.to*s.to - s.from*s.from) / 2
	}
	return length, moment
}
