package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

const degree = math.Pi / 180

// righting returns a body's righting curve.
func righting(t testing.TB, b hydro.Body, o hydro.RightingOptions) *hydro.Righting {
	t.Helper()
	r := rest(t, b)
	c, err := r.Righting(o)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// gzAt returns the righting arm at an angle in degrees.
func gzAt(t testing.TB, c *hydro.Righting, angle float64) float64 {
	t.Helper()
	p, err := c.At(angle * degree)
	if err != nil {
		t.Fatalf("At(%g deg): %v", angle, err)
	}
	return p.GZ
}

// Followed only as far as asked, a curve says the same as when it is followed
// all around, with fewer cuts.
func TestRightingAsAsked(t *testing.T) {
	body := craft(t, 2100)
	r := rest(t, body)
	whole, err := r.Righting(hydro.RightingOptions{Step: 5 * degree})
	if err != nil {
		t.Fatal(err)
	}
	asked, err := r.Righting(hydro.RightingOptions{Step: 5 * degree, AsAsked: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(asked.Points) > 0 {
		t.Errorf("%d points before anything is asked", len(asked.Points))
	}
	for _, a := range []float64{3, -7, 12, -90, 150} {
		near(t, "GZ as asked", gzAt(t, asked, a), gzAt(t, whole, a), 1e-9)
	}
	f1, r1, err := whole.Sides()
	if err != nil {
		t.Fatal(err)
	}
	f2, r2, err := asked.Sides()
	if err != nil {
		t.Fatal(err)
	}
	f3, r3, err := asked.Ends()
	if err != nil {
		t.Fatal(err)
	}
	if f1 != f2 || r1 != r2 || f3 != f1.RightingEnd || r3 != r1.RightingEnd {
		t.Errorf("as asked: sides %+v and %+v, ends %+v and %+v; all around: %+v and %+v", f2, r2, f3, r3, f1, r1)
	}
}

// Along the curve of a craft without symmetry: the energy put in is the
// integral of W GZ cos(trim) over the heel, between jumps; at jumps it falls;
// every point is a minimum over the free angle; the slope is the arm's
// difference; and the curve does not leap but where it says so.
func TestRightingHoldsTogether(t *testing.T) {
	body := craft(t, 3000)
	weight := body.Mass * hydro.Gravity
	for _, axis := range []hydro.Axis{hydro.HeelAxis, hydro.PitchAxis} {
		c := righting(t, body, hydro.RightingOptions{Axis: axis, Step: degree})
		if c.Cuts > 4*len(c.Points) {
			t.Errorf("%s: %d cuts for %d points", axis, c.Cuts, len(c.Points))
		}
		for i, p := range c.Points {
			if p.Residual > 1e-9 {
				t.Errorf("%s %.2f deg: residual %g", axis, deg(p.Angle), p.Residual)
			}
			for _, d := range []float64{-0.3, 0.3} {
				if atEdge(c, i) {
					break // the way down begins beside it
				}
				up := hydro.UpVector(p.Free+d*degree, p.Angle)
				if axis == hydro.PitchAxis {
					s, k := math.Sincos(p.Angle)
					fs, fk := math.Sincos(p.Free + d*degree)
					up = r3.Vec{X: fk * s, Y: fs, Z: fk * k}
				}
				near, err := body.Level(up)
				if err != nil {
					t.Fatal(err)
				}
				if near.Energy < p.Energy-1e-12 {
					t.Errorf("%s %.2f deg, free %.3f deg: energy falls by %g J within %g deg", axis, deg(p.Angle), deg(p.Free), p.Energy-near.Energy, d)
				}
			}
			if i == 0 {
				continue
			}
			q := c.Points[i-1]
			if p.Angle == q.Angle {
				continue
			}
			if math.Abs(p.Free-q.Free) > 8*degree {
				t.Errorf("%s %.2f deg: the free angle leaps from %.2f to %.2f deg", axis, deg(p.Angle), deg(q.Free), deg(p.Free))
			}
			// Simpson's rule on GZ cos b over one degree: edges that go
			// under leave a rest, and where a branch ends the arm has the
			// end of a parabola on its side.
			mid, err := c.At((p.Angle + q.Angle) / 2)
			if err != nil {
				t.Fatal(err)
			}
			lever := func(p hydro.RightingPoint) float64 { return p.GZ * math.Cos(p.Free) }
			want := weight * (p.Angle - q.Angle) * (lever(p) + 4*lever(mid) + lever(q)) / 6
			if math.Abs(p.Work-q.Work-want) > 3e-5 && !nearJump(c, p.Angle) {
				t.Errorf("%s %.2f deg: work grows by %.7f J, its integral by %.7f", axis, deg(p.Angle), p.Work-q.Work, want)
			}
		}
		for _, a := range []float64{-150.3, -60.3, -8.3, 3.3, 9.3, 44.3, 120.3} {
			p, err := c.At(a * degree)
			if err != nil {
				t.Fatal(err)
			}
			const step = 0.002
			slope := (gzAt(t, c, a+step) - gzAt(t, c, a-step)) / (2 * step * degree)
			if math.Abs(slope-p.Slope) > 2e-3*math.Max(0.1, math.Abs(slope)) {
				t.Errorf("%s %.2f deg: GZ grows by %.6f m/rad, its slope is %.6f", axis, a, slope, p.Slope)
			}
		}
		for _, j := range c.Jumps {
			if j.Lost < 0 {
				t.Errorf("%s: a jump at %.2f deg gains %g J", axis, deg(j.Angle), -j.Lost)
			}
		}
	}
}

// atEdge reports whether point i is the near side of a jump.
func atEdge(c *hydro.Righting, i int) bool {
	far := i + 1
	if c.Points[i].Angle < c.Start.Angle {
		far = i - 1
	}
	return far >= 0 && far < len(c.Points) && c.Points[far].Angle == c.Points[i].Angle
}

// nearJump reports whether the angle is within a step of a jump.
func nearJump(c *hydro.Righting, angle float64) bool {
	for _, j := range c.Jumps {
		if math.Abs(j.Angle-angle) < 1.01*degree {
			return true
		}
	}
	return false
}

// The start of the curve: a craft even from side to side has the slope cos
// trim GM there, and the exact derivative agrees with small steps of the arm.
func TestRightingStartsWithGM(t *testing.T) {
	body := craft(t, 3000)
	body.CG.Y = 0
	c := righting(t, body, hydro.RightingOptions{})
	near(t, "slope at rest", c.Start.Slope, c.GM*math.Cos(c.Start.Free), 1e-9)
	near(t, "GM", c.GM, c.Start.GMTransverse(), 1e-12)
	const step = 0.02
	near(t, "difference at rest", (gzAt(t, c, step)-gzAt(t, c, -step))/(2*step*degree), c.Start.Slope, 1e-5)

	body.CG.Y = 0.02
	c = righting(t, body, hydro.RightingOptions{})
	start := deg(c.Start.Angle)
	near(t, "difference at rest off center", (gzAt(t, c, start+step)-gzAt(t, c, start-step))/(2*step*degree), c.Start.Slope, 1e-4)
	near(t, "arm at rest", c.Start.GZ, 0, 1e-10)
}
