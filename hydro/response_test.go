package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// The exact responses agree with central differences of whole solves. The
// error of a central difference falls with the square of the step: 1e-3 of the
// mass or 1e-4 m leave some 1e-5 of the derivative on these curved bodies.
func TestResponsesAgainstDifferences(t *testing.T) {
	probe := r3.Vec{X: 0.7, Y: -0.4, Z: 0.3}
	line := r3.Unit(r3.Vec{X: 1, Z: 0.1})
	for seed := range uint64(40) {
		h := hullOf(t, solid(t, shape.Star(seed, 3)))
		body := hydro.Body{Hull: h, Mass: 1000 * h.Volume() * (0.3 + 0.01*float64(seed%40)), CG: r3.Vec{X: 0.05, Y: -0.03, Z: -0.5}, Density: 1000}
		at := rest(t, body)
		if gm, _ := at.GMLeast(); gm < 0.02 {
			continue // the second derivative of a soft body needs a smaller step
		}
		place := r3.Vec{X: 0.3, Y: 0.2, Z: 0.1}
		check := func(what string, c hydro.Change, step float64, moved func(sign float64) hydro.Body) {
			t.Helper()
			ends := [2]hydro.Rest{}
			for i, sign := range []float64{1, -1} {
				b := moved(sign)
				r, err := b.RestFrom(at.Attitude)
				if err != nil {
					t.Fatal(err)
				}
				ends[i] = r
			}
			diff := func(f func(hydro.Attitude) float64) float64 {
				return (f(ends[0].Attitude) - f(ends[1].Attitude)) / (2 * step)
			}
			for _, q := range []struct {
				name      string
				got, want float64
			}{
				{"trim", c.Trim(), diff(hydro.Attitude.Trim)},
				{"heel", c.Heel(), diff(hydro.Attitude.Heel)},
				{"height of a point", c.HeightOf(probe), diff(func(a hydro.Attitude) float64 { return a.HeightOf(probe) })},
				{"slope of a line", c.Slope(line), diff(func(a hydro.Attitude) float64 { return a.Slope(line) })},
			} {
				scale := math.Max(math.Abs(q.want), r3.Norm(c.Up)+math.Abs(c.Height))
				if math.Abs(q.got-q.want) > 2e-3*scale {
					t.Errorf("star %d, %s: change of %s = %g, differences give %g", seed, what, q.name, q.got, q.want)
				}
			}
		}
		dm := 1e-4 * body.Mass
		check("mass added", at.Added(place), dm, func(sign float64) hydro.Body { return *body.With(sign*dm, &place) })
		for _, by := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			const step = 1e-4
			check("CG shifted", at.Shifted(by), step, func(sign float64) hydro.Body {
				b := body
				b.CG = r3.Add(b.CG, r3.Scale(sign*step, by))
				return b
			})
		}
	}
}

// On a box, level, the textbook rates: sinkage per kilogram 1/(rho A), trim
// and heel per shift of G 1/GM.
func TestResponsesOfABox(t *testing.T) {
	at := rest(t, hydro.Body{Hull: keelBox(t, 0.9, 0.1, 0.1), Mass: 4.5, CG: r3.Vec{Z: 0.02}, Density: 1000})
	near(t, "sinkage per kg at the CG", -at.Added(r3.Vec{Z: 0.02}).HeightOf(r3.Vec{}), 1/(1000*0.09), 1e-12)
	near(t, "trim per m forward", at.Shifted(r3.Vec{X: 1}).Trim(), -1/at.GMLongitudinal(), 1e-12)
	near(t, "heel per m to port", at.Shifted(r3.Vec{Y: 1}).Heel(), -1/at.GMTransverse(), 1e-12)
}
