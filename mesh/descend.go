package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// What is asked for less often than a cut descends an index by recursion.

// root returns the number of the node over all others.
func (x *index) root() int { return len(x.nodes) - 1 }

// heights returns bounds on the heights under child j, as boxHeights does.
func (n *node) heights(j int, normal r3.Vec, offset float64) (low, high float64) {
	return boxHeights(&r3.Box{Min: n.end(0, j), Max: n.end(1, j)}, normal, offset)
}

// end returns the least or the greatest coordinates of child j.
func (n *node) end(end, j int) r3.Vec {
	return r3.Vec{X: n.ends[end][0][j], Y: n.ends[end][1][j], Z: n.ends[end][2][j]}
}

// triangle returns the corners of triangle i of a leaf.
func (x *index) triangle(l *leaf, i int) (p [3]r3.Vec) {
	xs, ys, zs := x.vertices(l)
	for k := range p {
		j := l.corner(i, k)
		p[k] = r3.Vec{X: xs[j], Y: ys[j], Z: zs[j]}
	}
	return p
}

// wetArea returns the area under node i that is below a plane.
func (x *index) wetArea(i int, normal r3.Vec, offset float64) float64 {
	n, bottom := &x.nodes[i], i < x.bottoms
	sum := 0.0
	for j := range fan {
		child := int(x.first[i]) + j
		switch low, high := n.heights(j, normal, offset); {
		case high < 0:
			sum += n.sums[j].area
		case low < 0 && bottom:
			l := &x.leaves[child]
			for i := range l.triangles {
				p := x.triangle(l, i)
				share := wetShare([3]float64{height(normal, offset, p[0]), height(normal, offset, p[1]), height(normal, offset, p[2])})
				if share > 0 {
					sum += share * math.Sqrt(r3.Norm2(r3.Cross(r3.Sub(p[1], p[0]), r3.Sub(p[2], p[0])))) / 2
				}
			}
		case low < 0:
			sum += x.wetArea(child, normal, offset)
		}
	}
	return sum
}

// lowest is the lowest point found so far along a direction: of several that
// are equally low, the first by x, then by y, then by z. So it does not depend
// on the order in which they are tried.
type lowest struct {
	up     r3.Vec
	height float64
	point  r3.Vec
	tried  int // points
}

// try takes p if it is lower.
func (l *lowest) try(p r3.Vec) {
	l.tried++
	if h := height(l.up, 0, p); l.beaten(h, p) {
		l.height, l.point = h, p
	}
}

// beaten reports whether a point at height h may take the place of the lowest
// when none of its coordinates are less than p's.
func (l *lowest) beaten(h float64, p r3.Vec) bool {
	if h != l.height {
		return h < l.height
	}
	q := l.point
	return p.X < q.X || p.X == q.X && (p.Y < q.Y || p.Y == q.Y && p.Z < q.Z)
}

// lowest tries the points under node i that may be lower.
func (x *index) lowest(i int, l *lowest) {
	n, bottom := &x.nodes[i], i < x.bottoms
	var low [fan]float64
	for j := range fan {
		low[j], _ = n.heights(j, l.up, 0)
	}
	for range fan {
		// The child whose box reaches lowest comes first, so that its
		// points may rule out the others. One that is missing or done
		// is NaN, which no comparison favors.
		next := 0
		for j := range fan {
			if low[j] < low[next] || low[next] != low[next] {
				next = j
			}
		}
		h, child := low[next], int(x.first[i])+next
		low[next] = math.NaN()
		switch {
		case !l.beaten(h, n.end(0, next)):
		case bottom:
			xs, ys, zs := x.vertices(&x.leaves[child])
			for i := range xs {
				l.try(r3.Vec{X: xs[i], Y: ys[i], Z: zs[i]})
			}
		default:
			x.lowest(child, l)
		}
	}
}

// grazes reports whether a triangle under node i has all its corners at heights
// from -tolerance to tolerance.
func (x *index) grazes(i int, normal r3.Vec, offset, tolerance float64) bool {
	n := &x.nodes[i]
	for j := range fan {
		low, high := n.heights(j, normal, offset)
		if !(low <= tolerance && high >= -tolerance) {
			continue
		}
		child := int(x.first[i]) + j
		if i >= x.bottoms {
			if x.grazes(child, normal, offset, tolerance) {
				return true
			}
			continue
		}
		l := &x.leaves[child]
		if x.nearby(l, normal, offset, tolerance) < 3 {
			continue // as nearly always
		}
		for i := range l.triangles {
			p := x.triangle(l, i)
			if l.triangles[i] != 0 && near(normal, offset, tolerance, p) {
				return true
			}
		}
	}
	return false
}

// nearby returns how many vertices of a leaf are within tolerance of a plane.
func (x *index) nearby(l *leaf, normal r3.Vec, offset, tolerance float64) int {
	xs, ys, zs := x.vertices(l)
	count := 0
	for j := range xs {
		if math.Abs(height(normal, offset, r3.Vec{X: xs[j], Y: ys[j], Z: zs[j]})) <= tolerance {
			count++
		}
	}
	return count
}
