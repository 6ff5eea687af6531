package plots

import (
	"image"
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// level is a craft at rest without trim or heel, its origin at a height.
func level(height float64, parts ...[]r3.Triangle) *Profile {
	p := &Profile{Up: r3.Vec{Z: 1}, Height: height}
	for _, ts := range parts {
		p.Parts = append(p.Parts, ProfilePart{Kind: Flotation, Triangles: Triangles(ts)})
	}
	return p
}

// render draws all parts of a profile in a view.
func render(p *Profile, pr projection, box r2.Box, scale float64) *raster {
	r := newRaster(box, scale)
	for i, part := range p.Parts {
		for t := range part.Triangles {
			r.triangle(pr, t, i)
		}
	}
	for _, part := range p.Parts {
		for t := range part.Triangles {
			r.cut(pr, t)
		}
	}
	return r
}

// The areas of a box in its three views, wet and dry, are known. A pixel
// counts if its center is covered, so an edge errs by half a pixel at most.
func TestRasterAreas(t *testing.T) {
	const height = -0.037
	p := level(height, box(r3.Vec{X: -0.4, Y: -0.1, Z: 0}, r3.Vec{X: 0.6, Y: 0.15, Z: 0.12}))
	const scale = 503.0
	for _, tc := range []struct {
		name     string
		pr       projection
		all, wet float64 // square meters
		rim      float64 // meters
	}{
		{"side", p.side(), 1 * 0.12, 1 * 0.037, 2.24},
		{"front", p.front(), 0.25 * 0.12, 0.25 * 0.037, 0.74},
		{"plan", p.plan(), 1 * 0.25, 0, 2.5},
	} {
		r := render(p, tc.pr, r2.NewBox(-0.7, -0.3, 0.7, 0.3), scale)
		all, wet := 0, 0
		for k, part := range r.part {
			if part != 0 {
				all++
				if r.wet[k] {
					wet++
				}
			}
		}
		tol := tc.rim / 2 * scale
		if got, want := float64(all), tc.all*scale*scale; math.Abs(got-want) > tol {
			t.Errorf("%s: %g pixels covered, want %g within %g", tc.name, got, want, tol)
		}
		if got, want := float64(wet), tc.wet*scale*scale; math.Abs(got-want) > tol {
			t.Errorf("%s: %g pixels wet, want %g within %g", tc.name, got, want, tol)
		}
	}
}

// Of two boxes one behind the other, the near one shows, in any order.
func TestRasterHides(t *testing.T) {
	near := box(r3.Vec{X: 0, Y: -0.2, Z: 0}, r3.Vec{X: 0.1, Y: -0.1, Z: 0.1})
	far := box(r3.Vec{X: -0.1, Y: 0.1, Z: 0}, r3.Vec{X: 0.2, Y: 0.2, Z: 0.1})
	for _, tc := range []struct {
		name  string
		parts [][]r3.Triangle
		want  uint16
	}{{"near first", [][]r3.Triangle{near, far}, 1}, {"near last", [][]r3.Triangle{far, near}, 2}} {
		p := level(0, tc.parts...)
		r := render(p, p.side(), r2.NewBox(-0.2, -0.1, 0.3, 0.2), 400)
		x, y := r.pixel(r3.Vec{X: 0.05, Y: 0.05})
		if got := r.part[int(y)*r.w+int(x)]; got != tc.want {
			t.Errorf("%s: part %d shows, want %d, which lies to starboard", tc.name, got, tc.want)
		}
	}
}

// From above, the water cuts a hull with sides that lean in along two lines,
// and a roof hides one of them.
func TestRasterWaterline(t *testing.T) {
	at := func(y, z float64) r3.Vec { return r3.Vec{X: -0.3, Y: y, Z: z} }
	hull := prism([4]r3.Vec{at(-0.15, -0.05), at(-0.05, 0.05), at(0.05, 0.05), at(0.15, -0.05)}, r3.Vec{X: 0.6})
	roof := box(r3.Vec{X: -0.4, Y: 0, Z: 0.2}, r3.Vec{X: 0.4, Y: 0.3, Z: 0.21})
	p := level(0, hull, roof)
	const scale = 300
	r := render(p, p.plan(), r2.NewBox(-0.5, -0.4, 0.5, 0.4), scale)
	seen, hidden := 0, 0
	for k, l := range r.line {
		x, y := (float64(k%r.w)+0.5)/scale-0.5, 0.4-(float64(k/r.w)+0.5)/scale
		if l == 0 || math.Abs(x) > 0.29 {
			continue // the ends stand upright, so their lines lie under their edge
		}
		if math.Abs(math.Abs(y)-0.1) > 1.5/scale {
			t.Fatalf("waterline at (%.3f, %.3f), want at y = +-0.1", x, y)
		}
		switch {
		case l == 1 && y < 0:
			seen++
		case l == 2 && y > 0:
			hidden++
		default:
			t.Fatalf("waterline of kind %d at (%.3f, %.3f): starboard is open, port is under the roof", l, x, y)
		}
	}
	// 0.58 m are 174 pixels; the hidden line is dashed.
	if seen < 170 || seen > 180 || hidden < 60 || hidden > 115 {
		t.Errorf("%d pixels in sight and %d hidden, want 174 and about half of that", seen, hidden)
	}
}

// Edges of a box are drawn, the diagonals of its faces are not.
func TestRasterEdges(t *testing.T) {
	p := level(0.1, box(r3.Vec{X: -0.1, Y: -0.1, Z: 0}, r3.Vec{X: 0.1, Y: 0.1, Z: 0.1}))
	// Turned about the vertical, so that the side view shows two faces.
	s := math.Sqrt(0.5)
	pr := p.side()
	pr.right, pr.near = r3.Vec{X: s, Y: -s}, r3.Vec{X: -s, Y: -s}
	r := render(p, pr, r2.NewBox(-0.2, 0.05, 0.2, 0.25), 500)
	e := r.findEdges(look{silhouette: 1, crease: 1})
	strength := func(x, y float64) uint8 {
		px, py := r.pixel(r3.Vec{X: x, Y: y})
		most := uint8(0)
		for d := -2; d <= 2; d++ {
			if k := int(py)*r.w + int(px) + d; k >= 0 && k < len(e) {
				most = max(most, e[k])
			}
		}
		return most
	}
	if got := strength(0, 0.15); got == 0 {
		t.Error("the corner between two faces has no edge")
	}
	if got := strength(0.1*math.Sqrt2, 0.15); got != 255 {
		t.Errorf("the outline has strength %d, want 255", got)
	}
	if got := strength(-0.07, 0.13); got != 0 {
		t.Errorf("the middle of a face has an edge of strength %d", got)
	}
}

// A mesh that is anything must not stop the drawing.
func TestRasterOddTriangles(t *testing.T) {
	inf := math.Inf(1)
	p := level(0, []r3.Triangle{
		{},
		{{X: math.NaN()}, {X: 1}, {Y: 1}},
		{{X: -inf}, {X: inf}, {Z: 1}},
		{{X: -1e18, Z: -1e18}, {X: 1e18, Z: -1e18}, {Z: 1e18}},
		{{X: 1}, {X: 1}, {X: 2}},
	})
	r := render(p, p.side(), r2.NewBox(-1, -1, 1, 1), 20)
	if got := r.picture(look{dry: make([]color.RGBA, 1), paper: above}, 2).Bounds(); got != image.Rect(0, 0, 20, 20) {
		t.Errorf("picture has bounds %v, want 20 x 20", got)
	}
}
