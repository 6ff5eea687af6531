package mesh_test

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/bench"
)

// Benchmarks of one cut, each with a plain rival beside it. Every plane of a
// set is cut in turn, so that nobody profits from the one before. For the table
// of testdata/bench, which also runs other libraries on the same mesh and
// planes, see the script there.

// benchFloats are floats that benchmarks share, with an index, by size.
var benchFloats = map[int]*mesh.Solid{}

// benchFloat returns the float of about so many triangles.
func benchFloat(b *testing.B, count int) *mesh.Solid {
	if benchFloats[count] == nil {
		benchFloats[count] = indexed(b, bench.Float(count))
	}
	return benchFloats[count]
}

// benchPlanes is how many planes are cut in turn: as many as a righting curve
// from 0 to 180 degrees in steps of 10 has points, rounded down to a power of
// two.
const benchPlanes = 16

// cutSet is a solid and the planes to cut it by.
type cutSet struct {
	mesh.Placed
	planes []mesh.Plane
}

// eachSize runs f for every size, with the planes in turn.
func eachSize(b *testing.B, f func(b *testing.B, c cutSet)) {
	bench.EachSize(b, func(b *testing.B, size bench.Size) {
		f(b, cutSet{
			mesh.Placed{Solid: benchFloat(b, size.Count), Place: mesh.Identity()},
			floatPlanes(rand.New(rand.NewPCG(5, 10)), benchPlanes),
		})
	})
}

// inTurn times f over the planes, each of them so many times before the next.
func (c cutSet) inTurn(b *testing.B, times int, f func(i int)) {
	bench.Repeated(b, len(c.planes), times, f)
}

var (
	sectionSink mesh.Section
	pointSink   r3.Vec
	floatSink   float64
)

// BenchmarkCut: everything below a plane.
func BenchmarkCut(b *testing.B) {
	eachSize(b, func(b *testing.B, c cutSet) {
		triangles := float64(c.Solid.Triangles())
		visited, straddling := 0, 0
		for _, pl := range c.planes {
			if d := unlike(c.Below(pl, r3.Vec{}), c.Straight(pl, r3.Vec{}), 1); d != "" {
				b.Fatalf("Below(%v) by the index against the straight pass:%s", pl, d)
			}
			visited += c.Visited(pl)
			straddling += c.Straddling(pl).Len()
		}
		b.Run("by=index", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { sectionSink = c.Below(c.planes[i], r3.Vec{}) })
			b.ReportMetric(triangles, "triangles")
			b.ReportMetric(float64(visited)/benchPlanes, "visited")
			b.ReportMetric(float64(straddling)/benchPlanes, "straddling")
		})
		b.Run("by=straight", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { sectionSink = c.Straight(c.planes[i], r3.Vec{}) })
		})
		// The same planes, each many times, so that all of it is in the
		// nearest cache: as the steps of a solver that closes in.
		b.Run("by=index-again", func(b *testing.B) {
			c.inTurn(b, 16, func(i int) { sectionSink = c.Below(c.planes[i], r3.Vec{}) })
		})
		// The least that a cut has to do: clip the triangles that the
		// plane parts, if they lay side by side, in the nearest cache.
		b.Run("by=floor-clip", func(b *testing.B) {
			var parted []*mesh.Straddling
			for _, pl := range c.planes {
				parted = append(parted, c.Straddling(pl))
			}
			c.inTurn(b, 16, func(i int) { sectionSink = parted[i].Cut() })
		})
		// The least that a straight pass has to do: read every number
		// once.
		b.Run("by=floor-stream", func(b *testing.B) {
			numbers := make([]float64, (c.Solid.Vertices()*24+c.Solid.Triangles()*12)/8)
			b.SetBytes(int64(len(numbers)) * 8)
			c.inTurn(b, 1, func(int) {
				var s0, s1, s2, s3 float64
				for n := numbers; len(n) >= 4; n = n[4:] {
					s0, s1, s2, s3 = s0+n[0], s1+n[1], s2+n[2], s3+n[3]
				}
				floatSink = s0 + s1 + s2 + s3
			})
		})
	})
}

// BenchmarkIndex: to build it.
func BenchmarkIndex(b *testing.B) {
	eachSize(b, func(b *testing.B, c cutSet) {
		c.planes = c.planes[:1] // not used, but for one least time
		c.inTurn(b, 1, func(int) { mesh.NewIndex(c.Solid) })
		b.ReportMetric(float64(c.Solid.IndexBytes())/float64(c.Solid.Triangles()), "B/triangle")
	})
}

// BenchmarkLowest: the lowest point over a plane's normal.
func BenchmarkLowest(b *testing.B) {
	eachSize(b, func(b *testing.B, c cutSet) {
		b.Run("by=index", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { pointSink = c.Lowest(c.planes[i].Normal) })
		})
		plain := mesh.Placed{Solid: solidOf(b, meshOf(c.Solid)), Place: mesh.Identity()}
		for _, pl := range c.planes {
			if got, want := c.Lowest(pl.Normal), plain.Lowest(pl.Normal); got != want {
				b.Fatalf("Lowest(%v) = %v by the index, want %v", pl.Normal, got, want)
			}
		}
		b.Run("by=straight", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { pointSink = plain.Lowest(c.planes[i].Normal) })
		})
	})
}

// BenchmarkWetArea: the surface below a plane.
func BenchmarkWetArea(b *testing.B) {
	eachSize(b, func(b *testing.B, c cutSet) {
		b.Run("by=index", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { floatSink = c.WetArea(c.planes[i]) })
		})
		b.Run("by=straight", func(b *testing.B) {
			c.inTurn(b, 1, func(i int) { floatSink = c.StraightWetArea(c.planes[i]) })
		})
	})
}

// meshOf returns the vertices and triangles of a solid.
func meshOf(s *mesh.Solid) *mesh.Mesh {
	m := new(mesh.Mesh)
	for i := range s.Vertices() {
		m.Vertices = append(m.Vertices, s.Vertex(i))
	}
	for i := range s.Triangles() {
		m.Triangles = append(m.Triangles, s.Corners(i))
	}
	return m
}
