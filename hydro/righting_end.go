package hydro

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Ending says how stability ends on one side of a righting curve.
type Ending int

const (
	GoesOn    Ending = iota // it does not, as far as the curve goes
	AllAround               // it does not: the body rights itself from 180 deg
	ArmGone                 // the arm falls to zero
	Leaps                   // the body leaps to another attitude and does not come back
)

// RightingEnd is where and how stability ends on one side of a righting curve.
type RightingEnd struct {
	// Vanishing is the outermost angle from which the body, let go, comes
	// back to rest, rad: +-pi when it does so all around, NaN where the curve
	// ends before.
	Vanishing float64
	Ends      Ending
	// Leap and Comes are how the body leaps there, and the attitude in which
	// it comes to rest when it is let go then. Both are zero where it does
	// not leap.
	Leap  Jump
	Comes Attitude
}

// Ends returns where stability ends on the two sides, without looking for the
// largest arm.
func (c *Righting) Ends() (falling, rising RightingEnd, err error) {
	if _, falling, err = c.end(&c.branches[0]); err != nil {
		return falling, rising, err
	}
	_, rising, err = c.end(&c.branches[1])
	return falling, rising, err
}

// arm returns the arm that turns a place of the branch back to rest, per size.
func (b *branch) arm(h *heeled) float64 { return b.sign * h.ga }

// leapt reports whether place i of the branch is the far side of a jump.
func (b *branch) leapt(i int) bool { return i > 0 && b.places[i-1].a == b.places[i].a }

// end returns how many places of the branch come before stability ends, and
// how it does.
//
// The sign of the arm alone does not tell: where the branch ends the body leaps
// to another, on which the arm may well point back toward rest, but to a rest
// other than the one it came from.
func (c *Righting) end(b *branch) (before int, end RightingEnd, err error) {
	for i := 1; ; i++ {
		h, err := c.place(b, i)
		switch {
		case err != nil:
			return i, end, err
		case h == nil && math.Abs(b.last().a) > math.Pi-1e-9:
			// The arm of rounding's size at 180 deg fell on the good side.
			return i, RightingEnd{Vanishing: b.sign * math.Pi, Ends: AllAround}, nil
		case h == nil:
			return i, RightingEnd{Vanishing: math.NaN()}, nil
		case b.leapt(i):
			lost, comes, err := c.lost(b, i)
			if err != nil {
				return i, end, err
			}
			if lost {
				return i, RightingEnd{Vanishing: h.a, Ends: Leaps, Leap: c.jumpAt(h.a), Comes: comes}, nil
			}
		case i == 1 && b.arm(h) <= 0:
			return i, RightingEnd{Vanishing: c.Start.Angle, Ends: ArmGone}, nil
		default:
			p := &b.places[i-1]
			if b.arm(h) > 0 {
				low, dips, err := c.dip(b, p, h)
				if err != nil {
					return i, end, err
				}
				if !dips {
					continue
				}
				h = &low
			}
			root, err := c.root(p, h, b.arm)
			end := RightingEnd{Vanishing: root.a, Ends: ArmGone}
			if math.Abs(root.a) > math.Pi-1e-3 {
				end.Ends = AllAround // upside down the arm is zero by symmetry
			}
			return i, end, err
		}
	}
}

// dip returns the place between two neighbors on the curve at which the arm is
// least, and whether it is gone there though it is not at either.
func (c *Righting) dip(b *branch, p, q *heeled) (low heeled, gone bool, err error) {
	slope := func(h *heeled) float64 { return h.armBy() }
	if p.a == q.a || slope(p) >= 0 || slope(q) <= 0 {
		return low, false, nil
	}
	low, err = c.root(p, q, slope)
	return low, err == nil && b.arm(&low) <= 0, err
}

// LeapError says that a body on the way out from rest leaps to another attitude
// and does not come back.
type LeapError struct {
	Axis  Axis
	Leap  Jump
	Comes Attitude // where it comes to rest when it is let go after the leap
}

func (e *LeapError) Error() string {
	free := [...]string{"trim", "roll"}[e.Axis]
	return fmt.Sprintf("it leaps at %s %.1f deg to another attitude (%s %.1f deg) and does not come back",
		e.Axis, e.Leap.Angle*180/math.Pi, free, e.Leap.To*180/math.Pi)
}

// Leaves returns the leap that does not come back on the way out from rest to
// the angle, nil where there is none: what the curve shows beyond it is another
// attitude, at which the body is not any more heeled or pitched from rest.
func (c *Righting) Leaves(angle float64) (*LeapError, error) {
	b := &c.branches[1]
	if angle < c.Start.Angle {
		b = &c.branches[0]
	}
	for i := 1; ; i++ {
		h, err := c.place(b, i)
		switch {
		case err != nil:
			return nil, err
		case h == nil || b.sign*(h.a-angle) >= 0:
			return nil, nil
		case !b.leapt(i):
			continue
		}
		if lost, comes, err := c.lost(b, i); err != nil || lost {
			return &LeapError{c.Axis, c.jumpAt(h.a), comes}, err
		}
	}
}

// jumpAt returns the jump at an angle.
func (c *Righting) jumpAt(a float64) Jump {
	for _, j := range c.march.jumps {
		if j.Angle == a && j.From != j.To {
			return j
		}
	}
	panic("hydro: a righting curve leaps where it has no jump")
}

// landing is where the body comes to rest when it is let go at a place.
type landing struct {
	back  bool // it is the rest that the curve starts at
	comes Attitude
}

// lost reports whether the leap to place i of the branch ends stability, since
// the body, let go there, does not come back or is turned away from rest, and
// where it comes to rest then.
func (c *Righting) lost(b *branch, i int) (lost bool, comes Attitude, err error) {
	l, known := b.landings[i]
	if !known {
		if l, err = c.letGo(&b.places[i]); err != nil {
			return false, comes, err
		}
		if b.landings == nil {
			b.landings = map[int]landing{}
		}
		b.landings[i] = l
	}
	turned := b.arm(&b.places[i-1]) > 0 && b.arm(&b.places[i]) <= 0
	return !l.back || turned, l.comes, nil
}

// letGo lets the body fall from a place, free in everything.
func (c *Righting) letGo(h *heeled) (landing, error) {
	s := search{body: c.march.body}
	err := s.descend(h.place, 0)
	c.march.cuts += s.cuts
	if err != nil {
		return landing{}, fmt.Errorf("let go at %s of %.2f deg: %w", c.Axis, h.a*180/math.Pi, err)
	}
	l := landing{back: true}
	for k := range s.found {
		l.back = l.back && c.same(&s.found[k])
	}
	p := &s.found[0]
	l.comes = Attitude{Up: p.n, Height: p.e - r3.Dot(p.n, c.march.body.Hull.center)}
	return l, nil
}

// same reports whether a rest is the one that the curve starts at. Facets of a
// round hull make false rests near it, and where the body is neutral it may lie
// anywhere along a ring.
func (c *Righting) same(p *place) bool {
	const nearby = 2 * math.Pi / 180
	start := &c.branches[0].places[0]
	if r3.Norm(r3.Sub(p.n, start.n)) < 1e-4 {
		return true
	}
	level := math.Abs(p.energy-start.energy) < shallow/c.march.body.Hull.size
	return level && (c.neutral || r3.Norm(r3.Sub(p.n, start.n)) < nearby)
}
