package design_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millpond/hydro"
	"millpond/hydro/design"
)

// Twin boxes over their length, by scaling: drafts, both GM and the excess
// buoyancy from the closed forms for a box.
func TestSweepOfLength(t *testing.T) {
	const b, h, spread, mass, kg = 0.10, 0.10, 0.2, 6, 0.25
	c := twins(t, 0.7, b, h, mass, kg)
	g := grid(t, c, []string{"draft", "gm transverse", "gm longitudinal", "reserve buoyancy", "trim", "length of float"})
	v := vary(t, c, "length scale of float")
	g.Vary = []design.Varied{v}
	lengths := []float64{0.7, 0.8, 0.9, 1.0, 1.1}
	g.Values = [][]float64{nil}
	for _, l := range lengths {
		g.Values[0] = append(g.Values[0], l/0.7)
	}
	for i, r := range worked(t, g, 2) {
		l := lengths[i]
		plane := 2 * l * b
		d := mass / 1000. / plane
		bmT := (2*l*b*b*b/12 + plane*spread*spread) / (plane * d)
		bmL := 2 * b * l * l * l / 12 / (plane * d)
		for k, want := range []float64{d, d/2 + bmT - kg, d/2 + bmL - kg, plane*h*1000/mass - 1, 0, l} {
			near(t, fmt.Sprintf("%s at length %g", g.Show[k].Text(), l), r.Shown[k], want, 1e-9)
		}
		// The same by numbers worked out elsewhere.
		want := [][2]float64{{0.042857, 0.724206}, {0.0375, 1.190972}, {0.033333, 1.791667}, {0.03, 2.542778}, {0.027273, 3.460859}}[i]
		near(t, "draft", r.Shown[0], want[0], 1e-6)
		near(t, "GM longitudinal", r.Shown[2], want[1], 1e-6)
	}
}

// Over plug height and CG: height adds reserve and nothing else, CG turns it
// by the wall-sided formula.
func TestSweepOfHeightAndCG(t *testing.T) {
	const l, b, h, mass, kg = 0.9, 0.10, 0.08, 9, 0.25
	c := twins(t, l, b, h, mass, kg)
	g := grid(t, c, []string{"reserve buoyancy", "trim", "draft", "depth of float"})
	g.Vary = []design.Varied{vary(t, c, "plug height of float", 0.03), vary(t, c, "cg x")}
	g.Values = [][]float64{{0, 0.01, 0.02, 0.04}, {-0.02, 0, 0.01, 0.02}}
	d := mass / 1000. / (2 * l * b)
	bm := l * l / 12 / d
	gm := d/2 + bm - kg
	for _, r := range worked(t, g, 3) {
		add, x := r.Values[0], r.Values[1]
		name := fmt.Sprintf("at plug %g, cg %g: ", add, x)
		near(t, name+"reserve", r.Shown[0], 2*l*b*(h+add)*1000/mass-1, 1e-12)
		// Bow down is trim negative.
		trim := -trimOf(gm, bm, x)
		near(t, name+"trim", r.Shown[1], trim, 1e-9)
		near(t, name+"draft", r.Shown[2], d*math.Cos(trim)+l/2*math.Abs(math.Sin(trim)), 1e-9)
		near(t, name+"depth of float", r.Shown[3], h+add, 1e-12)
		if add == 0.02 && x == 0.02 {
			near(t, name+"trim in degrees", r.Shown[1]/deg, -1.018291, 1e-6)
		}
	}
}

// A plug of length is length, wherever it is let in.
func TestSweepOfPlugLength(t *testing.T) {
	const b, h, mass, kg = 0.10, 0.10, 6, 0.25
	for _, at := range []float64{-0.2, 0.1} {
		c := twins(t, 0.7, b, h, mass, kg)
		g := grid(t, c, []string{"gm longitudinal", "trim", "wetted area"})
		g.Vary = []design.Varied{vary(t, c, "plug length of float", at), vary(t, c, "cg x")}
		// Ahead of the origin the forward piece moves, behind it the after
		// one; the middle goes half as far.
		side := math.Copysign(1, at)
		g.Values = [][]float64{{0, 0.1, 0.2, 0.4}, {0, side * 0.05, side * 0.1, side * 0.2}}
		for i, r := range worked(t, g, 2) {
			if i%5 != 0 { // the CG over the middle
				continue
			}
			l := 0.7 + r.Values[0]
			d := mass / 1000. / (2 * l * b)
			near(t, fmt.Sprintf("GM longitudinal at length %g", l), r.Shown[0], d/2+l*l/12/d-kg, 1e-9)
			near(t, fmt.Sprintf("trim at length %g", l), r.Shown[1], 0, 1e-9)
			near(t, fmt.Sprintf("wetted area at length %g", l), r.Shown[2], 2*(l*b+2*d*(l+b)), 1e-9)
		}
	}
}

// Off center in both ways; wall-sided floats of 8 kg, worked out elsewhere.
func TestSweepOfMassAndCG(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, []string{"heel", "trim"})
	g.Vary = []design.Varied{vary(t, c, "mass"), vary(t, c, "cg x"), vary(t, c, "cg y")}
	g.Values = [][]float64{{8}, {0.015}, {0.02}}
	r := worked(t, g, 1)[0]
	// The CG to port heels to port and forward trims by the bow.
	near(t, "heel in degrees", r.Shown[0]/deg, -1.656781, 1e-6)
	near(t, "trim in degrees", r.Shown[1]/deg, -0.665169, 1e-6)
}

// A row without an answer stays and says why: sunk, turned over, not to be
// built.
func TestRowsWithoutAnswer(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, []string{"draft", "reserve buoyancy"})
	g.Requirements = []design.Requirement{require(t, c, "reserve buoyancy", 0.5, none)}
	g.Vary = []design.Varied{vary(t, c, "mass"), vary(t, c, "cg z")}
	g.Values = [][]float64{{9, 15, 19}, {0.25, 2}}
	rows := worked(t, g, 2)
	var sinks *hydro.SinksError
	var over *design.OverturnError
	for i, r := range rows {
		switch mass, z := r.Values[0], r.Values[1]; {
		case mass == 19:
			if !errors.As(r.No, &sinks) || !math.IsNaN(r.Shown[0]) {
				t.Errorf("row %d at 19 kg: no = %v, draft %g", i, r.No, r.Shown[0])
			}
		case z == 2:
			if !errors.As(r.No, &over) || r.Holds() {
				t.Errorf("row %d with the CG at 2 m: no = %v", i, r.No)
			}
		case mass == 15:
			if r.No != nil || r.Missed != 0 {
				t.Errorf("row %d at 15 kg: no = %v, missed %d, want 0", i, r.No, r.Missed)
			}
		default:
			if !r.Holds() {
				t.Errorf("row %d at 9 kg does not hold: %v", i, r)
			}
		}
	}
	near(t, "volume short at 19 kg", sinks.Short, 0.001, 1e-12)

	g.Vary, g.Values = []design.Varied{vary(t, c, "plug height of float", 0.03)}, [][]float64{{-0.2, 0}}
	if r := worked(t, g, 1)[0]; r.No == nil || !strings.Contains(r.No.Error(), "stays even for") {
		t.Errorf("200 mm out of a float of 100 mm: no = %v", r.No)
	}
}

// Any number of workers gives the same rows to the last bit.
func TestWorkersAgree(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, []string{"draft", "trim", "gm least", "reserve buoyancy", "wetted area"})
	g.Vary = []design.Varied{vary(t, c, "plug height of float"), vary(t, c, "plug length of float", 0.1)}
	g.Values = [][]float64{{0, 0.01, 0.02, 0.03, 0.04}, {0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3}}
	want := fmt.Sprintf("%x", worked(t, g, 1))
	for _, workers := range []int{0, 2, 7} {
		if got := fmt.Sprintf("%x", worked(t, g, workers)); got != want {
			t.Errorf("%d workers: other rows than one worker:\n%s\n%s", workers, got, want)
		}
	}
}

// Stopped, a sweep has given the first rows of the grid, each whole.
func TestStoppedSweep(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, []string{"draft"})
	g.Vary, g.Values = []design.Varied{vary(t, c, "mass")}, [][]float64{nil}
	for i := range 5000 {
		g.Values[0] = append(g.Values[0], 1+0.001*float64(i))
	}
	ctx, cancel := context.WithCancel(t.Context())
	n := 0
	err := g.Run(ctx, 2, func(r design.Row) error {
		if r.Values[0] != g.Values[0][n] {
			t.Fatalf("row %d is of %g kg, want %g", n, r.Values[0], g.Values[0][n])
		}
		if n++; n == 20 {
			cancel()
		}
		return nil
	})
	if !errors.Is(err, context.Canceled) || n < 20 || n > 200 {
		t.Errorf("stopped after 20 of 5000 rows: %v, %d rows", err, n)
	}

	full := errors.New("the disk is full")
	n = 0
	err = g.Run(t.Context(), 2, func(design.Row) error { n++; return full })
	if !errors.Is(err, full) || n != 1 {
		t.Errorf("with a writer that fails: %v after %d rows, want its error after 1", err, n)
	}
}

// Grids that cannot be worked through.
func TestGridRefused(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, nil)
	g.Vary = []design.Varied{vary(t, c, "mass"), vary(t, c, "mass")}
	g.Values = [][]float64{{1}, {2}}
	if err := g.Check(); err == nil || !strings.Contains(err.Error(), "twice") {
		t.Errorf("mass varied twice: %v", err)
	}
	g.Vary, g.Values = g.Vary[:1], [][]float64{{}}
	if err := g.Check(); err == nil {
		t.Error("no values: no error")
	}
	g.Values = [][]float64{make([]float64, design.MostDesigns+1)}
	if err := g.Check(); err == nil {
		t.Error("too many values: no error")
	}
}

// The water at the very plane of a plug is like water anywhere: the inner faces
// there are none of its business.
func TestWaterAtThePlane(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 3))
	for range 60 {
		l, b, mass := 0.6+r.Float64(), 0.08+0.1*r.Float64(), 4+4*r.Float64()
		d := mass / 1000. / (2 * l * b)
		c := twins(t, l, b, 1.7*d, mass, 0.2)
		g := grid(t, c, []string{"gm longitudinal", "waterplane area", "draft"})
		g.Vary = []design.Varied{vary(t, c, "plug height of float", d)}
		g.Values = [][]float64{{-0.2 * d, 0, 0.01, 0.02}}
		for _, row := range worked(t, g, 1) {
			name := fmt.Sprintf("box of %g by %g, plug of %g at the draft of %g: ", l, b, row.Values[0], d)
			near(t, name+"GM longitudinal", row.Shown[0], d/2+l*l/12/d-0.2, 1e-9)
			near(t, name+"waterplane area", row.Shown[1], 2*l*b, 1e-9)
			near(t, name+"draft", row.Shown[2], d, 1e-9)
		}
	}
}

// The righting arm of twin boxes over their height, while they stay
// wall-sided: GZ = sin(heel) (GM + BM tan²(heel)/2), and the same worked out
// elsewhere.
func TestSweepOfRightingArm(t *testing.T) {
	c := twins(t, 0.9, 0.10, 0.10, 9, 0.25)
	g := grid(t, c, []string{"gz at 5 deg", "gz at 10 deg"})
	g.Vary = []design.Varied{vary(t, c, "plug height of float", 0.07)}
	g.Values = [][]float64{{0, 0.02}}
	const bm = (2*0.9*0.1*0.1*0.1/12 + 0.18*0.2*0.2) / 0.009
	for _, r := range worked(t, g, 2) {
		for k, heel := range []float64{5 * deg, 10 * deg} {
			tan := math.Tan(heel)
			name := fmt.Sprintf("%s with a plug of %g", g.Show[k].Text(), r.Values[0])
			near(t, name, r.Shown[k], math.Sin(heel)*(0.025+bm-0.25+bm*tan*tan/2), 1e-9)
			near(t, name, r.Shown[k], []float64{0.0518396, 0.104946}[k], 1e-6)
		}
	}
}
