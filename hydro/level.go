package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// levelTolerance is how exactly a level solve balances the volume, relative.
// Rounding in a cut is some 1e-14.
const levelTolerance = 1e-13

// level returns the place with the volume balanced to within tolerance
// (relative) at the fixed upward direction n, starting from the height guess
// (NaN for none), and the number of cuts it took. The volume falls steadily as
// the hull rises, so Newton's method on it, kept inside a bracket, cannot
// fail.
func (b *Body) level(n r3.Vec, guess, tolerance float64) (place, int) {
	low, high := b.Hull.span(n)
	// At e = -high all of it is under, at e = -low none.
	lo, hi := -high, -low
	e := guess
	if !(e > lo && e < hi) {
		share := b.Need() / b.Hull.volume
		e = lo + (hi-lo)*(1-share)
	}
	liquids := b.loose(n)
	for cuts := 1; ; cuts++ {
		p := b.atWith(n, e, liquids)
		lack := p.grad[2] // positive: too little displaced, must sink
		if math.Abs(lack) <= tolerance || cuts >= 200 {
			return p, cuts
		}
		if lack > 0 {
			hi = e
		} else {
			lo = e
		}
		// A bracket at the limit of rounding: the volume is as balanced
		// as it can be.
		if hi-lo <= 0x1p-52*(math.Abs(lo)+math.Abs(hi)) {
			return p, cuts
		}
		next := e - lack/p.hess[2][2]*b.Hull.size
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		e = next
	}
}

// Level returns the state with the volume balanced at the fixed upward
// direction up: free to sink, held against trimming and heeling.
func (b *Body) Level(up r3.Vec) (State, error) {
	if err := b.check(); err != nil {
		return State{}, err
	}
	p, cuts := b.level(r3.Unit(up), math.NaN(), levelTolerance)
	return b.state(&p, cuts), nil
}
