package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/bench"
)

// Benchmarks of solves, for the table of testdata/bench: one float of 1e4, 1e5
// and 1e6 triangles, loaded in eight ways in turn.

// benchSolids are the floats that the benchmarks share, by size: with an index,
// and without.
var benchSolids = map[int][2]*mesh.Solid{}

// benchBodies returns the float of a size, loaded in eight ways that rest
// within some degrees of level. With an index it is built; without, every cut is
// a straight pass.
func benchBodies(b testing.TB, size bench.Size, index bool) []*hydro.Body {
	if _, ok := benchSolids[size.Count]; !ok {
		m := bench.Float(size.Count)
		with, without := solid(b, m), solid(b, m)
		with.Prepare(math.MaxInt32)
		benchSolids[size.Count] = [2]*mesh.Solid{with, without}
	}
	s := benchSolids[size.Count][1]
	if index {
		s = benchSolids[size.Count][0]
	}
	return loaded(hullOf(b, s))
}

// loaded returns the eight ways to load a float of one unit length.
func loaded(h *hydro.Hull) []*hydro.Body {
	var bodies []*hydro.Body
	for i := range 8 {
		part := float64(i) / 7
		bodies = append(bodies, &hydro.Body{
			Hull: h, Density: 1000, Mass: 1000 * h.Volume() * (0.35 + 0.15*part),
			CG: r3.Vec{X: 0.05 - 0.02*part, Y: 0.002 * math.Sin(float64(i)), Z: 0.03 + 0.005*part},
		})
	}
	return bodies
}

// starts are where a rest is looked for from. At mid height means that the
// middle of the box around the hull lies in the surface.
var starts = []struct {
	name       string
	trim, heel float64
}{{"level", 0, 0}, {"heeled", 10 * rad, 50 * rad}, {"over", 0, 180 * rad}}

// midHeight returns the attitude with the middle of the hull in the surface.
func midHeight(h *hydro.Hull, trim, heel float64) hydro.Attitude {
	up := hydro.UpVector(trim, heel)
	return hydro.Attitude{Up: up, Height: -r3.Dot(up, h.Center())}
}

// BenchmarkRest: from a cold start.
func BenchmarkRest(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		for _, by := range []string{"index", "straight"} {
			bodies := benchBodies(b, size, by == "index")
			for _, from := range starts {
				b.Run("from="+from.name+"/by="+by, func(b *testing.B) {
					count := make(tally, len(bodies))
					bench.InTurn(b, len(bodies), func(i int) {
						r, err := bodies[i].RestFrom(midHeight(bodies[i].Hull, from.trim, from.heel))
						if err != nil {
							b.Fatal(err)
						}
						count[i].cuts = r.Cuts
					})
					count.report(b)
				})
			}
		}
	})
}

// tally counts the cuts of each case, and the steps they were spent on.
type tally []struct{ cuts, steps int }

// report reports the cuts of the cases that ran: their mean, the most, and what
// it comes to a step.
func (t tally) report(b *testing.B) {
	cuts, steps, ran, most := 0, 0, 0, 0
	for _, c := range t {
		if c.cuts > 0 {
			cuts, steps, ran, most = cuts+c.cuts, steps+c.steps, ran+1, max(most, c.cuts)
		}
	}
	b.ReportMetric(float64(cuts)/float64(max(ran, 1)), "cuts/op")
	b.ReportMetric(float64(most), "most-cuts")
	if steps > 0 {
		b.ReportMetric(float64(cuts)/float64(steps), "cuts/step")
	}
}

// BenchmarkOneRest: a single rest of a float just read: as the command does it,
// where the rule of Prepare decides whether an index pays; by the straight pass;
// and with an index built for it.
func BenchmarkOneRest(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		m := bench.Float(size.Count)
		for _, by := range []struct {
			name string
			cuts int // that Prepare is told of; none if it is not called
		}{{"rule", 5}, {"straight", 0}, {"index", math.MaxInt32}} {
			b.Run("by="+by.name, func(b *testing.B) {
				count := make(tally, 4)
				bench.Prepared(b, len(count), func(i int) func() {
					body := loaded(hullOf(b, solid(b, m)))[2*i]
					return func() {
						if by.cuts > 0 {
							body.Hull.Prepare(by.cuts)
						}
						r, err := body.RestFrom(midHeight(body.Hull, 0, 0))
						if err != nil {
							b.Fatal(err)
						}
						count[i].cuts = r.Cuts
					}
				})
				count.report(b)
			})
		}
	})
}

// BenchmarkWarm: solves that start from the one before.
func BenchmarkWarm(b *testing.B) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		bodies := benchBodies(b, size, true)
		var rests []*hydro.Rest
		for _, body := range bodies {
			rests = append(rests, restOf(b, body))
		}
		for _, along := range ways {
			b.Run("along="+along.name, func(b *testing.B) {
				count := make(tally, len(bodies))
				bench.InTurn(b, len(bodies), func(i int) {
					count[i].cuts, count[i].steps = along.follow(b, rests[i])
				})
				count.report(b)
			})
		}
	})
}

func BenchmarkAttitudes(b *testing.B) {
	body := fine(b)
	b.ReportAllocs()
	cuts := 0
	for b.Loop() {
		a, err := body.Attitudes()
		if err != nil {
			b.Fatal(err)
		}
		cuts = a.Cuts
	}
	b.ReportMetric(float64(cuts), "cuts/op")
}
