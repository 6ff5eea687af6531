package hydro

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// TableRow is one line of a hydrostatic table: the hull set to a trim and a
// draft, whatever it weighs. K is the hull's lowest point at that trim. The
// body's CG enters GM and the moments alone.
type TableRow struct {
	Trim  float64 // rad, nose up; heel is zero
	Draft float64 // of the lowest point, m

	Volume float64 // m3
	Mass   float64 // of the water displaced, kg
	CB     r3.Vec  // body axes, m
	CF     r3.Vec  // of the waterplane, body axes, m; NaN without one
	Area   float64 // of the waterplane, m2
	Wetted float64 // m2

	KB, BMTransverse, BMLongitudinal float64 // m
	KMTransverse, KMLongitudinal     float64 // m
	GMTransverse, GMLongitudinal     float64 // with the body's CG, m

	MassPerSinkage float64 // kg/m
	MomentPerTrim  float64 // that trims it, N m/rad

	// Length is the waterline's, over all hulls; Breadth is the sum of each
	// hull's own.
	Length, Breadth float64 // m
	// Midship is the largest section below water of the deepest row, taken
	// at the same place in all rows.
	Midship float64 // m2

	// Form coefficients: volume over length x breadth x draft, waterplane over
	// length x breadth, midship section over breadth x draft, volume over
	// midship section x length. NaN where the waterline no longer spans the
	// hull below it, as with the deck under.
	Block, Waterplane, MidshipForm, Prismatic float64
}

// Table returns a row for each draft at the given trim. Drafts must be over
// zero; one deeper than the hull gives the hull wholly under. The body's mass
// does not matter, and may be zero.
func (b *Body) Table(trim float64, drafts []float64) ([]TableRow, error) {
	h := b.Hull
	n := UpVector(trim, 0)
	low := r3.Dot(n, r3.Sub(h.Lowest(n), h.center))
	deepest := 0.0
	for _, d := range drafts {
		if !(d > 0) || math.IsInf(d, 0) {
			return nil, fmt.Errorf("a draft of %g m: it must be over zero", d)
		}
		deepest = math.Max(deepest, d)
	}
	at := func(draft float64) Attitude { return Attitude{Up: n, Height: -draft - low - r3.Dot(n, h.center)} }
	midship := h.fullest(at(deepest))
	var rows []TableRow
	for _, d := range drafts {
		rows = append(rows, b.tableRow(at(d), d, midship))
	}
	return rows, nil
}

// midshipStations is how many sections are looked at for the fullest one.
const midshipStations = 25

// fullest returns where the largest section below water is, as its distance
// ahead of the body's origin; NaN when nothing is wet.
func (h *Hull) fullest(a Attitude) float64 {
	at, area := h.SectionCurve(a, midshipStations)
	best, where := 0.0, math.NaN()
	for i := range at {
		if area[i] > best {
			best, where = area[i], at[i]
		}
	}
	return where
}

func (b *Body) tableRow(a Attitude, draft, midship float64) TableRow {
	h := b.Hull
	sec := h.below(a.Up, a.Height+r3.Dot(a.Up, h.center))
	r := TableRow{Trim: a.Trim(), Draft: draft, Volume: sec.Volume, Mass: sec.Volume * b.Density, Area: sec.Area}
	r.Wetted = h.WetArea(a)
	r.CB = r3.Add(h.center, r3.Scale(1/sec.Volume, sec.Moment))
	r.KB = a.HeightOf(r.CB) + draft
	loose := b.loose(a.Up)
	bg := r3.Dot(a.Up, r3.Sub(b.gravity(loose), r.CB))
	ahead, port := tangents(a.Up)
	nan := math.NaN()
	r.CF = r3.Vec{X: nan, Y: nan, Z: nan}
	if h.pierces(sec.Area) {
		arm := r3.Scale(1/sec.Area, sec.AreaMoment)
		r.CF = r3.Add(h.center, arm)
		r.BMTransverse = (sec.AreaSecond.Form(port, port) - sec.Area*r3.Dot(port, arm)*r3.Dot(port, arm)) / sec.Volume
		r.BMLongitudinal = (sec.AreaSecond.Form(ahead, ahead) - sec.Area*r3.Dot(ahead, arm)*r3.Dot(ahead, arm)) / sec.Volume
	}
	r.KMTransverse, r.KMLongitudinal = r.KB+r.BMTransverse, r.KB+r.BMLongitudinal
	r.GMTransverse = r.BMTransverse - bg - loose.surface.Form(port, port)/sec.Volume
	r.GMLongitudinal = r.BMLongitudinal - bg - loose.surface.Form(ahead, ahead)/sec.Volume
	r.MassPerSinkage = b.Density * sec.Area
	r.MomentPerTrim = r.Mass * Gravity * r.GMLongitudinal
	r.Length, r.Breadth = h.waterline(a)
	if !math.IsNaN(midship) {
		r.Midship = h.SectionArea(a, midship)
	}
	share := func(v, of float64) float64 {
		if of <= 0 || v > of*(1+1e-6) {
			return nan
		}
		return v / of
	}
	r.Block = share(r.Volume, r.Length*r.Breadth*draft)
	r.Waterplane = share(r.Area, r.Length*r.Breadth)
	r.MidshipForm = share(r.Midship, r.Breadth*draft)
	r.Prismatic = share(r.Volume, r.Midship*r.Length)
	if math.IsNaN(r.Block + r.Prismatic) {
		r.Block, r.Waterplane, r.MidshipForm, r.Prismatic = nan, nan, nan, nan
	}
	return r
}

// Depth returns the height of the hull from its lowest to its highest point at
// a trim, m: the draft at which it is wholly under.
func (h *Hull) Depth(trim float64) float64 {
	n := UpVector(trim, 0)
	return r3.Dot(n, h.Lowest(r3.Scale(-1, n))) - r3.Dot(n, h.Lowest(n))
}
