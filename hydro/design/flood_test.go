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

// quartered returns a craft of 9 kg on two box floats of four compartments
// each, whose first quarters from the bow are called bow.
func quartered(t testing.TB) *craft.Craft {
	t.Helper()
	c := twins(t, 0.9, 0.1, 0.1, 9, 0.25)
	for i, name := range []string{"bow", "fore", "aft", "stern"} {
		front := 0.45 - 0.225*float64(i)
		k := craft.Compartment{Name: name, Permeability: 1}
		if i > 0 {
			k.Walls = append(k.Walls, craft.Bulkhead{At: r3.Vec{X: front}, Toward: r3.Vec{X: -1}})
		}
		if i < 3 {
			k.Walls = append(k.Walls, craft.Bulkhead{At: r3.Vec{X: front - 0.225}, Toward: r3.Vec{X: 1}})
		}
		if err := k.Divide(&c.Parts[0]); err != nil {
			t.Fatal(err)
		}
		c.Compartments = append(c.Compartments, k)
	}
	return c
}

func value(t testing.TB, trial *design.Trial, what string) (float64, error) {
	t.Helper()
	return find(t, trial.Craft, what).Value(trial)
}

// Twin box floats with the port bow open: heel and trim were found by an
// independent method (see TestTwinFloatsQuarterFlooded of package hydro); the
// reserve is by hand: seven quarters of 2.25 L carry 9 kg.
func TestFloodRows(t *testing.T) {
	trial, err := design.New(quartered(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		want, tol float64
	}{
		{"flooded heel of port bow", -5.274686 * deg, 1e-7},
		{"flooded heel of starboard bow", 5.274686 * deg, 1e-7},
		{"flooded trim of port bow", -4.719527 * deg, 1e-7},
		{"flooded trim of port stern", 4.719527 * deg, 1e-7},
		{"flooded reserve of port fore", 7*2.25/9 - 1, 1e-12},
		{"worst flooded reserve", 7*2.25/9 - 1, 1e-12},
		{"worst flooded trim", 4.719527 * deg, 1e-7},
		{"floodings survived", 1, 0},
		{"fresh reserve buoyancy", 1, 1e-12},
	} {
		got, err := value(t, trial, c.what)
		if err != nil || math.Abs(got-c.want) > c.tol {
			t.Errorf("%s = %.9g, %v; want %.9g", c.what, got, err, c.want)
		}
	}
	pairs, err := trial.FloodPairs()
	if err != nil || len(pairs) != 28 {
		t.Fatalf("FloodPairs gives %d, %v; want 28 pairs of 8", len(pairs), err)
	}
}

// Heavier, so that one float alone could just carry it but capsizes: what is
// lost is no number but a no.
func TestFloodLost(t *testing.T) {
	c := quartered(t)
	c.Compartments = c.Compartments[:1]
	c.Compartments[0].Walls = nil
	if err := c.Compartments[0].Divide(&c.Parts[0]); err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct {
		mass float64
		want hydro.Fate
	}{{6, hydro.Capsized}, {9.1, hydro.Sunk}} {
		c.Stated.Mass = k.mass
		trial, err := design.New(c)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := value(t, trial, "floodings survived"); got != 0 || err != nil {
			t.Errorf("%g kg: floodings survived = %g, %v; want none", k.mass, got, err)
		}
		_, err = value(t, trial, "worst flooded heel")
		var lost *design.LostError
		if !errors.As(err, &lost) || lost.Fate != k.want || lost.With != "port bow" {
			t.Errorf("%g kg: worst flooded heel gives %v, want that it %s with port bow flooded", k.mass, err, k.want)
		}
	}
}

func TestFloodWithoutCompartments(t *testing.T) {
	trial, err := design.New(twins(t, 0.9, 0.1, 0.1, 9, 0.25))
	if err != nil {
		t.Fatal(err)
	}
	for _, what := range []string{"floodings survived", "double floodings survived", "worst flooded heel"} {
		if _, err := value(t, trial, what); !errors.As(err, new(*design.NoSpaceError)) {
			t.Errorf("%s gives %v, want that there are no compartments", what, err)
		}
	}
	if _, err := value(t, trial, "auxiliary float moment"); err == nil {
		t.Error("auxiliary float moment without such floats has a value")
	}
}

// A hatch on the port deck, and by its mirror image on the starboard one: the
// flooded bow drags its own side's under first.
func TestFloodGoesOn(t *testing.T) {
	c := quartered(t)
	c.Points = []craft.Point{{Name: "hatch", At: r3.Vec{X: 0.1, Y: 0.2, Z: 0.085}, On: 0, Feeds: "fore"}}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	f, err := trial.Flood([]hydro.Flooding{{Space: 1}}) // starboard bow
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Stages) < 2 || len(f.Stages[1].Vents) != 1 {
		t.Fatalf("the flooding has %d stages, want the hatch to let in more", len(f.Stages))
	}
	if got := c.Vents()[f.Stages[1].Vents[0]].Name; got != "hatch, other side" {
		t.Errorf("with the starboard bow flooded %q goes under first, want the starboard hatch", got)
	}
	if got := trial.FloodedNames(f.Stages[1].In); got != "starboard bow and starboard fore" {
		t.Errorf("then %s are flooded", got)
	}
}

// The rules are requirements like any other, and say who asks.
func TestRules(t *testing.T) {
	c := quartered(t)
	for _, k := range []struct {
		rule string
		mass float64
		pass []bool
	}{
		{"14 CFR 23.2310", 9, []bool{true, true}},
		{" 14 cfr  23.2310", 10.1, []bool{false, true}}, // 18 L over 10.1 kg: 78 %
	} {
		r, err := design.FindRule(k.rule)
		if err != nil {
			t.Fatal(err)
		}
		c.Stated.Mass = k.mass
		trial, err := design.New(c)
		if err != nil {
			t.Fatal(err)
		}
		for i, q := range r.Requirements(c) {
			if v := q.Judge(trial); v.Pass != k.pass[i] || v.Rule != r {
				t.Errorf("%s at %g kg: %s = %g, %v, pass %v", k.rule, k.mass, q.Text(), v.Value, v.Err, v.Pass)
			}
		}
	}
	if _, err := design.FindRule("14 CFR 23.2311"); err == nil {
		t.Error("a rule that is none is found")
	}
}

// A single hull with tip floats, as by the sums of package hydro's
// TestAuxiliaryFloat: upright it has GM = -0.06 m, so that at the heel t at
// which a float of given place is awash the hull is upset by
// W sin t (0.06 - BM tan²t / 2), BM = 0.01 m. The float is a cube, of which the
// middle counts.
func TestAuxiliaryFloatMoment(t *testing.T) {
	const (
		mass, draft, kg, bm = 5.0, 0.04, 0.09, 0.01
		heel, out           = 6 * deg, 0.55
		edge                = 0.044
	)
	beam := math.Sqrt(12 * draft * bm)
	hull := craft.Part{Name: "hull", Solid: solid(t, shape.BoxBetween(
		r3.Vec{X: -mass / (1000 * beam * draft) / 2, Y: -beam / 2}, r3.Vec{X: mass / (1000 * beam * draft) / 2, Y: beam / 2, Z: 0.2})), Drawn: mesh.Identity()}
	sin, cos := math.Sincos(heel)
	z := (draft*cos+(out-edge/2)*sin)/cos - edge
	tip := craft.Part{Name: "tip", Solid: solid(t, shape.BoxBetween(r3.Vec{X: -edge / 2, Y: -edge / 2}, r3.Vec{X: edge / 2, Y: edge / 2, Z: edge})),
		Drawn: mesh.Identity(), Role: craft.Buoyant, Mirrored: true, Auxiliary: true, Fit: craft.Fit{At: r3.Vec{Y: out, Z: z}}}
	tip.Base = tip.Fit
	c := &craft.Craft{Name: "gull", Parts: []craft.Part{hull, tip}, Stated: &craft.Mass{Mass: mass, At: r3.Vec{Z: kg}}, Water: craft.Water{Density: 1000}}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	tan := sin / cos
	upset := mass * sin * (0.06 - bm*tan*tan/2)
	arm := (out-bm*tan)*cos + (z+edge/2-draft/2-bm*tan*tan/2)*sin
	want := 1000 * edge * edge * edge * arm / upset
	if got, err := value(t, trial, "auxiliary float moment"); err != nil || math.Abs(got-want) > 1e-6*want {
		t.Errorf("auxiliary float moment = %.9g, %v; want %.9g", got, err, want)
	}
}

// Pairs of very many compartments are refused before any is flooded.
func TestTooManyPairs(t *testing.T) {
	c := quartered(t)
	for range 6 {
		c.Compartments = append(c.Compartments, c.Compartments[:4]...)
	}
	trial, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	var many *design.TooManySpacesError
	if _, err := value(t, trial, "double floodings survived"); !errors.As(err, &many) || many.Spaces != 56 {
		t.Errorf("double floodings of 56 compartments give %v", err)
	}
}
