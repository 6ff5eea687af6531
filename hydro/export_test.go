package hydro

import "math/rand/v2"

// RandomSymmetric and Eigen give external tests the solver's 3x3 routine.
func RandomSymmetric(seed uint64) [3][3]float64 {
	r := rand.New(rand.NewPCG(seed, 1))
	var m sym3
	for i := range 3 {
		for j := i; j < 3; j++ {
			m[i][j] = r.NormFloat64()
		}
	}
	m.mirror()
	return m
}

func Eigen(m [3][3]float64) (values [3]float64, vectors [3][3]float64) { return sym3(m).eigen() }

// PlainGM gives external tests the textbook's formula.
var PlainGM = plainGM

// FollowFiner gives external tests Follow with shorter steps.
func (r *Rest) FollowFiner(c Course, finer float64) (*Path, error) { return r.follow(c, finer) }

// Turned gives external tests the angle between two directions.
var Turned = angleBetween
