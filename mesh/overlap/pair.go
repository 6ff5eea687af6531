package overlap

import "math"

// found gathers the ends of what two facets have in common.
type found struct {
	p [2]uint32
	n int
}

func (f *found) add(v uint32) {
	if f.n < 2 && !(f.n == 1 && f.p[0] == v) {
		f.p[f.n] = v
		f.n++
	}
}

// shared returns how many corners two facets have in common.
func (t *facet) shared(u *facet) int {
	n := 0
	for _, v := range t.v {
		if u.corner(v) >= 0 {
			n++
		}
	}
	return n
}

// apart reports whether two facets have nothing in common but an edge or a
// corner that they share. It changes nothing, so that many can ask at once.
func (a *arrangement) apart(f, g uint32) bool {
	t, u := &a.facets[f], &a.facets[g]
	shared := 0
	for _, v := range t.v {
		if u.corner(v) >= 0 {
			if a.smoothAt[v] {
				return true
			}
			shared++
		}
	}
	s, apart := a.sides(t, u, shared)
	switch {
	case apart:
		return true
	case shared == 2:
		return s != [3]int{} || a.unfolded(t, u)
	case s == [3]int{}:
		return shared < 2 && (a.parted(t, u, t.axis) || a.parted(u, t, t.axis))
	}
	r, apart := a.sides(u, t, shared)
	return apart || shared == 0 && !a.touches(t, u, &s) && !a.touches(u, t, &r)
}

// touches reports whether some corner or edge of t touches u, given the sides of
// t's corners, where the two share no corner: whether passes would find a point.
func (a *arrangement) touches(t, u *facet, s *[3]int) bool {
	for k := range 3 {
		i, j := t.v[k], t.v[(k+1)%3]
		if s[k] == 0 && a.covers(u, i) || s[k]*s[(k+1)%3] < 0 && a.through(i, j, u) {
			return true
		}
	}
	return false
}

// parted reports whether the line of one of t's edges parts two facets of one
// plane, which have one corner in common at most: all of u is beyond it, but for
// that corner. Most facets of a flat face that meet in a corner lie so.
func (a *arrangement) parted(t, u *facet, axis uint8) bool {
	for k := range 3 {
		i, j := t.v[k], t.v[(k+1)%3]
		inside := a.turn(axis, i, j, t.v[(k+2)%3])
		beyond := inside != 0
		for _, w := range u.v {
			if !beyond {
				break
			}
			if w == i || w == j {
				continue
			}
			switch s := a.turn(axis, i, j, w); s {
			case -inside:
			case 0:
				// On the line, past the common corner: it touches t there
				// and nowhere else.
				beyond = u.corner(i) >= 0 && a.amid(i, [2]uint32{j, w}) || u.corner(j) >= 0 && a.amid(j, [2]uint32{i, w})
			default:
				beyond = false
			}
		}
		if beyond {
			return true
		}
	}
	return false
}

// meet finds what two facets have in common and cuts both with it. All is
// decided by signs of tetrahedra of their corners, which are exact.
func (a *arrangement) meet(f, g uint32) error {
	t, u := &a.facets[f], &a.facets[g]
	shared := t.shared(u)
	s, apart := a.sides(t, u, shared)
	if apart || shared == 2 && (s != [3]int{} || a.unfolded(t, u)) {
		return nil
	}
	if shared == 3 {
		a.doubled++
		return nil
	}
	if s == [3]int{} {
		return a.flush(f, g)
	}
	r, apart := a.sides(u, t, shared)
	if apart {
		return nil
	}
	var common found
	a.passes(t, u, g, &s, &common)
	a.passes(u, t, f, &r, &common)
	switch common.n {
	case 1:
		return a.cutBoth(f, g, common.p[0], common.p[0])
	case 2:
		return a.cutBoth(f, g, common.p[0], common.p[1])
	}
	return nil
}

// sides returns on which side of u's plane the corners of t lie, and whether
// all are on one, but for a corner that the facets share. It is what side says
// of each, with what they have in common worked out once.
func (a *arrangement) sides(t, u *facet, shared int) (s [3]int, apart bool) {
	p, q, r := &a.at[u.v[0]], &a.at[u.v[1]], &a.at[u.v[2]]
	bx, by, bz := q[0]-p[0], q[1]-p[1], q[2]-p[2]
	cx, cy, cz := r[0]-p[0], r[1]-p[1], r[2]-p[2]
	yz, zy := by*cz, bz*cy
	zx, xz := bz*cx, bx*cz
	xy, yx := bx*cy, by*cx
	nx, ny, nz := yz-zy, zx-xz, xy-yx
	mx, my, mz := math.Abs(yz)+math.Abs(zy), math.Abs(zx)+math.Abs(xz), math.Abs(xy)+math.Abs(yx)
	sum := 0
	for k, v := range t.v {
		if shared > 0 && u.corner(v) >= 0 {
			continue
		}
		d := &a.at[v]
		dx, dy, dz := d[0]-p[0], d[1]-p[1], d[2]-p[2]
		det := nx*dx + ny*dy + nz*dz
		bound := sideError * (mx*math.Abs(dx) + my*math.Abs(dy) + mz*math.Abs(dz))
		switch {
		case det > bound:
			s[k] = 1
		case det < -bound:
			s[k] = -1
		case bound > 0:
			s[k] = a.side(u, v)
		}
		sum += s[k]
	}
	return s, sum == 3 || sum == -3 || shared == 1 && (sum == 2 || sum == -2)
}

// unfolded reports whether two facets of one plane that share an edge lie on
// either side of it.
func (a *arrangement) unfolded(t, u *facet) bool {
	for k := range 3 {
		i, j := t.v[k], t.v[(k+1)%3]
		if u.corner(i) < 0 || u.corner(j) < 0 {
			continue
		}
		for _, w := range u.v {
			if w != i && w != j {
				return a.turn(t.axis, i, j, t.v[(k+2)%3]) != a.turn(t.axis, i, j, w)
			}
		}
	}
	return false
}

// passes finds where the corners and edges of t are in u, which is facet g,
// given the sides of t's corners.
func (a *arrangement) passes(t, u *facet, g uint32, s *[3]int, to *found) {
	for k := range 3 {
		i, j := t.v[k], t.v[(k+1)%3]
		if s[k] == 0 && (u.corner(i) >= 0 || a.covers(u, i)) {
			to.add(i)
		}
		if s[k]*s[(k+1)%3] < 0 && a.through(i, j, u) {
			to.add(a.pierce(i, j, g))
		}
	}
}

// through reports whether the edge between spots i and j, which lie on either
// side of a facet's plane, passes through the facet, its border counted in.
func (a *arrangement) through(i, j uint32, u *facet) bool {
	sum, zeros := 0, 0
	for k := range 3 {
		p, q := u.v[k], u.v[(k+1)%3]
		o := a.tall(i, j, p, q)
		sum += o
		if o == 0 {
			zeros++
		}
	}
	return sum+zeros == 3 || sum-zeros == -3
}

// cutBoth cuts two facets with the stretch of line, or the point, where their
// planes meet.
func (a *arrangement) cutBoth(f, g, p, q uint32) error {
	if err := a.cut(f, p, q, line{facet: g}); err != nil {
		return err
	}
	return a.cut(g, p, q, line{facet: f})
}

// cut cuts a facet, unless that is done: at its own corners and along its own
// edges.
func (a *arrangement) cut(f, p, q uint32, l line) error {
	t := &a.facets[f]
	if t.corner(p) >= 0 && t.corner(q) >= 0 {
		return nil
	}
	if a.left.cuts--; a.left.cuts < 0 {
		return &TooManyError{What: "cuts of facets by others", Most: a.limit.cuts}
	}
	if len(a.made) > a.limit.points {
		return &TooManyError{What: "points where facets cross", Most: a.limit.points}
	}
	next, ok := a.head[f]
	if !ok {
		next = -1
	}
	a.head[f] = int32(len(a.cuts))
	a.cuts = append(a.cuts, cut{p, q, l, next})
	return nil
}

// flush cuts two facets of one plane with each other's edges.
func (a *arrangement) flush(f, g uint32) error {
	if err := a.overlay(f, g); err != nil {
		return err
	}
	return a.overlay(g, f)
}

// overlay cuts facet f with the edges of facet g, and enters on g where these
// begin and end on f.
func (a *arrangement) overlay(f, g uint32) error {
	t, u := &a.facets[f], &a.facets[g]
	for k := range 3 {
		e := [2]uint32{u.v[k], u.v[(k+1)%3]}
		c := a.stretch(t, e)
		if c.n == 0 {
			continue
		}
		p, q := c.p[0], c.p[c.n-1]
		if err := a.cut(f, p, q, line{none, e}); err != nil {
			return err
		}
		for _, v := range c.p[:c.n] {
			if err := a.cut(g, v, v, line{none, e}); err != nil {
				return err
			}
		}
	}
	return nil
}

// stretch returns the ends of what facet t covers of an edge in its plane.
func (a *arrangement) stretch(t *facet, e [2]uint32) found {
	var c found
	for _, v := range e {
		if t.corner(v) >= 0 || a.covers(t, v) {
			c.add(v)
		}
	}
	var s [3]int // of t's corners beside the edge
	for k, v := range t.v {
		if v != e[0] && v != e[1] {
			s[k] = a.turn(t.axis, e[0], e[1], v)
			if s[k] == 0 && a.amid(v, e) {
				c.add(v)
			}
		}
	}
	for k := range 3 {
		i, j := t.v[k], t.v[(k+1)%3]
		if s[k]*s[(k+1)%3] < 0 && a.turn(t.axis, i, j, e[0])*a.turn(t.axis, i, j, e[1]) < 0 {
			c.add(a.crossing(t.axis, e, [2]uint32{i, j}))
		}
	}
	return c
}

// amid reports whether a spot on the line through an edge lies between the
// edge's ends.
func (a *arrangement) amid(v uint32, e [2]uint32) bool {
	for k := range 3 {
		if a.at[e[0]][k] != a.at[e[1]][k] {
			return (a.at[v][k] < a.at[e[0]][k]) != (a.at[v][k] < a.at[e[1]][k])
		}
	}
	return false
}
