package overlap

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// lattice is the set of points origin + step (i, j, k). All work is done in the
// whole numbers i, j, k, where every question has an exact answer.
type lattice struct {
	origin r3.Vec
	step   float64 // a power of two
}

// fine is how many times, as a power of two, the lattice divides the size of
// what is in it. Float32 has 24 bits, so that files lie on the lattice but for
// coordinates under 2^-25 of the size, whose last bits are lost.
const fine = 50

// newLattice returns the lattice for what lies in a box, with the given number
// of bits.
func newLattice(box r3.Box, bits int) (lattice, error) {
	mid, size := box.Center(), box.Size()
	half := max(size.X, size.Y, size.Z) / 2
	if !(half > 0) || math.IsInf(half, 0) || !(r3.Norm(mid) < math.MaxFloat64/4) {
		return lattice{}, fmt.Errorf("overlap: a box of size %v has no room for a solid", size)
	}
	_, e := math.Frexp(half)
	e++ // room for the rounding of the origin
	if e < -900 || e > 900 {
		return lattice{}, errors.New("overlap: the coordinates are beyond all measure")
	}
	// The origin is a round number, so that differences from it are exact.
	round := func(x float64) float64 { return math.Ldexp(math.Round(math.Ldexp(x, 4-e)), e-4) }
	return lattice{
		origin: r3.Vec{X: round(mid.X), Y: round(mid.Y), Z: round(mid.Z)},
		step:   math.Ldexp(1, e-bits),
	}, nil
}

// spot returns the lattice point nearest to p.
func (l lattice) spot(p r3.Vec) spot {
	at := func(x, o float64) int64 { return int64(math.Round((x - o) / l.step)) }
	return spot{at(p.X, l.origin.X), at(p.Y, l.origin.Y), at(p.Z, l.origin.Z)}
}

// point returns where lattice coordinates lie.
func (l lattice) point(q [3]float64) r3.Vec {
	return r3.Vec{X: l.origin.X + l.step*q[0], Y: l.origin.Y + l.step*q[1], Z: l.origin.Z + l.step*q[2]}
}
