package hydro_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// floatplane returns two stepped floats of about the given number of triangles
// in all, as on a model of 3.3 kg.
func floatplane(t testing.TB, triangles int) *hydro.Body {
	t.Helper()
	const mm = 0.001
	s := solid(t, shape.Float{
		Forebody: 440 * mm, Afterbody: 380 * mm, Beam: 86 * mm, Depth: 74 * mm, Step: 10 * mm,
		Deadrise: 20 * rad, BowDeadrise: 42 * rad, AfterbodyAngle: 4 * rad, Straight: 0.36,
		BowRise: 64 * mm, Sheer: 12 * mm, Transom: 48 * mm, Edge: 9 * mm,
	}.Mesh(triangles/2))
	var terms []hydro.Term
	for _, y := range []float64{0.19, -0.19} {
		terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: s, Place: mesh.Translation(r3.Vec{Y: y})}, Weight: 1})
	}
	h, err := hydro.NewHull(terms)
	if err != nil {
		t.Fatal(err)
	}
	return &hydro.Body{Hull: h, Mass: 3.35, CG: r3.Vec{X: 0.0163, Z: 0.197}, Density: 1000}
}

var puller = []hydro.ThrustLine{{At: r3.Vec{X: 0.375, Z: 0.235}, Along: r3.Vec{X: 1}, Most: 22, Torque: -0.35}}

func BenchmarkThrottle(b *testing.B) {
	for _, n := range []int{20_000, 200_000} {
		b.Run(fmt.Sprintf("tris=%d", n), func(b *testing.B) {
			body := floatplane(b, n)
			r := restOf(b, body)
			b.ReportAllocs()
			for b.Loop() {
				th, err := r.Throttle(puller, hydro.Reaction{})
				if err != nil {
					b.Fatal(err)
				}
				if limit, lost := th.Limit(); !lost || limit < 15 || limit > 40 {
					b.Fatalf("limit %g, %v", limit, lost)
				}
				for i := range 21 {
					th.Steady.At(float64(i) / 20)
				}
			}
		})
	}
}

// A step of the solver takes no memory.
func TestUnderLoadAllocates(t *testing.T) {
	b := floatplane(t, 2000)
	r := restOf(t, b)
	load := hydro.NewThrust(b, puller, hydro.Reaction{}, 1)
	p := hydro.Pose{Attitude: r.Attitude, Center: b.Hull.Center()}
	p.Rise = p.HeightOf(p.Center)
	p.T1, p.T2 = p.Headings()
	if n := testing.AllocsPerRun(20, func() { load.Push(p) }); n != 0 {
		t.Errorf("Push of a thrust allocates %g times", n)
	}
	wind := hydro.NewWind(r, hydro.Areas{Side: 0.1, SideAt: r3.Vec{Z: 0.2}}, 10, math.Pi/2)
	wind.Wing = &hydro.Wing{Area: 0.3, Span: 1.6, At: r3.Vec{Z: 0.3}, Chord: r3.Vec{X: 1}}
	if n := testing.AllocsPerRun(20, func() { wind.Push(p) }); n != 0 {
		t.Errorf("Push of a wind allocates %g times", n)
	}
}

func BenchmarkGale(b *testing.B) {
	for _, n := range []int{20_000, 200_000} {
		b.Run(fmt.Sprintf("tris=%d", n), func(b *testing.B) {
			body := floatplane(b, n)
			r := restOf(b, body)
			var all []mesh.Placed
			for _, t := range body.Hull.Terms() {
				all = append(all, t.Placed)
			}
			b.ReportAllocs()
			for b.Loop() {
				on := hydro.NewOutlines(all, body.Hull.Center())
				g, err := r.Gale(on, 90*rad, nil)
				if err != nil {
					b.Fatal(err)
				}
				if at, ok := g.At(10); !ok || !(at.Heel() > 0 || at.Heel() < 0) {
					b.Fatalf("in 10 m/s heel %g, %v", at.Heel(), ok)
				}
			}
		})
	}
}
