package hydro

import (
	"errors"
	"math"
)

const (
	// settled is the residual at which a solve stops: 1e-12 of the body's
	// size and volume. Rounding in the cuts leaves some 1e-14.
	settled = 1e-12
	// firm is the residual that every answer must reach.
	firm = 1e-9
	// tie is the offset of G and B, per size, below which the pull along an
	// unstable direction is no pull: 1 micrometer on 1 m, less than any
	// craft is built or any file is drawn to. Without it rounding would
	// choose the side to which a symmetric craft falls.
	tie = 1e-6
	// firstRadius and lastRadius bound a step in radians and in sizes. A
	// step of 0.2 rad cannot jump a basin that a builder would call one.
	firstRadius = 0.1
	lastRadius  = 0.2
	// near is the expected gain in energy, per W L, below which differences
	// of energy drown in rounding and only the residual is watched.
	near = 1e-11
	// rounding is what is left of the last digits of an energy, per W L.
	rounding = 4e-16
)

// errStuck says that a solve ended short of balance. No body is known to cause
// it; it is an error and not a panic so that a sweep can go on.
var errStuck = errors.New("the solver did not settle: please report the mesh, mass and CG")

// fall follows the energy downhill from the place p to where nothing pulls any
// more: Newton steps with the exact Hessian, inside a trust region, and no
// step ever raises the energy. It counts its cuts into *cuts. What it reaches
// is stationary, usually a minimum; a tie (see tie) is left standing for the
// caller to break.
func (b *Body) fall(p place, cuts *int) (place, error) {
	size := b.Hull.size
	radius := firstRadius
	for range 500 {
		x, pull, gain := step(&p, radius)
		if pull <= settled {
			return p, nil
		}
		n, e := p.move(x, size)
		next := b.at(n, e)
		*cuts++
		if gain < near {
			_, nextPull, _ := step(&next, radius)
			switch {
			case nextPull < pull:
				p = next
			case pull <= firm || pull <= tie && length(x) < firm:
				return p, nil // rounding has the last word
			case next.energy <= p.energy+rounding:
				// Hardly any slope and hardly any curvature, as where
				// two rests have just met: go on down, gently.
				p = next
			default:
				// So soft that the step crosses facets, whose kinks
				// turn it: nearer.
				radius = length(x) / 4
			}
			if radius < 1e-14 {
				return p, errStuck
			}
			continue
		}
		ratio := (p.energy - next.energy) / gain
		switch {
		case ratio < 0.25:
			radius = length(x) / 4
		case ratio > 0.75:
			radius = min(2*radius, lastRadius)
		}
		if ratio > 1e-4 {
			p = next
		}
		if radius < 1e-14 {
			break
		}
	}
	return p, errStuck
}

// step returns the minimizer of the quadratic model of the energy at p within
// the radius, the size of the residual it answers to, and the gain that the
// model expects. A pull below tie along a direction of negative curvature is
// ignored.
func step(p *place, radius float64) (x [3]float64, pull, gain float64) {
	values, vectors := p.hess.eigen()
	var g [3]float64 // the gradient along the eigenvectors
	for i := range 3 {
		for k := range 3 {
			g[i] += vectors[i][k] * p.grad[k]
		}
		if values[i] < 0 && math.Abs(g[i]) < tie {
			g[i] = 0
		}
		pull = max(pull, math.Abs(g[i]))
	}
	// The step along eigenvector i is -g/(value + shift). Find the least
	// shift >= 0 that makes the model convex where it is pulled and keeps
	// the step inside the radius.
	least := math.Inf(1)
	for i := range 3 {
		if g[i] != 0 {
			least = min(least, values[i])
		}
	}
	if math.IsInf(least, 1) {
		return x, pull, 0
	}
	norm := func(shift float64) float64 {
		sum := 0.0
		for i := range 3 {
			if g[i] != 0 {
				q := g[i] / (values[i] + shift)
				sum += q * q
			}
		}
		return math.Sqrt(sum)
	}
	shift := 0.0
	if least <= 0 || norm(0) > radius {
		lo := max(0, -least)
		hi := lo + math.Sqrt(g[0]*g[0]+g[1]*g[1]+g[2]*g[2])/radius // norm(hi) <= radius
		for range 60 {
			shift = (lo + hi) / 2
			if n := norm(shift); n > radius {
				lo = shift
			} else {
				hi = shift
				if n > 0.9*radius {
					break
				}
			}
		}
		shift = hi
	}
	for i := range 3 {
		if g[i] == 0 {
			continue
		}
		q := -g[i] / (values[i] + shift)
		gain -= q * (g[i] + values[i]*q/2)
		for k := range 3 {
			x[k] += q * vectors[i][k]
		}
	}
	return x, pull, gain
}

func length(x [3]float64) float64 { return math.Sqrt(x[0]*x[0] + x[1]*x[1] + x[2]*x[2]) }
