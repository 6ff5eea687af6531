package main

import (
	"math"
	"strings"
	"testing"
)

// The keys of `right --json` that scripts may count on, and the curve's ends.
func TestRightJSON(t *testing.T) {
	o, status := runJSON(t, "right", demo("craft.toml"))
	if status != exitAnswered {
		t.Errorf("exit status %d", status)
	}
	for _, key := range strings.Fields("curve gm_transverse_m gz_max_m gz_max_heel_deg vanishing_heel_deg points jumps sides warnings") {
		if _, ok := o[key]; !ok {
			t.Errorf("right --json has no %q", key)
		}
	}
	curve := o["curve"].([]any)
	for _, key := range strings.Fields("heel_deg gz_m trim_deg draft_m righting_moment_nm work_j") {
		if _, ok := curve[0].(map[string]any)[key]; !ok {
			t.Errorf("a point of the curve has no %q", key)
		}
	}
	number := func(i int, key string) float64 { return curve[i].(map[string]any)[key].(float64) }
	if a, b := number(0, "heel_deg"), number(len(curve)-1, "heel_deg"); math.Abs(a+180) > 1e-9 || math.Abs(b-180) > 1e-9 {
		t.Errorf("the curve runs from %g to %g deg", a, b)
	}
	// The demo is even from side to side: so is its curve.
	for i := range curve {
		k := len(curve) - 1 - i
		if a, b := number(i, "gz_m"), number(k, "gz_m"); math.Abs(a+b) > 1e-6 {
			t.Errorf("GZ at %g deg is %g m, at %g deg %g", number(i, "heel_deg"), a, number(k, "heel_deg"), b)
		}
	}
	o, _ = runJSON(t, "right", demo("craft.toml"), "--axis", "pitch", "--step", "10deg")
	for _, key := range strings.Fields("curve gm_longitudinal_m gz_max_m gz_max_pitch_deg vanishing_pitch_deg") {
		if _, ok := o[key]; !ok {
			t.Errorf("right --axis pitch --json has no %q", key)
		}
	}
}

// The keys of `attitudes --json` that scripts may count on.
func TestAttitudesJSON(t *testing.T) {
	o, status := runJSON(t, "attitudes", demo("craft.toml"))
	if status != exitAnswered {
		t.Errorf("exit status %d", status)
	}
	list := o["attitudes"].([]any)
	if len(list) < 2 {
		t.Fatalf("%d attitudes", len(list))
	}
	for _, key := range strings.Fields("trim_deg heel_deg up draft_m gm_least_m neutral under_water energy_from_upright_j rise_to_upright_m") {
		if _, ok := list[0].(map[string]any)[key]; !ok {
			t.Errorf("an attitude has no %q", key)
		}
	}
	for i := range list {
		if gm := list[i].(map[string]any)["gm_least_m"].(float64); gm <= 0 {
			t.Errorf("attitude %d has a least GM of %g m", i, gm)
		}
	}
}

// Text and JSON of the new verbs exit alike on a no.
func TestRightExitsAlike(t *testing.T) {
	args := []string{demo("float.stl"), "--unit", "mm", "--mass", "1.5kg", "--cg", "20mm,0mm,90mm"}
	for _, verb := range []string{"attitudes", "right"} {
		o, status := runJSON(t, append([]string{verb}, args...)...)
		if status != exitNo || o["upright"] != false {
			t.Errorf("%s --json of a top-heavy float exits with %d, upright %v; want %d, false", verb, status, o["upright"], exitNo)
		}
	}
}
