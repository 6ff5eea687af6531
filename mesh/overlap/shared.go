package overlap

import (
	"fmt"
	"math"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shared returns what a solid shares with the others taken together, as a
// closed chain of triangles in the coordinates of the solid's own file: to be
// placed as the solid is. It is nil when they share nothing, not even a stretch
// of surface; its volume is zero where they only touch.
//
// The chain is made of the pieces of a's surface that lie inside the others or
// flat on them, and of the pieces of their union's surface inside a. Where
// surfaces lie flat on each other facing the same way, the others' counts as
// the outer one.
//
// Corners are rounded to 2^-50 of the size. Where one part is shifted or scaled
// against another, faces that are flush but for the rounding of their files to
// float32 are made so; see settle.
//
// It fails with a [*TooManyError] when too many facets lie over one another, and
// with another error when a result fails its checks.
func Shared(a mesh.Placed, others []mesh.Placed) (*mesh.Solid, error) {
	q, err := newQuestion(a, others)
	if err != nil || len(q.near) == 0 {
		return nil, err
	}
	return q.answer()
}

// question is what Shared is asked, in the coordinates of the solid's file.
type question struct {
	solid *mesh.Solid
	near  []neighbor
}

// neighbor is another solid whose box meets the solid's.
type neighbor struct {
	index int // of the others
	solid *mesh.Solid
	place mesh.Affine // from its file's coordinates
}

// newQuestion leaves out the solids that are far from a, by their boxes.
func newQuestion(a mesh.Placed, others []mesh.Placed) (*question, error) {
	q := &question{solid: a.Solid}
	back, ok := a.Place.Inverse()
	if !ok {
		return nil, fmt.Errorf("overlap: the placement flattens the solid")
	}
	mine := boundsOf(corners(a.Solid.Box()))
	for i, o := range others {
		place := relative(o.Place.Then(back), mine)
		at := corners(o.Solid.Box())
		for k := range at {
			at[k] = place.Point(at[k])
		}
		if b := boundsOf(at); b.near(&mine) {
			q.near = append(q.near, neighbor{i, o.Solid, place})
		}
	}
	return q, nil
}

// corners returns the corners of a box.
func corners(b r3.Box) []r3.Vec {
	var out []r3.Vec
	for _, x := range [2]float64{b.Min.X, b.Max.X} {
		for _, y := range [2]float64{b.Min.Y, b.Max.Y} {
			for _, z := range [2]float64{b.Min.Z, b.Max.Z} {
				out = append(out, r3.Vec{X: x, Y: y, Z: z})
			}
		}
	}
	return out
}

// near reports whether two boxes meet, or nearly so: see settle, and rounding has
// its part in them.
func (b *box) near(c *box) bool {
	margin := 1e-6 * (b.extent() + c.extent())
	for k := range 3 {
		if b.lo[k] > c.hi[k]+margin || c.lo[k] > b.hi[k]+margin {
			return false
		}
	}
	return true
}

// answer works out what is shared.
func (q *question) answer() (*mesh.Solid, error) {
	soups := make([]soup, 0, len(q.near)+1)
	mine := soupOf(q.solid, mesh.Identity())
	for _, n := range q.near {
		s := soupOf(n.solid, n.place)
		settle(&s, n.place, &mine)
		soups = append(soups, s)
	}
	soups = append(soups, mine)
	chain, err := shared(soups, fine)
	if isWrong(err) {
		chain, err = shared(soups, coarse) // other numbers, other luck
	}
	if err != nil || len(chain.triangles) == 0 {
		return nil, err
	}
	return mesh.NewChain(chain.vertices, chain.triangles)
}

// soupOf returns the triangles of a solid under a map.
func soupOf(s *mesh.Solid, m mesh.Affine) soup {
	out := soup{make([]r3.Vec, s.Vertices()), make([][3]uint32, s.Triangles())}
	same := m == mesh.Identity()
	for i := range out.vertices {
		if out.vertices[i] = s.Vertex(i); !same {
			out.vertices[i] = m.Point(out.vertices[i])
		}
	}
	mirrored := m.Det() < 0
	for i := range out.triangles {
		t := s.Corners(i)
		if mirrored {
			t[1], t[2] = t[2], t[1]
		}
		out.triangles[i] = t
	}
	return out
}

// boundsOf returns the box around points.
func boundsOf(points []r3.Vec) box {
	b := emptyBox()
	for _, p := range points {
		b.add(&[3]float64{p.X, p.Y, p.Z})
	}
	return b
}

// relative takes the rounding out of a map that was put together from others:
// entries that are zero or one but for rounding are made so, and a shift by a
// number of few digits, such as 190 mm, is made that number. So what is drawn
// flush stays flush.
func relative(m mesh.Affine, b box) mesh.Affine {
	const rounding = 1e-13
	for i := range m.M {
		for j, x := range m.M[i] {
			if r := math.Round(x); math.Abs(r) <= 1 && math.Abs(x-r) <= rounding {
				m.M[i][j] = r
			}
		}
	}
	size := max(b.hi[0]-b.lo[0], b.hi[1]-b.lo[1], b.hi[2]-b.lo[2], math.Abs(m.T.X), math.Abs(m.T.Y), math.Abs(m.T.Z))
	_, e := math.Frexp(size)
	grid := math.Ldexp(1, e-30)
	near := func(x float64) float64 {
		if r := math.Round(x/grid) * grid; math.Abs(x-r) <= rounding*size {
			return r
		}
		return x
	}
	m.T = r3.Vec{X: near(m.T.X), Y: near(m.T.Y), Z: near(m.T.Z)}
	return m
}

// shared returns the chain of what the last of the solids shares with the
// others.
func shared(soups []soup, bits int) (soup, error) {
	a, err := newArrangement(soups, bits)
	if err != nil {
		return soup{}, err
	}
	last := len(soups) - 1
	active := a.active(last)
	if active == nil {
		return soup{}, nil
	}
	within := &a.bodies[last].box
	var failed error
	visit := func(f, g uint32) bool {
		failed = a.visit(f, g)
		return failed == nil
	}
	for i := range soups {
		for j := range i {
			if !a.treeOf(i).pairs(a.treeOf(j), within, visit) {
				return soup{}, failed
			}
		}
	}
	list, err := a.pieces(active)
	if err != nil {
		return soup{}, err
	}
	all := make([]int, len(soups))
	for i := range all {
		all[i] = i
	}
	// A solid's own surface is passed over: it is taken for clean.
	bodies := make([][]int, len(soups))
	for i := range bodies {
		bodies[i] = append(append([]int(nil), all[:i]...), all[i+1:]...)
	}
	thrown, err := a.judge(list,
		func(p *piece) []int { return bodies[a.facets[p.facet].solid] },
		func(p *piece, v *view) bool { return isShared(v, a.facets[p.facet].solid, int32(last)) })
	if err != nil {
		return soup{}, err
	}
	kept := list[:0]
	for i, p := range list {
		if thrown[i] {
			kept = append(kept, p)
		}
	}
	if kept, err = a.zip(kept); err != nil {
		return soup{}, err
	}
	if err := a.checkShared(kept, last); err != nil {
		return soup{}, err
	}
	return a.chain(kept), nil
}

// isShared decides on a piece of a solid's surface: whether the union of all
// solids throws it away while the union of those before the last keeps it, or,
// for the last, does not need it.
func isShared(v *view, solid, last int32) bool {
	covered := false
	for i := range last {
		covered = covered || i != solid && v.front(i) > 0
	}
	if solid == last {
		return covered || v.same(func(l *layer) bool { return l.solid != last })
	}
	return !covered && v.front(last) > 0 &&
		!v.same(func(l *layer) bool { return l.solid < solid })
}

// active returns the facets that may have a part in what the last solid shares
// with the others: its own near any of theirs, and theirs near it. It returns
// nil when there is none.
func (a *arrangement) active(last int) []uint32 {
	var list []uint32
	mine := &a.bodies[last].box
	reach := emptyBox()
	for i := range a.bodies {
		if i == last {
			continue
		}
		b := &a.bodies[i]
		if !b.box.meets(mine) {
			continue
		}
		reach.join(&b.box)
		for f := b.first; f < b.first+b.count; f++ {
			if fb := a.boxOf(uint32(f)); fb.meets(mine) {
				list = append(list, uint32(f))
			}
		}
	}
	b := &a.bodies[last]
	for f := b.first; f < b.first+b.count; f++ {
		if fb := a.boxOf(uint32(f)); fb.meets(&reach) {
			list = append(list, uint32(f))
		}
	}
	return list
}

// visit looks at a pair of facets whose boxes meet.
func (a *arrangement) visit(f, g uint32) error {
	if a.left.pairs--; a.left.pairs < 0 {
		return &TooManyError{What: "pairs of facets near each other", Most: a.limit.pairs}
	}
	return a.meet(f, g)
}

// chain returns pieces as triangles with vertices of their own, in the
// coordinates of the soups.
func (a *arrangement) chain(list []piece) soup {
	var out soup
	number := make(map[uint32]uint32, len(list)/2+3)
	for _, p := range list {
		var t [3]uint32
		for k, v := range p.v {
			n, ok := number[v]
			if !ok {
				n = uint32(len(out.vertices))
				number[v] = n
				out.vertices = append(out.vertices, a.lattice.point(a.at[v]))
			}
			t[k] = n
		}
		out.triangles = append(out.triangles, t)
	}
	return out
}
