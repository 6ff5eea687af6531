package main

import (
	"math"
	"strings"
	"testing"
)

const output = `cpu: Fast One
BenchmarkCut/tris=1e4/by=index-2   	 100	 12 ns/op	 8 least-ns/op	 342.0 straddling
BenchmarkCut/tris=1e4/by=index-2   	 100	 11 ns/op	 10 least-ns/op	 342.0 straddling
BenchmarkCut/tris=1e4/by=straight   	 100	 90 ns/op	 80 least-ns/op
cpu: Fast One
version Peer 1.2
peer Peer 1e4 3 0.004 2e-14
peer Peer 1e5 3 0.005 2e-14
PASS
`

func TestRead(t *testing.T) {
	r, err := read(strings.NewReader(output))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(r.versions, "; "), "Fast One; Peer 1.2"; got != want {
		t.Errorf("versions are %q, want %q", got, want)
	}
	if got := strings.Join(r.peers, " "); got != "Peer" {
		t.Errorf("peers are %q, want Peer", got)
	}
	for _, c := range []struct {
		what string
		got  float64
		want float64
	}{
		{"the least time of two runs", r.time(cutIndex)("1e4"), 8},
		{"straight pass / index", over(r.time(cutStraight), r.time(cutIndex))("1e4"), 10},
		{"a peer's cut, ns", r.time("Peer/%s")("1e5"), 5000},
		{"a peer's difference", r.of("Peer/%s", "off")("1e4"), 2e-14},
		{"a size not measured", r.time(cutIndex)("1e5"), math.NaN()},
	} {
		if c.got != c.want && !(math.IsNaN(c.got) && math.IsNaN(c.want)) {
			t.Errorf("%s is %g, want %g", c.what, c.got, c.want)
		}
	}
	if _, err := read(strings.NewReader("BenchmarkX 1 fast ns/op")); err == nil {
		t.Error("read of a time that is no number: no error")
	}
}

func TestRows(t *testing.T) {
	r, err := read(strings.NewReader(output))
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	p := printer{results: r, out: &out}
	p.ms("Peer", r.time("Peer/%s"))
	p.ms("nothing", r.time("Nothing/%s"))
	if got, want := out.String(), "| Peer | 0.004 | 0.005 | |\n"; got != want {
		t.Errorf("rows are %q, want %q", got, want)
	}
	for _, c := range []struct {
		t    target
		x    float64
		want string
	}{
		{target{"most", nil, 2, false}, 2.1, "missed"},
		{target{"most", nil, 2, false}, 1.9, "met"},
		{target{"least", nil, 25, true}, 24, "missed"},
		{target{"least", nil, 25, true}, 26, "met"},
		{target{"least", nil, 25, true}, math.NaN(), "not measured"},
	} {
		if got := c.t.row(c.x); !strings.HasSuffix(got, "| "+c.want+" |") {
			t.Errorf("row(%g) of %+v = %q, want %s", c.x, c.t, got, c.want)
		}
	}
}

func TestExponent(t *testing.T) {
	count := func(s string) float64 { return map[string]float64{"1e4": 1e4, "1e5": 1.1e5, "1e6": 9e5}[s] }
	root := func(s string) float64 { return 3 * math.Pow(count(s), 0.5) }
	if got := exponent(count, root); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("exponent of 3 sqrt(x) = %g, want 0.5", got)
	}
}
