package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Shift is one reading of an inclining experiment: a weight aboard moved across
// and the heel that came of it.
type Shift struct {
	Weight float64 // kg, part of the body's mass
	Port   float64 // how far it stands to port of where it began, m; negative to starboard
	Heel   Reading // rad, starboard down positive
}

// Inclining is the result of an inclining experiment.
type Inclining struct {
	// CGY and CGZ are the CG with the weight where it began, found by
	// fitting the heels that the hull itself gives.
	CGY, CGZ Reading // m
	GM       Reading // transverse, upright, m
	// Plain is GM by the textbook's straight line, moment over displacement
	// against tan heel, which is a little high on a hull whose sides stand
	// apart.
	Plain Reading
	// Off is how far each heel read is from the one fitted, rad.
	Off []float64
}

// Incline finds the height and the sideways place of the CG from heels read
// with a known weight at several places. The body's mass includes the weight;
// its CG's x and its first y and z are where the search begins, and x is kept.
// It needs two shifts or more that differ.
func (b *Body) Incline(shifts []Shift) (*Inclining, error) {
	if err := checkShifts(shifts); err != nil {
		return nil, err
	}
	cg := b.CG
	heels := func(y, z float64) ([]float64, error) {
		out := make([]float64, len(shifts))
		for i, s := range shifts {
			c := *b
			c.CG = r3.Vec{X: b.CG.X, Y: y + s.Weight*s.Port/b.Mass, Z: z}
			rest, err := c.Rest()
			if err != nil {
				return nil, err
			}
			out[i] = rest.Heel()
		}
		return out, nil
	}
	var normal mat.SymDense
	h := 1e-5 * b.Hull.size
	var off []float64
	for range 40 {
		at, err := heels(cg.Y, cg.Z)
		if err != nil {
			return nil, err
		}
		y1, err := heels(cg.Y+h, cg.Z)
		if err != nil {
			return nil, err
		}
		z1, err := heels(cg.Y, cg.Z+h)
		if err != nil {
			return nil, err
		}
		normal = *mat.NewSymDense(2, nil)
		right := mat.NewVecDense(2, nil)
		off = off[:0]
		for i, s := range shifts {
			row := mat.NewVecDense(2, []float64{(y1[i] - at[i]) / h / s.Heel.Sigma, (z1[i] - at[i]) / h / s.Heel.Sigma})
			normal.SymRankOne(&normal, 1, row)
			right.AddScaledVec(right, (s.Heel.Value-at[i])/s.Heel.Sigma, row)
			off = append(off, s.Heel.Value-at[i])
		}
		var chol mat.Cholesky
		if !chol.Factorize(&normal) || chol.Cond() > 1e12 {
			return nil, errors.New("these shifts do not fix the CG's height: move the weight further, to both sides")
		}
		var step mat.VecDense
		if err := chol.SolveVecTo(&step, right); err != nil {
			return nil, err
		}
		// A height that would capsize it is not tried at once.
		size := math.Max(1, mat.Norm(&step, 2)/(0.2*b.Hull.size))
		cg.Y += step.AtVec(0) / size
		cg.Z += step.AtVec(1) / size
		if mat.Norm(&step, 2) < 1e-10*b.Hull.size {
			break
		}
	}
	return b.inclined(shifts, cg, &normal, off)
}

func checkShifts(shifts []Shift) error {
	if len(shifts) < 2 {
		return fmt.Errorf("%d shift of a weight: inclining needs two or more, better four", len(shifts))
	}
	least, most := math.Inf(1), math.Inf(-1)
	for i, s := range shifts {
		if !(s.Heel.Sigma > 0) {
			return fmt.Errorf("shift %d: the tolerance of its heel must be over zero", i+1)
		}
		least, most = min(least, s.Weight*s.Port), max(most, s.Weight*s.Port)
	}
	if !(most > least) {
		return errors.New("all shifts have the same moment: move the weight to different places")
	}
	return nil
}

// inclined works out the result at the fitted CG. With readings to spare their
// own scatter widens the deviations where it is larger than stated.
func (b *Body) inclined(shifts []Shift, cg r3.Vec, normal *mat.SymDense, off []float64) (*Inclining, error) {
	c := *b
	c.CG = cg
	rest, err := c.RestFrom(Attitude{Up: r3.Vec{Z: 1}, Height: math.NaN()})
	if err != nil {
		return nil, err
	}
	var cov mat.Dense
	if err := cov.Inverse(normal); err != nil {
		return nil, err
	}
	wide := 1.0
	if free := len(shifts) - 2; free > 0 {
		chi := 0.0
		for i, s := range shifts {
			chi += off[i] * off[i] / (s.Heel.Sigma * s.Heel.Sigma)
		}
		wide = math.Max(1, chi/float64(free))
	}
	sigma := func(i int) float64 { return math.Sqrt(wide * cov.At(i, i)) }
	// GM falls by what the CG rises.
	return &Inclining{
		CGY:   Reading{cg.Y, sigma(0)},
		CGZ:   Reading{cg.Z, sigma(1)},
		GM:    Reading{rest.GMTransverse(), sigma(1)},
		Plain: plainGM(shifts, b.Mass),
		Off:   off,
	}, nil
}

// plainGM fits a straight line through (moment over displacement, tan heel),
// both with their own middle: tan heel = w d / W GM (Derrett and Barrass, Ship
// Stability for Masters and Mates, on the inclining test). The weight and its
// places are known and the heels are what is read, so it is the heels that the
// line may miss, each as its tolerance lets it; a line through the moments would
// give too small a GM. The deviation is from the scatter of the heels.
func plainGM(shifts []Shift, mass float64) Reading {
	weigh := func(s *Shift) float64 {
		if s.Heel.Sigma == 0 {
			return 1
		}
		cos := math.Cos(s.Heel.Value)
		return math.Pow(cos*cos/s.Heel.Sigma, 2) // d tan = d heel / cos²
	}
	// A weight to port heels to port: negative here.
	arm := func(s *Shift) float64 { return -s.Weight * s.Port / mass }
	var sum, mx, my float64
	for i := range shifts {
		s := &shifts[i]
		w := weigh(s)
		sum, mx, my = sum+w, mx+w*math.Tan(s.Heel.Value), my+w*arm(s)
	}
	mx, my = mx/sum, my/sum
	var sxx, sxy, syy float64
	for i := range shifts {
		s := &shifts[i]
		w, x, y := weigh(s), math.Tan(s.Heel.Value)-mx, arm(s)-my
		sxx, sxy, syy = sxx+w*x*x, sxy+w*x*y, syy+w*y*y
	}
	r := Reading{Value: syy / sxy}
	if n := float64(len(shifts)); n > 2 {
		slope := math.Sqrt(math.Max(0, sxx-sxy*sxy/syy) / (n - 2) / syy)
		r.Sigma = slope * r.Value * r.Value
	}
	return r
}
