package mesh

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/parts"
)

// index is a tree over the triangles of a solid, sorted in space, that lets a
// cut visit only what is near the plane.
type index struct {
	// nodes go level by level, the root last. The children of node i are
	// first[i], first[i]+1 and so on: leaves for the first so many nodes
	// as bottoms says, nodes for the others.
	nodes   []node
	first   []uint32
	bottoms int
	leaves  []leaf
	// corners holds the vertices of each leaf's triangles, relative to the
	// solid's origin, one leaf after the other: first all its x, then all
	// its y, then all its z.
	corners []float64
}

const (
	fan      = 4  // children of a node
	leafSize = 20 // triangles in a leaf: 3*leafSize vertices are fewer than corner
)

// node holds what there is to know of its children, so that one visit tests
// them all. It has 704 bytes, 11 times 64: memory comes in pieces of 64, and
// what is read of a node at once begins with one.
type node struct {
	// ends holds the least and the greatest coordinates, by axis, of each
	// child. Those of a missing child are NaN and so neither wet nor dry.
	ends [2][3][fan]float64
	sums [fan]integrals
}

// leaf is up to leafSize triangles.
type leaf struct {
	first uint32 // of its numbers among the index's corners
	count uint32 // of vertices
	// triangles holds which of the leaf's vertices each triangle has, 8
	// bits each from the lowest up. Where triangles are missing all three
	// are the first: a triangle without area adds nothing.
	triangles [leafSize]uint32
}

// leafCorners is the most vertices that a leaf can have.
const leafCorners = 3 * leafSize

// newIndex builds the tree over the triangles of s. Whatever can be is shared
// out, so nothing may depend on what comes first.
func newIndex(s *Solid) *index {
	order := spaceOrder(s)
	x := &index{leaves: make([]leaf, (len(order)+leafSize-1)/leafSize)}
	numbers := func(i int) []uint32 { return order[i*leafSize : min((i+1)*leafSize, len(order))] }
	parts.Blocks(len(x.leaves), leafSize, func(from, to int) {
		for i := from; i < to; i++ {
			x.leaves[i].number(s, numbers(i))
		}
	})
	corners := 0
	for i := range x.leaves {
		x.leaves[i].first = uint32(corners)
		corners += 3 * int(x.leaves[i].count)
	}
	x.corners = make([]float64, corners+corner) // room to look at any leaf as so many

	n := x.addLevel(0, len(x.leaves))
	x.bottoms = n
	parts.Blocks(len(x.leaves), leafSize, func(from, to int) {
		for i := from; i < to; i++ {
			x.copyCorners(i, s, numbers(i))
			x.nodes[i/fan].set(i%fan, x.leafBox(i), x.leafSums(i))
		}
	})
	for from := 0; n > 1; {
		children := n
		n = x.addLevel(from, children)
		for i := range children {
			x.nodes[from+children+i/fan].set(i%fan, x.nodes[from+i].box(), x.nodes[from+i].sum())
		}
		from += children
	}
	return x
}

// addLevel adds the nodes over children that start at number first, and
// returns how many they are.
func (x *index) addLevel(first, children int) int {
	n := (children + fan - 1) / fan
	x.nodes = slices.Grow(x.nodes, n)
	for i := range n {
		var empty node
		for j := range fan {
			empty.set(j, r3.Box{Min: missing, Max: missing}, integrals{})
		}
		x.nodes = append(x.nodes, empty)
		x.first = append(x.first, uint32(first+i*fan))
	}
	return n
}

var missing = r3.Vec{X: math.NaN(), Y: math.NaN(), Z: math.NaN()}

// set sets what a node knows of its child j.
func (n *node) set(j int, box r3.Box, sums integrals) {
	for end, p := range [2]r3.Vec{box.Min, box.Max} {
		n.ends[end][0][j], n.ends[end][1][j], n.ends[end][2][j] = p.X, p.Y, p.Z
	}
	n.sums[j] = sums
}

// box returns the smallest box around all children.
func (n *node) box() r3.Box {
	b := r3.Box{Min: n.end(0, 0), Max: n.end(1, 0)}
	for j := 1; j < fan && n.ends[0][0][j] == n.ends[0][0][j]; j++ { // no NaN
		b = around(around(b, n.end(0, j)), n.end(1, j))
	}
	return b
}

// sum returns the sums over all children.
func (n *node) sum() integrals {
	sum := n.sums[0]
	for j := 1; j < fan; j++ {
		sum.join(&n.sums[j])
	}
	return sum
}

// around returns the smallest box that holds b and p.
func around(b r3.Box, p r3.Vec) r3.Box {
	return r3.Box{
		Min: r3.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y), Z: min(b.Min.Z, p.Z)},
		Max: r3.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y), Z: max(b.Max.Z, p.Z)},
	}
}

// number gives numbers of their own to the vertices of the leaf's triangles,
// in the order in which they come.
func (l *leaf) number(s *Solid, triangles []uint32) {
	var seen [leafCorners]uint32
	n := 0
	for i, t := range triangles {
		for k, v := range s.triangles[t] {
			j := slices.Index(seen[:n], v)
			if j < 0 {
				j = n
				seen[n] = v
				n++
			}
			l.triangles[i] |= uint32(j) << (8 * k)
		}
	}
	l.count = uint32(n)
}

// copyCorners copies the vertices of leaf i.
func (x *index) copyCorners(i int, s *Solid, triangles []uint32) {
	l := &x.leaves[i]
	xs, ys, zs := x.vertices(l)
	for i, t := range triangles {
		for k, v := range s.triangles[t] {
			j := l.corner(i, k)
			xs[j], ys[j], zs[j] = s.vertices[v].X, s.vertices[v].Y, s.vertices[v].Z
		}
	}
}

// corner returns which of the leaf's vertices corner k of its triangle i is.
func (l *leaf) corner(i, k int) int { return int(l.triangles[i] >> (8 * k) & 255) }

// vertices returns the coordinates of a leaf's vertices.
func (x *index) vertices(l *leaf) (xs, ys, zs []float64) {
	n := int(l.count)
	v := x.corners[l.first : int(l.first)+3*n]
	return v[:n], v[n : 2*n], v[2*n:]
}

// leafBox returns the smallest box around leaf i.
func (x *index) leafBox(i int) r3.Box {
	xs, ys, zs := x.vertices(&x.leaves[i])
	return r3.Box{
		Min: r3.Vec{X: slices.Min(xs), Y: slices.Min(ys), Z: slices.Min(zs)},
		Max: r3.Vec{X: slices.Max(xs), Y: slices.Max(ys), Z: slices.Max(zs)},
	}
}

// leafSums returns the sums over the triangles of leaf i.
func (x *index) leafSums(i int) integrals {
	l := &x.leaves[i]
	var sum integrals
	for i := range l.triangles {
		p := x.triangle(l, i)
		sum.add(p[0], p[1], p[2])
	}
	return sum
}
