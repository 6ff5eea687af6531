package mend

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// contact is how two triangles meet.
type contact int

const (
	noContact contact = iota // more than the tolerance apart
	near                     // perhaps within it
	pierced                  // one goes through the other
)

// meet tells how two triangles meet. Distances of tol and less from the other
// triangle's plane count as zero, so that two flush facets never pierce each
// other, however they are rounded. Triangles narrower than tol have no plane
// to speak of and do not pierce.
func meet(t, u r3.Triangle, tol float64) contact {
	nu, okU := facing(u, tol)
	var ht, hu [3]float64
	if okU {
		if ht = heights(t, u[0], nu, tol); beside(ht) {
			return noContact
		}
	}
	nt, okT := facing(t, tol)
	if okT {
		if hu = heights(u, t[0], nt, tol); beside(hu) {
			return noContact
		}
	}
	if !okT || !okU || !through(ht) || !through(hu) {
		return near
	}
	along := r3.Cross(nt, nu)
	length := norm(along)
	if length < 1e-9 {
		return near
	}
	along = r3.Scale(1/length, along)
	fromT, toT := stretch(t, ht, t[0], along)
	fromU, toU := stretch(u, hu, t[0], along)
	if min(toT, toU)-max(fromT, fromU) > tol {
		return pierced
	}
	return near
}

// facing returns the unit normal of a triangle, and false when it is narrower
// than tol.
func facing(t r3.Triangle, tol float64) (r3.Vec, bool) {
	a, b := r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0])
	n := r3.Cross(a, b)
	area2 := norm(n)
	longest := math.Sqrt(max(r3.Norm2(a), r3.Norm2(b), r3.Norm2(r3.Sub(b, a))))
	if !(area2 > tol*longest) {
		return r3.Vec{}, false
	}
	return r3.Scale(1/area2, n), true
}

// heights returns the heights of t's corners over a plane, zero within tol.
func heights(t r3.Triangle, on, normal r3.Vec, tol float64) (h [3]float64) {
	for k, p := range t {
		if h[k] = r3.Dot(normal, r3.Sub(p, on)); math.Abs(h[k]) <= tol {
			h[k] = 0
		}
	}
	return h
}

// beside reports whether all heights are on one side.
func beside(h [3]float64) bool {
	return h[0] > 0 && h[1] > 0 && h[2] > 0 || h[0] < 0 && h[1] < 0 && h[2] < 0
}

// through reports whether there are heights on both sides.
func through(h [3]float64) bool {
	return min(h[0], h[1], h[2]) < 0 && max(h[0], h[1], h[2]) > 0
}

// stretch returns the part of a line that a triangle covers, from the heights
// of its corners over a plane that the line lies in.
func stretch(t r3.Triangle, h [3]float64, origin, along r3.Vec) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	add := func(p r3.Vec) {
		x := r3.Dot(along, r3.Sub(p, origin))
		from, to = min(from, x), max(to, x)
	}
	for k := range 3 {
		j := (k + 1) % 3
		if h[k] == 0 {
			add(t[k])
		} else if h[k]*h[j] < 0 {
			f := h[k] / (h[k] - h[j])
			add(r3.Add(t[k], r3.Scale(f, r3.Sub(t[j], t[k]))))
		}
	}
	return from, to
}

// apart returns the distance between two triangles that do not pierce each
// other.
func apart(t, u r3.Triangle) float64 {
	d := math.Inf(1)
	for i := range 3 {
		for j := range 3 {
			d = min(d, segments(t[i], t[(i+1)%3], u[j], u[(j+1)%3]))
		}
		d = min(d, toTriangle(t[i], u), toTriangle(u[i], t))
	}
	return d
}

// toTriangle returns the distance of p from the inside of t, and infinity when
// its foot is outside: then an edge is nearer.
func toTriangle(p r3.Vec, t r3.Triangle) float64 {
	n := r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0]))
	length := norm(n)
	if length == 0 {
		return math.Inf(1)
	}
	for k := range 3 {
		if r3.Dot(n, r3.Cross(r3.Sub(t[(k+1)%3], t[k]), r3.Sub(p, t[k]))) < 0 {
			return math.Inf(1)
		}
	}
	return math.Abs(r3.Dot(n, r3.Sub(p, t[0]))) / length
}

// segments returns the distance between segments ab and cd (after Ericson,
// Real-Time Collision Detection, 2005, section 5.1.9).
func segments(a, b, c, d r3.Vec) float64 {
	p, q, r := r3.Sub(b, a), r3.Sub(d, c), r3.Sub(a, c)
	pp, qq, qr := r3.Norm2(p), r3.Norm2(q), r3.Dot(q, r)
	unit := func(x float64) float64 { return max(0, min(1, x)) }
	var s, t float64
	switch {
	case pp == 0 && qq == 0:
	case pp == 0:
		t = unit(qr / qq)
	case qq == 0:
		s = unit(-r3.Dot(p, r) / pp)
	default:
		pr, pq := r3.Dot(p, r), r3.Dot(p, q)
		if den := pp*qq - pq*pq; den > 0 {
			s = unit((pq*qr - pr*qq) / den)
		}
		t = (pq*s + qr) / qq
		if t < 0 {
			t, s = 0, unit(-pr/pp)
		} else if t > 1 {
			t, s = 1, unit((pq-pr)/pp)
		}
	}
	return norm(r3.Sub(r3.Add(r, r3.Scale(s, p)), r3.Scale(t, q)))
}

// toSegment returns where on segment ab, from 0 to 1, the point nearest to p
// is, and how far off.
func toSegment(p, a, b r3.Vec) (at, distance float64) {
	ab, ap := r3.Sub(b, a), r3.Sub(p, a)
	if n := r3.Norm2(ab); n > 0 {
		at = max(0, min(1, r3.Dot(ap, ab)/n))
	}
	return at, norm(r3.Sub(ap, r3.Scale(at, ab)))
}
