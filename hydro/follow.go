package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Course says how a load is put on a body at rest.
type Course struct {
	Load Load
	Most float64 // share of the load to go to; 1 is full strength
	// Past goes on where stability is lost, along attitudes that are balanced
	// but hold no longer, until Enough says so.
	Past   bool
	Enough func(*Point) bool // looked at past the loss only
}

// Stop says what puts an end to loading a body.
type Stop int

const (
	// Holds: it is stable to the end of the course.
	Holds Stop = iota
	// NoseUnder and TailUnder: its trim runs away.
	NoseUnder
	TailUnder
	// RollsOver: its heel runs away.
	RollsOver
	// GoesDown: the load presses it under altogether.
	GoesDown
	// LiftsOff: the load carries all of it.
	LiftsOff
	// Unfollowed: the attitudes could not be followed further.
	Unfollowed
)

func (s Stop) String() string {
	return [...]string{"holds", "nose goes under", "tail goes under", "rolls over", "sinks", "lifts off", "could not be followed further"}[s]
}

// Point is one attitude on the way of a body under a growing load.
type Point struct {
	State
	Share float64 // of the load
	// Work is what the load at full strength would have done on the way from
	// rest to here, and Energy what the body took in meanwhile by weight and
	// buoyancy, J. A load put on suddenly and held carries the body on, without
	// damping, to where its share of Work has become Energy: the areas under
	// the heeling and the righting moment are then equal.
	Work, Energy float64
	// Least is the lesser of the two eigenvalues of the stiffness against
	// turning, as a metacentric height in m: without load, the least GM. It is
	// zero where stability is lost.
	Least float64
}

// Sudden returns the share of the load which, put on at once and held, would
// throw the body just as far as here; zero at rest.
func (p *Point) Sudden() float64 {
	if p.Work == 0 {
		return 0
	}
	return p.Energy / p.Work
}

// Path is the way of a body under a growing load.
type Path struct {
	Stop Stop
	Cuts int

	follower
	knots []knot
	loss  int // index of the last knot that holds
}

// ErrNeutral is the answer no: a body has no rest that a load could be followed
// from.
var ErrNeutral = errors.New("it is neutral at rest: nothing brings it back from some turn, so the least load takes it anywhere")

// Follow puts a load on a body at rest and follows its attitude as the share
// of the load grows from zero, by continuation: predictor and corrector along
// the arc of attitude and share together, so that the way leads around a place
// where the load can grow no more. (H. B. Keller, "Numerical solution of
// bifurcation and nonlinear eigenvalue problems", 1977; the pseudo-arclength
// method.) At each step it looks at the eigenvalues of the stiffness against
// turning: a body that is alike on both sides can lose its stability in roll
// while trim goes on steadily and the load with it. Steps are short, and shorter
// still where the stiffness or the load's growth changes fast, so that the
// first loss is found and none is stepped over together with its recovery.
func (r *Rest) Follow(c Course) (*Path, error) { return r.follow(c, 1) }

// follow is Follow with steps shorter by the factor finer.
func (r *Rest) follow(c Course, finer float64) (*Path, error) {
	if r.Neutral {
		return nil, ErrNeutral
	}
	if !(c.Most > 0) {
		return nil, fmt.Errorf("a load must be followed to more than %g of it", c.Most)
	}
	p := &Path{follower: follower{body: r.body, load: c.Load, most: c.Most, finer: finer}}
	p.cuts = &p.Cuts
	first := knot{stance: p.body.under(c.Load, r.at.n, r.at.e, 0)}
	p.Cuts++
	p.start = first.energy
	first.lesser, _, _, _ = first.softness()
	if first.lesser <= flat {
		return nil, ErrNeutral
	}
	if !p.depart(&first) {
		return nil, ErrNeutral
	}
	p.knots = append(p.knots, first)
	p.run(c)
	return p, nil
}

// depart sets the way on from rest and the unit of share.
func (p *Path) depart(k *knot) bool {
	p.unit = p.most / 4
	var a [4][4]float64
	for i := range 3 {
		copy(a[i][:3], k.k[i][:])
	}
	x, ok := solve(3, a, [4]float64{k.push[0], k.push[1], k.push[2]})
	if !ok {
		return false
	}
	if l := math.Sqrt(x[0]*x[0] + x[1]*x[1] + x[2]*x[2]); l > 0 {
		p.unit = min(p.unit, stride/l)
	}
	k.way = way{turn: r3.Add(r3.Scale(x[0], k.t1), r3.Scale(x[1], k.t2)), rise: x[2], share: 1}
	k.way = k.way.scale(1 / math.Sqrt(p.dot(k.way, k.way)))
	return true
}

// run takes steps until the course ends.
func (p *Path) run(c Course) {
	step, lost := longest/p.finer, false
	for len(p.knots) < int(mostKnots*p.finer) {
		here := &p.knots[len(p.knots)-1]
		next, rounds, ok := p.along(here, step)
		if ok && p.dot(next.way, here.way) < 0.8 && step > 100*shortest {
			ok = false // a bend too sharp for the step
		}
		if ok && !lost && !p.steady(here, &next) {
			ok = false
		}
		if ok && !lost && next.lesser > 0 && (next.way.share <= 0 || next.share <= here.share) {
			// While it holds, the load grows: this is beyond a gap, at which
			// the load leaps or the body goes wholly under.
			ok = false
		}
		if !ok {
			if step /= 2; step < shortest {
				if !lost {
					p.Stop = p.deadEnd(here)
					p.loss = len(p.knots) - 1
				}
				return
			}
			continue
		}
		if rounds <= 3 {
			step = min(1.5*step, longest/p.finer)
		}
		// Out of the water there is nothing to follow.
		const wet = 0.01
		if dry := func(k *knot) float64 { return k.sec.Volume/p.body.Need() - wet }; dry(&next) <= 0 {
			p.knots = append(p.knots, p.root(here, &next, coarse, dry))
			if !lost {
				p.Stop = LiftsOff
				p.loss = len(p.knots) - 1
			}
			return
		}
		if !lost && next.lesser <= 0 {
			edge := p.root(here, &next, coarse, func(k *knot) float64 { return k.lesser })
			if edge.share > p.most {
				next = edge // the course ends on the way there
			} else {
				lost = true
				p.loss = len(p.knots)
				p.Stop = edge.cause()
				if p.dot(edge.way, next.way) < 0.8 {
					// Two ways cross where a symmetric body begins to
					// roll: keep to the one it came on.
					edge.way = next.way
				}
				p.knots = append(p.knots, edge)
				if !c.Past {
					return
				}
				// The rest of the step is measured from the edge.
				continue
			}
		}
		if !lost && next.share >= p.most {
			last := p.at(here, &next, p.most)
			p.knots = append(p.knots, last)
			p.loss = len(p.knots) - 1
			return
		}
		p.knots = append(p.knots, next)
		if lost {
			at := p.point(&p.knots[len(p.knots)-1])
			if next.share <= 0 || next.share >= p.most || c.Enough != nil && c.Enough(&at) {
				return
			}
		}
	}
	if !lost {
		p.Stop = Unfollowed
		p.loss = len(p.knots) - 1
	}
}

// deadEnd says why there is no way on.
func (p *Path) deadEnd(k *knot) Stop {
	share := (1 - k.share*k.push[2]) * p.body.Need() / p.body.Hull.volume
	switch {
	case share > 0.99:
		return GoesDown
	case share < 0.01:
		return LiftsOff
	}
	return Unfollowed
}

// cause says what a loss of stability leads to, from the way in which the body
// gives.
func (k *knot) cause() Stop {
	_, _, give, _ := k.softness()
	if give == (r3.Vec{}) || math.Abs(r3.Dot(k.way.turn, give)) > 0.7*r3.Norm(k.way.turn) && math.Abs(k.way.share) < 1e-3*r3.Norm(k.way.turn) {
		give = k.way.turn // it goes on as it has come
	}
	pose := Pose{Attitude: Attitude{Up: k.n}}
	ahead, port := pose.Headings()
	pitch, roll := r3.Dot(give, ahead), r3.Dot(give, port)
	switch {
	case math.Abs(roll) >= math.Abs(pitch):
		return RollsOver
	case r3.Dot(k.way.turn, ahead) < 0:
		return NoseUnder
	}
	return TailUnder
}
