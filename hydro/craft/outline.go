package craft

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// outline is the cross-section of some solids in the plane across the craft's
// x axis: its straight pieces.
type outline struct {
	pieces [][2]r3.Vec
}

// sectionAt cuts solids across the craft at x.
func sectionAt(solids []mesh.Placed, x float64) outline {
	var o outline
	for _, s := range solids {
		s.Segments(mesh.Plane{Normal: r3.Vec{X: 1}, Offset: -x}, func(a, b r3.Vec) {
			o.pieces = append(o.pieces, [2]r3.Vec{a, b})
		})
	}
	return o
}

// keel returns the lowest point, and false for an empty section.
func (o outline) keel() (r3.Vec, bool) {
	low, ok := r3.Vec{Z: math.Inf(1)}, false
	for _, p := range o.pieces {
		for _, v := range p {
			if v.Z < low.Z {
				low, ok = v, true
			}
		}
	}
	return low, ok
}

// breadth returns the least and the largest y.
func (o outline) breadth() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range o.pieces {
		for _, v := range p {
			lo, hi = min(lo, v.Y), max(hi, v.Y)
		}
	}
	return lo, hi
}

// bottom returns the least z of the outline at y, and false where it has none.
func (o outline) bottom(y float64) (float64, bool) {
	low, ok := math.Inf(1), false
	for _, p := range o.pieces {
		a, b := p[0], p[1]
		if (a.Y < y) == (b.Y < y) {
			continue
		}
		z := a.Z + (b.Z-a.Z)*(y-a.Y)/(b.Y-a.Y)
		if z < low {
			low, ok = z, true
		}
	}
	return low, ok
}

// deadrise returns the slope of the bottom from the keel outward, rad, from a
// straight line through it, a fifth to three fifths of the half beam out from
// the middle line. It is NaN where there is no bottom to measure.
func (o outline) deadrise() float64 {
	lo, hi := o.breadth()
	middle, half := (lo+hi)/2, (hi-lo)/2
	if !(half > 0) {
		return math.NaN()
	}
	var ys, zs []float64
	for i := range 21 {
		d := half * (0.2 + 0.4*float64(i)/20)
		if z, ok := o.bottom(middle + d); ok {
			ys, zs = append(ys, d), append(zs, z)
		}
	}
	if len(ys) < 5 {
		return math.NaN()
	}
	return math.Atan(slope(ys, zs))
}

// slope returns the slope of the least-squares line through points.
func slope(x, y []float64) float64 {
	n := float64(len(x))
	var mx, my float64
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	var sxx, sxy float64
	for i := range x {
		sxx += (x[i] - mx) * (x[i] - mx)
		sxy += (x[i] - mx) * (y[i] - my)
	}
	return sxy / sxx
}

// keelLine is the lowest point at places along the craft, from stern to bow.
type keelLine struct{ x, z []float64 }

// keelOf follows the keel of solids at count places over their length.
func keelOf(solids []mesh.Placed, lo, hi float64, count int) keelLine {
	var k keelLine
	for i := range count {
		x := lo + (hi-lo)*(float64(i)+0.5)/float64(count)
		if p, ok := sectionAt(solids, x).keel(); ok {
			k.x, k.z = append(k.x, x), append(k.z, p.Z)
		}
	}
	return k
}

// fit returns the angle of the keel between two places, front end up positive,
// by a straight line through it; NaN with fewer than three points.
func (k keelLine) fit(from, to float64) float64 {
	var x, z []float64
	for i := range k.x {
		if k.x[i] >= from && k.x[i] <= to {
			x, z = append(x, k.x[i]), append(z, k.z[i])
		}
	}
	if len(x) < 3 {
		return math.NaN()
	}
	return math.Atan(slope(x, z))
}

// drop returns the index after which, going forward, the keel falls most from
// one place to the next: the step lies between it and the next one.
func (k keelLine) drop() (index int, depth float64) {
	index = -1
	for i := range len(k.x) - 1 {
		if d := k.z[i] - k.z[i+1]; d > depth {
			index, depth = i, d
		}
	}
	return index, depth
}

// median returns the middle of the absolute differences between neighbors.
func (k keelLine) median() float64 {
	var d []float64
	for i := range len(k.z) - 1 {
		d = append(d, math.Abs(k.z[i+1]-k.z[i]))
	}
	if len(d) == 0 {
		return 0
	}
	slices.Sort(d)
	return d[len(d)/2]
}
