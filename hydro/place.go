package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Place is something whose height above the water is watched.
type Place interface {
	// Clearance returns the height of its lowest point above the water at a,
	// negative when that is wet, and that point in body axes.
	Clearance(a Attitude) (height float64, at r3.Vec)
}

// Spot is a single body point as a [Place].
type Spot r3.Vec

// Clearance returns the spot's own height.
func (s Spot) Clearance(a Attitude) (float64, r3.Vec) { return a.HeightOf(r3.Vec(s)), r3.Vec(s) }

// Spots are several body points as one [Place], such as a hatch on each of two
// floats.
type Spots []r3.Vec

// Clearance returns the height of the lowest one.
func (s Spots) Clearance(a Attitude) (float64, r3.Vec) {
	height, at := math.Inf(1), r3.Vec{}
	for _, q := range s {
		if h := a.HeightOf(q); h < height {
			height, at = h, q
		}
	}
	return height, at
}

// Surface is a set of placed solids as one [Place]: a part that is to stay dry.
type Surface []mesh.Placed

// Clearance returns the height of the lowest point of all the solids.
func (s Surface) Clearance(a Attitude) (float64, r3.Vec) {
	height, at := math.Inf(1), r3.Vec{}
	for _, p := range s {
		if q := p.Lowest(a.Up); a.HeightOf(q) < height {
			height, at = a.HeightOf(q), q
		}
	}
	return height, at
}

var (
	_ Place = Spot{}
	_ Place = Spots(nil)
	_ Place = Surface(nil)
)
