package hydro_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/hydro"
	"millpond/mesh/shape"
)

// planar is the same twin box floats in the plane of symmetry, by clipped
// rectangles: 9 kg, CG 0.25 m over the keel. It returns the trim and the height
// of the keel's middle at which thrust along a line through p, up by the angle
// up, is balanced, with the share of its level part answered at the height
// that level gives, by bisection alone.
func planar(thrust, up float64, p r2.Vec, share float64, level func(trim, rise float64) float64) (trim, rise float64) {
	const w, beam = 9 * hydro.Gravity, 0.2
	turned := func(q r2.Vec, trim, rise float64) r2.Vec {
		s, c := math.Sincos(trim)
		return r2.Vec{X: q.X*c - q.Y*s, Y: q.X*s + q.Y*c + rise}
	}
	wet := func(trim, rise float64) (float64, r2.Vec) {
		return below(rectangle(-0.45, 0.45, 0, 0.1, trim, rise))
	}
	afloat := func(trim float64) float64 {
		need := (w - thrust*math.Sin(trim+up)) / (1000 * hydro.Gravity)
		return bisect(-1, 1, func(r float64) float64 {
			a, _ := wet(trim, r)
			return beam*a - need
		})
	}
	trim = bisect(-0.3, 0.3, func(trim float64) float64 {
		rise := afloat(trim)
		a, b := wet(trim, rise)
		g, at := turned(r2.Vec{Y: 0.25}, trim, rise), turned(p, trim, rise)
		fx, fz := thrust*math.Cos(trim+up), thrust*math.Sin(trim+up)
		return (b.X-g.X)*1000*hydro.Gravity*beam*a + (at.X-g.X)*fz - (at.Y-g.Y)*fx + (level(trim, rise)-g.Y)*share*fx
	})
	return trim, afloat(trim)
}

// Thrust on twin box floats, with drag at each kind of place and inertia for
// what drag leaves, against the solution in the plane.
func TestThrust(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	const thrust, up = 12.0, 3 * rad
	line := hydro.ThrustLine{At: r3.Vec{X: 0.3, Z: 0.42}, Along: r3.Vec{X: math.Cos(up), Z: math.Sin(up)}, Most: thrust}
	point := r3.Vec{X: -0.2, Z: 0.02}
	atPoint := func(trim, rise float64) float64 { return point.X*math.Sin(trim) + point.Z*math.Cos(trim) + rise }
	tests := []struct {
		name     string
		reaction hydro.Reaction
		drag     float64
		level    func(trim, rise float64) float64
	}{
		{"free to speed up", hydro.Reaction{}, 0, func(_, _ float64) float64 { return 0 }},
		{"drag at a height", hydro.Reaction{Answer: hydro.AtHeight, Height: -0.03}, 1, func(_, _ float64) float64 { return -0.03 }},
		{"half of it", hydro.Reaction{Answer: hydro.AtHeight, Height: -0.03}, 0.5, func(_, _ float64) float64 { return -0.03 }},
		{"drag at a point", hydro.Reaction{Answer: hydro.AtPoint, At: point}, 0.7, atPoint},
		{"tethered, whatever is said of drag", hydro.Reaction{Answer: hydro.Tethered, At: point}, 0.2, atPoint},
		{"drag at the lateral area", hydro.Reaction{}, 1, func(trim, rise float64) float64 {
			_, at := below(rectangle(-0.45, 0.45, 0, 0.1, trim, rise))
			return at.Y
		}},
	}
	for _, tt := range tests {
		share := tt.drag
		if tt.reaction.Answer == hydro.Tethered {
			share = 1
		}
		trim, rise := planar(thrust, up, r2.Vec{X: 0.3, Y: 0.42}, share, tt.level)
		p := followed(t, b, hydro.Course{Load: hydro.NewThrust(b, []hydro.ThrustLine{line}, tt.reaction, tt.drag), Most: 1})
		at := atShare(t, p, 1)
		if math.Abs(at.Trim()-trim) > 1e-9 || math.Abs(at.Height-rise) > 1e-9 || math.Abs(at.Heel()) > 1e-9 {
			t.Errorf("%s: trim %.9f deg, keel at %.9f m, heel %g; want %.9f, %.9f, 0", tt.name, deg(at.Trim()), at.Height, at.Heel(), deg(trim), rise)
		}
	}
}

// A small thrust T at the height h over the drag turns a craft by T h/(W GM),
// the volume held.
func TestSmallThrust(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	const thrust = 0.01
	load := hydro.NewThrust(b, []hydro.ThrustLine{{At: r3.Vec{Z: 0.45}, Along: r3.Vec{X: 1}, Most: thrust}}, hydro.Reaction{Answer: hydro.AtHeight, Height: -0.025}, 1)
	at := atShare(t, followed(t, b, hydro.Course{Load: load, Most: 1}), 1)
	// The keel lies 0.05 m deep, so h = 0.45 - 0.05 + 0.025; GM is 1.125 m.
	want := -thrust * 0.425 / (9 * hydro.Gravity * 1.125)
	if math.Abs(at.Trim()/want-1) > 1e-4 {
		t.Errorf("trim %.9g, want %.9g", at.Trim(), want)
	}
}

// Motor torque heels twin box floats as a pure couple does while they are
// wall-sided: m g sin a (GM + BM/2 tan² a) for the heel a, with GM 0.591667 and
// BM 0.816667 m.
func TestMotorTorque(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	const heel = 6 * rad
	tan := math.Tan(heel)
	torque := 9 * hydro.Gravity * math.Sin(heel) * (0.591666666667 + 0.816666666667/2*tan*tan)
	load := hydro.NewThrust(b, []hydro.ThrustLine{{At: r3.Vec{Z: 0.3}, Along: r3.Vec{X: 1}, Torque: torque}}, hydro.Reaction{}, 1)
	at := atShare(t, followed(t, b, hydro.Course{Load: load, Most: 1}), 1)
	if math.Abs(at.Heel()-heel) > 1e-9 {
		t.Errorf("torque of %.4f N m about ahead: heel %.8f deg, want %.8f, starboard down", torque, deg(at.Heel()), deg(heel))
	}
}

// One of two motors turns the nose away from it; with the nose up it also lifts
// its own side, by the vertical part of its thrust.
func TestDifferentialThrust(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{X: -0.05, Z: 0.25}, Density: 1000}
	starboard := hydro.ThrustLine{At: r3.Vec{Y: -0.15, Z: 0.25}, Along: r3.Vec{X: 1}, Most: 2}
	load := hydro.NewThrust(b, []hydro.ThrustLine{starboard}, hydro.Reaction{Answer: hydro.AtHeight, Height: 0.2}, 1)
	r := restOf(t, b)
	if yaw, want := load.Yaw(r.Attitude), 2*0.15*math.Cos(r.Trim()); math.Abs(yaw-want) > 1e-12 {
		t.Errorf("yaw = %.9f N m, want %.9f, nose to port", yaw, want)
	}
	at := atShare(t, followed(t, b, hydro.Course{Load: load, Most: 1}), 1)
	want := -2 * math.Sin(at.Trim()) * 0.15 / (9 * hydro.Gravity * at.GMTransverse())
	if !(want < 0) || math.Abs(at.Heel()/want-1) > 0.02 {
		t.Errorf("heel %.5f deg, want %.5f: starboard lifted", deg(at.Heel()), deg(want))
	}
}

// The derivatives of thrust are those of its wrench.
func TestThrustDerivatives(t *testing.T) {
	s := solid(t, shape.Star(5, 2))
	b := &hydro.Body{Hull: hullOf(t, s), Mass: 1.5, CG: r3.Vec{X: 0.02, Y: 0.01, Z: 0.1}, Density: 1000}
	lines := []hydro.ThrustLine{
		{At: r3.Vec{X: 0.3, Y: 0.1, Z: 0.2}, Along: r3.Unit(r3.Vec{X: 1, Y: 0.1, Z: 0.2}), Most: 5, Torque: 0.2},
		{At: r3.Vec{X: -0.3, Y: -0.1, Z: 0.2}, Along: r3.Unit(r3.Vec{X: 1, Y: -0.1}), Most: 3, Torque: -0.1},
	}
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		reaction := hydro.Reaction{
			Answer: rapid.SampledFrom([]hydro.Answer{hydro.AtLateral, hydro.AtHeight, hydro.AtPoint, hydro.Tethered}).Draw(rt, "answer"),
			Height: -0.03, At: r3.Vec{X: 0.1, Y: 0.02, Z: 0.03},
		}
		load := hydro.NewThrust(b, lines, reaction, draw("drag", 0, 1))
		up := hydro.UpVector(draw("trim", -1, 1), draw("heel", -3, 3))
		p := hydro.Pose{Attitude: hydro.Attitude{Up: up, Height: draw("height", -0.7, 0.7)}, Center: b.Hull.Center()}
		deepest := 0.0
		for i := range s.Vertices() {
			// Where the water passes a vertex the derivative bends, and along
			// an edge that lies nearly in the surface almost as sharply:
			// differences over 1e-5 are off by the square of its ratio to
			// the heights of the ends.
			h := p.HeightOf(s.Vertex(i))
			if math.Abs(h) < 2e-3 {
				rt.Skip("a vertex near the surface")
			}
			deepest = min(deepest, h)
		}
		// The center of what is wet bends over its depth in the same way.
		if deepest < 0 && deepest > -0.03 {
			rt.Skip("only a tip is wet")
		}
		p.Rise = p.HeightOf(p.Center)
		p.T1, p.T2 = p.Headings()
		got := load.Push(p)
		want := hydro.LoadFunc(func(q hydro.Pose) hydro.Wrench { return load.Push(q).Wrench }).Push(p)
		if diff := cmp.Diff(want, got, cmpopts.EquateApprox(1e-6, 1e-6)); diff != "" {
			rt.Errorf("Push at trim %g, heel %g (-by differences +exact):\n%s", deg(p.Trim()), deg(p.Heel()), diff)
		}
	})
}

// The wetted lateral area of twin boxes trimmed is twice that of one's side,
// its center that of the clipped rectangle.
func TestWettedLateralArea(t *testing.T) {
	b := &hydro.Body{Hull: twinBoxes(t), Mass: 9, CG: r3.Vec{Z: 0.25}, Density: 1000}
	load := hydro.NewThrust(b, nil, hydro.Reaction{}, 1)
	for _, c := range []struct{ trim, rise float64 }{{0, -0.03}, {0.1, -0.04}, {-0.2, -0.06}, {0.1, -0.4}} {
		area, at := below(rectangle(-0.45, 0.45, 0, 0.1, c.trim, c.rise))
		height, got := load.Drag(hydro.Attitude{Up: hydro.UpVector(c.trim, 0), Height: c.rise})
		if math.Abs(got-2*area) > 1e-12 || math.Abs(height-at.Y) > 1e-12 {
			t.Errorf("Drag at trim %g, keel at %g: area %.9f, height %.9f; want %.9f, %.9f", c.trim, c.rise, got, height, 2*area, at.Y)
		}
	}
	if height, area := load.Drag(hydro.Attitude{Up: r3.Vec{Z: 1}, Height: 1}); height != 0 || area != 0 {
		t.Errorf("Drag out of the water: %g, %g; want zeros", height, area)
	}
}
