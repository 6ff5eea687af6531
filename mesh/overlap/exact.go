package overlap

import (
	"math"
	"math/big"
	"math/bits"
)

// spot is a point of the lattice. No coordinate is larger than 2^fine, so that
// the difference of two has 51 bits, and is exact in float64; the difference of
// two products of those has 103 bits, and a sum of three products of three, 156.
type spot [3]int64

// wide is a signed integer of 192 bits, in two's complement.
type wide struct {
	hi      int64
	mid, lo uint64
}

// double is a signed integer of 128 bits, in two's complement.
type double struct {
	hi int64
	lo uint64
}

// times returns a b.
func times(a, b int64) double {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	if a < 0 {
		hi -= uint64(b)
	}
	if b < 0 {
		hi -= uint64(a)
	}
	return double{int64(hi), lo}
}

func (x double) minus(y double) double {
	lo, borrow := bits.Sub64(x.lo, y.lo, 0)
	hi, _ := bits.Sub64(uint64(x.hi), uint64(y.hi), borrow)
	return double{int64(hi), lo}
}

func (x double) sign() int {
	switch {
	case x.hi < 0:
		return -1
	case x.hi == 0 && x.lo == 0:
		return 0
	}
	return 1
}

// times returns x y.
func (x double) times(y int64) wide {
	low := times(int64(x.lo), y)
	if int64(x.lo) < 0 { // low took it for negative, by 2^64 y too little
		low.hi += y
	}
	high := times(x.hi, y)
	mid, carry := bits.Add64(uint64(low.hi), high.lo, 0)
	return wide{high.hi + low.hi>>63 + int64(carry), mid, low.lo}
}

func (x wide) plus(y wide) wide {
	lo, carry := bits.Add64(x.lo, y.lo, 0)
	mid, carry := bits.Add64(x.mid, y.mid, carry)
	return wide{x.hi + y.hi + int64(carry), mid, lo}
}

func (x wide) sign() int {
	switch {
	case x.hi < 0:
		return -1
	case x.hi == 0 && x.mid == 0 && x.lo == 0:
		return 0
	}
	return 1
}

// setWide sets z to x.
func setWide(z *big.Int, x wide) *big.Int {
	var part big.Int
	z.SetInt64(x.hi)
	z.Lsh(z, 64).Add(z, part.SetUint64(x.mid))
	return z.Lsh(z, 64).Add(z, part.SetUint64(x.lo))
}

// setDouble sets z to x.
func setDouble(z *big.Int, x double) *big.Int {
	var part big.Int
	z.SetInt64(x.hi)
	return z.Lsh(z, 64).Add(z, part.SetUint64(x.lo))
}

// det3 returns (b-a) x (c-a) . (d-a): six times the volume of a tetrahedron,
// positive when d lies in front of the triangle a, b, c, which runs
// anticlockwise seen from there.
func det3(a, b, c, d *spot) wide {
	bx, by, bz := b[0]-a[0], b[1]-a[1], b[2]-a[2]
	cx, cy, cz := c[0]-a[0], c[1]-a[1], c[2]-a[2]
	dx, dy, dz := d[0]-a[0], d[1]-a[1], d[2]-a[2]
	x := times(by, cz).minus(times(bz, cy)).times(dx)
	y := times(bz, cx).minus(times(bx, cz)).times(dy)
	z := times(bx, cy).minus(times(by, cx)).times(dz)
	return x.plus(y).plus(z)
}

// sideError bounds the error of det3 in float64, as a share of the sum of its
// products: (7 + 56 u) u with u = 2^-53, after J. R. Shewchuk, "Adaptive
// precision floating-point arithmetic and fast robust geometric predicates",
// Discrete & Computational Geometry 18 (1997). The differences of spots are
// exact.
const sideError = (7 + 56*0x1p-53) * 0x1p-53

// side returns the sign of det3. It is exact: where float64 cannot tell, 192
// bits do.
func side(a, b, c, d *spot) int {
	bx, by, bz := float64(b[0]-a[0]), float64(b[1]-a[1]), float64(b[2]-a[2])
	cx, cy, cz := float64(c[0]-a[0]), float64(c[1]-a[1]), float64(c[2]-a[2])
	dx, dy, dz := float64(d[0]-a[0]), float64(d[1]-a[1]), float64(d[2]-a[2])
	yz, zy := by*cz, bz*cy
	zx, xz := bz*cx, bx*cz
	xy, yx := bx*cy, by*cx
	det := (yz-zy)*dx + (zx-xz)*dy + (xy-yx)*dz
	bound := sideError * ((math.Abs(yz)+math.Abs(zy))*math.Abs(dx) +
		(math.Abs(zx)+math.Abs(xz))*math.Abs(dy) +
		(math.Abs(xy)+math.Abs(yx))*math.Abs(dz))
	switch {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	case bound == 0:
		return 0
	}
	return det3(a, b, c, d).sign()
}

// det2 returns (b-a) x (c-a) as seen along an axis: twice the area of the
// triangle's shadow, positive when it runs anticlockwise.
func det2(axis uint8, a, b, c *spot) double {
	u, v := plane(axis)
	return times(b[u]-a[u], c[v]-a[v]).minus(times(b[v]-a[v], c[u]-a[u]))
}

// turnError bounds the error of det2 in float64, as sideError does that of
// det3: two products and a difference.
const turnError = (3 + 16*0x1p-53) * 0x1p-53

// turn returns the sign of det2. It is exact.
func turn(axis uint8, a, b, c *spot) int {
	u, v := plane(axis)
	p := float64(b[u]-a[u]) * float64(c[v]-a[v])
	q := float64(b[v]-a[v]) * float64(c[u]-a[u])
	det, bound := p-q, turnError*(math.Abs(p)+math.Abs(q))
	switch {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	case bound == 0:
		return 0
	}
	return det2(axis, a, b, c).sign()
}

// plane returns the two coordinates that are left when looking along an axis.
func plane(axis uint8) (u, v int) {
	switch axis {
	case 0:
		return 1, 2
	case 1:
		return 2, 0
	}
	return 0, 1
}
