package hydro

import "math"

// sym3 is a symmetric 3x3 matrix. It is solved here and not by gonum/mat since
// it is done at every step of a solve and must not allocate.
type sym3 [3][3]float64

// mirror copies the upper triangle to the lower.
func (m *sym3) mirror() { m[1][0], m[2][0], m[2][1] = m[0][1], m[0][2], m[1][2] }

// eigen returns the eigenvalues of m in rising order and unit eigenvectors in
// the rows of v, by cyclic Jacobi rotations (G. H. Golub and C. F. Van Loan,
// Matrix Computations, section 8.5).
func (m sym3) eigen() (values [3]float64, v [3][3]float64) {
	v = [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}} // rows are vectors
	for range 32 {
		off := m[0][1]*m[0][1] + m[0][2]*m[0][2] + m[1][2]*m[1][2]
		diag := m[0][0]*m[0][0] + m[1][1]*m[1][1] + m[2][2]*m[2][2]
		if off <= 1e-34*diag || off == 0 {
			break
		}
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				if m[p][q] == 0 {
					continue
				}
				theta := (m[q][q] - m[p][p]) / (2 * m[p][q])
				t := math.Copysign(1, theta) / (math.Abs(theta) + math.Sqrt(theta*theta+1))
				c := 1 / math.Sqrt(t*t+1)
				s := t * c
				for k := range 3 { // m = Jᵀ m J, column step
					m[k][p], m[k][q] = c*m[k][p]-s*m[k][q], s*m[k][p]+c*m[k][q]
				}
				for k := range 3 { // row step
					m[p][k], m[q][k] = c*m[p][k]-s*m[q][k], s*m[p][k]+c*m[q][k]
				}
				for k := range 3 {
					v[p][k], v[q][k] = c*v[p][k]-s*v[q][k], s*v[p][k]+c*v[q][k]
				}
			}
		}
	}
	values = [3]float64{m[0][0], m[1][1], m[2][2]}
	for i := range 2 { // sort three values
		for j := i + 1; j < 3; j++ {
			if values[j] < values[i] {
				values[i], values[j] = values[j], values[i]
				v[i], v[j] = v[j], v[i]
			}
		}
	}
	return values, v
}

// eigen2 returns the smaller and the larger eigenvalue of the symmetric matrix
// (xx xy; xy yy) and the unit eigenvector of the smaller one.
func eigen2(xx, yy, xy float64) (lo, hi float64, axis [2]float64) {
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	// The larger one's direction is at half the angle of (xx-yy, 2xy).
	angle := math.Atan2(2*xy, xx-yy) / 2
	s, c := math.Sincos(angle)
	return mean - half, mean + half, [2]float64{-s, c}
}
