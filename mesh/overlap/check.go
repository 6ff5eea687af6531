package overlap

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// coarse is the lattice for a second try.
const coarse = 30

// WrongError says that a result failed its check.
type WrongError struct{ What string }

func (e *WrongError) Error() string { return "overlap: the result fails its check: " + e.What }

func isWrong(err error) bool {
	var wrong *WrongError
	return errors.As(err, &wrong) || errors.Is(err, errTangled) || errors.Is(err, errUnsettled)
}

// checkLines is how many lines a result is checked along.
const checkLines = 60

// checkShared checks what the last solid shares with the others: that its
// volume is possible, and that along random lines it is as long as where the
// last solid and any other both are, as worked out from the whole solids. That
// the chain is closed is known; a shell lost or kept in whole would show here
// alone.
func (a *arrangement) checkShared(list []piece, last int) error {
	b := &a.bodies[last].box
	v, most := a.volume(list, b), math.Abs(a.volumeOf(last))
	others := 0.0
	for i := range last {
		others += math.Abs(a.volumeOf(i))
	}
	most = min(most, others)
	if rounding := 1e-9*most + 1e-13*math.Pow(b.extent(), 3); v < -rounding || v > most+rounding {
		return &WrongError{fmt.Sprintf("a shared volume of %g of the smaller solid's", v/most)}
	}
	return a.checkAlong(list, &a.bodies[last].box, func(in []int) bool {
		for i := range last {
			if in[i] > 0 && in[last] > 0 {
				return true
			}
		}
		return false
	})
}

// checkOnce checks the surface of all that is wound around.
func (a *arrangement) checkOnce(list []piece) error {
	return a.checkAlong(list, &a.bodies[0].box, func(in []int) bool { return in[0] > 0 })
}

// checkAlong compares, along random lines through a box, the length within the
// chain of pieces with that where test is true of the winding numbers of the
// solids. A line too near an edge is passed over.
func (a *arrangement) checkAlong(list []piece, within *box, test func(in []int) bool) error {
	chain := newTree(0, len(list), func(i uint32) box {
		b := emptyBox()
		for _, v := range list[i].v {
			b.add(&a.at[v])
		}
		return b
	})
	random := rand.New(rand.NewPCG(3, 4))
	bad, told := 0, ""
	for n := range checkLines {
		axis := uint8(n % 3)
		var p [3]float64
		for k := range p {
			p[k] = within.lo[k] + random.Float64()*(within.hi[k]-within.lo[k])
		}
		var events []crossing
		clear := true
		hit := func(v *[3]uint32, solid int) {
			if !clear {
				return
			}
			e, on, sure := a.crossed(v, axis, &p)
			clear = sure
			if e.solid = solid; on {
				events = append(events, e)
			}
		}
		for i := range a.bodies {
			a.treeOf(i).stab(axis, &p, func(f uint32) { hit(&a.facets[f].v, i) })
		}
		chain.stab(axis, &p, func(i uint32) { hit(&list[i].v, len(a.bodies)) })
		if !clear {
			continue
		}
		want, got := measure(events, len(a.bodies), test)
		// A facet nearly along the line has no height to speak of there.
		if tol := 1e-6 * (within.hi[axis] - within.lo[axis]); math.Abs(want-got) > tol {
			bad++
			told = fmt.Sprintf("a line through it is off by %.2g of the size", math.Abs(want-got)/(within.hi[axis]-within.lo[axis]))
		}
	}
	if bad > 0 {
		return &WrongError{told}
	}
	return nil
}

// crossing is where a line meets a facet.
type crossing struct {
	at    float64
	solid int
	turn  int // 1 where the line leaves
}

// crossed returns where the line along an axis through p meets a triangle, and
// whether it does. It is not sure when the line passes too near an edge.
func (a *arrangement) crossed(v *[3]uint32, axis uint8, p *[3]float64) (c crossing, on, sure bool) {
	q, r, s := &a.at[v[0]], &a.at[v[1]], &a.at[v[2]]
	o := [3]int{rough(axis, r, s, p), rough(axis, s, q, p), rough(axis, q, r, p)}
	switch lo, hi := min(o[0], o[1], o[2]), max(o[0], o[1], o[2]); {
	case lo < 0 && hi > 0:
		return c, false, true
	case lo == 0 || hi == 0:
		return c, false, false
	}
	u, w := plane(axis)
	area := func(x, y *[3]float64) float64 { return (x[u]-p[u])*(y[w]-p[w]) - (x[w]-p[w])*(y[u]-p[u]) }
	f, g, h := area(r, s), area(s, q), area(q, r)
	return crossing{at: (f*q[axis] + g*r[axis] + h*s[axis]) / (f + g + h), turn: o[0]}, true, true
}

// measure returns the length of a line where test is true, and that within the
// last solid of all, from where it crosses them.
func measure(events []crossing, solids int, test func(in []int) bool) (want, got float64) {
	slices.SortFunc(events, func(x, y crossing) int { return sign(x.at - y.at) })
	in := make([]int, solids+1)
	last := 0.0
	for _, e := range events {
		if test(in[:solids]) {
			want += e.at - last
		}
		got += float64(in[solids]) * (e.at - last)
		in[e.solid] -= e.turn
		last = e.at
	}
	return want, got
}

// volume returns the volume that pieces enclose, in steps of the lattice cubed,
// measured from the middle of a box about them.
func (a *arrangement) volume(list []piece, about *box) float64 {
	six := 0.0
	for i := range list {
		six += a.six(&list[i].v, about)
	}
	return six / 6
}

// volumeOf returns the volume of a solid.
func (a *arrangement) volumeOf(i int) float64 {
	six := 0.0
	b := &a.bodies[i]
	for f := b.first; f < b.first+b.count; f++ {
		six += a.six(&a.facets[f].v, &b.box)
	}
	return six / 6
}

// six returns six times the volume between a triangle and the middle of a box.
func (a *arrangement) six(v *[3]uint32, about *box) float64 {
	var p [3][3]float64
	for i := range p {
		for k := range 3 {
			p[i][k] = a.at[v[i]][k] - (about.lo[k]+about.hi[k])/2
		}
	}
	q, r, s := &p[0], &p[1], &p[2]
	return q[0]*(r[1]*s[2]-r[2]*s[1]) + q[1]*(r[2]*s[0]-r[0]*s[2]) + q[2]*(r[0]*s[1]-r[1]*s[0])
}
