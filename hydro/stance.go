package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// stance is a place with a share of a load on it. Like those of a place, its
// numbers are per W, W L and L.
type stance struct {
	place
	share float64
	// push is the load's part at full strength: toward t1, toward t2, up.
	push [3]float64
	rest [3]float64    // what is out of balance: the energy's gradient less the share of push
	k    [3][3]float64 // tangent stiffness, d(rest)/dx
}

// under cuts the hull once and returns the stance under a share of a load.
func (b *Body) under(load Load, n r3.Vec, e, share float64) stance {
	s := stance{place: b.at(n, e), share: share}
	w := b.Mass * Gravity
	size := b.Hull.size
	pose := Pose{
		Attitude: Attitude{Up: n, Height: e - r3.Dot(n, b.Hull.center)},
		T1:       s.t1, T2: s.t2, Center: b.Hull.center, Rise: e,
	}
	p := load.Push(pose)
	t := [2]r3.Vec{s.t1, s.t2}
	twist := r3.Cross(n, p.Moment)
	s.push = [3]float64{r3.Dot(t[0], twist) / (w * size), r3.Dot(t[1], twist) / (w * size), r3.Dot(n, p.Force) / w}
	var bend [3][3]float64
	for j := range 2 {
		change := r3.Add(r3.Cross(t[j], p.Moment), r3.Cross(n, p.Turn[j].Moment))
		bend[0][j], bend[1][j] = r3.Dot(t[0], change)/(w*size), r3.Dot(t[1], change)/(w*size)
		bend[2][j] = (r3.Dot(t[j], p.Force) + r3.Dot(n, p.Turn[j].Force)) / w
	}
	change := r3.Cross(n, p.Rise.Moment)
	bend[0][2], bend[1][2] = r3.Dot(t[0], change)/w, r3.Dot(t[1], change)/w
	bend[2][2] = r3.Dot(n, p.Rise.Force) * size / w
	for i := range 3 {
		s.rest[i] = s.grad[i] - share*s.push[i]
		for j := range 3 {
			s.k[i][j] = s.hess[i][j] - share*bend[i][j]
		}
	}
	return s
}

// off returns how far the stance is from balance, as place.residual does.
func (s *stance) off() float64 {
	return max(math.Hypot(s.rest[0], s.rest[1]), math.Abs(s.rest[2]))
}

// shape returns the push at full strength as a vector over body axes and its
// part along the height, so that pushes at different places compare.
func (s *stance) shape() (turn r3.Vec, rise float64) {
	return r3.Add(r3.Scale(s.push[0], s.t1), r3.Scale(s.push[1], s.t2)), s.push[2]
}

// softness returns the eigenvalues of the stiffness against turning with the
// heave free to answer, lesser first, per W L: for a body without load they
// are GM over size. For a pair of complex ones both are their real part. way
// is the direction in which the body turns with the lesser one; it is zero for
// a complex pair. heave is the stiffness against heave itself, the waterplane;
// without any the body's answer to turning is taken with the height held.
func (s *stance) softness() (lesser, greater float64, way r3.Vec, heave float64) {
	k := &s.k
	a, b, c, d := k[0][0], k[0][1], k[1][0], k[1][1]
	if h := k[2][2]; h > 0 {
		a -= k[0][2] * k[2][0] / h
		b -= k[0][2] * k[2][1] / h
		c -= k[1][2] * k[2][0] / h
		d -= k[1][2] * k[2][1] / h
	}
	mean, half := (a+d)/2, (a-d)/2
	square := half*half + b*c
	if square < 0 {
		return mean, mean, r3.Vec{}, k[2][2]
	}
	root := math.Sqrt(square)
	lesser, greater = mean-root, mean+root
	// An eigenvector is in the kernel of (a-l b; c d-l): take the longer row.
	x, y := b, lesser-a
	if u, v := lesser-d, c; u*u+v*v > x*x+y*y {
		x, y = u, v
	}
	if l := math.Hypot(x, y); l > 0 {
		way = r3.Add(r3.Scale(x/l, s.t1), r3.Scale(y/l, s.t2))
	} else {
		way = s.t1
	}
	return lesser, greater, canonical(way), k[2][2]
}

// solve returns x with a x = b for a square system of at most four unknowns by
// Gaussian elimination with row pivoting, and false for a singular one. It is
// done here and not by gonum/mat since it must not allocate.
func solve(n int, a [4][4]float64, b [4]float64) (x [4]float64, ok bool) {
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if a[p][c] == 0 || math.IsNaN(a[p][c]) {
			return x, false
		}
		a[c], a[p] = a[p], a[c]
		b[c], b[p] = b[p], b[c]
		for r := c + 1; r < n; r++ {
			m := a[r][c] / a[c][c]
			for k := c; k < n; k++ {
				a[r][k] -= m * a[c][k]
			}
			b[r] -= m * b[c]
		}
	}
	for r := n - 1; r >= 0; r-- {
		x[r] = b[r]
		for k := r + 1; k < n; k++ {
			x[r] -= a[r][k] * x[k]
		}
		x[r] /= a[r][r]
	}
	return x, true
}
