package shape

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Icosphere returns the sphere made from an icosahedron by splitting each
// triangle in four, level times, and moving the new vertices out to the
// sphere: 20*4^level triangles of nearly equal size, centered at the origin.
// Level zero is the icosahedron itself, of volume
// (5/12)(3+√5) e³ with the edge e = radius / sin(2π/5).
func Icosphere(radius float64, level int) *mesh.Mesh {
	if !(radius > 0) || level < 0 || level > 11 {
		panic("shape: an icosphere needs a positive radius and a level from 0 to 11")
	}
	g := (1 + math.Sqrt(5)) / 2
	m := &mesh.Mesh{
		Name: "icosphere",
		Vertices: []r3.Vec{
			{X: -1, Y: g}, {X: 1, Y: g}, {X: -1, Y: -g}, {X: 1, Y: -g},
			{Y: -1, Z: g}, {Y: 1, Z: g}, {Y: -1, Z: -g}, {Y: 1, Z: -g},
			{X: g, Z: -1}, {X: g, Z: 1}, {X: -g, Z: -1}, {X: -g, Z: 1},
		},
		Triangles: [][3]uint32{
			{0, 11, 5}, {0, 5, 1}, {0, 1, 7}, {0, 7, 10}, {0, 10, 11},
			{1, 5, 9}, {5, 11, 4}, {11, 10, 2}, {10, 7, 6}, {7, 1, 8},
			{3, 9, 4}, {3, 4, 2}, {3, 2, 6}, {3, 6, 8}, {3, 8, 9},
			{4, 9, 5}, {2, 4, 11}, {6, 2, 10}, {8, 6, 7}, {9, 8, 1},
		},
	}
	for range level {
		m = Refined(m)
		for i, v := range m.Vertices {
			m.Vertices[i] = r3.Unit(v)
		}
	}
	for i, v := range m.Vertices {
		m.Vertices[i] = r3.Scale(radius, r3.Unit(v))
	}
	return m
}

// Star returns a random smooth body of about unit size, the same for the same
// seed: an [Icosphere] of the given level whose radius swells and shrinks by
// at most a third with the direction, stretched along its axes by factors
// between 1/2 and 2. The origin sees every point of its surface, so it never
// crosses itself; it has no symmetry, and it is not convex as a rule.
func Star(seed uint64, level int) *mesh.Mesh {
	const waves, swing = 6, 1.0 / 3
	rng := rand.New(rand.NewPCG(seed, 0x6d696c6c))
	var wave [waves]r3.Vec
	var phase, share [waves]float64
	total := 0.0
	for k := range waves {
		wave[k] = r3.Scale(1.5, r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
		phase[k] = 2 * math.Pi * rng.Float64()
		share[k] = rng.Float64()
		total += share[k]
	}
	stretch := r3.Vec{X: math.Exp2(2*rng.Float64() - 1), Y: math.Exp2(2*rng.Float64() - 1), Z: math.Exp2(2*rng.Float64() - 1)}

	m := Icosphere(1, level)
	m.Name = "star"
	for i, d := range m.Vertices {
		r := 1.0
		for k := range waves {
			r += swing * share[k] / total * math.Sin(r3.Dot(wave[k], d)+phase[k])
		}
		m.Vertices[i] = r3.Vec{X: r * d.X * stretch.X, Y: r * d.Y * stretch.Y, Z: r * d.Z * stretch.Z}
	}
	return m
}
