package mend

import (
	"runtime"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// TestProcessors closes a large mesh that needs all kinds of mending on one
// processor and on more: nothing may differ, down to the last bit.
func TestProcessors(t *testing.T) {
	ring := shape.Soup(shape.Torus(3, 1, 400, 200))
	for i, v := range ring.Vertices { // so that the middle of an edge is exact
		ring.Vertices[i] = r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	for i := 0; i < len(ring.Triangles); i += 5000 { // turned
		c := &ring.Triangles[i]
		c[1], c[2] = c[2], c[1]
	}
	for i := 100; i < len(ring.Triangles); i += 9000 { // there twice
		ring.Triangles = append(ring.Triangles, ring.Triangles[i])
	}
	split := ring.Triangle(50_001) // a sliver closes what is split on one side only
	mid := r3.Scale(0.5, r3.Add(split[0], split[1]))
	n := uint32(len(ring.Vertices))
	c := ring.Triangles[50_001]
	ring.Vertices = append(ring.Vertices, mid)
	ring.Triangles[50_001] = [3]uint32{c[0], n, c[2]}
	ring.Triangles = append(ring.Triangles, [3]uint32{n, c[1], c[2]}, [3]uint32{c[0], c[1], n})
	// A box through the ring's wall.
	m := shape.Join(shape.Without(ring, 70_000), shape.Transformed(shape.Box(0.3, 0.31, 0.32), mesh.Translation(r3.Vec{X: 3.9, Y: 0.01, Z: 0.02})))

	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	want, err := Close(m, Options{MaxHole: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	if want.Flipped == 0 || want.Duplicates == 0 || want.Crossing == 0 || want.OpenEdges == 0 || want.Slivers == 0 {
		t.Errorf("the mesh needs too little mending: %+v", want.Report)
	}
	for _, procs := range []int{2, 5} {
		runtime.GOMAXPROCS(procs)
		got, err := Close(m, Options{MaxHole: 0.01})
		if err != nil {
			t.Fatal(err)
		}
		if got.Volume != want.Volume || got.Area != want.Area || !slices.Equal(got.Mended, want.Mended) || got.Solid.Triangles() != want.Solid.Triangles() || got.Solid.Vertices() != want.Solid.Vertices() {
			t.Errorf("on %d processors: %+v, want %+v", procs, got.Report, want.Report)
			continue
		}
		for i := range want.Solid.Vertices() {
			if g, w := got.Solid.Vertex(i), want.Solid.Vertex(i); g != w {
				t.Fatalf("on %d processors: vertex %d is %v, want %v", procs, i, g, w)
			}
		}
		for i := range want.Solid.Triangles() {
			if g, w := got.Solid.Corners(i), want.Solid.Corners(i); g != w {
				t.Fatalf("on %d processors: triangle %d has vertices %v, want %v", procs, i, g, w)
			}
		}
	}
}
