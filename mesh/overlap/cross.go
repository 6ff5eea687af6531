package overlap

import "math/big"

// pierce returns the point where the edge between two spots, which lie on
// either side of a facet's plane, passes through that plane.
func (a *arrangement) pierce(i, j, f uint32) uint32 {
	h := hole{min(i, j), max(i, j), f}
	if p, ok := a.holes[h]; ok {
		return p
	}
	v := &a.facets[f].v
	p, q, r := a.spotOf(v[0]), a.spotOf(v[1]), a.spotOf(v[2])
	from, to := a.spotOf(h.from), a.spotOf(h.to)
	var db, da big.Int
	setWide(&da, det3(&p, &q, &r, &from))
	setWide(&db, det3(&p, &q, &r, &to))
	x := &a.work[4]
	a.between(x, h.from, h.to, &da, &db)
	n := a.find(x)
	a.holes[h] = n
	return n
}

// crossing returns the point where two edges between spots cross, seen along an
// axis, in a plane that they both lie in.
func (a *arrangement) crossing(axis uint8, e, f [2]uint32) uint32 {
	r, s := a.spotOf(f[0]), a.spotOf(f[1])
	p, q := a.spotOf(e[0]), a.spotOf(e[1])
	var da, db big.Int
	setDouble(&da, det2(axis, &r, &s, &p))
	setDouble(&db, det2(axis, &r, &s, &q))
	x := &a.work[4]
	a.between(x, e[0], e[1], &da, &db)
	return a.find(x)
}

// common returns the point that the planes of three facets have in common, by
// Cramer's rule. The planes must meet in one point.
func (a *arrangement) common(f, g, h uint32) uint32 {
	var n [3][3]big.Int // normals
	var d [3]big.Int    // normal . corner
	var t big.Int
	for i, number := range [3]uint32{f, g, h} {
		v := &a.facets[number].v
		p, q, r := a.spotOf(v[0]), a.spotOf(v[1]), a.spotOf(v[2])
		for k := range 3 {
			setDouble(&n[i][k], det2(uint8(k), &p, &q, &r))
			d[i].Add(&d[i], t.Mul(&n[i][k], t.SetInt64(p[k])))
		}
	}
	det := func(z *big.Int, x, y, w *[3]*big.Int) {
		var m, s big.Int
		z.SetInt64(0)
		for k := range 3 {
			k1, k2 := (k+1)%3, (k+2)%3
			m.Sub(m.Mul(y[k1], w[k2]), s.Mul(y[k2], w[k1]))
			z.Add(z, m.Mul(&m, x[k]))
		}
	}
	column := func(k int) *[3]*big.Int { return &[3]*big.Int{&n[0][k], &n[1][k], &n[2][k]} }
	right := &[3]*big.Int{&d[0], &d[1], &d[2]}
	x := &a.work[4]
	x.edge = [2]uint32{}
	det(&x.w, column(0), column(1), column(2))
	det(&x.x, right, column(1), column(2))
	det(&x.y, column(0), right, column(2))
	det(&x.z, column(0), column(1), right)
	return a.find(x)
}

// meetOn returns the point where two lines of the plane of facet f cross.
func (a *arrangement) meetOn(f uint32, l, m line) uint32 {
	switch {
	case l.facet != none && m.facet != none:
		return a.common(f, l.facet, m.facet)
	case l.facet != none:
		return a.pierce(m.edge[0], m.edge[1], l.facet)
	case m.facet != none:
		return a.pierce(l.edge[0], l.edge[1], m.facet)
	}
	return a.crossing(a.facets[f].axis, l.edge, m.edge)
}
