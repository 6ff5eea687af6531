package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Space is a part of the hull that water can get into: a compartment between
// bulkheads.
type Space struct {
	Solids       []mesh.Placed // closed bodies within the hull that make it up
	Permeability float64       // share of it that water can fill, 0 to 1
	Part         int           // the caller's number of the part it belongs to
}

// Volume returns the volume between the walls of the space, m3, of which the
// permeability's share can fill.
func (s *Space) Volume() float64 {
	sum := 0.0
	for _, p := range s.Solids {
		sum += p.Volume()
	}
	return sum
}

// Centroid returns the centroid of the space.
func (s *Space) Centroid() r3.Vec {
	var moment r3.Vec
	for _, p := range s.Solids {
		moment = r3.Add(moment, r3.Scale(p.Volume(), p.Centroid()))
	}
	return r3.Scale(1/s.Volume(), moment)
}

// terms returns the space as terms of the given weight.
func (s *Space) terms(weight float64) []Term {
	out := make([]Term, len(s.Solids))
	for i, p := range s.Solids {
		out[i] = Term{Placed: p, Weight: weight, Part: s.Part}
	}
	return out
}

// Way is how water lies in a space.
type Way int

const (
	// Open is open to the sea: water stands inside as high as outside, and
	// what would displace there displaces no more. The permeability acts on
	// the volume and on the waterplane alike.
	Open Way = iota
	// Trapped is an amount that got in and is shut in, at a level of its own
	// that shifts with the attitude.
	Trapped
	// Soaked is an amount that stays where it is, spread over the space, as
	// in foam.
	Soaked
)

func (w Way) String() string { return [...]string{"open to the sea", "trapped", "soaked"}[w] }

// Flooding is water in one space.
type Flooding struct {
	Space int
	Way   Way
	// Share is how much: of what the space can take for trapped water, of its
	// whole volume for soaked foam. It has no meaning for a space that is open.
	Share float64
}

// Vent is a place at which water gets into a space when it goes under.
type Vent struct {
	At    r3.Vec // body axes
	Space int
}

// Fate is what becomes of a flooded body.
type Fate int

const (
	Afloat Fate = iota // afloat and upright
	Capsized
	Sunk
)

func (f Fate) String() string { return [...]string{"afloat and upright", "capsizes", "sinks"}[f] }

// Overturned is how far the body's z axis may lean from upright before it
// counts as capsized. A float plane past it stands on its tail or lies on a wing
// (common practice, no source).
const Overturned = 45 * math.Pi / 180

// Lean returns the angle between the body's z axis and the water's upward
// direction.
func (a Attitude) Lean() float64 {
	return math.Atan2(math.Hypot(a.Up.X, a.Up.Y), a.Up.Z)
}

// Stage is one stage of a flooding: the body at rest with what has got in.
type Stage struct {
	In    []Flooding // all of it so far
	Vents []int      // indices of the vents through which the last of it came; none at first
	Body  *Body
	State State // meaningless where it sinks
	Fate  Fate
}

// Flooded is the course of a flooding: the first stage is what was asked for,
// each further one lets in what comes through vents that are under.
type Flooded struct {
	Stages []Stage
}

// Last returns how it ends.
func (f *Flooded) Last() *Stage { return &f.Stages[len(f.Stages)-1] }

// Flood lets water into spaces of a body at rest and follows what happens: the
// body falls to where it then rests, every vent that is under opens its space
// to the sea, and so on until nothing more goes under, it capsizes or it sinks.
// Vents that are under together count together.
func (b *Body) Flood(from Attitude, spaces []Space, vents []Vent, in []Flooding) (Flooded, error) {
	in = append([]Flooding(nil), in...)
	var out Flooded
	var through []int
	for {
		stage, err := b.stage(from, spaces, in)
		if err != nil {
			return Flooded{}, err
		}
		stage.Vents = through
		out.Stages = append(out.Stages, stage)
		if stage.Fate != Afloat {
			return out, nil
		}
		from = stage.State.Attitude
		in, through = further(from, vents, in)
		if len(through) == 0 {
			return out, nil
		}
	}
}

// further returns what is in once all vents that are under at an attitude have
// let it in, and which of them let in anything new.
func further(a Attitude, vents []Vent, in []Flooding) (all []Flooding, through []int) {
	all = append([]Flooding(nil), in...)
	for i, v := range vents {
		if a.HeightOf(v.At) >= 0 || open(in, v.Space) {
			continue
		}
		through = append(through, i)
		if open(all, v.Space) {
			continue
		}
		// What was trapped or soaked there is now sea.
		kept := all[:0]
		for _, f := range all {
			if f.Space != v.Space {
				kept = append(kept, f)
			}
		}
		all = append(kept, Flooding{Space: v.Space, Way: Open})
	}
	return all, through
}

// open reports whether a space is open to the sea.
func open(in []Flooding, space int) bool {
	for _, f := range in {
		if f.Space == space && f.Way == Open {
			return true
		}
	}
	return false
}

// stage returns the body at rest with water in it.
func (b *Body) stage(from Attitude, spaces []Space, in []Flooding) (Stage, error) {
	s := Stage{In: in}
	var err error
	if s.Body, err = b.WithWater(spaces, in); err != nil {
		return s, err
	}
	rest, err := s.Body.RestFrom(Attitude{Up: from.Up, Height: math.NaN()})
	switch {
	case errors.As(err, new(*SinksError)):
		s.Fate = Sunk
		return s, nil
	case err != nil:
		return s, err
	}
	s.State = rest.State
	for _, other := range rest.Also { // balanced between sides: the worst of them counts
		if other.Lean() > s.State.Lean()+tie {
			s.State = other
		}
	}
	if s.State.Lean() > Overturned {
		s.Fate = Capsized
	}
	return s, nil
}

// WithWater returns the body with water in some of its spaces.
func (b *Body) WithWater(spaces []Space, in []Flooding) (*Body, error) {
	out := *b
	var lost []Term
	for _, f := range in {
		if f.Space < 0 || f.Space >= len(spaces) {
			return nil, fmt.Errorf("there is no space %d to flood", f.Space)
		}
		s := &spaces[f.Space]
		if !(s.Permeability >= 0 && s.Permeability <= 1) {
			return nil, fmt.Errorf("the permeability of space %d is %g, it lies between 0 and 1", f.Space, s.Permeability)
		}
		if f.Way != Open && !(f.Share >= 0 && f.Share <= 1) {
			return nil, fmt.Errorf("a share of %g of space %d cannot be flooded, it lies between 0 and 1", f.Share, f.Space)
		}
		switch f.Way {
		case Open:
			if s.Permeability > 0 {
				lost = append(lost, s.terms(-s.Permeability)...)
			}
		case Trapped:
			if v := f.Share * s.Permeability * s.Volume(); v > 0 {
				out = *out.WithLiquid(Liquid{Space: s.terms(s.Permeability), Volume: v, Density: b.Density})
			}
		case Soaked:
			if m := f.Share * s.Volume() * b.Density; m > 0 {
				at := s.Centroid()
				out = *out.With(m, &at)
			}
		}
	}
	if len(lost) > 0 {
		out.Hull = b.Hull.less(lost)
	}
	return &out, nil
}

// less returns the hull with the given terms, which lie within it, added.
func (h *Hull) less(terms []Term) *Hull {
	out := *h
	out.terms = append(append([]Term(nil), h.terms...), terms...)
	for _, t := range terms {
		v := t.Weight * t.Volume()
		out.volume += v
		out.moment = r3.Add(out.moment, r3.Scale(v, r3.Sub(t.Centroid(), h.center)))
	}
	return &out
}

// Water returns the volume of water that a flooding holds in its space at an
// attitude, m3.
func (s *Space) Water(f Flooding, a Attitude) float64 {
	switch f.Way {
	case Trapped:
		return f.Share * s.Permeability * s.Volume()
	case Soaked:
		return f.Share * s.Volume()
	}
	sum := 0.0
	for _, p := range s.Solids {
		sum += p.Below(a.Surface(), r3.Vec{}).Volume
	}
	return s.Permeability * sum
}
