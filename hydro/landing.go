package hydro

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Landing is where a body goes once it holds no longer under a load.
type Landing struct {
	State         // where it comes to rest with the load still on
	Found    bool // false where it comes to rest nowhere: it sinks, or goes on turning
	Sinks    bool
	Released *Rest // where it rests when the load is taken off there; nil when that is not known
}

const (
	// landings bounds the steps of one fall; a fall from level to upside
	// down takes some sixty.
	landings = 400
	// fallStep is the largest turn of one of them.
	fallStep = 0.1
)

// Land lets the body fall from where its path was lost, with the share of the
// load that it was lost at and a thousandth more.
//
// A body under a load that is no potential has no energy to go down by. It is
// let fall as in syrup, without inertia: every step turns and heaves it with
// the moments and the force that are out of balance,
//
//	dx/dt = -rest(x)
//
// by implicit Euler steps that grow as the fall slows down (pseudo-transient
// continuation: C. T. Kelley and D. E. Keyes, SIAM J. Numerical Analysis 35,
// 1998, pp. 508-523). A real body overshoots and may go further; one that
// comes to rest here can rest here.
func (p *Path) Land() Landing {
	k := &p.knots[p.loss]
	share := k.share * (1 + 1e-3)
	_, _, give, _ := k.softness()
	if r3.Dot(give, k.way.turn) < -1e-6*r3.Norm(k.way.turn) {
		give = r3.Scale(-1, give)
	}
	if give == (r3.Vec{}) {
		give = r3.Scale(1/max(r3.Norm(k.way.turn), 1e-12), k.way.turn)
	}
	s := p.body.under(p.load, tilt(k.n, r3.Scale(0.01, give)), k.e, share)
	s, err := p.settle(s)
	switch {
	case errors.As(err, new(*SinksError)):
		return Landing{State: p.body.state(&s.place, p.Cuts), Sinks: true}
	case err != nil:
		return Landing{State: p.body.state(&s.place, p.Cuts)}
	}
	l := Landing{State: p.body.state(&s.place, p.Cuts), Found: true}
	if r, err := p.body.RestFrom(l.Attitude); err == nil {
		l.Released = &r
	}
	return l
}

// errRestless says that a fall came to no rest.
var errRestless = errors.New("it comes to no rest")

// settle lets a stance fall at its share of the load until it rests.
func (p *Path) settle(s stance) (stance, error) {
	size := p.body.Hull.size
	low, _ := p.body.Hull.span(s.n)
	floor := -4*size + min(low, 0)
	damp := 1.0 // one over the step of time
	for range landings {
		if s.off() <= balanced*10 {
			lesser, _, give, _ := s.softness()
			if lesser > 0 {
				return s, nil
			}
			// Balanced but on a crest: lean off it.
			s = p.body.under(p.load, tilt(s.n, r3.Scale(0.01, give)), s.e, s.share)
			*p.cuts++
		}
		if s.e < floor {
			return s, &SinksError{Mass: p.body.Mass}
		}
		// More damping than there is instability, or a step would climb.
		if lesser, _, _, _ := s.softness(); lesser < 0 {
			damp = max(damp, -2*lesser)
		}
		var x [4]float64
		for {
			var a [4][4]float64
			for i := range 3 {
				copy(a[i][:3], s.k[i][:])
				a[i][i] += damp
			}
			var ok bool
			x, ok = solve(3, a, [4]float64{-s.rest[0], -s.rest[1], -s.rest[2]})
			down := -(x[0]*s.rest[0] + x[1]*s.rest[1] + x[2]*s.rest[2])
			if ok && down > 0 && math.Hypot(x[0], x[1]) <= fallStep && math.Abs(x[2]) <= fallStep {
				break
			}
			if damp *= 2; !(damp < 1e15) {
				return s, errRestless
			}
		}
		n, e := s.move([3]float64{x[0], x[1], x[2]}, size)
		next := p.body.under(p.load, n, e, s.share)
		*p.cuts++
		if damp /= 4; next.off() < s.off() {
			damp *= max(next.off()/s.off(), 0.1)
		}
		s = next
	}
	return s, errRestless
}
