package overlap

import (
	"errors"
	"slices"
)

// closed reports whether the pieces are a closed chain: a sum over all sides
// in which each takes away what its reverse adds, zero for an open chain with a
// chance of 2^-64.
func closed(list []piece) bool {
	var sum uint64
	for i := range list {
		for k := range 3 {
			p, q := list[i].v[k], list[i].v[(k+1)%3]
			if p < q {
				sum += mix(uint64(p)<<32 | uint64(q))
			} else {
				sum -= mix(uint64(q)<<32 | uint64(p))
			}
		}
	}
	return sum == 0
}

// mix is the output function of SplitMix64 (Steele, Lea and Flood, "Fast
// splittable pseudorandom number generators", OOPSLA 2014).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

var errOpen = errors.New("overlap: the surface does not close; is one of the meshes open?")

// mostOpen bounds the search for corners on open sides.
const mostOpen = 20_000

// zip closes a chain that is closed as a set of points, but whose edges are
// parted differently on their two sides: so it is where a facet without area
// was left out, which had a corner amid an edge of its neighbor.
func (a *arrangement) zip(list []piece) ([]piece, error) {
	if closed(list) {
		return list, nil
	}
	open := make(map[[2]uint32]int)
	for i := range list {
		for k := range 3 {
			p, q := list[i].v[k], list[i].v[(k+1)%3]
			if n := open[[2]uint32{q, p}]; n > 1 {
				open[[2]uint32{q, p}] = n - 1
			} else if n == 1 {
				delete(open, [2]uint32{q, p})
			} else {
				open[[2]uint32{p, q}]++
			}
		}
	}
	if len(open) > mostOpen {
		return nil, errOpen
	}
	var ends []uint32
	for e := range open {
		ends = append(ends, e[0], e[1])
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	parted := make(map[[2]uint32][]uint32) // by the lower end: what lies on the edge, in order
	for e := range open {
		e = [2]uint32{min(e[0], e[1]), max(e[0], e[1])}
		if _, ok := parted[e]; ok {
			continue
		}
		var on []uint32
		for _, v := range ends {
			if a.onStretch(v, e) {
				on = append(on, v)
			}
		}
		if axis, ok := a.leads(e); ok && len(on) > 0 {
			way := a.order(axis, e[1], e[0])
			slices.SortFunc(on, func(x, y uint32) int { return way * a.order(axis, x, y) })
			parted[e] = on
		}
	}
	out := make([]piece, 0, len(list)+len(ends))
	for len(list) > 0 {
		p := list[len(list)-1]
		list = list[:len(list)-1]
		if k, v := partAt(p.v, parted); k < 0 {
			out = append(out, p)
		} else {
			q := p
			p.v[(k+1)%3], q.v[k] = v, v
			list = append(list, p, q)
		}
	}
	if !closed(out) {
		return nil, errOpen
	}
	return out, nil
}

// partAt returns the side of a triangle that something lies on, -1 for none,
// and the first that does. What is left on either half is entered.
func partAt(v [3]uint32, parted map[[2]uint32][]uint32) (k int, at uint32) {
	for k := range 3 {
		e := [2]uint32{v[k], v[(k+1)%3]}
		turned := e[0] > e[1]
		if turned {
			e[0], e[1] = e[1], e[0]
		}
		on := parted[e]
		if len(on) == 0 {
			continue
		}
		at := on[0]
		rest := slices.Clone(on[1:])
		far := [2]uint32{at, e[1]}
		if far[0] > far[1] {
			far[0], far[1] = far[1], far[0]
			slices.Reverse(rest)
		}
		if len(rest) > 0 {
			parted[far] = rest
		}
		return k, at
	}
	return -1, 0
}

// leads returns an axis along which an edge is not upright.
func (a *arrangement) leads(e [2]uint32) (axis int, ok bool) {
	for k := range 3 {
		if a.order(k, e[0], e[1]) != 0 {
			return k, true
		}
	}
	return 0, false
}

// onStretch reports whether a point lies between the ends of an edge.
func (a *arrangement) onStretch(v uint32, e [2]uint32) bool {
	if v == e[0] || v == e[1] {
		return false
	}
	p, q, r := &a.at[v], &a.at[e[0]], &a.at[e[1]]
	for k := range 3 {
		if p[k] < min(q[k], r[k])-slack || p[k] > max(q[k], r[k])+slack {
			return false
		}
	}
	for axis := range uint8(3) {
		if a.turn(axis, e[0], e[1], v) != 0 {
			return false
		}
	}
	axis, ok := a.leads(e)
	return ok && a.order(axis, v, e[0])*a.order(axis, v, e[1]) < 0
}
