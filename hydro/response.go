package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Change is the first-order change of an attitude at rest: how its upward
// vector and its height move per unit of some small cause.
type Change struct {
	Up     r3.Vec
	Height float64

	from Attitude
}

// Added returns how the rest moves per kilogram added at body point at: the
// exact derivative, from the waterplane. It is the zero Change where the state
// has no stiffness to answer with.
func (s *State) Added(at r3.Vec) Change {
	arm := r3.Sub(at, s.body.Hull.center)
	per := 1 / s.body.Mass
	size := s.body.Hull.size
	return s.answer([3]float64{
		r3.Dot(s.at.t1, arm) / size * per,
		r3.Dot(s.at.t2, arm) / size * per,
		per,
	})
}

// Shifted returns how the rest moves per meter by which the CG shifts along
// the vector by (per unit of by, if it is no unit vector).
func (s *State) Shifted(by r3.Vec) Change {
	size := s.body.Hull.size
	return s.answer([3]float64{r3.Dot(s.at.t1, by) / size, r3.Dot(s.at.t2, by) / size, 0})
}

// answer solves H x = -push for the change in the gradient push, in the units
// of place.
func (s *State) answer(push [3]float64) Change {
	values, vectors := s.at.hess.eigen()
	var x [3]float64
	for i := range 3 {
		// A direction without stiffness does not answer by any finite
		// amount: leave it out rather than report rounding.
		if math.Abs(values[i]) < 1e-9*values[2] {
			continue
		}
		q := 0.0
		for k := range 3 {
			q -= vectors[i][k] * push[k]
		}
		for k := range 3 {
			x[k] += q / values[i] * vectors[i][k]
		}
	}
	c := Change{from: s.Attitude}
	c.Up = r3.Add(r3.Scale(x[0], s.at.t1), r3.Scale(x[1], s.at.t2))
	c.Height = x[2]*s.body.Hull.size - r3.Dot(c.Up, s.body.Hull.center)
	return c
}

// Trim returns the change of trim, rad per unit.
func (c Change) Trim() float64 { return c.Up.X / math.Cos(c.from.Trim()) }

// Heel returns the change of heel, rad per unit.
func (c Change) Heel() float64 {
	y, z := c.from.Up.Y, c.from.Up.Z
	return (z*c.Up.Y - y*c.Up.Z) / (y*y + z*z)
}

// HeightOf returns the change in the height of body point p, m per unit.
func (c Change) HeightOf(p r3.Vec) float64 { return r3.Dot(c.Up, p) + c.Height }

// Slope returns the change in the angle of the unit vector d above the
// horizontal, rad per unit.
func (c Change) Slope(d r3.Vec) float64 {
	return r3.Dot(c.Up, d) / math.Cos(c.from.Slope(d))
}
