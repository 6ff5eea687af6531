package plots

import (
	"bytes"
	"image/png"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// upOf is the water's up in body axes: (sin trim, cos trim sin heel, cos trim
// cos heel).
func upOf(trim, heel float64) r3.Vec {
	s, c := math.Sincos(trim)
	sh, ch := math.Sincos(heel)
	return r3.Vec{X: s, Y: c * sh, Z: c * ch}
}

// The three views are right-handed, agree with each other and with heights
// above the water, at any attitude.
func TestProjections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := func(name string) float64 { return rapid.Float64Range(-math.Pi, math.Pi).Draw(t, name) }
		p := &Profile{Up: upOf(angle("trim"), angle("heel")), Height: rapid.Float64Range(-1, 1).Draw(t, "height")}
		coord := func(name string) float64 { return rapid.Float64Range(-2, 2).Draw(t, name) }
		q := r3.Vec{X: coord("x"), Y: coord("y"), Z: coord("z")}
		side, h := p.side().at(q)
		front, _ := p.front().at(q)
		plan, _ := p.plan().at(q)
		eq := func(name string, a, b float64) {
			if math.Abs(a-b) > 1e-12 {
				t.Fatalf("%s: %g and %g differ", name, a, b)
			}
		}
		eq("height of the side view", side.Y, h)
		eq("height of the front view", front.Y, h)
		eq("height against its definition", h, r3.Dot(p.Up, q)+p.Height)
		eq("nearness from above", plan.Z, h)
		eq("forward in side and plan", side.X, plan.X)
		eq("forward in side and front", side.X, front.Z)
		eq("port in front and plan", front.X, plan.Y)
		eq("port in front and side", front.X, -side.Z)
		for _, pr := range []projection{p.side(), p.front(), p.plan()} {
			if d := r3.Norm(r3.Sub(r3.Cross(pr.right, pr.up), pr.near)); d > 1e-12 {
				t.Fatalf("view is off right-handed by %g", d)
			}
		}
	})
}

func TestAttitudeShows(t *testing.T) {
	nose, tail := r3.Vec{X: 1}, r3.Vec{X: -1}
	port, starboard := r3.Vec{Y: 1}, r3.Vec{Y: -1}
	p := &Profile{Up: upOf(0.1, 0)}
	if a, b := p.side().flat(nose), p.side().flat(tail); a.Y <= b.Y || a.X <= b.X {
		t.Errorf("nose up: nose at %v, tail at %v; want the nose higher and to the right", a, b)
	}
	p = &Profile{Up: upOf(0, 0.1)}
	if a, b := p.front().flat(starboard), p.front().flat(port); a.Y >= b.Y || a.X >= b.X {
		t.Errorf("starboard down: starboard at %v, port at %v; want starboard lower and to the left", a, b)
	}
	// Straight up and straight down there is still a frame.
	for _, trim := range []float64{math.Pi / 2, -math.Pi / 2} {
		p = &Profile{Up: upOf(trim, 0)}
		a := p.axes()
		near := (&Profile{Up: upOf(trim*0.999, 0)}).axes()
		if d := r3.Norm(r3.Sub(a.forward, near.forward)); !(d < 0.01) {
			t.Errorf("trim %.2f: forward is %v, want near %v", trim, a.forward, near.forward)
		}
	}
}

func TestJoinNames(t *testing.T) {
	for _, tc := range []struct {
		names []string
		want  string
	}{
		{[]string{"propeller tip"}, "propeller tip"},
		{[]string{"wing tip port", "wing tip starboard"}, "wing tip port, starboard"},
		{[]string{"port tip", "starboard tip"}, "port, starboard tip"},
		{[]string{"stern port deck", "stern starboard deck"}, "stern port, starboard deck"},
		{[]string{"hatch", "vent"}, "hatch, vent"},
		{[]string{"tip", "tip port"}, "tip, tip port"},
		{[]string{"tip", "tip"}, "tip, tip"},
	} {
		if got := joinNames(tc.names); got != tc.want {
			t.Errorf("joinNames(%q) = %q, want %q", tc.names, got, tc.want)
		}
	}
}

func TestAngleWords(t *testing.T) {
	for _, tc := range []struct {
		deg  float64
		want string
	}{{2.44, "2.4° nose up"}, {-2.44, "2.4° nose down"}, {0.04, "0.0°"}, {-0.04, "0.0°"}} {
		if got := withSense(tc.deg*math.Pi/180, "nose up", "nose down"); got != tc.want {
			t.Errorf("withSense(%g°) = %q, want %q", tc.deg, got, tc.want)
		}
	}
}

func TestMillimeters(t *testing.T) {
	for _, tc := range []struct {
		m, size float64
		want    string
	}{{0.0384, 1.2, "38 mm"}, {0.0384, 0.4, "38.4 mm"}, {-0.0066, 1.2, "−7 mm"}} {
		if got := millimeters(tc.m, tc.size); got != tc.want {
			t.Errorf("millimeters(%g, %g) = %q, want %q", tc.m, tc.size, got, tc.want)
		}
	}
}

// Craft of any shape fit their page, the views do not overlap, and a lower
// page shrinks them.
func TestSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := func(name string) float64 { return math.Pow(10, rapid.Float64Range(-1.5, 1).Draw(t, name)) }
		f := shape{
			long: dim("long"), wide: dim("wide"), tall: dim("tall"),
			facts:      rapid.IntRange(0, 15).Draw(t, "facts"),
			factsWidth: vg.Length(rapid.Float64Range(100, 250).Draw(t, "width")), footing: 30,
		}
		full := f.sheet(profileWidth, 1).height
		height := full * vg.Length(rapid.Float64Range(0.8, 1.3).Draw(t, "page"))
		s, ok := f.fit(profileWidth, height)
		if !ok {
			if height >= full {
				t.Fatalf("a page of its own size is too small")
			}
			return
		}
		page := vg.Rectangle{Min: vg.Point{X: -1e-6, Y: -0.6}, Max: vg.Point{X: profileWidth + 1e-6, Y: height + 1e-6}}
		views := []vg.Rectangle{s.side, s.plan, s.front}
		if f.facts > 0 {
			views = append(views, s.facts)
		}
		for i, a := range views {
			if !within(a, page) || a.Size().X <= 0 || a.Size().Y < 0 {
				t.Fatalf("view %d is %v on a page of %v", i, a, page)
			}
			for k, b := range views[:i] {
				if overlaps(around(a.Min.Add(a.Max).Scale(0.5), a.Size().X/2-0.01, a.Size().Y/2-0.01), b) {
					t.Fatalf("views %d and %d overlap: %v %v", k, i, b, a)
				}
			}
		}
		// The craft fits its views.
		for _, v := range []struct {
			name       string
			r          vg.Rectangle
			m          margins
			x, y, size float64
		}{
			{"side", s.side, sideMargins, f.long, f.tall, s.sideScale},
			{"plan", s.plan, planMargins, f.long, f.wide, s.lowScale},
			{"front", s.front, frontMargins, f.wide, f.tall, s.lowScale},
		} {
			room := v.r.Size()
			if float64(room.X-v.m.across())+1e-6 < v.x*v.size || float64(room.Y-v.m.upright())+1e-6 < v.y*v.size {
				t.Fatalf("%s view of %v is too small for %g x %g at %g points a meter", v.name, room, v.x, v.y, v.size)
			}
		}
	})
}

// Odd figures draw something and do not fail.
func TestProfileOdd(t *testing.T) {
	empty := &Profile{Title: "nothing", Up: r3.Vec{Z: 1}}
	flat := boxCraft(0, 0)
	flat.Parts[0].Triangles = Triangles([]r3.Triangle{{{X: 0}, {X: 1}, {X: 1, Y: 1}}})
	flat.Parts = flat.Parts[:1]
	vertical := boxCraft(-90, 0)
	vertical.Trim = math.NaN()
	over := boxCraft(4, 180)
	over.GM = &MetacentricHeights{-0.05, math.NaN()}
	odd := boxCraft(2, 0)
	odd.Points[0].At.X = math.NaN()
	odd.CB.Z = math.Inf(-1)
	odd.AngleOfAttack = math.NaN()
	for _, tc := range []struct {
		name string
		p    *Profile
		w, h vg.Length
	}{
		{"empty", empty, 0, 0}, {"flat", flat, 0, 0}, {"vertical", vertical, 0, 0}, {"over", over, 0, 0}, {"not numbers", odd, 0, 0},
		{"tiny page", boxCraft(1, 1), 40, 30}, {"low page", boxCraft(1, 1), profileWidth, 500},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if tc.w == 0 {
				tc.w, tc.h = tc.p.Size()
			}
			var b bytes.Buffer
			if err := Write(&b, "png", tc.w, tc.h, tc.p.Draw); err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(&b)
			if err != nil {
				t.Fatal(err)
			}
			dark := 0
			for y := range img.Bounds().Dy() {
				for x := range img.Bounds().Dx() {
					if r, _, _, _ := img.At(x, y).RGBA(); r < 0x6000 {
						dark++
					}
				}
			}
			if dark < 20 {
				t.Errorf("only %d dark pixels", dark)
			}
		})
	}
}
