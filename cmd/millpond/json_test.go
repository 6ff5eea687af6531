package main

import (
	"bytes"
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// runJSON runs the command and returns its JSON object and exit status.
func runJSON(t *testing.T, args ...string) (map[string]any, int) {
	t.Helper()
	var out, errs bytes.Buffer
	status := run(context.Background(), append(args, "--json"), strings.NewReader(""), &out, &errs)
	var o map[string]any
	if err := json.Unmarshal(out.Bytes(), &o); err != nil {
		t.Fatalf("millpond %s: %v\n%s%s", strings.Join(args, " "), err, out.String(), errs.String())
	}
	return o, status
}

func demo(name string) string { return filepath.Join("..", "..", "testdata", "demo", name) }

// The keys that scripts may count on.
func TestRestJSONKeys(t *testing.T) {
	o, status := runJSON(t, "rest", demo("craft.toml"))
	if status != exitAnswered {
		t.Errorf("exit status %d", status)
	}
	for _, key := range strings.Fields(`stable mass_kg cg_m water_density_kg_m3 trim_deg heel_deg
		angle_of_attack_deg origin_height_m draft_m displaced_volume_m3 total_volume_m3
		reserve_buoyancy_percent whole_reserve_buoyancy_percent mass_to_first_wet_kg cb_m
		waterplane_area_m2 center_of_flotation_m gm_transverse_m gm_longitudinal_m gm_least_m
		wetted_area_m2 points parts overlaps warnings`) {
		if _, ok := o[key]; !ok {
			t.Errorf("rest --json has no %q", key)
		}
	}
	points := o["points"].([]any)
	for _, key := range []string{"name", "clearance_m", "position_m"} {
		if _, ok := points[0].(map[string]any)[key]; !ok {
			t.Errorf("a point has no %q", key)
		}
	}
	parts := o["parts"].([]any)
	for _, key := range []string{"name", "displaced_volume_m3", "reserve_buoyancy_percent"} {
		if _, ok := parts[0].(map[string]any)[key]; !ok {
			t.Errorf("the float has no %q", key)
		}
	}
}

// A result's JSON key is its words and its unit's suffix, and no two results of
// the whole craft share one.
func TestResultKeys(t *testing.T) {
	seen := map[string]string{}
	for i := range design.Results {
		r := &design.Results[i]
		key := r.JSONKey()
		if !strings.HasSuffix(key, r.Kind.Suffix()) || strings.ContainsAny(key, " *") {
			t.Errorf("%q has the JSON key %q", r.Key, key)
		}
		if r.Of == design.OfCraft {
			if other, ok := seen[key]; ok {
				t.Errorf("%q and %q share the JSON key %q", other, r.Key, key)
			}
			seen[key] = r.Key
		}
		if r.Kind != unit.None && r.Kind != unit.Count && r.Kind.Suffix() == "" {
			t.Errorf("%q has a unit without a suffix", r.Key)
		}
	}
}

// Text and JSON exit alike.
func TestExitAlike(t *testing.T) {
	for _, name := range []string{"craft.toml", "heavy.toml"} {
		_, withJSON := runJSON(t, "check", demo(name))
		var out, errs bytes.Buffer
		if text := run(context.Background(), []string{"check", demo(name)}, strings.NewReader(""), &out, &errs); text != withJSON {
			t.Errorf("check %s exits with %d in text and %d in JSON", name, text, withJSON)
		}
	}
}
