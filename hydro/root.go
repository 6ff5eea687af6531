package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// root returns the knot between two where g, positive at a and not at b, is
// zero, to within a distance of tolerance; where g jumps, the last knot before
// the jump.
func (f *follower) root(a, b *knot, tolerance float64, g func(*knot) float64) knot {
	best := *a
	lo, hi := 0.0, b.step
	glo, ghi := g(a), g(b)
	halve := false
	for range 80 {
		// Regula falsi with the Illinois change; a step that did not halve
		// the bracket is followed by one that does, for a g that jumps.
		x := (lo + hi) / 2
		if y := lo + (hi-lo)*glo/(glo-ghi); !halve && y > lo && y < hi {
			x = y
		}
		width := hi - lo
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
		if hi-lo < tolerance {
			break
		}
		halve = hi-lo > width/2
	}
	return best
}

// fine and coarse are tolerances of root: what a clearance or a share is found
// to, and what a loss of stability is, near which both hardly change.
const (
	fine   = 1e-11
	coarse = 1e-7
)

// at returns the knot at a share of the load that lies between two knots.
func (f *follower) at(a, b *knot, share float64) knot {
	part := (share - a.share) / (b.share - a.share)
	guess := stance{place: place{
		n: r3.Unit(r3.Add(r3.Scale(1-part, a.n), r3.Scale(part, b.n))),
		e: (1-part)*a.e + part*b.e,
	}}
	s, ok := f.hold(guess, share)
	// With the share held the way is not: near a limit there are two stances.
	// The right one lies between the knots.
	apart := angleBetween(a.n, b.n) * (1 + 1e-6)
	if ok && angleBetween(a.n, s.n) <= apart && angleBetween(s.n, b.n) <= apart {
		if k, ok := f.knot(s, a, part*b.step); ok && k.way.share > 0 {
			return k
		}
	}
	k := f.root(a, b, fine, func(k *knot) float64 { return share - k.share })
	if s, ok := f.hold(k.stance, share); ok && angleBetween(k.n, s.n) < 1e-6 {
		k.stance = s
	}
	k.share = share
	return k
}

// hold solves a stance at a fixed share of the load by Newton's method, and
// returns false where that leads nowhere.
func (f *follower) hold(s stance, share float64) (stance, bool) {
	size := f.body.Hull.size
	s = f.body.under(f.load, s.n, s.e, share)
	*f.cuts++
	for range 8 {
		off := s.off()
		if off <= balanced {
			return s, true
		}
		var m [4][4]float64
		for i := range 3 {
			copy(m[i][:3], s.k[i][:])
		}
		x, ok := solve(3, m, [4]float64{-s.rest[0], -s.rest[1], -s.rest[2]})
		if !ok || !(math.Abs(x[0])+math.Abs(x[1])+math.Abs(x[2]) < stride) {
			return s, false
		}
		n, e := s.move([3]float64{x[0], x[1], x[2]}, size)
		next := f.body.under(f.load, n, e, share)
		*f.cuts++
		if next.off() >= off {
			return next, next.off() <= firm
		}
		s = next
	}
	return s, false
}
