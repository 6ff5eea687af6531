package overlap

import (
	"math/big"
	"math/bits"
)

// points is a table of points, each there once however often it is found. The
// first are spots of the lattice; those made later, where edges pass through
// facets, are exact fractions.
type points struct {
	at    [][3]float64 // exact for spots, within slack for the others
	made  []fraction   // of the points that are no spots, which come last
	spots int          // how many are spots
	table []uint32     // the numbers, plus one, of points by the hash of their cell

	work [6]fraction // for passing results
	tmp  [3]big.Int
}

const none = ^uint32(0)

// slack bounds how far off the float64 coordinates of anything are, and the
// difference of two of them, in steps of the lattice. For a point that is no
// spot, rounding to float64 and cutting to a cell make 2^-4 and 2^-12; for one
// within a piece, the mean of three such, it is 0.7; a difference adds 2^-3.
const slack = 1

// fraction is a point in homogeneous coordinates: x, y and z times w, and w,
// which is positive.
type fraction struct {
	x, y, z, w big.Int
	edge       [2]uint32 // the ends of an edge that it lies on, equal for none
	cell       cell
}

// cell is a point's coordinates in steps of 2^-12, rounded down: the same for
// equal points whatever their fractions.
type cell [3]int64

const cellBits = 12

// hash returns where to look for a cell first.
func (c *cell) hash() uint64 {
	return mix(uint64(c[0]) ^ bits.RotateLeft64(mix(uint64(c[1])^bits.RotateLeft64(mix(uint64(c[2])), 21)), 42))
}

func newPoints(capacity int) *points {
	p := &points{at: make([][3]float64, 0, capacity)}
	p.table = make([]uint32, 1<<bits.Len(uint(2*capacity+8)))
	return p
}

// cellOf returns the cell of a point.
func (p *points) cellOf(i uint32) cell {
	if !p.isSpot(i) {
		return p.made[int(i)-p.spots].cell
	}
	q := p.spotOf(i)
	return cell{q[0] << cellBits, q[1] << cellBits, q[2] << cellBits}
}

// seek returns the place in the table of the point in a cell for which is is
// true, or else the place for it.
func (p *points) seek(c *cell, is func(i uint32) bool) *uint32 {
	last := uint64(len(p.table) - 1)
	for h := c.hash() & last; ; h = (h + 1) & last {
		slot := &p.table[h]
		if *slot == 0 || p.cellOf(*slot-1) == *c && is(*slot-1) {
			return slot
		}
	}
}

// enterSpot returns the number of a lattice point. All spots must be entered
// before the first fraction.
func (p *points) enterSpot(q spot) uint32 {
	c := cell{q[0] << cellBits, q[1] << cellBits, q[2] << cellBits}
	at := [3]float64{float64(q[0]), float64(q[1]), float64(q[2])}
	// As seek does, but among spots there is no need for cells.
	last := uint64(len(p.table) - 1)
	for h := c.hash() & last; ; h = (h + 1) & last {
		slot := &p.table[h]
		switch {
		case *slot == 0:
			p.spots++
			return p.enter(slot, at)
		case p.at[*slot-1] == at:
			return *slot - 1
		}
	}
}

// enter appends a point whose cell is known already, and puts it in its slot.
func (p *points) enter(slot *uint32, at [3]float64) uint32 {
	i := uint32(len(p.at))
	p.at = append(p.at, at)
	*slot = i + 1
	if 2*len(p.at) > len(p.table) {
		p.table = make([]uint32, 2*len(p.table))
		for j := range p.at {
			c := p.cellOf(uint32(j))
			*p.seek(&c, func(uint32) bool { return false }) = uint32(j) + 1
		}
	}
	return i
}

// isSpot reports whether a point is on the lattice.
func (p *points) isSpot(i uint32) bool { return int(i) < p.spots }

// spotOf returns a point that is a spot.
func (p *points) spotOf(i uint32) spot {
	q := &p.at[i]
	return spot{int64(q[0]), int64(q[1]), int64(q[2])}
}

// exact returns a point as a fraction. That of a spot is written to buf.
func (p *points) exact(i uint32, buf *fraction) *fraction {
	if !p.isSpot(i) {
		return &p.made[int(i)-p.spots]
	}
	q := p.spotOf(i)
	buf.x.SetInt64(q[0])
	buf.y.SetInt64(q[1])
	buf.z.SetInt64(q[2])
	buf.w.SetInt64(1)
	return buf
}

// coordinate returns one of x, y, z.
func (f *fraction) coordinate(axis int) *big.Int {
	switch axis {
	case 0:
		return &f.x
	case 1:
		return &f.y
	}
	return &f.z
}

// find returns the number of the point that a fraction is, entering it when it
// is new. The fraction's w must not be zero; it is copied.
func (p *points) find(f *fraction) uint32 {
	if f.w.Sign() < 0 {
		for _, x := range []*big.Int{&f.x, &f.y, &f.z, &f.w} {
			x.Neg(x)
		}
	}
	var c cell
	var at [3]float64
	q, rest := &p.tmp[0], &p.tmp[1]
	for k := range 3 {
		q.Lsh(f.coordinate(k), cellBits)
		q.DivMod(q, &f.w, rest)
		c[k] = q.Int64()
		at[k] = float64(c[k]) / (1 << cellBits)
	}
	slot := p.seek(&c, func(i uint32) bool { return p.same(f, p.exact(i, &p.work[5])) })
	if *slot != 0 {
		return *slot - 1
	}
	p.made = append(p.made, fraction{edge: f.edge, cell: c})
	g := &p.made[len(p.made)-1]
	g.x.Set(&f.x)
	g.y.Set(&f.y)
	g.z.Set(&f.z)
	g.w.Set(&f.w)
	return p.enter(slot, at)
}

// same reports whether two fractions are one point.
func (p *points) same(f, g *fraction) bool {
	a, b := &p.tmp[0], &p.tmp[1]
	for k := range 3 {
		if a.Mul(f.coordinate(k), &g.w).Cmp(b.Mul(g.coordinate(k), &f.w)) != 0 {
			return false
		}
	}
	return true
}

// between sets f to the point of the line through the spots a and b that
// divides it as the numbers da and db, of opposite sign: where a height that is
// da at a and db at b is zero.
func (p *points) between(f *fraction, a, b uint32, da, db *big.Int) {
	// (b da - a db) / (da - db)
	f.edge = [2]uint32{min(a, b), max(a, b)}
	f.w.Sub(da, db)
	s, t := p.spotOf(a), p.spotOf(b)
	x := &p.tmp[0]
	for k := range 3 {
		c := f.coordinate(k)
		c.Mul(x.SetInt64(t[k]), da)
		x.SetInt64(s[k])
		c.Sub(c, x.Mul(x, db))
	}
}

// order returns the sign of the coordinate of i less that of j, exactly.
func (p *points) order(axis int, i, j uint32) int {
	d := p.at[i][axis] - p.at[j][axis]
	switch {
	case p.isSpot(i) && p.isSpot(j):
		return sign(d)
	case d > slack:
		return 1
	case d < -slack:
		return -1
	}
	f, g := p.exact(i, &p.work[0]), p.exact(j, &p.work[1])
	a, b := &p.tmp[0], &p.tmp[1]
	return a.Mul(f.coordinate(axis), &g.w).Cmp(b.Mul(g.coordinate(axis), &f.w))
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
