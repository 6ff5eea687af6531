package mend

import (
	"errors"
	"math"
	"testing"

	"millpond/mesh"
	"millpond/mesh/shape"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// body draws a mesh of one or two shells with some defects.
func body(t *rapid.T) *mesh.Mesh {
	m := shape.Star(rapid.Uint64().Draw(t, "star"), 2)
	switch rapid.IntRange(0, 3).Draw(t, "second shell") {
	case 1:
		m = shape.Join(m, shape.Transformed(m, mesh.Translation(r3.Vec{X: 5})))
	case 2:
		m = shape.Join(m, shape.InsideOut(shape.Transformed(m, mesh.Scaling(0.5, 0.5, 0.5))))
	case 3:
		m = shape.Join(m, brick(0, 0, 0, 3, 3, 3))
	}
	for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(m.Triangles)-1), 0, 3).Draw(t, "flip") {
		m = flipped(m, i)
	}
	for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(m.Triangles)-1), 0, 2).Draw(t, "double") {
		m.Triangles = append(m.Triangles, m.Triangles[i])
	}
	if rapid.Bool().Draw(t, "hole") {
		m = shape.Without(m, rapid.IntRange(0, len(m.Triangles)-1).Draw(t, "missing"))
	}
	if rapid.Bool().Draw(t, "inside out") {
		m = shape.InsideOut(m)
	}
	return m
}

// Neither the order of triangles nor which corner comes first changes anything
// but the rounding of sums.
func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := body(t)
		other := shape.Shuffled(m, rapid.Uint64().Draw(t, "order"))
		for i := range other.Triangles {
			c := &other.Triangles[i]
			for range rapid.IntRange(0, 2).Draw(t, "corner") {
				c[0], c[1], c[2] = c[1], c[2], c[0]
			}
		}
		opt := Options{MaxHole: rapid.SampledFrom([]float64{0, 1, -1}).Draw(t, "MaxHole")}
		a, errA := Close(m, opt)
		b, errB := Close(other, opt)
		if (errA == nil) != (errB == nil) {
			t.Fatalf("Close = %v, in another order %v", errA, errB)
		}
		diff := cmp.Diff(a.Report, b.Report, cmpopts.EquateApprox(1e-9, 1e-12),
			cmpopts.IgnoreTypes(&mesh.Solid{}), cmpopts.IgnoreFields(Report{}, "Mended", "Warnings"))
		if diff != "" || len(a.Mended) != len(b.Mended) || len(a.Warnings) != len(b.Warnings) {
			t.Errorf("reports differ: %s\n%q\n%q", diff, a.Mended, b.Mended)
		}
	})
}

// However large or small the missing facet is, it is refused or said to be
// closed.
func TestMissingFacetIsNoticed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := shape.Star(rapid.Uint64().Draw(t, "star"), rapid.IntRange(1, 4).Draw(t, "level"))
		missing := rapid.IntRange(0, len(whole.Triangles)-1).Draw(t, "missing")
		res, err := Close(shape.Soup(shape.Without(whole, missing)), Options{})
		want, _ := area(whole.Triangle(missing))
		switch e := (*HolesError)(nil); {
		case errors.As(err, &e):
			if e.Holes != 1 || e.OpenEdges != 3 || math.Abs(e.Largest.Area-want) > 1e-12 {
				t.Errorf("%+v, want one hole of area %g", e, want)
			}
		case err != nil:
			t.Errorf("Close = %v", err)
		case len(res.Holes) != 1 || !said(res.Mended, "closed a hole") || math.Abs(res.Holes[0].Area-want) > 1e-12:
			t.Errorf("holes %+v, said %q, want one of area %g closed", res.Holes, res.Mended, want)
		default:
			full, err := Close(whole, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(res.Volume-full.Volume) > 1e-12*full.Volume {
				t.Errorf("volume %g, want %g", res.Volume, full.Volume)
			}
		}
	})
}

// Whatever a file holds, Close ends with a closed solid or a clear no, and what
// it says of the shells adds up to the solid.
func TestRubbish(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Custom(func(t *rapid.T) float64 {
			x := float64(rapid.IntRange(0, 2).Draw(t, "whole"))
			if rapid.IntRange(0, 9).Draw(t, "off") == 0 {
				x += 1e-7
			}
			return x
		})
		vertex := rapid.Custom(func(t *rapid.T) r3.Vec {
			return r3.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: coordinate.Draw(t, "z")}
		})
		m := raw()
		if rapid.Bool().Draw(t, "boxes") {
			var boxes []*mesh.Mesh
			for range rapid.IntRange(1, 3).Draw(t, "count") {
				p, q := vertex.Draw(t, "p"), vertex.Draw(t, "q")
				if p.X != q.X && p.Y != q.Y && p.Z != q.Z {
					boxes = append(boxes, brick(min(p.X, q.X), min(p.Y, q.Y), min(p.Z, q.Z), max(p.X, q.X), max(p.Y, q.Y), max(p.Z, q.Z)))
				}
			}
			m = shape.Soup(shape.Join(boxes...))
		}
		for range rapid.IntRange(0, 12).Draw(t, "loose") {
			m = shape.Join(m, raw(r3.Triangle{vertex.Draw(t, "a"), vertex.Draw(t, "b"), vertex.Draw(t, "c")}))
		}
		res, err := Close(m, Options{
			Weld:      rapid.SampledFrom([]float64{0, 1e-6}).Draw(t, "Weld"),
			MaxHole:   rapid.SampledFrom([]float64{0, 2}).Draw(t, "MaxHole"),
			NonPlanar: rapid.Bool().Draw(t, "NonPlanar"),
		})
		if err != nil {
			return
		}
		sum := 0.0
		for _, s := range res.Shells {
			if s.Kind == Outer {
				sum += s.Volume
			}
		}
		if got := res.Solid.Volume(); math.Abs(got-res.Shut+res.Extra-sum) > 1e-9*sum+1e-14*8 || !(got > 0) {
			t.Errorf("volume %g, shells %g, counted twice %g", got, sum, res.Extra)
		}
	})
}
