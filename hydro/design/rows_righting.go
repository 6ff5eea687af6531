package design

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// rightingRows are what the righting curve says. Where its two sides differ
// the worse one counts.
var rightingRows = []Result{
	{Key: "gz at *", Label: "GZ at * of heel", Kind: unit.Length, Of: OfAngle, Curve: true, at: gzAt},
	{Key: "gz max", Label: "largest GZ", Kind: unit.Length, Curve: true, get: ofWorse(func(s hydro.RightingSide) float64 { return s.Max }, mostGZ)},
	{Key: "gz max heel", Label: "heel of the largest GZ", Kind: unit.Angle, Curve: true, get: ofWorse(func(s hydro.RightingSide) float64 { return math.Abs(s.MaxAngle) }, mostGZ)},
	{Key: "vanishing heel", Label: "heel at which stability vanishes", Kind: unit.Angle, Curve: true, get: vanishingHeel},
	{Key: "wet heel of *", Label: "heel at which * goes under", Kind: unit.Angle, Of: OfPlace, Curve: true, get: wetHeel},
}

func mostGZ(s hydro.RightingSide) float64 { return s.Max }

// rightingStep is how far apart the curve is solved here. What is asked of it
// is solved between.
const rightingStep = 5 * math.Pi / 180

// Righting returns the righting curve about an axis, followed all the way
// around or as far as is asked of it, without its Points. It fails when the craft sinks or does not rest upright.
func (t *Trial) Righting(axis hydro.Axis) (*hydro.Righting, error) {
	return t.righting[axis].get(func() (*hydro.Righting, error) {
		r, err := t.Rest()
		if err != nil {
			return nil, err
		}
		if !Upright(&r.State) {
			return nil, fmt.Errorf("it does not rest upright, but at trim %s, heel %s",
				unit.Format(unit.Angle, r.Trim()), unit.Format(unit.Angle, r.Heel()))
		}
		return r.Righting(hydro.RightingOptions{Axis: axis, Step: rightingStep, AsAsked: true})
	})
}

// ofWorse makes a getter of a number of the side of the heel curve on which
// rank is less.
func ofWorse(number, rank func(hydro.RightingSide) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, _ int) (float64, error) {
		c, err := t.Righting(hydro.HeelAxis)
		if err != nil {
			return 0, err
		}
		port, starboard, err := c.Sides()
		if err != nil {
			return 0, err
		}
		if rank(port) < rank(starboard) {
			return number(port), nil
		}
		return number(starboard), nil
	}
}

func vanishingHeel(t *Trial, _ int) (float64, error) {
	c, err := t.Righting(hydro.HeelAxis)
	if err != nil {
		return 0, err
	}
	port, starboard, err := c.Ends()
	return min(math.Abs(port.Vanishing), math.Abs(starboard.Vanishing)), err
}

// gzAt is the smaller of the arms that right the craft heeled to either side.
// There is none where it has leaped to another attitude by then and does not
// come back.
func gzAt(t *Trial, angle float64) (float64, error) {
	c, err := t.Righting(hydro.HeelAxis)
	if err != nil {
		return 0, err
	}
	for _, a := range []float64{angle, -angle} {
		if left, err := c.Leaves(a); err != nil {
			return 0, err
		} else if left != nil {
			return 0, left
		}
	}
	starboard, err := c.At(angle)
	if err != nil {
		return 0, err
	}
	port, err := c.At(-angle)
	if err != nil {
		return 0, err
	}
	return min(starboard.GZ, -port.GZ), nil
}

// wetHeel is the heel, to the side where it is less, at which a place goes
// under: 0 when it is wet at rest, 180 deg when it never does. A place that is
// dry until the craft leaps to another attitude and does not come back has the
// heel of that, whatever is wet then.
func wetHeel(t *Trial, i int) (float64, error) {
	c, err := t.Righting(hydro.HeelAxis)
	if err != nil {
		return 0, err
	}
	place := t.Place(i)
	if h, _ := place.Clearance(c.Start.Attitude); h < 0 {
		return 0, nil
	}
	port, starboard, err := c.Under(place)
	if err != nil {
		return 0, err
	}
	least := math.Pi
	for i, p := range []*hydro.RightingPoint{port, starboard} {
		if p != nil {
			least = min(least, math.Abs(p.Angle))
			continue
		}
		left, err := c.Leaves([]float64{-math.Pi, math.Pi}[i])
		if err != nil {
			return 0, err
		}
		if left != nil {
			least = min(least, math.Abs(left.Leap.Angle))
		}
	}
	return least, nil
}
