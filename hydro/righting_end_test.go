package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// leaper returns a craft that heels to some 3.45 deg and then falls on its tail,
// where it has a rest of its own, without its arm ever changing sign.
func leaper(t testing.TB) hydro.Body {
	body := craft(t, 2100)
	body.Mass = 5
	return body
}

// released reports whether the body, let go in an attitude, comes to rest in
// the way it rests when let go level.
func released(t testing.TB, b *hydro.Body, from hydro.Attitude) bool {
	t.Helper()
	start, err := b.Rest()
	if err != nil {
		t.Fatal(err)
	}
	r, err := b.RestFrom(from)
	if err != nil {
		t.Fatal(err)
	}
	return len(r.Also) == 0 && r3.Norm(r3.Sub(r.Up, start.Up)) < 1e-4
}

// Stability ends where the branch does, though the arm is as large after the
// leap and of the same sign: let go there, the body does not come back.
func TestStabilityEndsAtALeap(t *testing.T) {
	body := leaper(t)
	c := righting(t, body, hydro.RightingOptions{})
	falling, rising, err := c.Sides()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []struct {
		hydro.RightingSide
		sign float64
	}{{falling, -1}, {rising, 1}} {
		end := s.Vanishing
		if s.Ends != hydro.Leaps || s.sign*deg(end) < 3 || s.sign*deg(end) > 4 {
			t.Fatalf("side %g ends at %.4f deg: %v, want a leap at some 3.45 deg", s.sign, deg(end), s.Ends)
		}
		if s.Leap.Angle != end || deg(s.Leap.To-s.Leap.From) < 60 {
			t.Errorf("side %g ends at %.5f deg with the leap %+v", s.sign, deg(end), s.Leap)
		}
		if s.sign*s.MaxAngle > s.sign*end {
			t.Errorf("the largest arm lies at %.3f deg, beyond the end at %.3f deg", deg(s.MaxAngle), deg(end))
		}
		if r, err := body.RestFrom(s.Comes); err != nil || math.Abs(deg(r.Trim()-s.Comes.Trim())) > 1e-3 || deg(r.Trim()) < 60 {
			t.Errorf("let go after the leap it comes to rest at trim %.3f deg, which is no rest: from there it goes to %.3f deg, %v", deg(s.Comes.Trim()), deg(r.Trim()), err)
		}
		for i := range c.Points {
			p := &c.Points[i]
			switch out := s.sign * (p.Angle - end); {
			case s.sign*(p.Angle-c.Start.Angle) <= 0:
			case out < 0 && !released(t, &body, p.Attitude):
				t.Errorf("let go at %.2f deg, before the end at %.2f deg, it does not come back", deg(p.Angle), deg(end))
			case out > 0 && out < 20*degree && released(t, &body, p.Attitude):
				t.Errorf("let go at %.2f deg, beyond the end at %.2f deg, it comes back", deg(p.Angle), deg(end))
			case out < 0 && s.sign*p.GZ > s.Max+1e-12:
				t.Errorf("GZ at %.2f deg is %g m, over the largest, %g", deg(p.Angle), p.GZ, s.Max)
			}
		}
	}
	// The wing is dry until then and in the water after.
	wing := hydro.Spot{X: -0.1, Z: 0.3}
	f, r, err := c.Under(wing)
	if err != nil {
		t.Fatal(err)
	}
	if f != nil || r != nil {
		t.Errorf("a place goes under at %+v and %+v, beyond the leap", f, r)
	}
}

// The end is that of the branch, from within and to a hundred-thousandth of a
// degree: just short of it the energy has a minimum over the trim there and just
// beyond it none. Looked for with Level alone.
func TestEndOfBranchIsTight(t *testing.T) {
	body := leaper(t)
	c := righting(t, body, hydro.RightingOptions{})
	_, rising, err := c.Sides()
	if err != nil {
		t.Fatal(err)
	}
	// holds reports whether the energy over the trim falls and rises again
	// near the trim at which the branch ends.
	holds := func(heel float64) bool {
		last, fell := math.Inf(1), false
		for trim := rising.Leap.From - 1*degree; trim < rising.Leap.From+1*degree; trim += 0.005 * degree {
			s, err := body.Level(hydro.UpVector(trim, heel))
			if err != nil {
				t.Fatal(err)
			}
			if fell && s.Energy > last {
				return true
			}
			fell = s.Energy < last
			last = s.Energy
		}
		return false
	}
	if !holds(rising.Vanishing - 1e-4*degree) {
		t.Errorf("at %.6f deg, just short of the end, it does not hold", deg(rising.Vanishing))
	}
	if holds(rising.Vanishing + 1e-4*degree) {
		t.Errorf("just beyond the end at %.6f deg it still holds", deg(rising.Vanishing))
	}
}

// The largest arm is found also where it lies between the last step and the end
// of the branch, where the curve turns down like a root.
func TestLargestArmShortOfTheEnd(t *testing.T) {
	for _, m := range []float64{2.5, 3.2, 4} {
		body := craft(t, 2100)
		body.Mass = m
		of := func(step float64) (s [2]hydro.RightingSide) {
			var err error
			if s[0], s[1], err = righting(t, body, hydro.RightingOptions{Step: step, From: -40 * degree, To: 40 * degree}).Sides(); err != nil {
				t.Fatal(err)
			}
			return s
		}
		coarse, fine := of(2*degree), of(0.05*degree)
		for i := range fine {
			if c, f := coarse[i], fine[i]; math.Abs(c.Max-f.Max) > 1e-9 || math.Abs(deg(c.Vanishing-f.Vanishing)) > 2e-5 || c.Ends != hydro.Leaps {
				t.Errorf("%g kg, side %d: in steps of 2 deg the largest arm is %.9f m and the end %.6f deg, in steps of 0.05 deg %.9f m and %.6f deg",
					m, i, c.Max, deg(c.Vanishing), f.Max, deg(f.Vanishing))
			}
		}
	}
}

// Two box floats with exactly one under and the other out hang on its middle,
// and turn in trim at atan(0.75): see TestRightingWithoutWaterplane. Let go
// there they come back, so stability goes on.
func TestStabilityGoesOnWhereItComesBack(t *testing.T) {
	body := hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: -0.1}, Density: 1000}
	c := righting(t, body, hydro.RightingOptions{})
	falling, rising, err := c.Sides()
	if err != nil {
		t.Fatal(err)
	}
	turn := math.Atan(0.75)
	leapt := false
	for _, j := range c.Jumps {
		leapt = leapt || j.From != j.To && math.Abs(math.Abs(j.Angle)-turn) < 1e-4*degree
	}
	if !leapt {
		t.Fatalf("no leap at %.5f deg: %+v", deg(turn), c.Jumps)
	}
	if rising.Vanishing < 120*degree || falling.Vanishing > -120*degree || rising.Ends != hydro.ArmGone {
		t.Errorf("stability ends at %.2f and %.2f deg (%v): at 36.9 deg it comes back", deg(falling.Vanishing), deg(rising.Vanishing), rising.Ends)
	}
	for _, p := range c.Points {
		if math.Abs(p.Angle) < rising.Vanishing && !released(t, &body, p.Attitude) {
			t.Errorf("let go at %.2f deg it does not come back", deg(p.Angle))
		}
	}
}

// Random bodies let go anywhere before the end come back. In body 2 the arm dips
// below zero and rises again between two of the steps.
func TestRandomBodiesComeBackBeforeTheEnd(t *testing.T) {
	ends := map[hydro.Ending]int{}
	for seed := range uint64(40) {
		s := solid(t, shape.Star(seed, 2))
		h, box := hullOf(t, s), s.Box()
		at := func(lo, hi, share float64) float64 { return lo + (hi-lo)*share }
		b := hydro.Body{Hull: h, Mass: 1000 * h.Volume() * (0.2 + 0.1*float64(seed%6)), Density: 1000, CG: r3.Vec{
			X: at(box.Min.X, box.Max.X, 0.45), Y: at(box.Min.Y, box.Max.Y, 0.5), Z: at(box.Min.Z, box.Max.Z, 0.4)}}
		r := rest(t, b)
		c, err := r.Righting(hydro.RightingOptions{Axis: hydro.Axis(seed % 2), Step: 5 * degree})
		if err != nil {
			continue // it stands on end
		}
		falling, rising, err := c.Sides()
		if err != nil {
			t.Fatal(err)
		}
		ends[falling.Ends]++
		ends[rising.Ends]++
		for _, p := range c.Points {
			if p.Angle > falling.Vanishing+1e-6 && p.Angle < rising.Vanishing-1e-6 && !released(t, &b, p.Attitude) {
				t.Errorf("body %d, %s %.2f deg of %.2f to %.2f deg: let go it does not come back", seed, c.Axis, deg(p.Angle), deg(falling.Vanishing), deg(rising.Vanishing))
			}
		}
	}
	if ends[hydro.Leaps] < 4 || ends[hydro.ArmGone] < 20 {
		t.Errorf("too few ends of a kind: %v", ends)
	}
}
