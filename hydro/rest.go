package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// flat is the least GM, per size, that is told from zero by curvature
	// alone: 1 micrometer on 1 m. Below it the energy itself is looked at.
	flat = 1e-6
	// look is how far to each side the energy is looked at then.
	look = 2 * math.Pi / 180
	// level is the change of energy, per W L, that counts as none over that
	// distance: a GM of 1.6e-6 sizes.
	even = 1e-9
)

// Rest is where a body comes to rest: stable, reached from its start by always
// falling in energy.
type Rest struct {
	State
	// Also holds the other rests when the way down was a tie: the body was
	// balanced but unstable on the way, and could have fallen to any of
	// these as well.
	Also []State
	// Neutral reports that the energy is even to some side: the body lies
	// anywhere along a ring (a log) or all around (a ball).
	Neutral bool
}

// Rest returns the rest reached from level (trim and heel zero). It fails with
// a *SinksError when the hull cannot carry the mass.
func (b *Body) Rest() (Rest, error) {
	return b.RestFrom(Attitude{Up: r3.Vec{Z: 1}, Height: math.NaN()})
}

// RestFrom returns the rest reached from another attitude by always falling.
// The start's height may be NaN; any height is first balanced at the start's
// own upward direction.
func (b *Body) RestFrom(start Attitude) (Rest, error) {
	if err := b.check(); err != nil {
		return Rest{}, err
	}
	n := r3.Unit(start.Up)
	// A few percent of the volume is near enough to begin: the fall levels
	// as it goes.
	p, cuts := b.level(n, start.Height+r3.Dot(n, b.Hull.center), 0.05)
	search := search{body: b, cuts: cuts}
	if err := search.descend(p, 0); err != nil {
		return Rest{}, err
	}
	rest := Rest{Neutral: search.neutral}
	for i := range search.found {
		s := b.state(&search.found[i], search.cuts)
		if i == 0 {
			rest.State = s
		} else {
			rest.Also = append(rest.Also, s)
		}
	}
	rest.takeSmallerSide()
	return rest, nil
}

// takeSmallerSide deals with a facet that lies in the water plane: GM jumps
// there, and the smaller of both sides is what a builder may count on.
func (r *Rest) takeSmallerSide() {
	b, tiny := r.body, 1e-9*r.body.Hull.size
	grazed := false
	for _, t := range b.Hull.terms {
		grazed = grazed || t.Grazes(r.Surface(), tiny)
	}
	if !grazed {
		return
	}
	// At the plane itself the rule for what is wet may count faces of pieces
	// that meet there twice or not at all; to either side it cannot.
	least := math.Inf(1)
	for _, shift := range []float64{-tiny, tiny} {
		p := b.at(r.Up, r.at.e+shift)
		other := b.state(&p, r.Cuts)
		if gm, _ := other.GMLeast(); gm < least {
			least = gm
			r.Area, r.CF, r.Second = other.Area, other.CF, other.Second
			r.at.sec, r.at.hess = p.sec, p.hess
		}
	}
}

// search gathers the minima below a starting place.
type search struct {
	body    *Body
	cuts    int
	found   []place
	neutral bool
}

// ties is how many times one descent may divide. A body with two planes of
// symmetry divides twice.
const ties = 4

// descend falls from p; where the fall ends on a saddle it goes on down both
// sides.
func (s *search) descend(p place, depth int) error {
	p, err := s.body.fall(p, &s.cuts)
	if err != nil {
		return err
	}
	xx, yy, xy := p.reduced()
	least, _, v := eigen2(xx, yy, xy)
	turn := r3.Add(r3.Scale(v[0], p.t1), r3.Scale(v[1], p.t2))
	turn = canonical(turn)
	if least > flat || depth >= ties {
		s.keep(p)
		return nil
	}
	down := [2]bool{}
	var side [2]place
	even2 := false
	for i, sign := range []float64{1, -1} {
		var cuts int
		angle := look
		side[i], cuts = s.body.level(tilt(p.n, r3.Scale(sign*angle, turn)), p.e, levelTolerance)
		s.cuts += cuts
		change := side[i].energy - p.energy
		// On a saddle so narrow that 2 deg climbs out of it again, look
		// nearer.
		for least < -flat && change >= 0 && angle > look/100 {
			angle /= 4
			side[i], cuts = s.body.level(tilt(p.n, r3.Scale(sign*angle, turn)), p.e, levelTolerance)
			s.cuts += cuts
			change = side[i].energy - p.energy
		}
		down[i] = change < -even || least < -flat && change < 0
		even2 = even2 || math.Abs(change) <= even
	}
	switch {
	case !down[0] && !down[1]:
		s.neutral = s.neutral || even2
		s.keep(p)
		return nil
	default:
		for i := range side {
			if down[i] {
				if err := s.descend(side[i], depth+1); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// canonical turns a direction so that its first sizable part of y, x, z is
// positive: a tie falls to starboard first, and the order of the answers does
// not depend on rounding.
func canonical(v r3.Vec) r3.Vec {
	for _, c := range []float64{v.Y, v.X, v.Z} {
		if math.Abs(c) > 1e-6 {
			if c < 0 {
				return r3.Scale(-1, v)
			}
			return v
		}
	}
	return v
}

// keep adds a minimum unless it has been found already.
func (s *search) keep(p place) {
	for _, q := range s.found {
		if r3.Norm(r3.Sub(p.n, q.n)) < 1e-6 {
			return
		}
	}
	s.found = append(s.found, p)
}
