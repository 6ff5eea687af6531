package main

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"
)

// hasKeys fails the test for each key that an object lacks.
func hasKeys(t *testing.T, what string, o map[string]any, keys string) {
	t.Helper()
	for _, key := range strings.Fields(keys) {
		if _, ok := o[key]; !ok {
			t.Errorf("%s has no %q", what, key)
		}
	}
}

func TestThrottleJSON(t *testing.T) {
	o, status := runJSON(t, "throttle", demo("craft.toml"))
	if status != exitAnswered {
		t.Errorf("exit status %d", status)
	}
	hasKeys(t, "throttle --json", o, `name mass_kg most_n holds limit_n limit_cause landing goes_under
		yaw_moment_nm reaction curve free_curve assumptions left_out warnings`)
	curve := o["curve"].([]any)
	first, last := curve[0].(map[string]any), curve[len(curve)-1].(map[string]any)
	hasKeys(t, "a point of the curve", first, "thrust_n throttle_percent trim_deg heel_deg draft_m stations points drag_height_m")
	hasKeys(t, "a watched place", first["points"].([]any)[0].(map[string]any), "name clearance_m position_m")
	if limit := o["limit_n"].(float64); math.Abs(last["thrust_n"].(float64)-limit) > 1e-9*limit || first["thrust_n"] != 0.0 {
		t.Errorf("curve from %v to %v N, want 0 to the limit, %v", first["thrust_n"], last["thrust_n"], limit)
	}
	// The curve begins where the craft rests.
	rest, _ := runJSON(t, "rest", demo("craft.toml"))
	for _, key := range []string{"trim_deg", "draft_m", "origin_height_m"} {
		if d := first[key].(float64) - rest[key].(float64); math.Abs(d) > 1e-9 {
			t.Errorf("%s at no thrust differs from rest by %g", key, d)
		}
	}
}

func TestWindJSON(t *testing.T) {
	o, status := runJSON(t, "wind", demo("craft.toml"), "--from", "90deg")
	if status != exitAnswered {
		t.Errorf("exit status %d", status)
	}
	hasKeys(t, "wind --json", o, `name mass_kg speed_m_s speed_at_10_m_m_s wind_height_m roughness_m
		drag_coefficient ignores_wing stands directions curve_from_deg curve air_density_kg_m3 water_answers_at_m wing_lift_slope_per_rad
		wing_most_lift assumptions left_out warnings`)
	from := o["directions"].([]any)[0].(map[string]any)
	hasKeys(t, "a direction", from, `from_deg steady gust drag_n exposed_area_m2 exposed_height_m wing_lift_n
		wing_roll_nm over_m_s over_cause gust_over_m_s goes_under`)
	curve := o["curve"].([]any)
	last := curve[len(curve)-1].(map[string]any)
	if over := from["over_m_s"].(float64); math.Abs(last["speed_m_s"].(float64)-over) > 1e-9 {
		t.Errorf("curve ends at %v m/s, want where it goes over, %v", last["speed_m_s"], over)
	}
}

// The wind as a report in text and in JSON, and throttle, exit alike.
func TestLoadsExitAlike(t *testing.T) {
	for _, args := range [][]string{
		{"throttle", demo("craft.toml")}, {"throttle", demo("heavy.toml")},
		{"wind", demo("craft.toml"), "--from", "90deg"}, {"wind", demo("craft.toml"), "--from", "90deg", "--speed", "12m/s"},
	} {
		_, withJSON := runJSON(t, args...)
		var out, errs bytes.Buffer
		if text := run(context.Background(), args, strings.NewReader(""), &out, &errs); text != withJSON {
			t.Errorf("%s exits with %d in text and %d in JSON", strings.Join(args, " "), text, withJSON)
		}
	}
}

// From ahead the demo's curve runs without a leap to where it goes over, and
// nothing goes under in a faster wind than that.
func TestWindJSONFromAhead(t *testing.T) {
	o, _ := runJSON(t, "wind", demo("craft.toml"), "--from", "0deg")
	from := o["directions"].([]any)[0].(map[string]any)
	over := from["over_m_s"].(float64)
	if math.Abs(over-9.92) > 0.01 {
		t.Errorf("goes over at %g m/s, want 9.92", over)
	}
	for _, w := range from["goes_under"].([]any) {
		if at, ok := w.(map[string]any)["speed_m_s"].(float64); ok && at > over {
			t.Errorf("%v goes under at %g m/s, the craft over at %g", w.(map[string]any)["name"], at, over)
		}
	}
	last := math.NaN()
	for _, p := range o["curve"].([]any) {
		trim := p.(map[string]any)["trim_deg"].(float64)
		if trim < last || trim > last+0.5 {
			t.Errorf("trim leaps from %g to %g deg", last, trim)
		}
		last = trim
	}
}
