package hydro

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// WaterMark is one reading of where the water meets a floating body.
type WaterMark struct {
	Name  string
	At    r3.Vec  // the place in body axes that lies on the surface, m
	Sigma float64 // standard deviation of its height, m
}

// SlopeReading is an angle to the water read with a level laid on the body.
type SlopeReading struct {
	Name      string
	Direction r3.Vec  // unit vector in body axes
	Angle     float64 // of it above the horizontal, rad
	Sigma     float64 // rad
}

// Reading is a number with its standard deviation.
type Reading struct{ Value, Sigma float64 }

// Tub is what was measured on a body floating in a tub.
type Tub struct {
	Hull     *Hull
	Marks    []WaterMark
	Levels   []SlopeReading
	Scale    *Reading // kg, nil when it was not weighed
	Density  Reading  // of the water, kg/m3
	CGHeight Reading  // the z of the CG in body axes, as taken from elsewhere, m
}

// TubFit is the mass and CG that the readings say, with standard deviations
// that carry those of every reading, the water and the CG's height.
type TubFit struct {
	Attitude
	Mass  Reading
	CG    r3.Vec // z as given
	Sigma r3.Vec // of CG
	CB    r3.Vec
	GM    float64 // least, with the CG so found, m
	// MassPerMM is what a millimeter over the whole waterplane weighs, kg.
	MassPerMM float64
	// Off is how far each mark lies above the fitted surface, m.
	Off []float64
	// ChiSquare is the weighted sum of squared misfits, over Freedom degrees
	// of freedom.
	ChiSquare float64
	Freedom   int
}

// ErrMarks says that the readings do not fix a plane.
var ErrMarks = errors.New("the readings do not fix the water's surface: give three marks or more that are not in one line, or two marks and an angle read with a level")

// tubParameters are what is fitted: two turns of the upward vector, the height,
// the density and the CG's height.
const tubParameters = 5

// Fit finds the surface, mass and CG by weighted least squares (Gauss and
// Newton's method), with the scale, the water and the CG's height as further
// readings. Standard deviations are those of the linear theory. It fails with
// ErrMarks when the readings do not fix a plane.
func (t *Tub) Fit() (*TubFit, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	x := tubPoint{up: t.plane(), density: t.Density.Value, cgZ: t.CGHeight.Value}
	x.height = t.meanHeight(x.up)
	var normal mat.SymDense
	for range 60 {
		rows, misfit := t.linear(x)
		normal = *mat.NewSymDense(tubParameters, nil)
		right := mat.NewVecDense(tubParameters, nil)
		for i, row := range rows {
			v := mat.NewVecDense(tubParameters, row[:])
			normal.SymRankOne(&normal, 1, v)
			right.AddScaledVec(right, -misfit[i], v)
		}
		var chol mat.Cholesky
		if !chol.Factorize(&normal) || chol.Cond() > 1e14 {
			return nil, ErrMarks
		}
		var step mat.VecDense
		if err := chol.SolveVecTo(&step, right); err != nil {
			return nil, ErrMarks
		}
		x = x.move([tubParameters]float64(step.RawVector().Data))
		if mat.Norm(&step, 2) < 1e-13 {
			break
		}
	}
	return t.result(x, &normal)
}

// check returns an error for readings that no fit can be made of.
func (t *Tub) check() error {
	if len(t.Marks)+len(t.Levels) < 3 || len(t.Marks) == 0 {
		return ErrMarks
	}
	for _, m := range t.Marks {
		if !(m.Sigma > 0) {
			return fmt.Errorf("mark %q: its tolerance must be over zero", m.Name)
		}
	}
	for _, l := range t.Levels {
		if !(l.Sigma > 0) {
			return fmt.Errorf("level on %q: its tolerance must be over zero", l.Name)
		}
	}
	if t.Scale != nil && !(t.Scale.Sigma > 0 && t.Scale.Value > 0) {
		return errors.New("the scale's reading and its tolerance must be over zero")
	}
	if !(t.Density.Sigma > 0) || !(t.CGHeight.Sigma > 0) {
		return errors.New("the water's density and the CG's height need tolerances over zero")
	}
	return nil
}

// tubPoint is a value of the parameters.
type tubPoint struct {
	up      r3.Vec
	height  float64
	density float64
	cgZ     float64
}

// The steps are scaled to what is small in each: radians, meters, a share of
// the density, meters.
func (x tubPoint) move(step [tubParameters]float64) tubPoint {
	t1, t2 := tangents(x.up)
	return tubPoint{
		up:      tilt(x.up, r3.Add(r3.Scale(step[0], t1), r3.Scale(step[1], t2))),
		height:  x.height + step[2],
		density: x.density * (1 + step[3]),
		cgZ:     x.cgZ + step[4],
	}
}

// plane starts from level: a tub's marks are read on a body that floats
// upright.
func (t *Tub) plane() r3.Vec { return r3.Vec{Z: 1} }

func (t *Tub) meanHeight(up r3.Vec) float64 {
	sum := 0.0
	for _, m := range t.Marks {
		sum -= r3.Dot(up, m.At)
	}
	return sum / float64(len(t.Marks))
}

// linear returns, for each reading, its misfit in standard deviations and the
// derivative of that by the parameters.
func (t *Tub) linear(x tubPoint) (rows [][tubParameters]float64, misfit []float64) {
	t1, t2 := tangents(x.up)
	add := func(off float64, row [tubParameters]float64, sigma float64) {
		for i := range row {
			row[i] /= sigma
		}
		rows = append(rows, row)
		misfit = append(misfit, off/sigma)
	}
	for _, m := range t.Marks {
		add(r3.Dot(x.up, m.At)+x.height, [tubParameters]float64{r3.Dot(t1, m.At), r3.Dot(t2, m.At), 1}, m.Sigma)
	}
	for _, l := range t.Levels {
		a := Attitude{Up: x.up}
		cos := math.Cos(a.Slope(l.Direction))
		add(a.Slope(l.Direction)-l.Angle, [tubParameters]float64{r3.Dot(t1, l.Direction) / cos, r3.Dot(t2, l.Direction) / cos}, l.Sigma)
	}
	if t.Scale != nil {
		sec := t.section(x)
		// Raising a place of the surface takes its column of water away.
		about := r3.Add(sec.AreaMoment, r3.Scale(sec.Area, t.Hull.center))
		add(x.density*sec.Volume-t.Scale.Value, [tubParameters]float64{
			-x.density * r3.Dot(t1, about), -x.density * r3.Dot(t2, about), -x.density * sec.Area, x.density * sec.Volume,
		}, t.Scale.Sigma)
	}
	add(x.density-t.Density.Value, [tubParameters]float64{3: x.density}, t.Density.Sigma)
	add(x.cgZ-t.CGHeight.Value, [tubParameters]float64{4: 1}, t.CGHeight.Sigma)
	return rows, misfit
}

// result works out what was asked for at the fitted parameters, and carries
// their covariance to it by central differences.
func (t *Tub) result(x tubPoint, normal *mat.SymDense) (*TubFit, error) {
	sec := t.section(x)
	if !(sec.Volume > 0) {
		return nil, errors.New("by these readings the hull is out of the water: check the marks and their signs")
	}
	values := func(x tubPoint) [3]float64 {
		mass, cg := t.massAndCG(x)
		return [3]float64{mass, cg.X, cg.Y}
	}
	var slopes [3][tubParameters]float64
	for k := range tubParameters {
		const h = 1e-6
		var up, down [tubParameters]float64
		up[k], down[k] = h, -h
		a, b := values(x.move(up)), values(x.move(down))
		for i := range slopes {
			slopes[i][k] = (a[i] - b[i]) / (2 * h)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return nil, ErrMarks
	}
	deviation := func(slope [tubParameters]float64) float64 {
		v := mat.NewVecDense(tubParameters, slope[:])
		var w mat.VecDense
		if err := chol.SolveVecTo(&w, v); err != nil {
			return math.NaN()
		}
		return math.Sqrt(mat.Dot(v, &w))
	}
	fit := &TubFit{Attitude: Attitude{Up: x.up, Height: x.height}}
	fit.Mass.Value, fit.CG = t.massAndCG(x)
	fit.Mass.Sigma = deviation(slopes[0])
	fit.Sigma = r3.Vec{X: deviation(slopes[1]), Y: deviation(slopes[2]), Z: t.CGHeight.Sigma}
	fit.CB = r3.Add(t.Hull.center, r3.Scale(1/sec.Volume, sec.Moment))
	fit.MassPerMM = x.density * sec.Area / 1000
	body := Body{Hull: t.Hull, Mass: fit.Mass.Value, CG: fit.CG, Density: x.density}
	p := body.at(x.up, x.height+r3.Dot(x.up, t.Hull.center))
	state := body.state(&p, 1)
	fit.GM, _ = state.GMLeast()
	for _, m := range t.Marks {
		fit.Off = append(fit.Off, r3.Dot(x.up, m.At)+x.height)
	}
	_, misfit := t.linear(x)
	for _, m := range misfit {
		fit.ChiSquare += m * m
	}
	fit.Freedom = len(misfit) - tubParameters
	return fit, nil
}

// massAndCG returns the mass displaced, and the CG: on the vertical through the
// center of buoyancy, at its own height z.
func (t *Tub) massAndCG(x tubPoint) (float64, r3.Vec) {
	sec := t.section(x)
	cb := r3.Add(t.Hull.center, r3.Scale(1/sec.Volume, sec.Moment))
	return x.density * sec.Volume, r3.Add(cb, r3.Scale((x.cgZ-cb.Z)/x.up.Z, x.up))
}

// section cuts the hull at the surface.
func (t *Tub) section(x tubPoint) mesh.Section {
	return t.Hull.below(x.up, x.height+r3.Dot(x.up, t.Hull.center))
}

// Suspect is a mark whose reading fits badly with the others.
type Suspect struct {
	Mark  int
	Error float64 // by how much it seems misread, m: positive means it was read too high
	Gain  float64 // of chi square when it is left out
}

// misreadGain is the gain in chi square for one degree of freedom that chance
// passes in 1 % of cases (the chi-square distribution's 99 % point).
const misreadGain = 6.635

// Misread returns the one mark that, left out, makes the rest agree best, when
// that gains more than chance would; false when there is none or too few marks
// to tell.
func (t *Tub) Misread() (Suspect, bool) {
	all, err := t.Fit()
	if err != nil || all.Freedom < 2 {
		return Suspect{}, false
	}
	best := Suspect{Mark: -1}
	for i := range t.Marks {
		less := *t
		less.Marks = append(append([]WaterMark(nil), t.Marks[:i]...), t.Marks[i+1:]...)
		fit, err := less.Fit()
		if err != nil {
			continue
		}
		if gain := all.ChiSquare - fit.ChiSquare; gain > best.Gain {
			best = Suspect{Mark: i, Error: fit.HeightOf(t.Marks[i].At), Gain: gain}
		}
	}
	return best, best.Mark >= 0 && best.Gain > misreadGain
}
