package shape

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Join returns one mesh holding all shells of the given ones. Nothing is
// welded or united: shells that touch or overlap stay as they are.
func Join(meshes ...*mesh.Mesh) *mesh.Mesh {
	out := &mesh.Mesh{Name: "joined"}
	for _, m := range meshes {
		base := uint32(len(out.Vertices))
		out.Vertices = append(out.Vertices, m.Vertices...)
		for _, t := range m.Triangles {
			out.Triangles = append(out.Triangles, [3]uint32{t[0] + base, t[1] + base, t[2] + base})
		}
	}
	return out
}

// Transformed returns the image of m under a. Where a mirrors, the triangles
// are turned over, so that the image of an outward mesh is outward.
func Transformed(m *mesh.Mesh, a mesh.Affine) *mesh.Mesh {
	out := copied(m)
	for i, v := range out.Vertices {
		out.Vertices[i] = a.Point(v)
	}
	if a.Det() < 0 {
		turnOver(out)
	}
	return out
}

// InsideOut returns m with every triangle turned over: a cavity, or an
// export with its normals inward.
func InsideOut(m *mesh.Mesh) *mesh.Mesh {
	out := copied(m)
	turnOver(out)
	return out
}

func turnOver(m *mesh.Mesh) {
	for i := range m.Triangles {
		t := &m.Triangles[i]
		t[1], t[2] = t[2], t[1]
	}
}

// Refined returns m with every triangle split into four by the midpoints of
// its edges. The surface is the same set of points but for the rounding of the
// midpoints.
func Refined(m *mesh.Mesh) *mesh.Mesh {
	out := copied(m)
	out.Triangles = make([][3]uint32, 0, 4*len(m.Triangles))
	middles := make(map[[2]uint32]uint32, len(m.Triangles)*3/2)
	middle := func(i, j uint32) uint32 {
		if i > j {
			i, j = j, i // both triangles of an edge get the same bits
		}
		k, ok := middles[[2]uint32{i, j}]
		if !ok {
			k = uint32(len(out.Vertices))
			middles[[2]uint32{i, j}] = k
			out.Vertices = append(out.Vertices, r3.Scale(0.5, r3.Add(m.Vertices[i], m.Vertices[j])))
		}
		return k
	}
	for _, t := range m.Triangles {
		a, b, c := middle(t[1], t[2]), middle(t[2], t[0]), middle(t[0], t[1])
		out.Triangles = append(out.Triangles, [3]uint32{t[0], c, b}, [3]uint32{t[1], a, c}, [3]uint32{t[2], b, a}, [3]uint32{a, b, c})
	}
	return out
}

// Shuffled returns the same surface with its vertices and triangles in another
// order, and each triangle begun at another corner, the same for the same seed.
func Shuffled(m *mesh.Mesh, seed uint64) *mesh.Mesh {
	rng := rand.New(rand.NewPCG(seed, 0x706f6e64))
	place := rng.Perm(len(m.Vertices))
	out := copied(m)
	for i, v := range m.Vertices {
		out.Vertices[place[i]] = v
	}
	for i, j := range rng.Perm(len(m.Triangles)) {
		t, k := m.Triangles[j], rng.IntN(3)
		for c := range 3 {
			out.Triangles[i][c] = uint32(place[t[(c+k)%3]])
		}
	}
	return out
}

// Soup returns m with three vertices of its own for every triangle, in order,
// as a reader of STL gives it.
func Soup(m *mesh.Mesh) *mesh.Mesh {
	out := &mesh.Mesh{
		Name:      m.Name,
		Vertices:  make([]r3.Vec, 0, 3*len(m.Triangles)),
		Triangles: make([][3]uint32, len(m.Triangles)),
		Unit:      m.Unit,
	}
	for i, t := range m.Triangles {
		k := uint32(3 * i)
		out.Triangles[i] = [3]uint32{k, k + 1, k + 2}
		out.Vertices = append(out.Vertices, m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]])
	}
	return out
}

// Without returns m less the triangles of the given numbers: an open mesh.
func Without(m *mesh.Mesh, numbers ...int) *mesh.Mesh {
	drop := make(map[int]bool)
	for _, n := range numbers {
		drop[n] = true
	}
	out := copied(m)
	out.Triangles = out.Triangles[:0]
	for i, t := range m.Triangles {
		if !drop[i] {
			out.Triangles = append(out.Triangles, t)
		}
	}
	return out
}

func copied(m *mesh.Mesh) *mesh.Mesh {
	out := *m
	out.Vertices = append([]r3.Vec(nil), m.Vertices...)
	out.Triangles = append([][3]uint32(nil), m.Triangles...)
	return &out
}
