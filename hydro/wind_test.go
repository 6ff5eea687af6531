package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A box 65 x 12 x 8 m of 3198 t, draft 4, KG 4 m in salt water (Derrett &
// Barrass, Ship Stability for Masters and Mates, p. 130 ex. 2: GM 1 m, BM 3 m)
// under the steady wind of the severe wind and rolling criterion (IMO
// resolution A.749(18), 3.2: 504 Pa, the lever taken as the same at all heels)
// on 200 m² with its center 5 m over half the draft. The heel solves
// sin a (GM + BM/2 tan² a) = P A Z/W, with W = 3198 t times 9.81 in the lever.
func TestWeatherCriterionHeel(t *testing.T) {
	h := hullOf(t, solid(t, shape.Box(65, 12, 8)))
	b := &hydro.Body{Hull: h, Mass: 3198e3, CG: r3.Vec{Z: 4}, Density: 1025}
	lever := 504.0 * 200 * 5 / (1000 * 9.81 * 3198)
	if math.Abs(lever-0.0160651) > 1e-7 {
		t.Fatalf("lever %.8f m, want 0.0160651", lever)
	}
	p := followed(t, b, hydro.Course{Load: hydro.Couple{Roll: lever * b.Mass * hydro.Gravity}, Most: 1})
	if heel := deg(atShare(t, p, 1).Heel()); math.Abs(heel-0.920145) > 1e-6 {
		t.Errorf("heel %.7f deg, want 0.920145", heel)
	}
	// The same wind as a load: the center of the area comes down with the
	// heel, by a part in 10,000.
	w := hydro.NewWind(restOf(t, b), hydro.Areas{Side: 200, SideAt: r3.Vec{Z: 7}}, math.Sqrt(504*2/1.225), -math.Pi/2)
	w.Coefficient = 9.80665 / 9.81
	p = followed(t, b, hydro.Course{Load: w, Most: 1})
	if heel := deg(atShare(t, p, 1).Heel()); math.Abs(heel-0.920145) > 3e-4 {
		t.Errorf("wind from port: heel %.7f deg, want 0.920145 to 3e-4", heel)
	}
}

// rolled is one box, l long, w by h across, keel at z = 0, in the plane across
// it: its heel to starboard under a level force on the part above water, at the
// height over the water that lever gives for the answer.
func rolled(l, w, h, mass, kg float64, force func(top float64) float64, answer func(g float64) float64) float64 {
	section := func(heel, rise float64) []r2.Vec {
		// Starboard is to the left here, so that it goes down as the
		// bow does in rectangle.
		return rectangle(-w/2, w/2, 0, h, heel, rise)
	}
	return bisect(0, 0.9, func(heel float64) float64 {
		rise := bisect(-2, 2, func(r float64) float64 {
			a, _ := below(section(heel, r))
			return a*l - mass/1000
		})
		p := section(heel, rise)
		_, b := below(p)
		s, c := math.Sincos(heel)
		g := r2.Vec{X: -kg * s, Y: kg*c + rise}
		top := math.Inf(-1)
		for _, q := range p {
			top = max(top, q.Y)
		}
		return force(top)*(top/2-answer(g.Y)) + mass*hydro.Gravity*(b.X-g.X)
	})
}

// The wind on a box from abeam: its outline is as long as the box and as high
// as its highest corner is over the water. Outlines are taken every degree, so
// the heel is good to some parts in 100,000.
func TestWindOnBox(t *testing.T) {
	const l, w, h, mass, kg, speed = 2, 0.5, 0.6, 120, 0.15, 15
	s := solid(t, shape.Box(l, w, h))
	b := &hydro.Body{Hull: hullOf(t, s), Mass: mass, CG: r3.Vec{Z: kg}, Density: 1000}
	press := func(top float64) float64 { return 1.225 / 2 * speed * speed * 1.1 * l * top }
	for _, tt := range []struct {
		name   string
		answer hydro.WindAnswer
		height func(g float64) float64
	}{
		{"drifting", hydro.Drifting, func(float64) float64 { return -0.06 }},
		{"onset", hydro.Onset, func(g float64) float64 { return g }},
	} {
		want := rolled(l, w, h, mass, kg, press, tt.height)
		for _, side := range []float64{-1, 1} {
			load := hydro.NewWind(restOf(t, b), hydro.NewOutlines([]mesh.Placed{{Solid: s, Place: mesh.Identity()}}, b.Hull.Center()), speed, side*math.Pi/2)
			load.Answer = tt.answer
			at := atShare(t, followed(t, b, hydro.Course{Load: load, Most: 1}), 1)
			if math.Abs(-side*at.Heel()/want-1) > 1e-4 || math.Abs(at.Trim()) > 1e-9 {
				t.Errorf("%s, from %g deg: heel %.5f deg, trim %g; want %.5f, 0", tt.name, side*90, deg(at.Heel()), at.Trim(), -side*deg(want))
			}
		}
	}
}

// Wind from ahead lifts a wing without dihedral or zero-lift angle by
// q S 2π/(1+2/A) sin i at its incidence i, at the quarter chord.
func TestWingLift(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	const i, speed = 4 * rad, 10.0
	wing := hydro.Wing{Area: 0.4, Span: 1.6, At: r3.Vec{Z: 0.4}, Chord: r3.Vec{X: math.Cos(i), Z: math.Sin(i)}}
	w := hydro.NewWind(restOf(t, b), hydro.Areas{}, speed, 0)
	w.Wing = &wing
	level := hydro.Attitude{Up: r3.Vec{Z: 1}, Height: -0.05}
	lift, roll := w.Lift(level)
	want := 1.225 / 2 * speed * speed * 0.4 * 2 * math.Pi / (1 + 2/6.4) * i
	if math.Abs(lift/want-1) > 1e-9 || math.Abs(roll) > 1e-12 {
		t.Errorf("Lift from ahead = %.6f N, %.3g N m; want %.6f, 0", lift, roll, want)
	}
	// It floats higher by what the wing carries: 0.18 m² of waterplane.
	wing.Chord = r3.Vec{X: 1}
	wing.ZeroLift = -i
	at := atShare(t, followed(t, b, hydro.Course{Load: w, Most: 1}), 1)
	carried, _ := w.Lift(at.Attitude)
	if rise := at.HeightOf(r3.Vec{}) / at.Up.Z; math.Abs(rise-(-0.05+carried/(1000*hydro.Gravity*0.18))) > 1e-6 {
		t.Errorf("keel at %.7f m, want %.7f with %.3f N carried", rise, -0.05+carried/(1000*hydro.Gravity*0.18), carried)
	}
}

// Half from ahead and half from starboard, dihedral d turns the windward half
// up: by strip theory the halves differ in attack by 2 d tan(45 deg), so that
// with b/4 for the arm the roll is q S b a d sin cos / 4, starboard up.
func TestWingRoll(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.4}, Density: 1000}
	const d, speed = 0.5 * rad, 5.0
	w := hydro.NewWind(restOf(t, b), hydro.Areas{}, speed, 45*rad)
	w.Wing = &hydro.Wing{Area: 0.4, Span: 1.6, At: r3.Vec{Z: 0.4}, Chord: r3.Vec{X: 1}, Dihedral: d}
	_, roll := w.Lift(hydro.Attitude{Up: r3.Vec{Z: 1}})
	a := 2 * math.Pi / (1 + 2/6.4)
	want := -1.225 / 2 * speed * speed * 0.4 * 1.6 * a * d * 0.5 / 4
	if math.Abs(roll/want-1) > 2e-3 {
		t.Errorf("roll = %.6f N m, want %.6f", roll, want)
	}
}

func TestWindAt(t *testing.T) {
	// ln(0.3/0.0002)/ln(10/0.0002) = 7.3132/10.8198.
	if got := hydro.WindAt(0.3, 10, 10, 0.0002); math.Abs(got-6.75910) > 1e-4 {
		t.Errorf("WindAt(0.3 m) of 10 m/s at 10 m = %.5f, want 6.7591", got)
	}
	if got := hydro.WindAt(10, 4, 10, 0.0002); got != 4 {
		t.Errorf("WindAt(10 m) of 4 m/s at 10 m = %g, want 4", got)
	}
	if got := hydro.WindAt(0.0001, 4, 10, 0.0002); got != 0 {
		t.Errorf("WindAt under the roughness = %g, want 0", got)
	}
}
