package shape_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

var testFloat = shape.Float{
	Forebody: 440, Afterbody: 380, Beam: 84, Depth: 74, Step: 10,
	Deadrise: math.Pi / 9, BowDeadrise: 0.7, AfterbodyAngle: 0.09, Straight: 0.4,
	BowRise: 56, Sheer: 12, Transom: 40, Edge: 8,
}

var testWing = shape.Wing{Span: 1600, Root: 260, Tip: 200, Sweep: 20, Dihedral: 0.05, Thickness: 0.12, Camber: 0.02, CamberAt: 0.4}

// symmetric says where m is not its own mirror image across y = 0.
func symmetric(m *mesh.Mesh) bool {
	at := make(map[r3.Vec]bool)
	for _, v := range m.Vertices {
		at[v] = true
	}
	for _, v := range m.Vertices {
		v.Y = -v.Y
		if !at[v] {
			return false
		}
	}
	_, c := integrate(m)
	return math.Abs(c.Y) < 1e-9
}

func TestDemoBodies(t *testing.T) {
	frames := []shape.Frame{{X: -690, Half: 8, Bottom: 20, Top: 60, Square: 2}, {X: 0, Half: 45, Bottom: -50, Top: 60, Square: 4}, {X: 350, Half: 30, Bottom: -30, Top: 30, Square: 2.5}}
	for _, c := range []struct {
		name string
		make func(triangles int) *mesh.Mesh
	}{
		{"float", testFloat.Mesh},
		{"wing", testWing.Mesh},
		{"fuselage", func(n int) *mesh.Mesh { return shape.Fuselage(frames, n) }},
	} {
		var volumes []float64
		for _, n := range []int{600, 6000, 60000} {
			m := c.make(n)
			if f := fault(m); f != "" {
				t.Errorf("%s of %d triangles: %s", c.name, n, f)
			}
			if got := len(m.Triangles); got < n*8/10 || got > n*3/2 {
				t.Errorf("%s has %d triangles, asked for %d", c.name, got, n)
			}
			if !symmetric(m) {
				t.Errorf("%s of %d triangles is not symmetric", c.name, n)
			}
			v, _ := integrate(m)
			volumes = append(volumes, v)
		}
		if !scalar.EqualWithinRel(volumes[1], volumes[2], 5e-3) || volumes[2] <= 0 {
			t.Errorf("%s: volumes %v do not settle", c.name, volumes)
		}
	}
}

// A float of no taper and no rise is a V-bottom prism ahead and another, a
// step higher, behind.
func TestFloatMidshipIsVBottom(t *testing.T) {
	f := testFloat
	f.AfterbodyAngle, f.Transom, f.Edge = 0, f.Beam, 1e-9
	m := f.Mesh(6000)
	after := 0.0
	for i := range m.Triangles {
		// The volume behind x = 0 by shadows on the plane x = 0, which takes
		// in the step face at no cost.
		c := m.Triangle(i)
		if c[0].X <= 0 && c[1].X <= 0 && c[2].X <= 0 {
			n := r3.Scale(0.5, r3.Cross(r3.Sub(c[1], c[0]), r3.Sub(c[2], c[0])))
			after += n.X * (c[0].X + c[1].X + c[2].X) / 3
		}
	}
	want := f.Afterbody * (f.Beam*(f.Depth-f.Step) - f.Beam*f.Beam*math.Tan(f.Deadrise)/4)
	if !scalar.EqualWithinRel(after, want, 1e-9) {
		t.Errorf("volume behind the step = %v, want %v", after, want)
	}
}

// The section's area by quadrature of the published thickness formula, against
// the volume of a wing so long that its tips do not count.
func TestWingSection(t *testing.T) {
	area := 0.0
	const n = 200000
	for i := range n {
		c := (float64(i) + 0.5) / n
		area += 10 * 0.12 * (0.2969*math.Sqrt(c) - 0.1260*c - 0.3516*c*c + 0.2843*c*c*c - 0.1036*c*c*c*c) / n
	}
	w := shape.Wing{Span: 200, Root: 1, Tip: 1, Thickness: 0.12, Camber: 0.02, CamberAt: 0.4}
	m := w.Mesh(40000)
	straight := 0.0
	for i := range m.Triangles {
		c := m.Triangle(i)
		if math.Max(math.Abs(c[0].Y), math.Max(math.Abs(c[1].Y), math.Abs(c[2].Y))) <= 93+1e-9 {
			shadow := r3.Scale(0.5, r3.Cross(r3.Sub(c[1], c[0]), r3.Sub(c[2], c[0])))
			straight += shadow.Z * (c[0].Z + c[1].Z + c[2].Z) / 3
		}
	}
	if want := area * 186; !scalar.EqualWithinRel(straight, want, 1e-3) {
		t.Errorf("volume of the straight part = %v, want %v", straight, want)
	}
}

func TestFinStands(t *testing.T) {
	w := shape.Wing{Span: 400, Root: 150, Tip: 110, Sweep: 40, Thickness: 0.09}
	m := w.Fin(2000)
	if f := fault(m); f != "" {
		t.Fatal(f)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range m.Vertices {
		low, high = math.Min(low, v.Z), math.Max(high, v.Z)
	}
	if low != 0 || high != 200 {
		t.Errorf("fin reaches from z = %v to %v, want 0 to 200", low, high)
	}
	if v, c := integrate(m); v <= 0 || math.Abs(c.Y) > 1e-9 {
		t.Errorf("volume %v about y = %v, want more than 0 about 0", v, c.Y)
	}
}
