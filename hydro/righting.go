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

	march    march
	branches [2]branch // to falling angles, to rising ones
	neutral  bool      // the rest is one of many that are alike
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
	// AsAsked follows the curve only as far as what is asked of it needs.
	// Points, Jumps and Cuts are not filled in.
	AsAsked bool
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
	// Some two to four cuts a point, jumps included.
	r.body.Hull.Prepare(int(4 * (o.To - o.From) / o.Step))
	b := r.body
	angle, free := o.Axis.angles(r.Up)
	if math.Abs(free) > mostFree {
		return nil, &AxisError{o.Axis, free}
	}
	c := &Righting{Axis: o.Axis, march: march{body: b, axis: o.Axis}, neutral: r.Neutral}
	start := b.heel(o.Axis, angle, free, r.at.e)
	c.march.cuts++
	c.Start = c.point(&start, start.energy)
	c.GM = c.Start.gmToward(start.toA)
	for i, end := range []float64{o.From, o.To} {
		c.branches[i] = newBranch(start, o.Step, float64(2*i-1), end)
	}
	if o.AsAsked {
		return c, nil
	}
	for i := range c.branches {
		for more := true; more; {
			var err error
			if more, err = c.grow(&c.branches[i]); err != nil {
				return nil, err
			}
		}
	}
	falling, rising := c.branches[0].places, c.branches[1].places
	for i := len(falling) - 1; i > 0; i-- {
		c.Points = append(c.Points, c.point(&falling[i], start.energy))
	}
	for i := range rising {
		c.Points = append(c.Points, c.point(&rising[i], start.energy))
	}
	c.Jumps, c.Cuts = c.march.jumps, c.march.cuts
	slices.SortFunc(c.Jumps, func(i, j Jump) int { return cmp.Compare(i.Angle, j.Angle) })
	return c, nil
}

// branch is one side of a righting curve, from rest outward by whole steps.
type branch struct {
	sign, step, end float64
	next            float64 // how many steps from zero the next place lies
	places          []heeled
	landings        map[int]landing // by the number of the far side of a jump
}

func newBranch(start heeled, step, sign, end float64) branch {
	b := branch{sign: sign, step: step, end: end, places: []heeled{start}}
	b.next = math.Floor(sign*start.a/step) + 1
	if b.next*step-sign*start.a < 1e-9 {
		b.next++
	}
	return b
}

// last returns the outermost place so far.
func (b *branch) last() *heeled { return &b.places[len(b.places)-1] }

// grow follows a branch one step on, which may add more than one place, and
// reports whether it could.
func (c *Righting) grow(b *branch) (bool, error) {
	a := b.sign * b.next * b.step
	if b.next*b.step >= b.sign*b.end-1e-9 {
		a = b.end
	}
	if b.sign*(a-b.last().a) <= 0 {
		return false, nil
	}
	b.next++
	var err error
	if b.places, err = c.march.to(b.places, a); err != nil {
		return false, fmt.Errorf("%s of %.2f deg: %w", c.Axis, a*180/math.Pi, err)
	}
	return true, nil
}

// place returns place i of a branch, following it so far if need be; nil where it
// ends before.
func (c *Righting) place(b *branch, i int) (*heeled, error) {
	for i >= len(b.places) {
		if more, err := c.grow(b); err != nil || !more {
			return nil, err
		}
	}
	return &b.places[i], nil
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
