// Package bench has what the benchmarks of several packages share: the float
// that all of testdata/bench is measured on, and a way to time that means
// something on a machine that does other things too.
package bench

import (
	"math"
	"runtime"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

const deg = math.Pi / 180

// Lines are those of a float as a builder might draw it, one unit long.
var Lines = shape.Float{
	Forebody: 0.55, Afterbody: 0.45, Beam: 0.12, Depth: 0.11, Step: 0.012, Deadrise: 20 * deg,
	BowDeadrise: 40 * deg, AfterbodyAngle: 7 * deg, Straight: 0.5, BowRise: 0.06, Sheer: 0.01,
	Transom: 0.03, Edge: 0.02,
}

// Float returns the float in about so many triangles, its vertices rounded as
// an STL file keeps them.
func Float(triangles int) *mesh.Mesh { return Rounded(Lines.Mesh(triangles)) }

// Rounded returns m with its vertices rounded to float32.
func Rounded(m *mesh.Mesh) *mesh.Mesh {
	for i, v := range m.Vertices {
		m.Vertices[i] = r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	return m
}

// Size is a number of triangles with its name in benchmarks.
type Size struct {
	Name  string
	Count int
}

// Sizes are the numbers of triangles that all is measured at.
var Sizes = []Size{{"1e4", 1e4}, {"1e5", 1e5}, {"1e6", 1e6}}

// EachSize runs f as a benchmark named tris=1e4 and so on.
func EachSize(b *testing.B, f func(b *testing.B, s Size)) {
	for _, s := range Sizes {
		b.Run("tris="+s.Name, func(b *testing.B) { f(b, s) })
	}
}

// InTurn times f over the cases 0 to cases-1 in turn, so that none profits from
// the one before. Besides the mean it reports, as least-ns/op, the mean over
// the cases of the least time that each took: whatever else a machine does can
// only add to a time.
func InTurn(b *testing.B, cases int, f func(i int)) { Repeated(b, cases, 1, f) }

// Repeated is InTurn with each case several times before the next, as the steps
// of a solver that closes in.
func Repeated(b *testing.B, cases, times int, f func(i int)) {
	b.ReportAllocs()
	inTurn(b, cases, times, func(i int) time.Duration {
		start := time.Now()
		f(i)
		return time.Since(start)
	})
}

// Prepared is InTurn for what needs something made anew each time: prepare
// makes it, untimed, and returns what is to be timed. The mean includes both,
// and collecting what prepare leaves behind.
func Prepared(b *testing.B, cases int, prepare func(i int) (timed func())) {
	inTurn(b, cases, 1, func(i int) time.Duration {
		timed := prepare(i)
		runtime.GC() // not while it is timed
		start := time.Now()
		timed()
		return time.Since(start)
	})
}

// inTurn runs the cases in turn, each so many times, and each saying how long it
// took.
func inTurn(b *testing.B, cases, times int, f func(i int) time.Duration) {
	const never = math.MaxInt64
	least := make([]time.Duration, cases)
	for i := range least {
		least[i] = never
	}
	for n := 0; b.Loop(); n++ {
		i := n / times % cases
		least[i] = min(least[i], f(i))
	}
	sum, ran := time.Duration(0), 0
	for _, d := range least {
		if d < never {
			sum, ran = sum+d, ran+1
		}
	}
	b.ReportMetric(float64(sum.Nanoseconds())/float64(ran), "least-ns/op")
}
