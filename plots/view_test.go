package plots

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

func TestViewIsToScale(t *testing.T) {
	for _, tc := range []struct {
		name string
		w, h vg.Length
		box  r2.Box
		want float64 // points per meter
	}{
		{"width binds", 200, 500, r2.NewBox(-1, 0, 1, 0.5), 100},
		{"height binds", 500, 100, r2.NewBox(-1, 0, 1, 0.5), 200},
	} {
		var rec recorder.Canvas
		c := draw.NewCanvas(&rec, tc.w, tc.h)
		v := NewView(c, tc.box)
		if math.Abs(v.Scale()-tc.want) > 1e-9 {
			t.Errorf("%s: scale %g, want %g", tc.name, v.Scale(), tc.want)
		}
		if got := v.At(tc.box.Center()); hypot(got.Sub(c.Center())) > 1e-9 {
			t.Errorf("%s: middle at %v, want %v", tc.name, got, c.Center())
		}
		d := v.At(r2.Vec{X: 0.3, Y: 0.4}).Sub(v.At(r2.Vec{}))
		if got := float64(hypot(d)) / tc.want; math.Abs(got-0.5) > 1e-12 {
			t.Errorf("%s: a length of 0.5 m is drawn as %g m", tc.name, got)
		}
		p := r2.Vec{X: 0.123, Y: -0.4}
		if got := v.World(v.At(p)); r2.Norm(r2.Sub(got, p)) > 1e-12 {
			t.Errorf("%s: World(At(%v)) = %v", tc.name, p, got)
		}
	}
}

func TestRoundDown(t *testing.T) {
	for _, tc := range []struct{ v, want float64 }{
		{999, 500}, {500, 500}, {499, 200}, {199, 100}, {10, 10}, {0.3, 0.2},
	} {
		if got := roundDown(tc.v); math.Abs(got-tc.want) > 1e-12 {
			t.Errorf("roundDown(%g) = %g, want %g", tc.v, got, tc.want)
		}
	}
}

// Every string of the package can be drawn.
func TestGlyphs(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") ||
			strings.HasSuffix(f.Name(), "_test.go") && f.Name() != "sample_test.go" && f.Name() != "craft_test.go" {
			continue
		}
		fset := token.NewFileSet()
		tree, err := parser.ParseFile(fset, f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				s, err := strconv.Unquote(l.Value)
				if err != nil {
					t.Fatal(err)
				}
				checked++
				if m := Missing(s); len(m) > 0 {
					t.Errorf("%v: no glyph for %q in %q", fset.Position(l.Pos()), string(m), s)
				}
			}
			return true
		})
	}
	if checked < 100 {
		t.Errorf("checked %d strings only", checked)
	}
}
