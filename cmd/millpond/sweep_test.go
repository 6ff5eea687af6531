package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Stopped half way, what is done is there, every line of it whole, in a file as
// on standard output, and the exit status is not that of an answer.
func TestSweepStopped(t *testing.T) {
	for _, toFile := range []bool{false, true} {
		path := filepath.Join(t.TempDir(), "sweep.csv")
		args := []string{"sweep", demo("craft.toml"), "--csv", "--jobs", "2",
			"--vary", "plug height of float=0mm..40mm/0.1mm", "--vary", "plug length of float=0mm..40mm/0.1mm", "--show", "draft"}
		if toFile {
			args = append(args, "-o", path)
		}
		ctx, cancel := context.WithTimeout(t.Context(), 1500*time.Millisecond)
		defer cancel()
		var out, errs bytes.Buffer
		if status := run(ctx, args, strings.NewReader(""), &out, &errs); status != exitNo {
			t.Errorf("stopped: exit status %d, want %d", status, exitNo)
		}
		text := out.Bytes()
		if toFile {
			var err error
			if text, err = os.ReadFile(path); err != nil {
				t.Fatal(err)
			}
		}
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatalf("what was written is not whole: %v", err)
		}
		said := errs.String()
		done := strconv.Itoa(len(rows) - 1)
		if want := "stopped after " + done + " of 160801 designs"; !strings.Contains(said, want) {
			t.Errorf("standard error says %q, want %q", said, want)
		}
		// The first of the grid, in its order.
		for i, r := range rows[1:] {
			height, _ := strconv.ParseFloat(r[0], 64)
			length, _ := strconv.ParseFloat(r[1], 64)
			if n := int(height*1e4+0.5)*401 + int(length*1e4+0.5); n != i {
				t.Fatalf("row %d is design %d", i, n)
			}
		}
	}
}

// Stopped before it is done, a search says so and writes nothing.
func TestSizeStopped(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deeper")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, errs bytes.Buffer
	status := run(ctx, []string{"size", demo("heavy.toml"), "--vary", "plug height of float", "--write", dir}, strings.NewReader(""), &out, &errs)
	if status != exitNo || out.Len() > 0 || !strings.Contains(errs.String(), "stopped before the search was done") {
		t.Errorf("exit status %d, %q, %q", status, out.String(), errs.String())
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the folder was made all the same")
	}
}

// The numbers of a sweep and of rest are the same, in all three formats.
func TestSweepIsRest(t *testing.T) {
	rest, _ := runJSON(t, "rest", demo("heavy.toml"))
	show := "draft,trim,angle of attack,reserve buoyancy,mass to first wet,gm least,wetted area"
	keys := strings.Fields("draft_m trim_deg angle_of_attack_deg reserve_buoyancy_percent mass_to_first_wet_kg gm_least_m wetted_area_m2")
	args := []string{"sweep", demo("heavy.toml"), "--vary", "plug height of float=0mm,10mm", "--show", show}
	var out, errs bytes.Buffer
	run(t.Context(), append(args, "--json"), strings.NewReader(""), &out, &errs)
	first, _, _ := strings.Cut(out.String(), "\n")
	var row map[string]any
	if err := json.Unmarshal([]byte(first), &row); err != nil {
		t.Fatalf("%v: %s%s", err, out.String(), errs.String())
	}
	out.Reset()
	run(t.Context(), append(args, "--csv"), strings.NewReader(""), &out, &errs)
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, key := range keys {
		want, ok := rest[key].(float64)
		if !ok {
			t.Fatalf("rest has no %s", key)
		}
		if got, _ := row[key].(float64); math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("sweep --json: %s = %v, want %v as rest has it", key, row[key], want)
		}
		if rows[0][i+1] != key {
			t.Errorf("sweep --csv: column %d is %s, want %s", i+1, rows[0][i+1], key)
		}
		if got, _ := strconv.ParseFloat(rows[1][i+1], 64); got != row[key] {
			t.Errorf("sweep --csv: %s = %v, want %v as in JSON", key, rows[1][i+1], row[key])
		}
	}
	if row["holds"] != false || row["missed"] != "reserve buoyancy" {
		t.Errorf("sweep --json: holds %v, missed %v", row["holds"], row["missed"])
	}
}

// Text and JSON of a sizing exit alike, whether something fits or not.
func TestSizeExitsAlike(t *testing.T) {
	for _, tt := range []struct {
		vary   string
		status int
	}{{"plug height of float=0mm..40mm/20mm", exitAnswered}, {"plug height of float=0mm..8mm/4mm", exitNo}} {
		o, status := runJSON(t, "size", demo("heavy.toml"), "--vary", tt.vary)
		var out, errs bytes.Buffer
		text := run(t.Context(), []string{"size", demo("heavy.toml"), "--vary", tt.vary}, strings.NewReader(""), &out, &errs)
		if status != tt.status || text != tt.status || o["fits"] != (tt.status == exitAnswered) {
			t.Errorf("%s: exits with %d in JSON and %d in text, fits %v; want %d", tt.vary, status, text, o["fits"], tt.status)
		}
	}
}
