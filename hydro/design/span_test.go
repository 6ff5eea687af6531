package design_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"millpond/hydro/craft"
	"millpond/hydro/design"
)

// stocked is twins with an item, weighed floats and no stated mass.
func stocked(t testing.TB) *craft.Craft {
	c := twins(t, 0.9, 0.10, 0.10, 0, 0)
	c.Stated = nil
	m := 1.5
	c.Parts[0].Makeup.Weighed = &m
	c.Items = []craft.Item{{Name: "battery", Mass: 5, On: -1}, {Name: "tail ballast", Mass: 0.1, On: -1}}
	c.Items[0].At.Z = 0.3
	return c
}

func TestParseSpan(t *testing.T) {
	c := stocked(t)
	limits := design.Limits{"drop of float": {From: 0.01, To: 0.05, Step: 0.01}}
	for _, tt := range []struct {
		text   string
		name   string
		values []float64
		at     float64
	}{
		{"plug height of float=0mm..40mm/10mm", "plug height of float", []float64{0, 0.01, 0.02, 0.03, 0.04}, 0.05},
		{"plug height of float=0..40mm/15mm at 30 mm", "plug height of float", []float64{0, 0.015, 0.03}, 0.03},
		{"Plug  Height of FLOAT = 10 mm, 5 mm,10mm", "plug height of float", []float64{0.005, 0.01}, 0.05},
		{"plug length of float=-0.1m..0.1m/0.1m at 4in", "plug length of float", []float64{-0.1, 0, 0.1}, 0.1016},
		{"height scale of float=90%..110%/10%", "height scale of float", []float64{0.9, 1, 1.1}, 0},
		{"incidence of float=0deg..3deg/1.5deg", "incidence of float", []float64{0, 1.5 * deg, 3 * deg}, 0},
		{"mass of battery=1 1/2 lb..2lb/1/4lb", "mass of battery", []float64{0.68038856, 0.79378664, 0.90718474}, 0},
		{"x of tail ballast=-2in..2in/1in", "x of tail ballast", []float64{-0.0508, -0.0254, 0, 0.0254, 0.0508}, 0},
		{"cg x=-1mm..1mm", "cg x", []float64{-1e-3, -8e-4, -6e-4, -4e-4, -2e-4, 0, 2e-4, 4e-4, 6e-4, 8e-4, 1e-3}, 0},
		{"drop of float", "drop of float", []float64{0.01, 0.02, 0.03, 0.04, 0.05}, 0},
		{"plug height of float at 40mm", "plug height of float", []float64{0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.07, 0.08, 0.09, 0.1}, 0.04},
		{"water density=1000kg/m3,1025kg/m3", "water density", []float64{1000, 1025}, 0},
	} {
		s, err := design.ParseSpan(c, limits, tt.text)
		if err != nil {
			t.Errorf("ParseSpan(%q): %v", tt.text, err)
			continue
		}
		if s.Text() != tt.name {
			t.Errorf("ParseSpan(%q) is of %q, want %q", tt.text, s.Text(), tt.name)
		}
		if d := cmp.Diff(tt.values, s.Values(0), cmpopts.EquateApprox(0, 1e-8)); d != "" {
			t.Errorf("ParseSpan(%q).Values, want - got +:\n%s", tt.text, d)
		}
		if s.IsPlug() && math.Abs(s.At-tt.at) > 1e-3 {
			t.Errorf("ParseSpan(%q) is let in at %g, want %g", tt.text, s.At, tt.at)
		}
	}
}

func TestParseSpanRefuses(t *testing.T) {
	c := stocked(t)
	for _, tt := range []struct{ text, want string }{
		{"", "names nothing to vary"},
		{"=1..2", "names nothing to vary"},
		{"plug hight of float=0mm..1mm", `did you mean "plug height of float"`},
		{"plug height of flote=0mm..1mm", `names none of "float"`},
		{"weight=1kg..2kg", "known are"},
		{"plug height of float=40mm..0mm", "write the smaller value first"},
		{"plug height of float=4mm..4mm", "is empty"},
		{"plug height of float=0mm..40mm/0mm", "must be over zero"},
		{"plug height of float=0mm..40mm/-1mm", "must be over zero"},
		{"plug height of float=0mm..40mm/1nm", "nm"},
		{"plug height of float=0..40", "has no unit"},
		{"plug height of float=0mm..40deg", "deg"},
		{"plug height of float=0mm..10m", "is the unit right"},
		{"plug height of float=-99mm..10mm at 30mm", "stays even for"},
		{"plug height of float=0mm..10mm at 120mm", "reaches from 0.0 mm to 100.0 mm"},
		{"plug height of float=0mm..10mm at noon", "the place after"},
		{"length scale of float=-10%..10%", "cannot be -10 %"},
		{"length scale of float=90%..110% at 3mm", "for plugs only"},
		{"mass=0g..5kg", "must be over zero"},
		{"mass=nan..5kg", "nan"},
		{"mass of float=-1kg..2kg", "cannot be negative"},
		{"growth=-5%..5%", "cannot be negative"},
		{"cg x", "it is 0.0 mm today"},
		{"mass of battery", `write for example "mass of battery=4.000kg..6.000kg"`},
		{"cg x=0m..1m/1e-9m", "more than 1000000 values"},
	} {
		s, err := design.ParseSpan(c, nil, tt.text)
		if err == nil {
			t.Errorf("ParseSpan(%q) = %v, want an error", tt.text, s)
		} else if !strings.Contains(err.Error(), tt.want) {
			t.Errorf("ParseSpan(%q): %v\nwant it to say %q", tt.text, err, tt.want)
		}
	}
}

// Every variable reads back by its own words, and set to what it is today
// changes nothing.
func TestVariablesStandStill(t *testing.T) {
	c := stocked(t)
	all := design.AllVariables(c)
	if len(all) < 20 {
		t.Fatalf("%d variables, want 20 at least", len(all))
	}
	today, err := design.New(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range all {
		back, err := design.Vary(c, v.Text(), nil)
		if err != nil || back.Variable != v.Variable || back.Name != v.Name {
			t.Errorf("Vary(%q) = %v, %v", v.Text(), back.Text(), err)
			continue
		}
		now, err := back.Now(c)
		if err != nil {
			t.Errorf("%s has no value: %v", v.Text(), err)
			continue
		}
		trial, err := design.Try(c, []design.Varied{back}, []float64{now})
		if err != nil {
			t.Errorf("%s = %g: %v", v.Text(), now, err)
			continue
		}
		for _, a := range design.All(c) {
			want, err := a.Value(today)
			if err != nil {
				continue
			}
			if got, err := a.Value(trial); err != nil || math.Abs(got-want) > 1e-9 {
				t.Errorf("with %s at today's %g, %s = %g, %v; want %g", v.Text(), now, a.Text(), got, err, want)
			}
		}
	}
}

// Every variable changes something, reads back what was set, and does not
// touch the craft it was set on a copy of. Set twice it is set once.
func TestVariablesAreAbsolute(t *testing.T) {
	c := stocked(t)
	for _, v := range design.AllVariables(c) {
		v, err := design.Vary(c, v.Text(), nil)
		if err != nil {
			t.Fatal(err)
		}
		before, _ := v.Now(c)
		to := before*1.1 + 0.01
		once, err := design.Changed(c, []design.Varied{v}, []float64{to})
		if err != nil {
			t.Errorf("%s = %g: %v", v.Text(), to, err)
			continue
		}
		if got, _ := v.Now(once); math.Abs(got-to) > 1e-12 {
			t.Errorf("%s reads %g after it was set to %g", v.Text(), got, to)
		}
		if got, _ := v.Now(c); got != before {
			t.Errorf("setting %s on a copy changed the craft from %g to %g", v.Text(), before, got)
		}
		twice, err := design.Changed(c, []design.Varied{v}, []float64{before*1.2 + 0.02})
		if err == nil {
			twice, err = design.Changed(twice, []design.Varied{v}, []float64{to})
		}
		if err != nil {
			t.Errorf("%s set twice: %v", v.Text(), err)
			continue
		}
		a, _ := design.New(once)
		b, _ := design.New(twice)
		today, _ := design.New(c)
		moved := false
		for _, r := range design.All(c) {
			x, errX := r.Value(a)
			y, errY := r.Value(b)
			if x != y && !(math.IsNaN(x) && math.IsNaN(y)) || (errX == nil) != (errY == nil) {
				t.Errorf("%s = %g after another value: %s = %g, want %g", v.Text(), to, r.Text(), y, x)
			}
			old, errOld := r.Value(today)
			moved = moved || errX == nil && errOld == nil && math.Abs(x-old) > 1e-9
		}
		if !moved {
			t.Errorf("%s = %g changes no result", v.Text(), to)
		}
	}
}

// No text of a range makes the reader panic, and what it takes it can go
// through.
func FuzzParseSpan(f *testing.F) {
	for _, s := range []string{
		"plug height of float=0mm..40mm/5mm at 45mm", "mass=1kg,2kg", "cg x=-1mm..1/16in", "=", "..", "/", " at ",
		"mass=1e300kg..2kg", "length scale of float=50%..200%/1%", "growth=0%..1%/1e-9%", "drop of float=1..2/3/4mm",
	} {
		f.Add(s)
	}
	c := stocked(f)
	f.Fuzz(func(t *testing.T, text string) {
		s, err := design.ParseSpan(c, nil, text)
		if err != nil {
			return
		}
		values := s.Values(0)
		if len(values) == 0 || !slices.IsSorted(values) || values[0] < s.From || len(values) > design.MostDesigns {
			t.Errorf("ParseSpan(%q) goes through %d values from %g", text, len(values), s.From)
		}
	})
}
