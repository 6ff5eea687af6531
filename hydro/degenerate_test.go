package hydro_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A keel slab wholly under that carries the whole mass, with a wing high above:
// nothing pierces the surface. It is neutral in heave over the gap, GM is -BG,
// and with G below B it is stable.
func TestNeutralInHeave(t *testing.T) {
	slab := shape.BoxBetween(r3.Vec{X: -0.5, Y: -0.5}, r3.Vec{X: 0.5, Y: 0.5, Z: 0.1})
	wing := shape.BoxBetween(r3.Vec{X: -0.1, Y: -0.1, Z: 0.4}, r3.Vec{X: 0.1, Y: 0.1, Z: 0.5})
	h := hullOf(t, solid(t, slab), solid(t, wing))
	r := rest(t, hydro.Body{Hull: h, Mass: 100, CG: r3.Vec{Z: 0.02}, Density: 1000})
	if r.Area != 0 {
		t.Fatalf("waterplane area %g, want none", r.Area)
	}
	lo, hi := r.HeaveRange()
	near(t, "highest water", -lo, 0.4, 1e-9)
	near(t, "lowest water", -hi, 0.1, 1e-9)
	near(t, "GM = -BG", r.GMTransverse(), 0.03, 1e-12)
	if lost := r.Added(r3.Vec{X: 0.2}); math.IsNaN(lost.Trim()) || math.IsInf(lost.Height, 0) {
		t.Errorf("Added = %+v, want finite numbers", lost)
	}
}

// The water is exactly at a step in a box's sides: the waterplane is that below
// or that above, and the smaller GM of the two is given.
func TestFacetInTheWaterplane(t *testing.T) {
	low := shape.BoxBetween(r3.Vec{X: -1, Y: -0.5}, r3.Vec{X: 1, Y: 0.5, Z: 0.25})
	high := shape.BoxBetween(r3.Vec{X: -1, Y: -0.25, Z: 0.25}, r3.Vec{X: 1, Y: 0.25, Z: 0.5})
	h := hullOf(t, solid(t, low), solid(t, high))
	r := rest(t, hydro.Body{Hull: h, Mass: 500, CG: r3.Vec{Z: 0.1}, Density: 1000})
	near(t, "GM, smaller side", r.GMTransverse(), 2*0.125/12/0.5+0.125-0.1, 1e-6)
}

// A homogeneous cylinder on its side lies at any heel.
func TestNeutralCylinder(t *testing.T) {
	axis := mesh.Rotation(r3.Vec{Y: 1}, math.Pi/2)
	s := solid(t, shape.Transformed(shape.Cylinder(0.1, 1, 720), axis))
	b := s.Centroid()
	h := hullOf(t, s)
	r := rest(t, hydro.Body{Hull: h, Mass: 500 * h.Volume(), CG: b, Density: 1000})
	gm, _ := r.GMLeast()
	// 720 facets leave a GM of some 1e-6 of the radius.
	if math.Abs(gm) > 1e-5 {
		t.Errorf("least GM %g, want none", gm)
	}
}

// A body without symmetry can have both named GMs positive and the least one
// negative: twin floats set askew, one ahead to port and one aft to starboard.
func TestLeastGMIsLess(t *testing.T) {
	s := solid(t, shape.BoxBetween(r3.Vec{X: -0.1, Y: -0.1}, r3.Vec{X: 0.1, Y: 0.1, Z: 0.2}))
	var terms []hydro.Term
	for _, sign := range []float64{1, -1} {
		terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{X: sign * 0.5, Y: sign * 0.5})}, Weight: 1})
	}
	h, err := hydro.NewHull(terms)
	if err != nil {
		t.Fatal(err)
	}
	b := &hydro.Body{Hull: h, Mass: 8, CG: r3.Vec{Z: 0.3}, Density: 1000}
	at, err := b.Level(r3.Vec{Z: 1})
	if err != nil {
		t.Fatal(err)
	}
	gm, axis := at.GMLeast()
	if at.GMTransverse() <= 0 || at.GMLongitudinal() <= 0 || gm >= 0 {
		t.Errorf("GM %g, %g, least %g; want both named ones positive and the least negative", at.GMTransverse(), at.GMLongitudinal(), gm)
	}
	// Least about the line through both floats.
	near(t, "axis", math.Abs(axis.X*axis.Y), 0.5, 1e-9)
	// The tensor of two squares of side 0.2 at (±.5, ±.5), by hand: across
	// the line through them I = 2·0.2⁴/12.
	near(t, "least GM", gm, 2*math.Pow(0.2, 4)/12/0.008+0.05-0.3, 1e-9)
}

func TestBodyErrors(t *testing.T) {
	h := twinBoxes(t)
	for _, c := range []struct {
		name string
		b    hydro.Body
	}{
		{"no hull", hydro.Body{Mass: 1, Density: 1000}},
		{"no mass", hydro.Body{Hull: h, Density: 1000}},
		{"negative mass", hydro.Body{Hull: h, Mass: -1, Density: 1000}},
		{"NaN mass", hydro.Body{Hull: h, Mass: math.NaN(), Density: 1000}},
		{"infinite mass", hydro.Body{Hull: h, Mass: math.Inf(1), Density: 1000}},
		{"no density", hydro.Body{Hull: h, Mass: 1}},
		{"NaN CG", hydro.Body{Hull: h, Mass: 1, Density: 1000, CG: r3.Vec{X: math.NaN()}}},
	} {
		if _, err := c.b.Rest(); err == nil {
			t.Errorf("%s: no error", c.name)
		}
	}
	b := hydro.Body{Hull: h, Mass: 18.42, Density: 1000}
	_, err := b.Rest()
	var sinks *hydro.SinksError
	if !errors.As(err, &sinks) {
		t.Fatalf("18.42 kg on 18 L: %v, want that it sinks", err)
	}
	near(t, "short", sinks.Short, 0.42e-3, 1e-12)
	if _, err := hydro.NewHull(nil); err == nil {
		t.Error("NewHull(nil): no error")
	}
}

// Where the CAD origin lies does not matter: the same body drawn a thousand
// sizes away rests the same, to what the coordinates still hold.
func TestOriginFarAway(t *testing.T) {
	far := r3.Vec{X: 4096, Y: -2048, Z: 1024} // exact in binary
	m := shape.Star(3, 3)
	here := hullOf(t, solid(t, m))
	there := hullOf(t, solid(t, shape.Transformed(m, mesh.Translation(far))))
	a := rest(t, hydro.Body{Hull: here, Mass: 400 * here.Volume(), CG: r3.Vec{X: 0.1, Z: -0.2}, Density: 1000})
	b := rest(t, hydro.Body{Hull: there, Mass: 400 * there.Volume(), CG: r3.Add(far, r3.Vec{X: 0.1, Z: -0.2}), Density: 1000})
	if d := r3.Norm(r3.Sub(a.Up, b.Up)); d > 1e-9 {
		t.Errorf("the upward vectors differ by %g", d)
	}
	near(t, "displaced volume", b.Volume, a.Volume, 1e-11)
}

// The eigenvalues of the solver's own 3x3 routine, against gonum.
func TestEigenAgainstGonum(t *testing.T) {
	for seed := range uint64(200) {
		a := hydro.RandomSymmetric(seed)
		values, vectors := hydro.Eigen(a)
		var eig mat.EigenSym
		sym := mat.NewSymDense(3, []float64{a[0][0], a[0][1], a[0][2], a[0][1], a[1][1], a[1][2], a[0][2], a[1][2], a[2][2]})
		if !eig.Factorize(sym, false) {
			t.Fatal("gonum did not factorize")
		}
		want := eig.Values(nil)
		for i := range 3 {
			near(t, "eigenvalue", values[i], want[i], 1e-13)
			for k := range 3 {
				av := a[k][0]*vectors[i][0] + a[k][1]*vectors[i][1] + a[k][2]*vectors[i][2]
				near(t, "A v", av, values[i]*vectors[i][k], 1e-13)
			}
		}
	}
}
