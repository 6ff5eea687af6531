package craft

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Plug is a slice let into a part at a plane across its z axis (which makes it
// deeper) or its x axis (longer), as a builder lets in a sheet of foam: the
// part is cut in two, the pieces move apart, and the cut's outline runs on
// straight between them. Nothing else of the part changes its form.
//
// With a negative Add the part gets shallower or shorter instead: the band from
// At to To is squeezed. The band must be of even section, so that squeezing is
// the same as sawing a slice out; see [Part.EvenFrom].
type Plug struct {
	At  float64 // of the plane, in the part's axes as drawn, m
	To  float64 // end of the band of even section that begins at At, m; for a negative Add only
	Add float64 // m, as built: whatever the Stretch, the part grows by it
	// FarStays says that the piece beyond At stays where it is and the near
	// one moves back, and not the other way round.
	FarStays bool
}

// Axis is an axis along which a part can be plugged.
type Axis int

const (
	AlongX Axis = iota // longer
	AlongZ             // deeper
)

// unit returns the unit vector of the axis.
func (a Axis) unit() r3.Vec {
	if a == AlongX {
		return r3.Vec{X: 1}
	}
	return r3.Vec{Z: 1}
}

// band is what of a Plug decides where a solid is taken apart: not how far the
// pieces move.
type band struct {
	way    way
	at, to float64
}

// way is how a band gets thicker or thinner.
type way int8

const (
	whole   way = iota // it is not taken apart
	swept              // a prism of the section goes between the two pieces
	squeeze            // the band itself is squeezed
)

func (g Plug) band() band {
	switch {
	case g.Add > 0:
		return band{way: swept, at: g.At}
	case g.Add < 0:
		return band{squeeze, g.At, g.To}
	}
	return band{}
}

// place says where along the axis a piece lies: before, in or beyond the plug.
type place int8

const (
	near place = iota
	between
	far
)

// sweep is the thickness at which the prism of a plug is made, m, to be
// stretched to what is wanted.
const sweep = 0.1

// line is the map x -> by x + plus along one axis.
type line struct{ by, plus float64 }

// line returns where a piece goes along the plug's axis, given the factor by
// which the part is stretched along it afterwards.
func (g Plug) line(at place, stretch float64) line {
	add := g.Add / stretch
	l := line{by: 1}
	switch {
	case at == far:
		l.plus = add
	case at == between:
		thick := sweep
		if g.Add < 0 {
			thick = g.To - g.At
			add += thick
		}
		l.by = add / thick
		l.plus = g.At * (1 - l.by)
	}
	if g.FarStays {
		l.plus -= g.Add / stretch
	}
	return l
}

// where returns which piece a point at x along the axis belongs to. A point on
// the plane belongs to what is beyond it: a deck at the plane moves.
func (g Plug) where(x float64) place {
	const onPlane = 1e-9
	switch {
	case g.Add == 0 || x < g.At-onPlane:
		return near
	case g.Add < 0 && x < g.To:
		return between
	}
	return far
}

// thinnest is the share of a band that can be taken out of it: what is left
// must have some thickness.
const thinnest = 0.99

// check returns an error for a plug that cannot be built.
func (g Plug) check() error {
	switch {
	case g.Add-g.Add != 0 || g.At-g.At != 0 || g.To-g.To != 0:
		return fmt.Errorf("the plug is not finite")
	case g.Add < 0 && -g.Add > thinnest*(g.To-g.At):
		return fmt.Errorf("%.4g mm cannot be taken out of the %.4g mm that are of even section", -1e3*g.Add, 1e3*(g.To-g.At))
	}
	return nil
}

// EvenFrom returns how far beyond at along the axis the part's section stays
// even, in the part's axes: area, middle and spread within one percent. Within
// that band a slice can be taken out without a step in the side.
func (p *Part) EvenFrom(a Axis, at float64) float64 {
	_, hi := p.Extent(a)
	first := p.cut(a, at)
	const steps = 64
	to := at
	for i := 1; i < steps; i++ {
		x := at + (hi-at)*float64(i)/steps
		if !first.like(p.cut(a, x)) {
			break
		}
		to = x
	}
	return to
}

// Fullest returns the middle of the run of planes across the axis where the
// part's section is within one percent of its largest: above the chine of a
// float, ahead of its step.
func (p *Part) Fullest(a Axis) float64 {
	lo, hi := p.Extent(a)
	const steps = 128
	var area [steps]float64
	best := 0
	for i := range area {
		area[i] = p.cut(a, lo+(hi-lo)*(float64(i)+0.5)/steps).area
		if area[i] > area[best] {
			best = i
		}
	}
	from, to := best, best
	for from > 0 && area[from-1] > 0.99*area[best] {
		from--
	}
	for to < steps-1 && area[to+1] > 0.99*area[best] {
		to++
	}
	return lo + (hi-lo)*(float64(from+to)/2+0.5)/steps
}

// Extent returns the least and the greatest coordinate of the part along the
// axis, in its own axes as drawn.
func (p *Part) Extent(a Axis) (lo, hi float64) {
	drawn := mesh.Placed{Solid: p.Solid, Place: p.Drawn}
	return drawn.Span(a.unit(), r3.Vec{})
}

// Size returns the part's length, beam and height along its own axes as it is
// set: with its plugs and its stretch.
func (p *Part) Size() r3.Vec {
	drawn := mesh.Placed{Solid: p.Solid, Place: p.Drawn}
	span := func(n r3.Vec, stretch, add float64) float64 {
		lo, hi := drawn.Span(n, r3.Vec{})
		return (hi-lo)*one(stretch) + add
	}
	f := p.Fit
	return r3.Vec{
		X: span(r3.Vec{X: 1}, f.Stretch.Length, f.Longer.Add),
		Y: span(r3.Vec{Y: 1}, f.Stretch.Beam, 0),
		Z: span(r3.Vec{Z: 1}, f.Stretch.Height, f.Deeper.Add),
	}
}

// trace is what is compared of two sections.
type trace struct {
	area   float64
	middle r3.Vec
	spread float64 // trace of the second moment about the middle
}

// cut returns the part's section at x along the axis.
func (p *Part) cut(a Axis, x float64) trace {
	drawn := mesh.Placed{Solid: p.Solid, Place: p.Drawn}
	s := drawn.Below(mesh.Plane{Normal: a.unit(), Offset: -x}, r3.Scale(x, a.unit()))
	if s.Area <= 0 {
		return trace{}
	}
	o := trace{area: s.Area, middle: r3.Scale(1/s.Area, s.AreaMoment)}
	o.spread = s.AreaSecond.XX + s.AreaSecond.YY + s.AreaSecond.ZZ - s.Area*r3.Norm2(o.middle)
	return o
}

// like reports whether two sections are even.
func (o trace) like(b trace) bool {
	const even = 0.01
	return o.area > 0 && math.Abs(b.area-o.area) < even*o.area &&
		math.Abs(b.spread-o.spread) < 2*even*o.spread &&
		r3.Norm(r3.Sub(b.middle, o.middle)) < even*math.Sqrt(o.area)
}
