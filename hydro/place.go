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
	l := nearest{height: math.Inf(1)}
	for _, q := range s {
		l.try(a, q)
	}
	return l.height, l.at
}

// Surface is a set of placed solids as one [Place]: a part that is to stay dry.
type Surface []mesh.Placed

// Clearance returns the height of the lowest point of all the solids.
func (s Surface) Clearance(a Attitude) (float64, r3.Vec) {
	l := nearest{height: math.Inf(1)}
	for _, p := range s {
		l.try(a, p.Lowest(a.Up))
	}
	return l.height, l.at
}

// nearest is the point nearest to the water so far.
type nearest struct {
	height float64
	at     r3.Vec
}

// try takes a point that is nearer. Of points that are equally near but for
// rounding the first one stays: a craft afloat upright has two sides, and which
// is named must not hang on the last digit.
func (l *nearest) try(a Attitude, p r3.Vec) {
	const same = 1e-9 // m
	h := a.HeightOf(p)
	if math.IsInf(l.height, 1) || h < a.HeightOf(l.at)-same {
		l.at = p
	}
	l.height = math.Min(l.height, h)
}

var (
	_ Place = Spot{}
	_ Place = Spots(nil)
	_ Place = Surface(nil)
)
