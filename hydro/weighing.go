package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Support is one scale under a craft on land.
type Support struct {
	At   r3.Vec  // where it bears, body axes, m
	Load Reading // kg
}

// Weighing is a craft standing on two or three scales, level or tilted.
type Weighing struct {
	Up       r3.Vec // the upward vector in body axes while it stood
	Supports []Support
	Place    float64 // standard deviation of the places, m
}

// Weighed is the mass and CG that weighings say.
type Weighed struct {
	Mass  Reading
	CG    r3.Vec
	Sigma r3.Vec
	// HasHeight reports that a tilted weighing fixed the CG's height too;
	// without one z and its Sigma are NaN.
	HasHeight bool
}

// Weigh finds mass and CG from weighings: each says that the CG lies on the
// vertical through the loads' common center. Level ones give x and y, and one
// tilted by some 15 deg or more gives z as well.
func Weigh(weighings []Weighing) (*Weighed, error) {
	if len(weighings) == 0 {
		return nil, errors.New("no weighings")
	}
	var w Weighed
	normal := mat.NewSymDense(3, nil)
	right := mat.NewVecDense(3, nil)
	inverse := 0.0
	for i, g := range weighings {
		mass, center, err := g.center()
		if err != nil {
			return nil, fmt.Errorf("weighing %d: %w", i+1, err)
		}
		weight := 1 / (mass.Sigma * mass.Sigma)
		w.Mass.Value += weight * mass.Value
		inverse += weight
		t1, t2 := tangents(g.Up)
		cov := g.spread(mass.Value, center, t1, t2)
		var inv mat.Dense
		if err := inv.Inverse(cov); err != nil {
			return nil, fmt.Errorf("weighing %d: the tolerances leave nothing to weigh by", i+1)
		}
		axes := [2]r3.Vec{t1, t2}
		for a := range 2 {
			for c := range 2 {
				va, vc := vector(axes[a]), vector(axes[c])
				var outer mat.Dense
				outer.Outer(inv.At(a, c), va, vc)
				for r := range 3 {
					for s := r; s < 3; s++ {
						normal.SetSym(r, s, normal.At(r, s)+(outer.At(r, s)+outer.At(s, r))/2)
					}
				}
				right.AddScaledVec(right, inv.At(a, c)*r3.Dot(axes[c], center), va)
			}
		}
	}
	w.Mass.Value /= inverse
	w.Mass.Sigma = math.Sqrt(1 / inverse)
	return &w, w.solve(normal, right)
}

func vector(v r3.Vec) *mat.VecDense { return mat.NewVecDense(3, []float64{v.X, v.Y, v.Z}) }

// heightFrom is the tilt between weighings from which the CG's height is
// worked out: below it a millimeter on a scale's place is tens in height.
const heightFrom = 3 * math.Pi / 180

// solve finds the CG from the normal equations. The direction that level
// weighings say nothing about is told by the smallest eigenvalue.
func (w *Weighed) solve(normal *mat.SymDense, right *mat.VecDense) error {
	var eig mat.EigenSym
	if !eig.Factorize(normal, true) {
		return errors.New("the weighings could not be solved")
	}
	values := eig.Values(nil)
	var vectors mat.Dense
	eig.VectorsTo(&vectors)
	s := math.Sin(heightFrom)
	w.HasHeight = values[0] > s*s*values[1]/2
	nan := math.NaN()
	if !w.HasHeight {
		// Only across the vertical.
		var x [3]float64
		var v [3]float64
		for k := 1; k < 3; k++ {
			col := vectors.ColView(k)
			q := mat.Dot(col, right) / values[k]
			for i := range 3 {
				x[i] += q * col.AtVec(i)
				v[i] += col.AtVec(i) * col.AtVec(i) / values[k]
			}
		}
		w.CG = r3.Vec{X: x[0], Y: x[1], Z: nan}
		w.Sigma = r3.Vec{X: math.Sqrt(v[0]), Y: math.Sqrt(v[1]), Z: nan}
		return nil
	}
	var inv mat.Dense
	if err := inv.Inverse(normal); err != nil {
		return err
	}
	var x mat.VecDense
	x.MulVec(&inv, right)
	w.CG = r3.Vec{X: x.AtVec(0), Y: x.AtVec(1), Z: x.AtVec(2)}
	w.Sigma = r3.Vec{X: math.Sqrt(inv.At(0, 0)), Y: math.Sqrt(inv.At(1, 1)), Z: math.Sqrt(inv.At(2, 2))}
	return nil
}

// center returns the total load and the loads' common center.
func (g *Weighing) center() (Reading, r3.Vec, error) {
	if len(g.Supports) < 2 {
		return Reading{}, r3.Vec{}, errors.New("it needs two scales or more")
	}
	var mass Reading
	var sum r3.Vec
	variance := 0.0
	for _, s := range g.Supports {
		if !(s.Load.Sigma > 0) {
			return Reading{}, r3.Vec{}, errors.New("the tolerance of a scale must be over zero")
		}
		mass.Value += s.Load.Value
		variance += s.Load.Sigma * s.Load.Sigma
		sum = r3.Add(sum, r3.Scale(s.Load.Value, s.At))
	}
	mass.Sigma = math.Sqrt(variance)
	if !(mass.Value > 0) {
		return Reading{}, r3.Vec{}, fmt.Errorf("the scales add up to %g kg", mass.Value)
	}
	if !(g.Place > 0) {
		return Reading{}, r3.Vec{}, errors.New("the tolerance of the places must be over zero")
	}
	return mass, r3.Scale(1/mass.Value, sum), nil
}

// spread returns the covariance of the loads' center along two axes, from the
// scales and the places.
func (g *Weighing) spread(mass float64, center, t1, t2 r3.Vec) *mat.SymDense {
	c := mat.NewSymDense(2, nil)
	for _, s := range g.Supports {
		d := r3.Sub(s.At, center)
		x, y := r3.Dot(t1, d), r3.Dot(t2, d)
		k := s.Load.Sigma * s.Load.Sigma / (mass * mass)
		p := s.Load.Value / mass * g.Place
		c.SetSym(0, 0, c.At(0, 0)+k*x*x+p*p)
		c.SetSym(0, 1, c.At(0, 1)+k*x*y)
		c.SetSym(1, 1, c.At(1, 1)+k*y*y+p*p)
	}
	return c
}
