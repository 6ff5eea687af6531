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
// throw the body just as far as here. It is not a number at rest.
func (p *Point) Sudden() float64 { return p.Energy / p.Work }

// Path is the way of a body under a growing load.
type Path struct {
	Stop Stop
	Cuts int

	follower
	knots []knot
	loss  int // index of the last knot that holds
}

// knot is a solved stance with the way on from there.
type knot struct {
	stance
	way    way
	step   float64 // distance at which it lies from the one before
	work   float64 // per W L
	lesser float64
}

// way is a direction in the space of attitude and share.
type way struct {
	turn  r3.Vec // of the upward vector, tangent to it
	rise  float64
	share float64
}

// follower holds what does not change along a path.
type follower struct {
	body  *Body
	load  Load
	most  float64
	unit  float64 // the change of share that measures as long as a turn by stride
	cuts  *int
	start float64 // energy at rest
}

const (
	// stride is the turn, in radians and in sizes, that measures one along a
	// path.
	stride = 0.1
	// firstStep, longest and shortest bound a step of a path in strides: at
	// most 3.4 deg, so that no attitude that a builder would tell apart is
	// jumped.
	firstStep = 0.3
	longest   = 0.6
	shortest  = 1e-7
	// balanced is the residual at which a point of a path is solved: as for
	// rest, but for one order of magnitude for the rounding of loads.
	balanced = 1e-11
	// mostKnots ends a path that goes round and round.
	mostKnots = 2000
)

// errNeutral says that a body has no rest that a load could be followed from.
var errNeutral = errors.New("it is neutral at rest: nothing brings it back from some turn, so the least load takes it anywhere")

// Follow puts a load on a body at rest and follows its attitude as the share
// of the load grows from zero, by continuation: predictor and corrector along
// the arc of attitude and share together, so that the way leads around a place
// where the load can grow no more. (H. B. Keller, "Numerical solution of
// bifurcation and nonlinear eigenvalue problems", 1977; the pseudo-arclength
// method.) At each step it looks at the eigenvalues of the stiffness against
// turning: a body that is alike on both sides can lose its stability in roll
// while trim goes on steadily and the load with it.
func (r *Rest) Follow(c Course) (*Path, error) {
	if r.Neutral {
		return nil, errNeutral
	}
	if !(c.Most > 0) {
		return nil, fmt.Errorf("a load must be followed to more than %g of it", c.Most)
	}
	p := &Path{follower: follower{body: r.body, load: c.Load, most: c.Most}}
	p.cuts = &p.Cuts
	first := knot{stance: p.body.under(c.Load, r.at.n, r.at.e, 0)}
	p.Cuts++
	p.start = first.energy
	first.lesser, _, _, _ = first.softness()
	if first.lesser <= flat {
		return nil, errNeutral
	}
	if !p.depart(&first) {
		return nil, errNeutral
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
	step, lost := firstStep, false
	for len(p.knots) < mostKnots {
		here := &p.knots[len(p.knots)-1]
		next, rounds, ok := p.along(here, step)
		if ok && p.dot(next.way, here.way) < 0.8 && step > 100*shortest {
			ok = false // a bend too sharp for the step
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
			step = min(1.5*step, longest)
		}
		if !lost && next.lesser <= 0 {
			edge := p.root(here, &next, func(k *knot) float64 { return k.lesser })
			if edge.share <= p.most {
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

// dot returns the scalar product in which a path is measured.
func (f *follower) dot(a, b way) float64 {
	return (r3.Dot(a.turn, b.turn)+a.rise*b.rise)/(stride*stride) + a.share*b.share/(f.unit*f.unit)
}

func (w way) scale(by float64) way {
	return way{r3.Scale(by, w.turn), by * w.rise, by * w.share}
}

// along returns the knot at a distance from another one along its way, and the
// number of corrections it took.
func (f *follower) along(from *knot, distance float64) (knot, int, bool) {
	size := f.body.Hull.size
	w := from.way
	s := f.body.under(f.load,
		tilt(from.n, r3.Scale(distance, w.turn)), from.e+distance*w.rise*size, from.share+distance*w.share)
	*f.cuts++
	for round := 1; round <= 12; round++ {
		gone := way{r3.Sub(s.n, from.n), (s.e - from.e) / size, s.share - from.share}
		a := s.bordered(w, f)
		x, ok := solve(4, a, [4]float64{-s.rest[0], -s.rest[1], -s.rest[2], distance - f.dot(w, gone)})
		if !ok || math.Abs(x[0])+math.Abs(x[1])+math.Abs(x[2]) > 0.3 {
			return knot{}, 0, false
		}
		n, e := s.move([3]float64{x[0], x[1], x[2]}, size)
		next := f.body.under(f.load, n, e, s.share+x[3])
		*f.cuts++
		settledAt := next.off()
		if settledAt <= balanced || settledAt <= firm && settledAt >= s.off() {
			k, ok := f.knot(next, from, distance)
			return k, round, ok
		}
		if round > 3 && settledAt > s.off() {
			return knot{}, 0, false
		}
		s = next
	}
	return knot{}, 0, false
}

// bordered returns the stiffness with the load's push as a fourth column and
// the way as a fourth row.
func (s *stance) bordered(w way, f *follower) (a [4][4]float64) {
	for i := range 3 {
		copy(a[i][:3], s.k[i][:])
		a[i][3] = -s.push[i]
	}
	const square = stride * stride
	a[3] = [4]float64{r3.Dot(w.turn, s.t1) / square, r3.Dot(w.turn, s.t2) / square, w.rise / square, w.share / (f.unit * f.unit)}
	return a
}

// knot makes a knot of a solved stance: the way on, and the work done since the
// one before.
func (f *follower) knot(s stance, from *knot, distance float64) (knot, bool) {
	x, ok := solve(4, s.bordered(from.way, f), [4]float64{3: 1})
	if !ok {
		return knot{}, false
	}
	w := way{r3.Add(r3.Scale(x[0], s.t1), r3.Scale(x[1], s.t2)), x[2], x[3]}
	l := f.dot(w, w)
	if !(l > 0) || math.IsInf(l, 0) {
		return knot{}, false
	}
	k := knot{stance: s, way: w.scale(1 / math.Sqrt(l)), step: distance}
	k.lesser, _, _, _ = s.softness()
	k.work = from.work + work(&from.stance, &s, f.body.Hull.size)
	return k, true
}

// work returns what the load at full strength does between two near stances,
// per W L, by the trapezoidal rule.
func work(a, b *stance, size float64) float64 {
	ta, ra := a.shape()
	tb, rb := b.shape()
	turn := r3.Sub(b.n, a.n)
	if chord := r3.Norm(turn); chord > 0 {
		turn = r3.Scale(angleBetween(a.n, b.n)/chord, turn)
	}
	// Each push is tangent at its own place; the chord leans out of both
	// alike, by half the angle, whose cosine is taken back out.
	lean := math.Cos(angleBetween(a.n, b.n) / 2)
	return (r3.Dot(ta, turn)+r3.Dot(tb, turn))/(2*lean) + (ra+rb)/2*(b.e-a.e)/size
}

// root returns the knot between two where g, positive at a and not at b, is
// zero; where g jumps, the last knot before the jump.
func (f *follower) root(a, b *knot, g func(*knot) float64) knot {
	best := *a
	lo, hi := 0.0, b.step
	glo, ghi := g(a), g(b)
	for i := range 60 {
		// Regula falsi with the Illinois change; every third step halves,
		// for a g that jumps.
		x := (lo + hi) / 2
		if i%3 != 2 {
			if y := lo + (hi-lo)*glo/(glo-ghi); y > lo && y < hi {
				x = y
			}
		}
		k, _, ok := f.along(a, x)
		if !ok {
			hi, ghi = x, -math.Abs(ghi)
			continue
		}
		v := g(&k)
		if v >= 0 {
			best, lo, glo = k, x, v
			ghi /= 2
		} else {
			hi, ghi = x, v
			glo /= 2
		}
		if math.Abs(v) < 1e-12 {
			return k
		}
		if hi-lo < 1e-10*b.step {
			break
		}
	}
	return best
}

// at returns the knot at a share of the load that lies between two knots.
func (f *follower) at(a, b *knot, share float64) knot {
	k := f.root(a, b, func(k *knot) float64 { return share - k.share })
	// The last bit is got with the share itself held.
	for range 3 {
		var m [4][4]float64
		s := f.body.under(f.load, k.n, k.e, share)
		*f.cuts++
		for i := range 3 {
			copy(m[i][:3], s.k[i][:])
		}
		x, ok := solve(3, m, [4]float64{-s.rest[0], -s.rest[1], -s.rest[2]})
		if !ok || math.Abs(x[0])+math.Abs(x[1])+math.Abs(x[2]) > 1e-6 {
			break
		}
		k.stance = s
		if s.off() <= balanced {
			break
		}
		k.n, k.e = s.move([3]float64{x[0], x[1], x[2]}, f.body.Hull.size)
	}
	k.share = share
	return k
}
