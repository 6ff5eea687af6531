package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

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
	finer float64 // by how much shorter steps are than usual
	cuts  *int
	start float64 // energy at rest
}

const (
	// stride is the turn, in radians and in sizes, that measures one along a
	// path.
	stride = 0.1
	// longest and shortest bound a step of a path in strides: at most 1 deg, so
	// that no attitude that a builder would tell apart is jumped.
	longest  = 0.175
	shortest = 1e-7
	// closest is the step from which on a path is taken to be smooth: 0.1 deg.
	closest = longest / 10
	// balanced is the residual at which a point of a path is solved: as for
	// rest, but for one order of magnitude for the rounding of loads.
	balanced = 1e-11
	// mostKnots ends a path that goes round and round.
	mostKnots = 4000
)

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

// steady reports whether nothing is likely to hide on a step between two knots.
// A loss of stability that is won back on the same step would do so, and with
// it the first and least load that turns the body over: the stiffness falls
// through zero and rises again, and the load falls and rises with it. So on a
// step the lesser stiffness must neither halve nor double, and the load must
// grow as its growth at both ends lets expect. Steps of closest are trusted.
func (f *follower) steady(a, b *knot) bool {
	if b.step <= closest/f.finer {
		return true
	}
	if least, most := min(a.lesser, b.lesser), max(a.lesser, b.lesser); least < most/2 {
		return false
	}
	gain, from, to := (b.share-a.share)/b.step, a.way.share, b.way.share
	return math.Abs(gain-(from+to)/2) <= 0.1*min(math.Abs(from), math.Abs(to))
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
