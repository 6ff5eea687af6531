package plots

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// Labels never overlap each other or what is kept, and never leave the border.
func TestPlacer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		border := vg.Rectangle{Max: vg.Point{X: 300, Y: 200}}
		p := &placer{border: border}
		coord := func(name string, most float64) vg.Length {
			return vg.Length(rapid.Float64Range(0, most).Draw(t, name))
		}
		for range rapid.IntRange(0, 5).Draw(t, "lines") {
			p.avoid(vg.Point{X: coord("x", 300), Y: coord("y", 200)}, vg.Point{X: coord("x", 300), Y: coord("y", 200)})
		}
		n := rapid.IntRange(1, 12).Draw(t, "labels")
		placed := 0
		for range n {
			at := vg.Point{X: coord("x", 300), Y: coord("y", 200)}
			size := vg.Point{X: 20 + coord("w", 60), Y: 20}
			r, end, _, ok := p.beside(at, 3, size)
			if !ok {
				continue
			}
			placed++
			if !within(r, border) {
				t.Fatalf("label at %v leaves the border", r)
			}
			if got := r.Size(); math.Abs(float64(got.X-size.X)) > 1e-9 || math.Abs(float64(got.Y-size.Y)) > 1e-9 {
				t.Fatalf("label has size %v, want %v", got, size)
			}
			if !within(around(end, 0, 0), r) {
				t.Fatalf("leader ends at %v, off the label %v", end, r)
			}
		}
		for i, a := range p.taken {
			for _, b := range p.taken[:i] {
				if overlaps(a, b) {
					t.Fatalf("labels %v and %v overlap", a, b)
				}
			}
		}
		// Twelve labels cover at most a third of the border.
		if placed < n {
			t.Fatalf("placed %d of %d labels", placed, n)
		}
	})
}

func TestPlacerSaysNo(t *testing.T) {
	p := &placer{border: vg.Rectangle{Max: vg.Point{X: 50, Y: 20}}}
	if _, _, _, ok := p.beside(vg.Point{X: 5, Y: 5}, 2, vg.Point{X: 60, Y: 10}); ok {
		t.Error("placed a label wider than the border")
	}
	p.keep(p.border)
	if _, _, _, ok := p.beside(vg.Point{X: 5, Y: 5}, 2, vg.Point{X: 10, Y: 10}); ok {
		t.Error("placed a label where all room is taken")
	}
}

func TestSpread(t *testing.T) {
	for _, tc := range []struct {
		want, lo, hi vg.Length
		at, got      []vg.Length
	}{
		{10, 0, 100, []vg.Length{50, 20, 80}, []vg.Length{50, 20, 80}},
		{10, 0, 100, []vg.Length{50, 50}, []vg.Length{45, 55}},
		{10, 0, 100, []vg.Length{0, 2}, []vg.Length{0, 10}},
		{10, 0, 100, []vg.Length{99, 98, 40}, []vg.Length{100, 90, 40}},
		{10, 0, 100, nil, []vg.Length{}},
	} {
		if d := cmp.Diff(tc.got, spread(tc.at, tc.want, tc.lo, tc.hi)); d != "" {
			t.Errorf("spread(%v, %g): -want +got\n%s", tc.at, tc.want, d)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SliceOfN(rapid.Float64Range(-20, 120), 1, 9).Draw(t, "at")
		var want []vg.Length
		for _, v := range at {
			want = append(want, vg.Length(v))
		}
		got := spread(want, 10, 0, 100)
		for i := range got {
			if got[i] < -1e-9 || got[i] > 100+1e-9 {
				t.Fatalf("spread(%v) = %v leaves 0 to 100", at, got)
			}
			for k := range i {
				if math.Abs(float64(got[i]-got[k])) < 10-1e-6 {
					t.Fatalf("spread(%v) = %v: %g and %g are too near", at, got, got[i], got[k])
				}
				if (want[i]-want[k])*(got[i]-got[k]) < 0 {
					t.Fatalf("spread(%v) = %v changes the order", at, got)
				}
			}
		}
	})
}
