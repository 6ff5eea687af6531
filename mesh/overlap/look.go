package overlap

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
)

// view is what a line along an axis through a piece meets.
type view struct {
	above map[int32]int // by solid: its winding number just above the piece
	level []layer       // the facets that lie on the piece, the piece's own not counted
	up    bool          // the piece faces up the axis

	random *rand.Rand
	weight [3]int64
	at     [3]float64
	exact  *fraction // of the point on the piece, nil until needed
	own    fraction
}

// layer is a facet that lies in the plane of a piece, over it.
type layer struct {
	facet uint32
	solid int32
	up    bool
}

// front returns the winding number of a solid on the side to which the piece
// faces.
func (v *view) front(solid int32) int {
	w := v.above[solid]
	if !v.up {
		for _, l := range v.level {
			if l.solid == solid {
				w += heading(l.up)
			}
		}
	}
	return w
}

func heading(up bool) int {
	if up {
		return 1
	}
	return -1
}

// same reports whether some facet that test is true for lies on the piece and
// faces the same way.
func (v *view) same(test func(l *layer) bool) bool {
	for i := range v.level {
		if l := &v.level[i]; l.up == v.up && test(l) {
			return true
		}
	}
	return false
}

var errUnsettled = errors.New("overlap: no line through a piece misses all edges")

// look draws a line through a point inside a piece, along its facet's axis, and
// sets v to what it meets of the given solids. A line that meets an edge counts
// for nothing: another is drawn.
func (a *arrangement) look(p *piece, bodies []int, v *view) error {
	f := &a.facets[p.facet]
	v.weight = [3]int64{1, 1, 1}
	for range 50 {
		v.up = !f.back
		v.level = v.level[:0]
		v.above = make(map[int32]int, len(bodies))
		v.exact = nil
		sum := float64(v.weight[0] + v.weight[1] + v.weight[2])
		for k := range v.at {
			v.at[k] = 0
			for i, w := range v.weight {
				v.at[k] += float64(w) / sum * a.at[p.v[i]][k]
			}
		}
		clear := true
		for _, i := range bodies {
			a.treeOf(i).stab(f.axis, &v.at, func(g uint32) {
				if clear && g != p.facet {
					clear = a.met(p, g, v)
				}
			})
		}
		if a.left.stabs < 0 {
			return &TooManyError{What: "facets over one another", Most: a.limit.stabs}
		}
		if clear {
			return nil
		}
		for i := range v.weight {
			v.weight[i] = 1 + v.random.Int64N(1000)
		}
	}
	return errUnsettled
}

// met notes facet g if the line of v meets it. It reports false when the line
// meets its edge.
func (a *arrangement) met(p *piece, g uint32, v *view) bool {
	a.left.stabs--
	t := &a.facets[g]
	axis := a.facets[p.facet].axis
	sum, zeros := 0, 0
	for k := range 3 {
		s := a.turnTo(axis, t.v[k], t.v[(k+1)%3], p, v)
		sum += s
		if s == 0 {
			zeros++
		}
	}
	if sum+zeros != 3 && sum-zeros != -3 {
		return true // beside it
	}
	if zeros > 0 {
		return false
	}
	up := sum > 0
	switch s := a.sideOf(t, p, v); {
	case s == 0:
		v.level = append(v.level, layer{g, t.solid, up})
	case s > 0 != up:
		v.above[t.solid] += heading(up)
	}
	return true
}

// turnTo returns the sign of the area of spots i, j and the point of v, exactly.
func (a *arrangement) turnTo(axis uint8, i, j uint32, p *piece, v *view) int {
	if s := rough(axis, &a.at[i], &a.at[j], &v.at); s != 0 {
		return s
	}
	return a.exactTurn(axis, a.exact(i, &a.work[0]), a.exact(j, &a.work[1]), a.exactly(p, v))
}

// exactly returns the point of v as a fraction.
func (a *arrangement) exactly(p *piece, v *view) *fraction {
	if v.exact != nil {
		return v.exact
	}
	var corner [3]*fraction
	for i := range corner {
		corner[i] = a.exact(p.v[i], &a.work[2+i])
	}
	x := &v.own
	var t, w big.Int
	for k := range 3 {
		c := x.coordinate(k)
		c.SetInt64(0)
		for i := range corner {
			t.Mul(corner[i].coordinate(k), w.SetInt64(v.weight[i]))
			t.Mul(&t, &corner[(i+1)%3].w)
			t.Mul(&t, &corner[(i+2)%3].w)
			c.Add(c, &t)
		}
	}
	x.w.SetInt64(v.weight[0] + v.weight[1] + v.weight[2])
	for i := range corner {
		x.w.Mul(&x.w, &corner[i].w)
	}
	v.exact = x
	return x
}

// sideOf returns on which side of a facet's plane the point of v lies, exactly.
func (a *arrangement) sideOf(t *facet, p *piece, v *view) int {
	q, r, s := &a.at[t.v[0]], &a.at[t.v[1]], &a.at[t.v[2]]
	bx, by, bz := r[0]-q[0], r[1]-q[1], r[2]-q[2]
	cx, cy, cz := s[0]-q[0], s[1]-q[1], s[2]-q[2]
	dx, dy, dz := v.at[0]-q[0], v.at[1]-q[1], v.at[2]-q[2]
	yz, zy := by*cz, bz*cy
	zx, xz := bz*cx, bx*cz
	xy, yx := bx*cy, by*cx
	det := (yz-zy)*dx + (zx-xz)*dy + (xy-yx)*dz
	bound := (math.Abs(yz)+math.Abs(zy))*(0x1p-50*math.Abs(dx)+slack) +
		(math.Abs(zx)+math.Abs(xz))*(0x1p-50*math.Abs(dy)+slack) +
		(math.Abs(xy)+math.Abs(yx))*(0x1p-50*math.Abs(dz)+slack)
	switch {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	x := a.exactly(p, v)
	at0, at1, at2 := a.spotOf(t.v[0]), a.spotOf(t.v[1]), a.spotOf(t.v[2])
	var n, d, sum big.Int
	for k := range 3 {
		setDouble(&n, det2(uint8(k), &at0, &at1, &at2))
		d.Mul(d.SetInt64(at0[k]), &x.w)
		d.Sub(x.coordinate(k), &d)
		sum.Add(&sum, n.Mul(&n, &d))
	}
	return sum.Sign()
}
