package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// valleyStep is how far apart the places along a valley's floor are taken.
const valleyStep = 2 * math.Pi / 180

// valley walks along the floor of the energy from the low p, both ways in the
// softest direction, while it rises by no more than most (per W L) over the
// low. It returns the directions it visited, and whether they close to a ring:
// the floor of a valley without end comes back to where it began, since a log
// lies at any heel.
func (b *Body) valley(p place, most float64, cuts *int) (floor []r3.Vec, ring bool) {
	ahead, _ := p.softest()
	for _, sign := range []float64{1, -1} {
		q, way := p, r3.Scale(sign, ahead)
		for range int(2 * math.Pi / valleyStep) {
			q, way = b.along(q, way, 1, cuts)
			if q.energy-p.energy > most {
				break
			}
			floor = append(floor, q.n)
			if len(floor) > 4 && angleBetween(q.n, p.n) < valleyStep*0.75 {
				return floor, true
			}
		}
	}
	return floor, false
}

// along takes one step along the floor of a valley (side 1) or along a ridge
// (side -1): ahead by valleyStep, then to the floor or ridge across the way. It
// returns the new place and the way on.
func (b *Body) along(p place, way r3.Vec, side float64, cuts *int) (place, r3.Vec) {
	// A ten-thousandth of a radian off the floor changes the energy by the
	// square of it, far less than a shallow pass.
	const near = 1e-4
	n := tilt(p.n, r3.Scale(valleyStep, way))
	// Carried along the great circle, the way stays a tangent.
	s, c := math.Sincos(valleyStep)
	way = r3.Sub(r3.Scale(c, way), r3.Scale(s, p.n))
	q := b.sampleAt(n, p.leveled(n, b.Hull.size), cuts)
	for range 6 {
		across := r3.Cross(q.n, way)
		bend, pull := q.bend(across)
		bend, pull = side*bend, side*pull
		step := -pull / bend
		if bend <= 0 || math.Abs(step) > valleyStep {
			step = -math.Copysign(valleyStep/2, pull)
		}
		if math.Abs(step) < near {
			break
		}
		n = tilt(q.n, r3.Scale(step, across))
		q = b.sampleAt(n, q.leveled(n, b.Hull.size), cuts)
		way = r3.Unit(r3.Sub(way, r3.Scale(r3.Dot(way, q.n), q.n)))
	}
	// On along the chord: a ring need not be a great circle.
	chord := r3.Sub(q.n, p.n)
	return q, r3.Unit(r3.Sub(chord, r3.Scale(r3.Dot(chord, q.n), q.n)))
}

// bend returns the reduced second derivative of the energy along the unit
// tangent d, and the first.
func (p *place) bend(d r3.Vec) (second, first float64) {
	x, y := r3.Dot(d, p.t1), r3.Dot(d, p.t2)
	xx, yy, xy := p.reduced()
	return xx*x*x + yy*y*y + 2*xy*x*y, p.grad[0]*x + p.grad[1]*y
}

// turning walks from the stationary place p along the valley floor that leads
// up from it (side 1) or the ridge that leads down (side -1), starting toward
// the tangent way. It returns the first place where the floor or ridge turns,
// near which there is a pass, and false where it does not within half a turn.
func (b *Body) turning(p place, way r3.Vec, side float64, cuts *int) (place, bool) {
	for range int(math.Pi / valleyStep) {
		p, way = b.along(p, way, side, cuts)
		if _, slope := p.bend(way); side*slope <= 0 {
			return p, true
		}
	}
	return p, false
}

func angleBetween(a, b r3.Vec) float64 {
	return 2 * math.Asin(min(1, r3.Norm(r3.Sub(a, b))/2))
}
