package overlap

import "math"

// turn returns the sign of the area of the shadow of three points along an
// axis, exactly.
func (p *points) turn(axis uint8, i, j, k uint32) int {
	if p.isSpot(i) && p.isSpot(j) && p.isSpot(k) {
		a, b, c := p.spotOf(i), p.spotOf(j), p.spotOf(k)
		return turn(axis, &a, &b, &c)
	}
	if s := rough(axis, &p.at[i], &p.at[j], &p.at[k]); s != 0 {
		return s
	}
	if i == j || j == k || k == i || p.inLine(i, j, k) {
		return 0
	}
	return p.exactTurn(axis, p.exact(i, &p.work[0]), p.exact(j, &p.work[1]), p.exact(k, &p.work[2]))
}

// rough returns the sign of the area as far as float64 can tell, else zero.
func rough(axis uint8, a, b, c *[3]float64) int {
	u, v := plane(axis)
	pu, pv, qu, qv := b[u]-a[u], b[v]-a[v], c[u]-a[u], c[v]-a[v]
	p, q := pu*qv, pv*qu
	bound := slack*(math.Abs(pu)+math.Abs(pv)+math.Abs(qu)+math.Abs(qv)+2*slack) + 0x1p-51*(math.Abs(p)+math.Abs(q))
	switch det := p - q; {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	return 0
}

// inLine reports whether three points are known to lie on one edge, without
// any sums.
func (p *points) inLine(i, j, k uint32) bool {
	for _, m := range [3]uint32{i, j, k} {
		if p.isSpot(m) {
			continue
		}
		e := p.made[int(m)-p.spots].edge
		if e[0] != e[1] && p.onEdge(i, e) && p.onEdge(j, e) && p.onEdge(k, e) {
			return true
		}
	}
	return false
}

func (p *points) onEdge(i uint32, e [2]uint32) bool {
	return i == e[0] || i == e[1] || !p.isSpot(i) && p.made[int(i)-p.spots].edge == e
}

// exactTurn returns the sign of
//
//	| a.u a.v a.w |
//	| b.u b.v b.w |
//	| c.u c.v c.w |
//
// which is that of the area as all w are positive.
func (p *points) exactTurn(axis uint8, a, b, c *fraction) int {
	u, v := plane(axis)
	x, y := &p.tmp[0], &p.tmp[1]
	minor := func(f, g *fraction) { // x = f.u g.v - f.v g.u
		x.Mul(f.coordinate(u), g.coordinate(v))
		y.Mul(f.coordinate(v), g.coordinate(u))
		x.Sub(x, y)
	}
	sum := &p.tmp[2]
	minor(b, c)
	sum.Mul(x, &a.w)
	minor(c, a)
	sum.Add(sum, x.Mul(x, &b.w))
	minor(a, b)
	return sum.Add(sum, x.Mul(x, &c.w)).Sign()
}
