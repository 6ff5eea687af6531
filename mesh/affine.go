package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Affine is the map p -> M p + T. The zero value maps everything to the
// origin; start from [Identity]. M's rows are stored in order: the first row
// gives the image's x.
type Affine struct {
	M [3][3]float64
	T r3.Vec
}

// Identity returns the map that leaves every point where it is.
func Identity() Affine { return Scaling(1, 1, 1) }

// Translation returns the map that moves every point by t.
func Translation(t r3.Vec) Affine {
	a := Identity()
	a.T = t
	return a
}

// Scaling returns the map that multiplies the coordinates by x, y and z. A
// negative factor mirrors.
func Scaling(x, y, z float64) Affine {
	return Affine{M: [3][3]float64{{x, 0, 0}, {0, y, 0}, {0, 0, z}}}
}

// Rotation returns the map that turns by angle radians about the axis through
// the origin, right-handed. The axis need not be of unit length; a zero axis
// gives the identity.
func Rotation(axis r3.Vec, angle float64) Affine {
	length := r3.Norm(axis)
	if length == 0 {
		return Identity()
	}
	k := r3.Scale(1/length, axis)
	s, c := math.Sincos(angle)
	v := 1 - c
	return Affine{M: [3][3]float64{
		{c + k.X*k.X*v, k.X*k.Y*v - k.Z*s, k.X*k.Z*v + k.Y*s},
		{k.Y*k.X*v + k.Z*s, c + k.Y*k.Y*v, k.Y*k.Z*v - k.X*s},
		{k.Z*k.X*v - k.Y*s, k.Z*k.Y*v + k.X*s, c + k.Z*k.Z*v},
	}}
}

// Point returns the image of point p.
func (a Affine) Point(p r3.Vec) r3.Vec { return r3.Add(a.Vector(p), a.T) }

// Vector returns the image of the difference vector v: the linear part alone.
func (a Affine) Vector(v r3.Vec) r3.Vec {
	m := &a.M
	return r3.Vec{
		X: m[0][0]*v.X + m[0][1]*v.Y + m[0][2]*v.Z,
		Y: m[1][0]*v.X + m[1][1]*v.Y + m[1][2]*v.Z,
		Z: m[2][0]*v.X + m[2][1]*v.Y + m[2][2]*v.Z,
	}
}

// Covector returns the transposed linear part applied to n: if n.p + d is a
// height over image points, Covector(n).q is its linear part over the points
// they came from.
func (a Affine) Covector(n r3.Vec) r3.Vec {
	m := &a.M
	return r3.Vec{
		X: m[0][0]*n.X + m[1][0]*n.Y + m[2][0]*n.Z,
		Y: m[0][1]*n.X + m[1][1]*n.Y + m[2][1]*n.Z,
		Z: m[0][2]*n.X + m[1][2]*n.Y + m[2][2]*n.Z,
	}
}

// Then returns the map that applies a first and b after it.
func (a Affine) Then(b Affine) Affine {
	var c Affine
	for i := range 3 {
		for j := range 3 {
			c.M[i][j] = b.M[i][0]*a.M[0][j] + b.M[i][1]*a.M[1][j] + b.M[i][2]*a.M[2][j]
		}
	}
	c.T = b.Point(a.T)
	return c
}

// Det returns the determinant of the linear part: the factor on volumes,
// negative when the map mirrors.
func (a Affine) Det() float64 {
	m := &a.M
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) -
		m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) +
		m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// Inverse returns the map that undoes a, and false when a flattens space.
func (a Affine) Inverse() (Affine, bool) {
	det := a.Det()
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return Affine{}, false
	}
	m := &a.M
	var inv Affine
	for i := range 3 {
		for j := range 3 {
			// The cofactor of m[j][i], with the indices taken cyclically
			// so that its sign is right.
			j1, j2, i1, i2 := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			inv.M[i][j] = (m[j1][i1]*m[j2][i2] - m[j1][i2]*m[j2][i1]) / det
		}
	}
	inv.T = r3.Scale(-1, inv.Vector(a.T))
	return inv, true
}

// similarityTolerance is how far the columns of a linear part may be from
// equal length and right angles, relative to their length squared, for the map
// to count as a similarity. Products of a few rotations in float64 stay within
// 1e-15; a stretch that a builder could mean is 1e-6 and more.
const similarityTolerance = 1e-12

// Similarity returns the factor by which a multiplies every length, and false
// when it stretches some directions more than others. A mirror is a
// similarity.
func (a Affine) Similarity() (scale float64, ok bool) {
	var g [3][3]float64 // MᵀM
	for i := range 3 {
		for j := range 3 {
			g[i][j] = a.M[0][i]*a.M[0][j] + a.M[1][i]*a.M[1][j] + a.M[2][i]*a.M[2][j]
		}
	}
	s := (g[0][0] + g[1][1] + g[2][2]) / 3
	for i := range 3 {
		for j := range 3 {
			want := 0.0
			if i == j {
				want = s
			}
			if math.Abs(g[i][j]-want) > similarityTolerance*s {
				return 0, false
			}
		}
	}
	return math.Sqrt(s), true
}
