package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Term is one solid's share in what displaces: weight +1 for a part, -1 for
// what two parts share and would count twice, minus the permeability for a
// flooded space.
type Term struct {
	mesh.Placed
	Weight float64
	Part   int // the caller's number of the part it belongs to
}

// Hull is everything that displaces water: a list of terms in body axes. It is
// immutable and safe for concurrent use, and serves bodies of any mass.
type Hull struct {
	terms  []Term
	center r3.Vec  // all integrals are taken about it
	size   float64 // half the diagonal of the box around it all
	volume float64 // when wholly under
	moment r3.Vec  // of that volume, about center
}

// NewHull returns the hull of the given terms. It fails when there are none,
// when a placement flattens or is not finite, or when they enclose nothing.
func NewHull(terms []Term) (*Hull, error) {
	if len(terms) == 0 {
		return nil, errors.New("nothing displaces water: no part is marked as flotation or buoyant")
	}
	h := &Hull{terms: terms}
	inf := math.Inf(1)
	lo, hi := r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for i, t := range terms {
		if det := t.Place.Det(); !(math.Abs(det) > 0) || math.IsInf(det, 0) {
			return nil, fmt.Errorf("term %d of the hull is placed by a map that flattens it (determinant %g)", i, det)
		}
		x0, x1 := t.Span(r3.Vec{X: 1}, r3.Vec{})
		y0, y1 := t.Span(r3.Vec{Y: 1}, r3.Vec{})
		z0, z1 := t.Span(r3.Vec{Z: 1}, r3.Vec{})
		lo = r3.Vec{X: min(lo.X, x0), Y: min(lo.Y, y0), Z: min(lo.Z, z0)}
		hi = r3.Vec{X: max(hi.X, x1), Y: max(hi.Y, y1), Z: max(hi.Z, z1)}
	}
	h.center = r3.Scale(0.5, r3.Add(lo, hi))
	h.size = r3.Norm(r3.Sub(hi, lo)) / 2
	for _, t := range terms {
		whole := t.Whole(h.center).Scale(t.Weight)
		h.volume += whole.Volume
		h.moment = r3.Add(h.moment, whole.Moment)
	}
	if !(h.volume > 0) {
		return nil, fmt.Errorf("the parts that displace enclose %g m3 in all: nothing floats", h.volume)
	}
	return h, nil
}

// Terms returns the hull's terms, not to be changed.
func (h *Hull) Terms() []Term { return h.terms }

// Volume returns the volume displaced when wholly under, m3.
func (h *Hull) Volume() float64 { return h.volume }

// Center returns the middle of the box around the hull.
func (h *Hull) Center() r3.Vec { return h.center }

// Size returns half the diagonal of the box around the hull, m: the length
// that tolerances are relative to.
func (h *Hull) Size() float64 { return h.size }

// below returns the section under the plane at which a body point at
// center + q has height n.q + e, about center.
func (h *Hull) below(n r3.Vec, e float64) mesh.Section {
	pl := mesh.Plane{Normal: n, Offset: e - r3.Dot(n, h.center)}
	var sum mesh.Section
	for i := range h.terms {
		sec := h.terms[i].Below(pl, h.center)
		if w := h.terms[i].Weight; w != 1 {
			sec = sec.Scale(w)
		}
		sum = sum.Add(sec)
	}
	return sum
}

// span returns bounds on n.(p - center) over the hull.
func (h *Hull) span(n r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i := range h.terms {
		a, b := h.terms[i].Span(n, h.center)
		lo, hi = min(lo, a), max(hi, b)
	}
	return lo, hi
}

// Lowest returns the hull's lowest point along the upward direction up.
func (h *Hull) Lowest(up r3.Vec) r3.Vec {
	best, at := math.Inf(1), r3.Vec{}
	for i := range h.terms {
		if p := h.terms[i].Lowest(up); r3.Dot(up, p) < best {
			best, at = r3.Dot(up, p), p
		}
	}
	return at
}

// PartVolume returns the volume that part displaces below the surface at a, m3.
func (h *Hull) PartVolume(part int, a Attitude) float64 {
	sum := 0.0
	for _, t := range h.terms {
		if t.Part == part {
			sum += t.Weight * t.Below(a.Surface(), h.center).Volume
		}
	}
	return sum
}

// PartWhole returns the volume that part displaces with the hull wholly under,
// m3: its own, less what counts as that of other parts.
func (h *Hull) PartWhole(part int) float64 {
	sum := 0.0
	for _, t := range h.terms {
		if t.Part == part {
			sum += t.Weight * t.Volume()
		}
	}
	return sum
}

// WetArea returns the area of surface in contact with water at a, m2. Terms of
// negative weight count negatively: what parts share is bounded by just the
// surface that is inside one of them or flat between two, and so is not wet.
func (h *Hull) WetArea(a Attitude) float64 {
	sum := 0.0
	for _, t := range h.terms {
		sum += t.Weight * t.WetArea(a.Surface())
	}
	return sum
}
