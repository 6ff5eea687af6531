package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Aim is a trim or an angle of attack wanted at rest.
type Aim struct {
	Asked         // "trim" or "angle of attack"
	Want  float64 // rad
}

// Balanced is an answer to an aim: what was solved for, and the craft with it.
type Balanced struct {
	Value float64 // kg or m
	Trial *Trial
}

// OutOfReachError says that no mass, or no place, gives the angle.
type OutOfReachError struct {
	Aim
	Now    float64 // the angle as it is, rad
	Lo, Hi float64 // the least and the greatest angle that were reached, rad
	Jumps  bool    // the angle wanted is jumped over: the craft falls from one attitude to another
	Away   bool    // all that can be done turns it the other way
}

func (e *OutOfReachError) Error() string {
	angle := func(v float64) string { return unit.Format(unit.Angle, v) }
	if e.Jumps {
		return fmt.Sprintf("%s of %s is jumped over: the craft falls from one attitude to another there", e.Title(), angle(e.Want))
	}
	if e.Away {
		return fmt.Sprintf("%s of %s is out of reach: it is %s, and goes the other way", e.Title(), angle(e.Want), angle(e.Now))
	}
	return fmt.Sprintf("%s of %s is out of reach: it goes from %s to %s", e.Title(), angle(e.Want), angle(e.Lo), angle(e.Hi))
}

// reached is how near to the angle an answer is, rad. Rests are exact to some
// 1e-12.
const reached = 1e-10

// AddMass returns the least mass that, added at the point at, gives the angle.
func (a Aim) AddMass(t *Trial, at r3.Vec) (Balanced, error) {
	most := t.Body.Hull.Volume()*t.Body.Density - t.Body.Mass
	return a.solve(ballast{
		lo: 0, hi: most * (1 - 1e-6), start: 0,
		with:  func(m float64) (*Trial, error) { return t.With(m, &at), nil },
		slope: func(s *hydro.State, _ float64) hydro.Change { return s.Added(at) },
	})
}

// AddAt returns where along x, from lo to hi, a mass gives the angle; y and z
// are those of the point at, and its x is where the search begins.
func (a Aim) AddAt(t *Trial, mass float64, at r3.Vec, lo, hi float64) (Balanced, error) {
	return a.solve(ballast{
		lo: lo, hi: hi, start: min(max(at.X, lo), hi),
		with: func(x float64) (*Trial, error) {
			p := r3.Vec{X: x, Y: at.Y, Z: at.Z}
			return t.With(mass, &p), nil
		},
		slope: func(s *hydro.State, _ float64) hydro.Change {
			return s.Shifted(r3.Vec{X: mass / s.Body().Mass})
		},
	})
}

// Move returns where along x, from lo to hi, an item of the craft gives the
// angle, its y and z kept.
func (a Aim) Move(t *Trial, item int, lo, hi float64) (Balanced, error) {
	at := t.Craft.Items[item].At
	moved := func(x float64) *craft.Craft {
		p := r3.Vec{X: x, Y: at.Y, Z: at.Z}
		return t.Craft.Under(&craft.Loading{Name: t.Craft.Loading, Change: []craft.Change{{Item: item, At: &p}}})
	}
	// The CG goes along evenly, whatever the growth margin does.
	shift := r3.Sub(moved(1).Loaded().At, moved(0).Loaded().At)
	return a.solve(ballast{
		lo: lo, hi: hi, start: min(max(at.X, lo), hi),
		with:  func(x float64) (*Trial, error) { return New(moved(x)) },
		slope: func(s *hydro.State, _ float64) hydro.Change { return s.Shifted(shift) },
	})
}

// ballast is a search in one number.
type ballast struct {
	lo, hi, start float64
	with          func(v float64) (*Trial, error)
	slope         func(s *hydro.State, v float64) hydro.Change // how the rest moves per unit of v
}

// look returns the trial at v, how far its angle is from the wanted one, and
// the exact derivative of that.
func (a Aim) look(b ballast, v float64) (t *Trial, off, slope float64, err error) {
	if t, err = b.with(v); err != nil {
		return nil, 0, 0, err
	}
	angle, err := a.Value(t)
	if err != nil {
		return nil, 0, 0, err
	}
	rest, err := t.Rest()
	if err != nil {
		return nil, 0, 0, err
	}
	change := b.slope(&rest.State, v)
	slope = change.Trim()
	if chord, ok := t.Craft.Chord(); ok && a.Key == "angle of attack" {
		slope = change.Slope(chord.Direction())
	}
	return t, angle - a.Want, slope, nil
}

// solve finds the number that gives the angle: by Newton's method with the
// exact derivative from where the craft is, which is done in a few steps where
// the answer is near; else by looking along the whole range for the nearest
// change of sign, which also tells an angle that is jumped over.
func (a Aim) solve(b ballast) (Balanced, error) {
	v := b.start
	t, off, slope, err := a.look(b, v)
	if err != nil {
		return Balanced{}, err
	}
	now, away := off+a.Want, b.start == b.lo && off*slope > 0 || b.start == b.hi && off*slope < 0
	for range 12 {
		if math.Abs(off) <= reached {
			return Balanced{v, t}, nil
		}
		next := v - off/slope
		if !(next >= b.lo && next <= b.hi) {
			break
		}
		var to *Trial
		was := off
		if to, off, slope, err = a.look(b, next); err != nil || math.Abs(off) > 0.9*math.Abs(was) {
			break
		}
		v, t = next, to
	}
	return a.scan(b, now, away)
}

// scan looks along the whole range in even steps, nearest to the start first.
func (a Aim) scan(b ballast, now float64, away bool) (Balanced, error) {
	const steps = 64
	no := &OutOfReachError{Aim: a, Now: now, Lo: now, Hi: now, Away: away}
	type end struct{ v, off float64 }
	// sides walk up and down from the start in turns.
	sides := [2]struct {
		end
		to   float64
		over bool
	}{{end{b.start, now - a.Want}, b.hi, false}, {end{b.start, now - a.Want}, b.lo, false}}
	for i := 1; i <= steps; i++ {
		for k := range sides {
			s := &sides[k]
			if s.over || s.to == b.start {
				continue
			}
			v := b.start + (s.to-b.start)*float64(i)/steps
			_, off, _, err := a.look(b, v)
			if err != nil { // it sinks from here on
				s.over = true
				continue
			}
			no.Lo, no.Hi = min(no.Lo, off+a.Want), max(no.Hi, off+a.Want)
			if off == 0 || off > 0 != (s.off > 0) {
				found, err := a.halve(b, s.v, v, s.off > 0)
				if err == nil {
					return found, nil
				}
				no.Jumps = true
			}
			s.end = end{v, off}
		}
	}
	return Balanced{}, no
}

// halve closes in on a change of sign between lo and hi, where above tells the
// sign at lo. It fails when the angle jumps there.
func (a Aim) halve(b ballast, lo, hi float64, above bool) (Balanced, error) {
	for range 200 {
		mid := (lo + hi) / 2
		t, off, _, err := a.look(b, mid)
		switch {
		case err != nil:
			return Balanced{}, err
		case math.Abs(off) <= reached:
			return Balanced{mid, t}, nil
		case mid == lo || mid == hi:
			return Balanced{}, errJump
		}
		if off > 0 == above {
			lo = mid
		} else {
			hi = mid
		}
	}
	return Balanced{}, errJump
}

var errJump = fmt.Errorf("the angle jumps")
