package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// critical finds the stationary direction of Morse index kind (0 a low, 1 a
// pass, 2 a top of the energy) near the direction n, by following the
// eigenvectors of the reduced Hessian: uphill along the lowest kind of them,
// downhill along the others. It returns false where it does not lead to one
// within reach.
func (b *Body) critical(start r3.Vec, height float64, kind int, cuts *int) (place, bool) {
	const (
		cap   = 5 * math.Pi / 180
		reach = 40 * math.Pi / 180
		// Nearer than this the volume is balanced exactly.
		close = 1e-3
	)
	n, pull := start, math.Inf(1)
	for range 60 {
		if angleBetween(n, start) > reach {
			break
		}
		var p place
		if pull > close {
			p = b.sampleAt(n, height, cuts)
		} else {
			var c int
			p, c = b.level(n, height, levelTolerance)
			*cuts += c
		}
		xx, yy, xy := p.reduced()
		lo, hi, v := eigen2(xx, yy, xy)
		axes := [2][2]float64{v, {-v[1], v[0]}}
		values := [2]float64{lo, hi}
		exact := pull <= close
		pull = math.Hypot(p.grad[0], p.grad[1])
		if exact && pull < 1e-10 {
			negative := 0
			for _, l := range values {
				if l < 0 {
					negative++
				}
			}
			return p, negative == kind
		}
		var x [2]float64
		for i, a := range axes {
			step := (p.grad[0]*a[0] + p.grad[1]*a[1]) / math.Max(math.Abs(values[i]), 1e-9)
			if i >= kind {
				step = -step
			}
			x[0] += step * a[0]
			x[1] += step * a[1]
		}
		if l := math.Hypot(x[0], x[1]); l > cap {
			x[0] *= cap / l
			x[1] *= cap / l
		}
		n = tilt(p.n, r3.Add(r3.Scale(x[0], p.t1), r3.Scale(x[1], p.t2)))
		height = p.leveled(n, b.Hull.size)
	}
	return place{}, false
}

// softest returns the tangent direction in which the place resists turning
// least, and its reduced second derivative (GM over size).
func (p *place) softest() (r3.Vec, float64) {
	xx, yy, xy := p.reduced()
	lo, _, v := eigen2(xx, yy, xy)
	return r3.Add(r3.Scale(v[0], p.t1), r3.Scale(v[1], p.t2)), lo
}
