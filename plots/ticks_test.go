package plots

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/plot"
	"pgregory.net/rapid"
)

func labels(ts []plot.Tick) []string {
	var s []string
	for _, t := range ts {
		s = append(s, t.Label)
	}
	return s
}

func TestTicks(t *testing.T) {
	for _, tc := range []struct {
		ticker   plot.Ticker
		min, max float64
		want     string
	}{
		{Ticks{}, 0, 1, "0.0 0.2 0.4 0.6 0.8 1.0"},
		{Ticks{}, 0, 10, "0 2 4 6 8 10"},
		{Ticks{}, -3, 3, "−3 −2 −1 0 1 2 3"},
		{Ticks{}, 0.07, 0.13, "0.07 0.08 0.09 0.10 0.11 0.12 0.13"},
		{Ticks{}, 1.8, 2.6, "1.8 2.0 2.2 2.4 2.6"},
		{Ticks{}, -1e-3, 1e-3, "−0.0010 −0.0005 0.0000 0.0005 0.0010"},
		{Ticks{}, 12e3, 13e3, "12000 12200 12400 12600 12800 13000"},
		{Ticks{Want: 3}, 0, 10, "0 5 10"},
		{DegreeTicks{}, -180, 180, "−180 −135 −90 −45 0 45 90 135 180"},
		{DegreeTicks{}, 0, 90, "0 15 30 45 60 75 90"},
		{DegreeTicks{}, -180, 0, "−180 −150 −120 −90 −60 −30 0"},
		{DegreeTicks{}, 0, 60, "0 10 20 30 40 50 60"},
		{DegreeTicks{}, 0, 6, "0 1 2 3 4 5 6"},
		{DegreeTicks{}, 0, 2, "0.0 0.5 1.0 1.5 2.0"},
		{Ticks{}, 5, 5, ""},
		{Ticks{}, 0, math.Inf(1), ""},
		{Ticks{}, math.NaN(), 1, ""},
		{Ticks{}, 1, math.Nextafter(1, 2), ""}, // once counted up for ever
		{DegreeTicks{}, 1e18, 1e18 + 512, ""},
	} {
		got := strings.Join(labels(tc.ticker.Ticks(tc.min, tc.max)), " ")
		if got != tc.want {
			t.Errorf("%T.Ticks(%g, %g) = %q, want %q", tc.ticker, tc.min, tc.max, got, tc.want)
		}
	}
}

// Whatever the range, there are a handful of labels in it, evenly spaced, all
// different, with equal decimals.
func TestTicksAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "log span"))
		min := rapid.Float64Range(-100, 100).Draw(t, "start") * span
		ts := Ticks{}.Ticks(min, min+span)
		if len(ts) < 3 || len(ts) > 11 {
			t.Fatalf("Ticks(%g, %g) has %d labels: %q", min, min+span, len(ts), labels(ts))
		}
		seen := map[string]bool{}
		decimals := func(s string) int { return len(s) - strings.IndexByte(s+".", '.') }
		for i, k := range ts {
			if seen[k.Label] || decimals(k.Label) != decimals(ts[0].Label) {
				t.Fatalf("Ticks(%g, %g): labels %q", min, min+span, labels(ts))
			}
			seen[k.Label] = true
			if k.Value < min-1e-5*span || k.Value > min+1.00001*span {
				t.Fatalf("Ticks(%g, %g): %g is outside", min, min+span, k.Value)
			}
			if i > 1 {
				a, b := ts[i-1].Value-ts[i-2].Value, k.Value-ts[i-1].Value
				if math.Abs(a-b) > 1e-6*span {
					t.Fatalf("Ticks(%g, %g): steps %g and %g", min, min+span, a, b)
				}
			}
		}
	})
}

func TestNumber(t *testing.T) {
	for _, tc := range []struct {
		v        float64
		decimals int
		want     string
	}{{-1.25, 1, "−1.2"}, {-0.04, 1, "0.0"}, {math.Copysign(0, -1), 0, "0"}, {1234.5, 2, "1234.50"}} {
		if got := Number(tc.v, tc.decimals); got != tc.want {
			t.Errorf("Number(%g, %d) = %q, want %q", tc.v, tc.decimals, got, tc.want)
		}
	}
}

func TestLevelFormat(t *testing.T) {
	for _, tc := range []struct {
		levels []float64
		want   []string
	}{
		{[]float64{-20, 0, 20}, []string{"−20", "0", "20"}},
		{[]float64{0.1, 0.25, 1}, []string{"0.10", "0.25", "1.00"}},
		{[]float64{1. / 3}, []string{"0.333"}},
	} {
		f := levelFormat(tc.levels)
		var got []string
		for _, v := range tc.levels {
			got = append(got, f(v))
		}
		if d := cmp.Diff(tc.want, got); d != "" {
			t.Errorf("levelFormat(%v): -want +got\n%s", tc.levels, d)
		}
	}
}
