package craft_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/mesh"
	"millpond/mesh/shape"
)

const (
	length   = 0.9
	beam     = 0.12
	depth    = 0.10
	deadrise = 20 * math.Pi / 180
)

func solid(t testing.TB, m *mesh.Mesh) *mesh.Solid {
	t.Helper()
	s, err := mesh.NewSolid(append([]r3.Vec(nil), m.Vertices...), append([][3]uint32(nil), m.Triangles...))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// drawn maps a file in millimeters with the nose toward -y to a part's axes.
var drawn = mesh.Affine{M: [3][3]float64{{0, -1e-3, 0}, {1e-3, 0, 0}, {0, 0, 1e-3}}}

// vBottom returns a mirrored float with a V bottom, from its stern at x = 0,
// drawn in millimeters and nose toward -y, and turned on the craft.
func vBottom(t testing.TB, length, depth float64) *craft.Craft {
	t.Helper()
	back, _ := drawn.Inverse()
	body := shape.Transformed(shape.VBottom(length, beam, deadrise, depth), mesh.Translation(r3.Vec{X: length / 2}))
	p := craft.Part{
		Name: "float", Solid: solid(t, shape.Transformed(body, back)), Drawn: drawn, Mirrored: true,
		Fit: craft.Fit{At: r3.Vec{X: 0.1, Y: 0.3, Z: -0.2}, Roll: 0.1, Pitch: 0.05, Yaw: -0.03},
		Makeup: craft.Makeup{
			Core: 30, Overlap: 0.1, Wall: 0.001, WallMade: 1200,
			Skin: []craft.Cloth{{Name: "glass", Areal: 0.16}, {Name: "paint", Areal: 0.045}},
		},
	}
	p.Base = p.Fit
	return &craft.Craft{Name: "v", Parts: []craft.Part{p}, Water: craft.Water{Density: 1000}}
}

// same compares two crafts by what water and scales see: at random planes, and
// in the mass build-up.
func same(t *testing.T, name string, got, want *craft.Craft) {
	t.Helper()
	rng := rand.New(rand.NewPCG(1, 2))
	g, err := got.Body()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	w, err := want.Body()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if off := math.Abs(g.Mass - w.Mass); off > 1e-12 || r3.Norm(r3.Sub(g.CG, w.CG)) > 1e-12 {
		t.Errorf("%s: mass %.15g at %v, want %.15g at %v", name, g.Mass, g.CG, w.Mass, w.CG)
	}
	for i, e := range want.Buildup() {
		if o := got.Buildup()[i]; math.Abs(o.Mass.Mass-e.Mass.Mass) > 1e-12 {
			t.Errorf("%s: %s weighs %.15g, want %.15g", name, e.What, o.Mass.Mass, e.Mass.Mass)
		}
	}
	if a, b := got.Parts[0].Volume(), want.Parts[0].Volume(); math.Abs(a-b) > 1e-14 {
		t.Errorf("%s: volume %.15g, want %.15g", name, a, b)
	}
	sum := func(c *craft.Craft, pl mesh.Plane, about r3.Vec) (s mesh.Section, wet float64) {
		for _, q := range c.Parts[0].Placed() {
			s = s.Add(q.Below(pl, about))
			wet += q.WetArea(pl)
		}
		return s, wet
	}
	for range 50 {
		pl := mesh.Plane{Normal: r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})}
		pl.Offset = -r3.Dot(pl.Normal, w.Hull.Center()) + 0.2*rng.NormFloat64()
		a, wetA := sum(got, pl, w.Hull.Center())
		b, wetB := sum(want, pl, w.Hull.Center())
		for _, d := range []float64{
			a.Volume - b.Volume, r3.Norm(r3.Sub(a.Moment, b.Moment)), a.Area - b.Area, r3.Norm(r3.Sub(a.AreaMoment, b.AreaMoment)),
			a.AreaSecond.XX - b.AreaSecond.XX, a.AreaSecond.YY - b.AreaSecond.YY, a.AreaSecond.ZZ - b.AreaSecond.ZZ,
			a.AreaSecond.XY - b.AreaSecond.XY, a.AreaSecond.XZ - b.AreaSecond.XZ, a.AreaSecond.YZ - b.AreaSecond.YZ, wetA - wetB,
		} {
			if !(math.Abs(d) < 1e-12) {
				t.Errorf("%s: below %v: %+v with %.15g wet, want %+v with %.15g", name, pl, a, wetA, b, wetB)
				break
			}
		}
	}
}

// A plugged V bottom is the V bottom drawn deeper, longer, or both, and a
// squeezed one is drawn shallower and shorter: in every integral and in mass.
func TestPlugIsADrawing(t *testing.T) {
	for _, tt := range []struct {
		name           string
		longer, deeper craft.Plug
		shift          r3.Vec // of the drawn one's origin, in the part's axes
	}{
		{"deeper", craft.Plug{}, craft.Plug{At: 0.06, Add: 0.025}, r3.Vec{}},
		{"longer", craft.Plug{At: 0.4, Add: 0.1}, craft.Plug{}, r3.Vec{}},
		{"both", craft.Plug{At: 0.4, Add: 0.1}, craft.Plug{At: 0.06, Add: 0.025}, r3.Vec{}},
		{"shallower", craft.Plug{}, craft.Plug{At: 0.03, To: 0.09, Add: -0.025}, r3.Vec{}},
		{"shorter and deeper", craft.Plug{At: 0.2, To: 0.8, Add: -0.3}, craft.Plug{At: 0.06, Add: 0.3}, r3.Vec{}},
		{"the deck stays", craft.Plug{}, craft.Plug{At: 0.06, Add: 0.025, FarStays: true}, r3.Vec{Z: -0.025}},
		{"the bow stays", craft.Plug{At: 0.3, Add: 0.1, FarStays: true}, craft.Plug{}, r3.Vec{X: -0.1}},
		{"squeezed, the deck stays", craft.Plug{}, craft.Plug{At: 0.03, To: 0.09, Add: -0.025, FarStays: true}, r3.Vec{Z: 0.025}},
	} {
		got := vBottom(t, length, depth)
		got.Parts[0].Fit.Longer, got.Parts[0].Fit.Deeper = tt.longer, tt.deeper
		want := vBottom(t, length+tt.longer.Add, depth+tt.deeper.Add)
		want.Parts[0].Drawn.T = r3.Add(want.Parts[0].Drawn.T, tt.shift)
		same(t, tt.name, got, want)

		// And as it goes back to CAD: one surface in the file's own numbers.
		cad, err := got.Parts[0].Reshape(got.Parts[0].Solid)
		if err != nil {
			t.Fatal(err)
		}
		whole := vBottom(t, length, depth)
		whole.Parts[0].Solid = cad
		same(t, tt.name+", as written for CAD", whole, want)
		box, file := cad.Box(), want.Parts[0].Solid.Box()
		if off := box.Max.Z - box.Min.Z - (file.Max.Z - file.Min.Z); math.Abs(off) > 1e-9 {
			t.Errorf("%s: the file's z spans %g, want %g", tt.name, box.Max.Z-box.Min.Z, file.Max.Z-file.Min.Z)
		}
		surfaces, err := got.Parts[0].Surfaces()
		if err != nil || len(surfaces) != 2 || math.Abs(surfaces[1].Volume()*2-want.Parts[0].Volume()) > 1e-12 {
			t.Errorf("%s: Surfaces = %v, %v", tt.name, surfaces, err)
		}
	}
}

// Stretched about an anchor the V bottom is one drawn with other numbers, and a
// plug on top of a stretch still adds what it says.
func TestStretchIsADrawing(t *testing.T) {
	const long, tall, add = 1.1, 1.25, 0.02
	got := vBottom(t, length, depth)
	got.Parts[0].Fit.Stretch = craft.Stretch{Length: long, Height: tall}
	got.Parts[0].Fit.Deeper = craft.Plug{At: 0.06, Add: add}
	want := vBottom(t, long*length, tall*depth+add)
	// The deadrise grows with the height.
	back, _ := drawn.Inverse()
	body := shape.VBottom(long*length, beam, math.Atan(tall*math.Tan(deadrise)), tall*depth+add)
	want.Parts[0].Solid = solid(t, shape.Transformed(shape.Transformed(body, mesh.Translation(r3.Vec{X: long * length / 2})), back))
	same(t, "stretched and plugged", got, want)

	anchored := vBottom(t, length, depth)
	anchored.Parts[0].Fit.Stretch = craft.Stretch{Length: long, Anchor: r3.Vec{X: 0.5}}
	at := anchored.Follow(0, placeOf(anchored, r3.Vec{X: 0.5}))
	if was := placeOf(anchored, r3.Vec{X: 0.5}); r3.Norm(r3.Sub(at, was)) > 1e-15 {
		t.Errorf("the anchor moves from %v to %v", was, at)
	}
}

// placeOf returns where a point of the part as drawn lies on the craft.
func placeOf(c *craft.Craft, q r3.Vec) r3.Vec {
	plain := c.Copy()
	plain.Parts[0].Fit = plain.Parts[0].Base
	back, _ := drawn.Inverse()
	return plain.Parts[0].Place().Point(back.Point(q))
}

// What is on a part goes with the piece it sits on, on either side of the
// craft.
func TestFollowGoesWithThePiece(t *testing.T) {
	c := vBottom(t, length, depth)
	p := &c.Parts[0]
	p.Fit.Roll, p.Fit.Pitch, p.Fit.Yaw = 0, 0, 0
	p.Base = p.Fit
	p.Fit.Deeper = craft.Plug{At: 0.06, Add: 0.03}
	p.Fit.Longer = craft.Plug{At: 0.4, Add: 0.1}
	p.Fit.At.Z -= 0.01
	for _, tt := range []struct{ from, move r3.Vec }{
		{r3.Vec{X: 0.1, Z: 0}, r3.Vec{Z: -0.01}},
		{r3.Vec{X: 0.1, Z: depth}, r3.Vec{Z: 0.02}},
		{r3.Vec{X: 0.8, Z: depth}, r3.Vec{X: 0.1, Z: 0.02}},
		{r3.Vec{X: 0.4, Z: 0.06}, r3.Vec{X: 0.1, Z: 0.02}}, // on both planes
	} {
		for _, side := range []float64{1, -1} {
			was := placeOf(c, tt.from)
			was.Y *= side
			if got, want := c.Follow(0, was), r3.Add(was, tt.move); r3.Norm(r3.Sub(got, want)) > 1e-15 {
				t.Errorf("Follow(%v) = %v, want %v", was, got, want)
			}
		}
	}
	// Wider apart, the one to starboard moves to starboard.
	p.Fit = p.Base
	p.Fit.At.Y += 0.05
	was := placeOf(c, r3.Vec{X: 0.1})
	was.Y = -was.Y
	if got, want := c.Follow(0, was), r3.Add(was, r3.Vec{Y: -0.05}); r3.Norm(r3.Sub(got, want)) > 1e-15 {
		t.Errorf("Follow(%v) = %v, want %v", was, got, want)
	}
}

// A weighed part stays at its mass or grows with its skin or volume; where its
// CG is stated, that goes with the piece it is in.
func TestWeighedMassFollows(t *testing.T) {
	drawnMass, cg := 0.4, placeOf(vBottom(t, length, depth), r3.Vec{X: 0.2, Z: 0.09})
	area := func(depth float64) float64 { // of the V bottom
		chine := beam / 2 * math.Tan(deadrise)
		ends := beam*depth - beam*beam*math.Tan(deadrise)/4
		return 2*ends + length*(beam+beam/math.Cos(deadrise)+2*(depth-chine))
	}
	volume := func(depth float64) float64 { return beam*depth - beam*beam*math.Tan(deadrise)/4 }
	for _, tt := range []struct {
		follows craft.Measure
		factor  float64
	}{
		{craft.Nothing, 1},
		{craft.Area, area(depth+0.02) / area(depth)},
		{craft.Volume, volume(depth+0.02) / volume(depth)},
	} {
		c := vBottom(t, length, depth)
		c.Parts[0].Makeup = craft.Makeup{Weighed: &drawnMass, At: &cg, Follows: tt.follows}
		c.Parts[0].Fit.Deeper = craft.Plug{At: 0.06, Add: 0.02}
		got := c.Loaded()
		if want := 2 * drawnMass * tt.factor; math.Abs(got.Mass-want) > 1e-12 {
			t.Errorf("follows %v: mass %.15g, want %.15g", tt.follows, got.Mass, want)
		}
		want := placeOf(c, r3.Vec{X: 0.2, Z: 0.11})
		want.Y = 0
		if r3.Norm(r3.Sub(got.At, want)) > 1e-14 {
			t.Errorf("follows %v: CG %v, want %v", tt.follows, got.At, want)
		}
	}
}

// The band of even section of a V bottom runs from the chine to the deck and
// from stern to bow, and the fullest plane is in it.
func TestEvenBand(t *testing.T) {
	p := &vBottom(t, length, depth).Parts[0]
	chine := beam / 2 * math.Tan(deadrise)
	if got := p.EvenFrom(craft.AlongZ, 0.03); got < 0.95*depth || got > depth {
		t.Errorf("EvenFrom(z, 0.03) = %g, want nearly the deck at %g", got, depth)
	}
	if got := p.EvenFrom(craft.AlongZ, chine/2); got > 0.6*chine {
		t.Errorf("EvenFrom(z, %g) = %g, in the V below the chine", chine/2, got)
	}
	if got := p.EvenFrom(craft.AlongX, 0.1); got < 0.95*length || got > length {
		t.Errorf("EvenFrom(x, 0.1) = %g, want nearly the bow at %g", got, length)
	}
	if got, want := p.Fullest(craft.AlongZ), (chine+depth)/2; math.Abs(got-want) > 0.02*depth {
		t.Errorf("Fullest(z) = %g, want the middle of the side at %g", got, want)
	}
	if got := p.Fullest(craft.AlongX); math.Abs(got-length/2) > 0.01*length {
		t.Errorf("Fullest(x) = %g, want %g", got, length/2)
	}
}

// A slice that is thicker than the band it is taken from is refused.
func TestPlugRefused(t *testing.T) {
	c := vBottom(t, length, depth)
	c.Parts[0].Fit.Deeper = craft.Plug{At: 0.03, To: 0.05, Add: -0.02}
	if _, err := c.Body(); err == nil {
		t.Error("20 mm out of a band of 20 mm: no error")
	}
	c.Parts[0].Fit.Deeper = craft.Plug{At: 0.03, Add: math.NaN()}
	if _, err := c.Body(); err == nil {
		t.Error("a plug of NaN: no error")
	}
}
