package mend

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// sharp is the angle to the plane of a hole from which a facet at its edge is
// taken to meet what is missing at a corner, as a wall meets a lid. At less the
// surface is taken to go on smoothly. (A judgment: it has no source.)
const sharp = math.Pi / 3

// bulge returns how much volume there may be between a hole closed flat and the
// surface that was there. A convex surface over a round hole stays within the
// cone that the facets around it are tangent to, whose volume is area times
// radius times slope over 3; a spherical cap has about three quarters of that.
// What bulges behind a sharp edge, nobody can tell.
func (w *work) bulge(f *figure, rim map[edge]uint32) float64 {
	if f.Normal == (r3.Vec{}) {
		return 0
	}
	slope, length := 0.0, 0.0
	for i, v := range f.corners {
		u := f.corners[(i+1)%len(f.corners)]
		side, ok := rim[edge{u, v}] // the facet runs against the facets that close the hole
		if !ok {
			continue
		}
		n := w.triangle(side / 3).Normal()
		d := norm(r3.Sub(w.verts[u], w.verts[v]))
		length += d
		if cos := r3.Dot(n, f.Normal) / norm(n); cos > math.Cos(sharp) {
			slope += d * math.Sqrt(max(0, 1-cos*cos)) / cos
		}
	}
	if length == 0 {
		return 0
	}
	area := norm(f.Area)
	return area * math.Sqrt(area/math.Pi) * slope / length / 3
}

// rim returns the open sides by their ends.
func (w *work) rim() map[edge]uint32 {
	sides := make(map[edge]uint32)
	for _, h := range w.openSides() {
		from, to := w.ends(h)
		sides[edge{from, to}] = h
	}
	return sides
}
