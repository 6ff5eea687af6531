package hydro

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Auxiliary is how an auxiliary float (at a wing tip, or a sponson) holds up a
// craft that its main hull does not.
type Auxiliary struct {
	Heel      float64 // at which the float is wholly under, rad
	Upsetting float64 // moment of weight and main buoyancy there, N m, positive where it heels further
	Righting  float64 // moment of the float's buoyancy, wholly under, about the main center of buoyancy, N m
}

// Share returns the righting over the upsetting moment. It is infinite where
// nothing upsets.
func (a Auxiliary) Share() float64 {
	if a.Upsetting <= 0 {
		return math.Inf(1)
	}
	return a.Righting / a.Upsetting
}

// mostAuxiliary is the heel within which an auxiliary float is to go under.
const mostAuxiliary = 60 * math.Pi / 180

// Auxiliary heels the body to starboard (side 1) or to port (side -1) on the
// hull that carries it alone, free to sink and with the trim held, until the
// float given by its terms is just wholly under, and returns the moments there.
//
// This is the usual way of sizing auxiliary floats: only the one on the low
// side counts, and moments are taken about the main hull's center of buoyancy
// (E. P. Warner, NACA TN 215, 1925, pp. 1-2), so that it does not matter that
// the float takes some of the load. density is that of the water in which the
// float's buoyancy is counted.
func (b *Body) Auxiliary(float []Term, trim, side, density float64) (Auxiliary, error) {
	center, volume := r3.Vec{}, 0.0
	for i := range float {
		v := float[i].Weight * float[i].Volume()
		volume += v
		center = r3.Add(center, r3.Scale(v, float[i].Centroid()))
	}
	center = r3.Scale(1/volume, center)
	at := func(heel float64) (State, float64, error) {
		s, err := b.Level(UpVector(trim, side*heel))
		if err != nil {
			return State{}, 0, err
		}
		top := math.Inf(-1)
		for i := range float {
			top = max(top, s.HeightOf(float[i].Lowest(r3.Scale(-1, s.Up))))
		}
		return s, top, nil
	}
	const step = math.Pi / 180
	lo, hi := 0.0, math.NaN()
	for heel := 0.0; heel <= mostAuxiliary; heel += step {
		_, top, err := at(heel)
		if err != nil {
			return Auxiliary{}, err
		}
		if top <= 0 {
			hi = heel
			break
		}
		lo = heel
	}
	if math.IsNaN(hi) {
		return Auxiliary{}, fmt.Errorf("the float is not wholly under at any heel up to %.0f deg", mostAuxiliary*180/math.Pi)
	}
	for range 60 {
		mid := (lo + hi) / 2
		_, top, err := at(mid)
		if err != nil {
			return Auxiliary{}, err
		}
		if top <= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	s, _, err := at(hi)
	if err != nil {
		return Auxiliary{}, err
	}
	// Level and toward the low side.
	_, port := s.horizontals()
	low := r3.Scale(-side, port)
	return Auxiliary{
		Heel:      hi,
		Upsetting: b.Mass * Gravity * r3.Dot(low, r3.Sub(s.CG, s.CB)),
		Righting:  density * volume * Gravity * r3.Dot(low, r3.Sub(center, s.CB)),
	}, nil
}

// Apart returns the hull of the terms whose part is not among those given.
func (h *Hull) Apart(parts ...int) (*Hull, error) {
	var kept []Term
	for _, t := range h.terms {
		out := false
		for _, p := range parts {
			out = out || t.Part == p
		}
		if !out {
			kept = append(kept, t)
		}
	}
	return NewHull(kept)
}
