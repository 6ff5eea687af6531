package hydro

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Body is a hull with a mass on a water: all that decides how it floats.
type Body struct {
	Hull    *Hull
	Mass    float64 // kg, over zero, that of the liquids included
	CG      r3.Vec  // center of gravity of all but the liquids, body axes, m
	Density float64 // of the water, kg/m3
	Liquids []Liquid
}

// Need returns the volume that must be displaced to carry the mass, m3.
func (b *Body) Need() float64 { return b.Mass / b.Density }

// SinksError is the answer no: the hull wholly under displaces too little.
type SinksError struct {
	Mass  float64 // kg
	Short float64 // volume that is missing, m3
}

func (e *SinksError) Error() string {
	volume, mass := "%.3g", "%.3f"
	if e.Short >= 1 {
		volume = "%.0f" // never 1.2e+03 L
	}
	if e.Mass >= 1000 {
		mass = "%.0f"
	}
	return fmt.Sprintf("it sinks: "+volume+" L short at "+mass+" kg", e.Short*1e3, e.Mass)
}

// check returns an error unless the body can be solved: its numbers are finite
// and positive where they must be, and the hull can carry it.
func (b *Body) check() error {
	switch {
	case b.Hull == nil:
		return fmt.Errorf("the body has no hull")
	case !(b.Mass > 0) || math.IsInf(b.Mass, 0):
		return fmt.Errorf("mass is %g kg, it must be over zero", b.Mass)
	case !(b.Density > 0) || math.IsInf(b.Density, 0):
		return fmt.Errorf("water density is %g kg/m3, it must be over zero", b.Density)
	case !(r3.Norm(b.CG) < math.Inf(1)):
		return fmt.Errorf("the CG is not finite: %v", b.CG)
	case b.liquid() > b.Mass*(1+1e-12):
		return fmt.Errorf("the liquids weigh %g kg and all of it only %g kg", b.liquid(), b.Mass)
	}
	for i := range b.Liquids {
		if err := b.Liquids[i].check(); err != nil {
			return err
		}
	}
	if short := b.Need() - b.Hull.volume; short >= 0 {
		return &SinksError{Mass: b.Mass, Short: short}
	}
	return nil
}

// place is one attitude with the energy there and its first two derivatives,
// all from a single cut. Energies are per W L and lengths per L, with W the
// weight and L the hull's size, so that every number is near one. The three
// directions are: n toward t1, n toward t2, and rising.
type place struct {
	n      r3.Vec
	e      float64 // height of the hull's center above the water, m
	t1, t2 r3.Vec
	sec    mesh.Section // about the hull's center
	loose  loose
	energy float64
	grad   [3]float64
	hess   sym3
}

// at cuts the hull once and returns the place.
func (b *Body) at(n r3.Vec, e float64) place { return b.atWith(n, e, b.loose(n)) }

// atWith is at with the liquids where they lie for n.
func (b *Body) atWith(n r3.Vec, e float64, l loose) place {
	p := place{n: n, e: e, sec: b.Hull.below(n, e), loose: l}
	p.t1, p.t2 = tangents(n)
	need, size := b.Need(), b.Hull.size
	scale := 1 / (need * size)
	arm := r3.Sub(r3.Add(r3.Scale(need-l.need, r3.Sub(b.CG, b.Hull.center)), l.moment), p.sec.Moment)
	lack := need - p.sec.Volume
	p.energy = (r3.Dot(n, arm) + lack*e) * scale
	p.grad = [3]float64{r3.Dot(p.t1, arm) * scale, r3.Dot(p.t2, arm) * scale, lack / need}
	bend := r3.Dot(n, arm) // the sphere of directions curves toward -n
	second := p.sec.AreaSecond
	if len(b.Liquids) > 0 {
		second = second.Add(l.surface.Scale(-1))
	}
	p.hess = sym3{
		{(second.Form(p.t1, p.t1) - bend) * scale, second.Form(p.t1, p.t2) * scale, r3.Dot(p.t1, p.sec.AreaMoment) / need},
		{0, (second.Form(p.t2, p.t2) - bend) * scale, r3.Dot(p.t2, p.sec.AreaMoment) / need},
		{0, 0, p.sec.Area * size / need},
	}
	p.hess.mirror()
	return p
}

// residual returns how far the place is from balance: the larger of the
// horizontal offset of G and B per size, and the share of volume that is wrong.
func (p *place) residual() float64 {
	return max(math.Hypot(p.grad[0], p.grad[1]), math.Abs(p.grad[2]))
}

// move returns where the step x leads: n turned by x[0], x[1] radians and the
// center raised by x[2] sizes.
func (p *place) move(x [3]float64, size float64) (r3.Vec, float64) {
	turn := r3.Add(r3.Scale(x[0], p.t1), r3.Scale(x[1], p.t2))
	return tilt(p.n, turn), p.e + x[2]*size
}

// reduced returns the second derivative of the energy over n at balanced
// volume, per W L: (J/V - BG)/L, J about the center of flotation.
func (p *place) reduced() (xx, yy, xy float64) {
	xx, yy, xy = p.hess[0][0], p.hess[1][1], p.hess[0][1]
	if h := p.hess[2][2]; h > 0 {
		xx -= p.hess[0][2] * p.hess[0][2] / h
		yy -= p.hess[1][2] * p.hess[1][2] / h
		xy -= p.hess[0][2] * p.hess[1][2] / h
	}
	return xx, yy, xy
}
