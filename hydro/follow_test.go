package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/shape"
)

const rad = math.Pi / 180

// restOf returns how a body rests.
func restOf(t testing.TB, b *hydro.Body) *hydro.Rest {
	t.Helper()
	r, err := b.Rest()
	if err != nil {
		t.Fatal(err)
	}
	return &r
}

func followed(t testing.TB, b *hydro.Body, c hydro.Course) *hydro.Path {
	t.Helper()
	p, err := restOf(t, b).Follow(c)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func atShare(t testing.TB, p *hydro.Path, share float64) hydro.Point {
	t.Helper()
	at, ok := p.At(share)
	if !ok {
		t.Fatalf("At(%g): none holds; %v at %g", share, p.Stop, p.Loss().Share)
	}
	return at
}

// Twin box floats under a pure couple that puts the bow down. While they are
// wall-sided sin a (GM + BM/2 tan² a) = M/(m g) for the trim a, and drafts are
// the mean one and half the length times the slope to each side.
func TestPitchingCouple(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	p := followed(t, b, hydro.Course{Load: hydro.Couple{Pitch: -9}, Most: 1})
	bow, stern := r3.Vec{X: 0.45, Y: 0.2}, r3.Vec{X: -0.45, Y: 0.2}
	for _, c := range []struct{ share, trim, bow, stern float64 }{
		{1.0 / 3, -1.730440, 0.0635950, 0.0364050},
		{2.0 / 3, -3.456781, 0.0771825, 0.0228175},
		{1, -5.174972, 0.0907550, 0.00924498},
	} {
		at := atShare(t, p, c.share)
		// The published drafts are along the body's z, from the mean draft.
		along := func(q r3.Vec) float64 { return -at.HeightOf(q) / at.Up.Z }
		if math.Abs(deg(at.Trim())-c.trim) > 1e-6 || math.Abs(along(bow)-c.bow) > 1e-7 || math.Abs(along(stern)-c.stern) > 1e-7 {
			t.Errorf("couple of %g N m: trim %.7f deg, drafts %.8f and %.8f m; want %.6f, %.7f, %.8f",
				9*c.share, deg(at.Trim()), along(bow), along(stern), c.trim, c.bow, c.stern)
		}
		if h := deg(at.Heel()); math.Abs(h) > 1e-9 {
			t.Errorf("couple of %g N m: heel %g deg, want none", 9*c.share, h)
		}
	}
}

// The bow deck meets the water at atan(0.05/0.45), under the couple that the
// formula above gives there.
func TestPitchingCoupleAtDeck(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	p := followed(t, b, hydro.Course{Load: hydro.Couple{Pitch: -9}, Most: 2})
	deck := r3.Vec{X: 0.45, Y: 0.2, Z: 0.1}
	at, ok := p.First(false, func(p *hydro.Point) float64 { return p.HeightOf(deck) })
	if m := 9 * at.Share; !ok || math.Abs(m-11.0462) > 5e-5 || math.Abs(deg(at.Trim())+6.34019) > 5e-6 {
		t.Errorf("deck under at %.5f N m, trim %.6f deg; want 11.0462, -6.34019", m, deg(at.Trim()))
	}
}

// below clips a polygon to z < 0 and returns the area and centroid of the rest.
func below(p []r2.Vec) (area float64, at r2.Vec) {
	var q []r2.Vec
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if a.Y < 0 {
			q = append(q, a)
		}
		if (a.Y < 0) != (b.Y < 0) {
			q = append(q, r2.Add(a, r2.Scale(a.Y/(a.Y-b.Y), r2.Sub(b, a))))
		}
	}
	for i, a := range q {
		b := q[(i+1)%len(q)]
		c := r2.Cross(a, b)
		area += c / 2
		at = r2.Add(at, r2.Scale(c/6, r2.Add(a, b)))
	}
	return area, r2.Scale(1/area, at)
}

// rectangle returns a rectangle in the x, z plane turned nose up about the
// origin and raised.
func rectangle(x0, x1, z0, z1, trim, rise float64) []r2.Vec {
	s, c := math.Sincos(trim)
	var p []r2.Vec
	for _, q := range []r2.Vec{{X: x0, Y: z0}, {X: x1, Y: z0}, {X: x1, Y: z1}, {X: x0, Y: z1}} {
		p = append(p, r2.Vec{X: q.X*c - q.Y*s, Y: q.X*s + q.Y*c + rise})
	}
	return p
}

// bisect returns where f falls through zero between a and b.
func bisect(a, b float64, f func(float64) float64) float64 {
	for range 200 {
		if m := (a + b) / 2; f(m) > 0 {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

// maximum returns the largest value of f between a and b, f having one hump.
func maximum(a, b float64, f func(float64) float64) (x, y float64) {
	for range 200 {
		c, d := a+(b-a)/3, b-(b-a)/3
		if f(c) < f(d) {
			a = c
		} else {
			b = d
		}
	}
	return (a + b) / 2, f((a + b) / 2)
}

// Past the deck's going under, the greatest couple that the same floats bear is
// the top of W GZ over trim, here from clipped rectangles.
func TestCoupleFold(t *testing.T) {
	const w = 9 * hydro.Gravity
	righting := func(down float64) float64 { // bow down by so much
		wet := func(rise float64) (float64, r2.Vec) {
			return below(rectangle(-0.45, 0.45, 0, 0.1, -down, rise))
		}
		rise := bisect(-1, 1, func(r float64) float64 {
			a, _ := wet(r)
			return 0.2*a - 0.009
		})
		_, at := wet(rise)
		s, c := math.Sincos(-down)
		return w * (at.X - (0*c - 0.25*s))
	}
	trim, most := maximum(0, 60*rad, righting)
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	p := followed(t, b, hydro.Course{Load: hydro.Couple{Pitch: -9}, Most: 10})
	at := p.Loss()
	if p.Stop != hydro.NoseUnder || math.Abs(9*at.Share/most-1) > 1e-9 || math.Abs(at.Trim()+trim) > 1e-4 {
		t.Errorf("lost at %.9f N m, trim %.5f deg: %v; want %.9f, %.5f, %v", 9*at.Share, deg(at.Trim()), p.Stop, most, -deg(trim), hydro.NoseUnder)
	}
	if _, ok := p.At(at.Share * 1.0001); ok {
		t.Error("At beyond the loss holds")
	}
	// It goes over its bow. Upside down, where ahead is the other way and
	// the couple with it, it bears the same and a thousandth more again.
	l := p.Land()
	if down := math.Atan2(-l.Up.X, l.Up.Z); !l.Found || down < 90*rad || math.Abs(-righting(down)/most/(1+1e-3)-1) > 1e-6 {
		t.Errorf("Land: %v, bow %.4f deg over, where the floats bear %.6f N m; want %.6f", l.Found, deg(down), -righting(down), most*(1+1e-3))
	}
	if l.Released == nil || math.Abs(l.Released.Up.Z+1) > 1e-9 {
		t.Errorf("Land: released it rests at %+v, want upside down", l.Released)
	}
}

// barrel returns a round log along x of radius 1 m with its CG below its axis,
// half under. Its GZ is e sin(heel) all around.
func barrel(t testing.TB, e float64) *hydro.Body { return drum(t, 7200, e) }

// drum is a barrel of so many facets around.
func drum(t testing.TB, facets int, e float64) *hydro.Body {
	t.Helper()
	var ring []r2.Vec
	for i := range facets {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(facets))
		ring = append(ring, r2.Vec{X: c, Y: s})
	}
	h := hullOf(t, solid(t, shape.Extruded(ring, 10)))
	return &hydro.Body{Hull: h, Mass: 500 * h.Volume(), CG: r3.Vec{Z: -e}, Density: 1000}
}

// A body with the righting moment of a pendulum under a steady couple M: it
// leans to asin(M/We); the greatest couple is We at 90 deg. Put on at once, M
// throws it to where M x = We (1 - cos x), and over it when the areas meet no
// more: M = We sin x with x sin x = 1 - cos x, x = 133.56 deg, M = 0.72461 We.
func TestSuddenCouple(t *testing.T) {
	const e = 0.2
	b := barrel(t, e)
	full := b.Mass * hydro.Gravity * e
	p := followed(t, b, hydro.Course{
		Load: hydro.Couple{Roll: full}, Most: 3, Past: true,
		Enough: func(p *hydro.Point) bool { return p.Sudden() > p.Share },
	})
	if at := p.Loss(); p.Stop != hydro.RollsOver || math.Abs(at.Share-1) > 1e-4 || math.Abs(deg(at.Heel())-90) > 0.1 {
		t.Errorf("lost at %.6f of We, heel %.4f deg: %v; want 1, 90, %v", at.Share, deg(at.Heel()), p.Stop, hydro.RollsOver)
	}
	for _, share := range []float64{0.1, 0.5, 0.9} {
		if at := atShare(t, p, share); math.Abs(math.Sin(at.Heel())-share) > 1e-4 {
			t.Errorf("at %g We: heel %.4f deg, want %.4f", share, deg(at.Heel()), deg(math.Asin(share)))
		}
	}
	for _, share := range []float64{0.1, 0.3, 0.6, 0.7} {
		want := bisect(0, 2.33, func(x float64) float64 { return share*x - (1 - math.Cos(x)) })
		at, ok := p.First(true, func(p *hydro.Point) float64 { return share - p.Sudden() })
		if !ok || math.Abs(at.Heel()-want) > 2e-3 {
			t.Errorf("sudden %g We: thrown to %.4f deg, want %.4f", share, deg(at.Heel()), deg(want))
		}
	}
	x := bisect(1, 3, func(x float64) float64 { return x*math.Sin(x) - (1 - math.Cos(x)) })
	at, ok := p.First(true, func(p *hydro.Point) float64 { return p.Share - p.Sudden() + 1e-9 })
	if !ok || math.Abs(at.Share-math.Sin(x)) > 1e-3 || math.Abs(deg(at.Heel()-x)) > 0.2 {
		t.Errorf("thrown over by %.5f We at %.3f deg; want %.5f, %.3f", at.Share, deg(at.Heel()), math.Sin(x), deg(x))
	}
}

// Round the keel of a body alike on both sides a force fixed in it makes no
// moment; but leaning with the body it pushes sideways, and the water answers
// at the surface. A box pressed down so sinks until its roll stiffness is used
// up, with no fold: at
//
//	(W+T) KM - W KG - T d = 0, KM = d/2 + b²/(12 d), d = (W+T)/(rho g l b)
func TestRollsOverWithoutFold(t *testing.T) {
	const l, w, h, kg = 1.0, 0.4, 0.5, 0.14
	hull := hullOf(t, solid(t, shape.Box(l, w, h)))
	b := &hydro.Body{Hull: hull, Mass: 40, CG: r3.Vec{Z: kg}, Density: 1000}
	weight := b.Mass * hydro.Gravity
	stiff := func(thrust float64) float64 {
		d := (weight + thrust) / (1000 * hydro.Gravity * l * w)
		return (weight+thrust)*(d/2+w*w/(12*d)) - weight*kg - thrust*d
	}
	want := bisect(0, 1000, stiff)
	down := hydro.NewThrust(b, []hydro.ThrustLine{{At: r3.Vec{Z: 0.4}, Along: r3.Vec{Z: -1}, Most: 1000}}, hydro.Reaction{Answer: hydro.AtHeight}, 1)
	p := followed(t, b, hydro.Course{Load: down, Most: 1.2})
	at := p.Loss()
	if p.Stop != hydro.RollsOver || math.Abs(1000*at.Share/want-1) > 1e-7 || math.Abs(at.Heel()) > 1e-5 {
		t.Errorf("lost at %.7f N, heel %g: %v; want %.7f, 0, %v", 1000*at.Share, deg(at.Heel()), p.Stop, want, hydro.RollsOver)
	}
	if stiff(want*1.5) > 0 {
		t.Fatal("the stiffness does not stay negative: no good example")
	}
}

func TestFollowRefuses(t *testing.T) {
	// A homogeneous log lies at any heel.
	b := barrel(t, 0)
	if _, err := restOf(t, b).Follow(hydro.Course{Load: hydro.Couple{Roll: 1}, Most: 1}); err == nil {
		t.Error("Follow of a neutral log: no error")
	}
	b = barrel(t, 0.2)
	if _, err := restOf(t, b).Follow(hydro.Course{Load: hydro.Couple{Roll: 1}}); err == nil {
		t.Error("Follow to no load: no error")
	}
}
