package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Righting is a righting curve: a body heeled about its x axis, or pitched
// about its y axis, from rest outward both ways, free to sink and to turn about
// the other axis.
//
// With n the upward vector at the angle a and the free angle b, and t the unit
// tangent the way a grows, the righting arm is
//
//	GZ = t.(G - B)
//
// so that a positive arm rights a positive angle. Held in balance otherwise,
// the energy changes by dE = W GZ cos b da: with the trim free the area under
// GZ alone is not the energy.
type Righting struct {
	Axis   Axis
	Start  RightingPoint // at rest
	GM     float64       // at rest about the axis, m: cos b GM is the slope of GZ there, when nothing couples
	Points []RightingPoint
	Jumps  []Jump
	Cuts   int

	march  march
	places []heeled // one for each of Points
	rest   int      // which of them is the rest
}

// RightingPoint is a place on a righting curve.
type RightingPoint struct {
	State
	Angle  float64 // heel or pitch, rad
	Free   float64 // trim or roll, rad; beyond +-90 deg past the vertical
	GZ     float64 // m
	Slope  float64 // of GZ, m per rad
	Moment float64 // righting moment, N m: W GZ
	Work   float64 // energy put in since rest, J
	// Draft of the deepest point, m. Where nothing pierces the surface the
	// level is free over Slack, and Draft is the least: just awash.
	Draft, Slack float64
}

// RightingOptions says which curve is wanted. The zero value means heel, every
// 2 deg from -180 to 180 deg.
type RightingOptions struct {
	Axis Axis
	Step float64 // rad; 0 means 2 deg
	// From and To bound the angles, rad; both 0 means all the way around. The
	// curve always runs through the rest.
	From, To float64
}

// AxisError says that a body rests with the free axis upright, where the angle
// means nothing.
type AxisError struct {
	Axis Axis
	Free float64 // rad
}

func (e *AxisError) Error() string {
	free := [...]string{"trim", "heel"}[e.Axis]
	return fmt.Sprintf("it rests at %s %.1f deg, where %s has no meaning: take the curve about the other axis", free, e.Free*180/math.Pi, e.Axis)
}

// mostFree is the free angle at rest beyond which the other has no meaning.
const mostFree = 85 * math.Pi / 180

// Righting returns the righting curve from the rest r.
func (r *Rest) Righting(o RightingOptions) (*Righting, error) {
	if o.Step == 0 {
		o.Step = 2 * math.Pi / 180
	}
	if o.From == 0 && o.To == 0 {
		o.From, o.To = -math.Pi, math.Pi
	}
	if !(o.Step > 0) || !(o.From < o.To) || o.From < -math.Pi || o.To > math.Pi {
		panic("hydro: righting curve of angles from to out of order")
	}
	b := r.body
	angle, free := o.Axis.angles(r.Up)
	if math.Abs(free) > mostFree {
		return nil, &AxisError{o.Axis, free}
	}
	c := &Righting{Axis: o.Axis, march: march{body: b, axis: o.Axis}}
	start := b.heel(o.Axis, angle, free, r.at.e)
	c.march.cuts++
	up, err := c.outward(start, o.Step, 1, o.To)
	if err != nil {
		return nil, err
	}
	down, err := c.outward(start, o.Step, -1, o.From)
	if err != nil {
		return nil, err
	}
	for i := len(down) - 1; i > 0; i-- {
		c.places = append(c.places, down[i])
	}
	c.rest = len(c.places)
	c.places = append(c.places, up...)
	c.Start = c.point(&start, start.energy)
	c.GM = c.Start.gmToward(start.toA)
	for i := range c.places {
		c.Points = append(c.Points, c.point(&c.places[i], start.energy))
	}
	c.Jumps, c.Cuts = c.march.jumps, c.march.cuts
	slices.SortFunc(c.Jumps, func(i, j Jump) int { return cmp.Compare(i.Angle, j.Angle) })
	return c, nil
}

// outward follows the curve from the start by whole steps to the angle end,
// nothing where that lies the other way.
func (c *Righting) outward(start heeled, step, sign, end float64) ([]heeled, error) {
	out := []heeled{start}
	var err error
	for k := math.Floor(sign*start.a/step) + 1; ; k++ {
		a := sign * k * step
		if k*step-sign*start.a < 1e-9 {
			continue
		}
		if k*step >= sign*end-1e-9 {
			a = end
		}
		if sign*(a-start.a) <= 0 {
			return out, nil
		}
		if out, err = c.march.to(out, a); err != nil {
			return nil, fmt.Errorf("%s of %.2f deg: %w", c.Axis, a*180/math.Pi, err)
		}
		if a == end {
			return out, nil
		}
	}
}

// point makes a curve point of a place.
func (c *Righting) point(h *heeled, rest float64) RightingPoint {
	b := c.march.body
	weight, size := b.Mass*Gravity, b.Hull.size
	p := RightingPoint{State: b.state(&h.place, 0), Angle: h.a, Free: h.b}
	p.Residual = max(math.Abs(h.gb), math.Abs(h.ge)) // by a it is held
	p.GZ = h.ga * size
	p.Slope = h.armBy() * size
	p.Moment = weight * p.GZ
	p.Work = (h.energy - rest) * weight * size
	p.Draft = p.State.Draft()
	if p.Area == 0 {
		lo, hi := p.HeaveRange()
		p.Slack = hi - lo
		p.Draft -= hi - p.Height
		p.Height = hi
	}
	return p
}
