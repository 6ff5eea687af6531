package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// valleyStep is how far apart the places along a valley's floor are taken.
const valleyStep = 2 * math.Pi / 180

// valley walks along the floor of the energy from the low p, both ways in the
// softest direction, while it rises by no more than most (per W L) over the
// low. It returns the directions it visited. The floor of a valley without
// end comes back to where it began: a log lies at any heel.
func (b *Body) valley(p place, most float64, cuts *int) []r3.Vec {
	var floor []r3.Vec
	ahead, _ := p.softest()
	for _, sign := range []float64{1, -1} {
		q, way := p, r3.Scale(sign, ahead)
		for range int(2 * math.Pi / valleyStep) {
			q, way = b.along(q, way, cuts)
			if q.energy-p.energy > most {
				break
			}
			floor = append(floor, q.n)
			if len(floor) > 4 && angleBetween(q.n, p.n) < valleyStep*0.75 {
				return floor // all the way around
			}
		}
	}
	return floor
}

// along takes one step along the floor: ahead by valleyStep, then down to the
// floor across the way, and returns the new place and the way on.
func (b *Body) along(p place, way r3.Vec, cuts *int) (place, r3.Vec) {
	n := tilt(p.n, r3.Scale(valleyStep, way))
	// Carried along the great circle, the way stays a tangent.
	s, c := math.Sincos(valleyStep)
	way = r3.Sub(r3.Scale(c, way), r3.Scale(s, p.n))
	q, k := b.level(n, p.e, levelTolerance)
	*cuts += k
	for range 4 {
		across := r3.Cross(q.n, way)
		x := [2]float64{r3.Dot(across, q.t1), r3.Dot(across, q.t2)}
		xx, yy, xy := q.reduced()
		bend := xx*x[0]*x[0] + yy*x[1]*x[1] + 2*xy*x[0]*x[1]
		pull := q.grad[0]*x[0] + q.grad[1]*x[1]
		step := -pull / bend
		if bend <= 0 || math.Abs(step) > valleyStep {
			step = -math.Copysign(valleyStep/2, pull)
		}
		if math.Abs(step) < 1e-7 {
			break
		}
		q, k = b.level(tilt(q.n, r3.Scale(step, across)), q.e, levelTolerance)
		*cuts += k
		way = r3.Unit(r3.Sub(way, r3.Scale(r3.Dot(way, q.n), q.n)))
	}
	return q, way
}

func angleBetween(a, b r3.Vec) float64 {
	return 2 * math.Asin(min(1, r3.Norm(r3.Sub(a, b))/2))
}
