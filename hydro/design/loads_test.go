package design_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A raft of 0.9 x 0.3 x 0.1 m, keel at z = 0, half under, with its CG at 60 mm.
const (
	raftLength, raftBeam, raftDepth = 0.9, 0.3, 0.1
	raftMass, raftDraft, raftCG     = 13.5, 0.05, 0.06
	raftWeight                      = raftMass * hydro.Gravity
)

func raft(t testing.TB, change func(*craft.Craft)) *design.Trial {
	t.Helper()
	m := shape.Box(raftLength, raftBeam, raftDepth)
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	c := &craft.Craft{
		Name:   "raft",
		Parts:  []craft.Part{{Name: "hull", Solid: s, Drawn: mesh.Identity()}},
		Points: []craft.Point{{Name: "deck", At: r3.Vec{Y: raftBeam / 2, Z: raftDepth}, KeepDry: true, On: -1}},
		Stated: &craft.Mass{Mass: raftMass, At: r3.Vec{Z: raftCG}},
		Water:  craft.Water{Name: "fresh water", Density: 1000},
	}
	change(c)
	out, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func rowValue(t testing.TB, trial *design.Trial, text string) float64 {
	t.Helper()
	a, err := design.Find(trial.Craft, text)
	if err != nil {
		t.Fatal(err)
	}
	v, err := a.Value(trial)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return v
}

// moment is what is out of balance on the raft at a trim, nose up, while it is
// wall-sided, under a thrust along its own x axis at the height at over the
// keel, with all of its level part answered at the height level over the
// water. Moments are about the keel's middle, nose up positive.
func moment(trim, thrust, at, level float64) float64 {
	sin, cos := math.Sincos(trim)
	tan := sin / cos
	buoyancy := raftWeight - thrust*sin
	d := buoyancy / (1000 * hydro.Gravity * raftLength * raftBeam)
	xb, zb := -raftLength*raftLength/12*tan/d, d/2+raftLength*raftLength/24*tan*tan/d
	return raftWeight*raftCG*sin + buoyancy*(xb*cos-zb*sin) - thrust*at + (level+d*cos)*thrust*cos
}

func TestThrottleRows(t *testing.T) {
	const thrust, at, level = 20, 0.5, -0.02
	trial := raft(t, func(c *craft.Craft) {
		c.Thrusts = []craft.Thrust{{Name: "motor", At: r3.Vec{Z: at}, Most: thrust, On: -1}}
		c.Reaction = hydro.Reaction{Answer: hydro.AtHeight, Height: level}
		// It lets water in, so it is to keep dry without being told so.
		c.Points = append(c.Points, craft.Point{Name: "bow", At: r3.Vec{X: raftLength / 2, Z: raftDepth}, Feeds: "hold", On: -1})
	})
	trim := rowValue(t, trial, "trim at full throttle")
	if off := moment(trim, thrust, at, level); math.Abs(off) > 1e-9*raftWeight || !(trim < -0.01) {
		t.Errorf("trim at full throttle %.6f rad leaves %g N m", trim, off)
	}
	if heel := rowValue(t, trial, "heel at full throttle"); math.Abs(heel) > 1e-9 {
		t.Errorf("heel at full throttle %g", heel)
	}
	// The bow's deck lies level with the water when the trim is that of the
	// line from the bow's deck to the water amidships.
	wet := rowValue(t, trial, "throttle to first wet")
	slope := func(thrust float64) float64 {
		lo, hi := -0.3, 0.0 // the moment falls with the trim
		for range 100 {
			if mid := (lo + hi) / 2; moment(mid, thrust, at, level) > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	over := func(thrust float64) float64 { // height of the bow's deck, per cosine of the trim
		a := slope(thrust)
		d := (raftWeight - thrust*math.Sin(a)) / (1000 * hydro.Gravity * raftLength * raftBeam)
		return raftDepth - d + raftLength/2*math.Tan(a)
	}
	if h := over(wet); math.Abs(h) > 1e-9 || !(wet > thrust) {
		t.Errorf("throttle to first wet %.6f N, where the bow's deck is %g m over water", wet, h)
	}
	clearance := rowValue(t, trial, "clearance at full throttle of bow")
	if want := over(thrust) * math.Cos(trim); math.Abs(clearance-want) > 1e-9 {
		t.Errorf("clearance at full throttle of bow %.9f m, want %.9f", clearance, want)
	}
	if limit := rowValue(t, trial, "throttle limit"); limit < wet {
		t.Errorf("throttle limit %.4f N is less than that of the deck, %.4f, up to which it is wall-sided", limit, wet)
	}
}

// With side area alone a wind from abeam is the worst. The deck's edge meets
// the water at tan a = (h-d)/(b/2), where GZ = sin a (GM + BM/2 tan² a). The
// area's center is at zs over the keel, (zs-d) cos a over the water; drifting,
// the water answers at d/2 under. For a gust the energy W ((G-B).n) over the
// heel equals the work on the lever.
func TestWindRows(t *testing.T) {
	const zs, area = 0.25, 0.12
	trial := raft(t, func(c *craft.Craft) { c.Wind.Side = &craft.WindArea{Area: area, At: r3.Vec{Z: zs}} })
	const d = raftDraft
	tan := (raftDepth - d) / (raftBeam / 2)
	a := math.Atan(tan)
	sin, cos := math.Sincos(a)
	bm := raftBeam * raftBeam / 12 / d
	gz := sin * (d/2 + bm - raftCG + bm/2*tan*tan)
	press := 1.225 / 2 * 1.1 * area // drag per speed squared
	steady := math.Sqrt(raftWeight * gz / (press * ((zs-d)*cos + d/2)))
	if got := rowValue(t, trial, "wind to first wet"); math.Abs(got/steady-1) > 1e-7 {
		t.Errorf("wind to first wet %.7f m/s, want %.7f", got, steady)
	}
	depth := func(a float64) float64 { // (G-B).n
		s, c := math.Sincos(a)
		y, z := -bm*s/c, d/2+bm/2*s*s/c/c
		return raftCG*c - y*s - z*c
	}
	energy := raftWeight * (depth(a) - depth(0))
	gust := math.Sqrt(energy / (press * ((zs-d)*sin + d/2*a)))
	if got := rowValue(t, trial, "gust to first wet"); math.Abs(got/gust-1) > 2e-4 {
		t.Errorf("gust to first wet %.6f m/s, want %.6f", got, gust)
	}
	over, thrown := rowValue(t, trial, "wind limit"), rowValue(t, trial, "gust limit")
	if over < steady || thrown < gust || thrown > over {
		t.Errorf("limits %.3f and %.3f m/s, want them over %.3f and %.3f, the gust's less than the wind's", over, thrown, steady, gust)
	}
}

// What a craft file does not have is an answer, not a number.
func TestLoadRowsWithout(t *testing.T) {
	trial := raft(t, func(c *craft.Craft) { c.Points = nil })
	for _, text := range []string{"throttle limit", "throttle to first wet", "trim at full throttle"} {
		a, err := design.Find(trial.Craft, text)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := a.Value(trial); !errors.Is(err, design.ErrNoThrust) {
			t.Errorf("%s without a thrust line: %v, want ErrNoThrust", text, err)
		}
	}
}

// A thrust too strong has no attitude at full throttle, and says why.
func TestThrottleTooStrong(t *testing.T) {
	trial := raft(t, func(c *craft.Craft) {
		c.Thrusts = []craft.Thrust{{Name: "motor", At: r3.Vec{Z: 0.5}, Most: 200, On: -1}}
	})
	a, err := design.Find(trial.Craft, "trim at full throttle")
	if err != nil {
		t.Fatal(err)
	}
	if _, err = a.Value(trial); err == nil {
		t.Error("trim at full throttle of 200 N half a meter up: no error")
	}
	th, err := trial.Throttle()
	if err != nil {
		t.Fatal(err)
	}
	if limit, lost := th.Limit(); th.Holds() || !lost || limit > 200 || th.Landing == nil {
		t.Errorf("Throttle: holds %v, limit %g, %v, landing %v", th.Holds(), limit, lost, th.Landing)
	}
}

func TestBeam(t *testing.T) {
	for _, c := range []struct {
		deg  float64
		want string
	}{{0, "ahead"}, {90, "starboard"}, {225, "the port quarter"}, {360, "ahead"}, {80, "80 deg, near starboard"}} {
		if got := design.Beam(c.deg * math.Pi / 180); got != c.want {
			t.Errorf("Beam(%g deg) = %q, want %q", c.deg, got, c.want)
		}
	}
}
