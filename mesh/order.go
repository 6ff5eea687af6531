package mesh

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/parts"
)

// place says where a triangle lies, for sorting: twice the middle of its
// longest side, stretched and sheared. Neighbors over a side that is the longest
// of both, as the two halves of most quadrilaterals are, then lie at the same
// place and come into the same leaf but for a few. Leaves so share fewer
// vertices than if triangles were sorted by their own middles.
type place struct {
	at       [3]float32
	triangle uint32
}

// spaceOrder returns the triangles' numbers sorted in space: halved across the
// direction of largest extent, each half halved again, and so on. Halves are
// cut so that every aligned group of 1, 2, 4, 8 ... leaves is one of them.
//
// A craft floats along its long axes, so a waterplane meets the surface in
// long thin strips; leaves should be long and thin the same way. Which axis is
// vertical a file does not say, but the shape does: space is stretched toward
// a cube. Not all the way: that is 2 % faster still for a float afloat, but 10 %
// slower at any heel and trim.
func spaceOrder(s *Solid) []uint32 {
	size := s.box.Size()
	long := max(size.X, size.Y, size.Z)
	stretch := func(x float64) float64 {
		if x == 0 {
			return 0
		}
		return math.Pow(long/x, 0.85) / long
	}
	sx, sy, sz := stretch(size.X), stretch(size.Y), stretch(size.Z)
	// Whole rows of a regular mesh are as far along an axis. A little of the
	// other axes tells them apart, so that rows are not torn when halved.
	const shear = 1e-3

	places := make([]place, len(s.triangles))
	parts.Do(len(places), func(from, to int) {
		for i := from; i < to; i++ {
			t := s.triangles[i]
			m := longestSide(s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]])
			x, y, z := m.X*sx, m.Y*sy, m.Z*sz
			places[i] = place{[3]float32{
				float32(x + shear*(y+shear*z)),
				float32(y + shear*(z+shear*x)),
				float32(z + shear*(x+shear*y)),
			}, uint32(i)}
		}
	})
	halve(places)
	order := make([]uint32, len(places))
	for i := range places {
		order[i] = places[i].triangle
	}
	return order
}

// longestSide returns twice the middle of a triangle's longest side.
func longestSide(p, q, r r3.Vec) r3.Vec {
	m, long := r3.Add(p, q), r3.Norm2(r3.Sub(p, q))
	if l := r3.Norm2(r3.Sub(q, r)); l > long {
		m, long = r3.Add(q, r), l
	}
	if l := r3.Norm2(r3.Sub(r, p)); l > long {
		m = r3.Add(r, p)
	}
	return m
}

// halve sorts places down to groups of a leaf's size.
func halve(p []place) {
	var wait sync.WaitGroup
	for len(p) > leafSize {
		half := leafSize
		for 2*half < len(p) {
			half *= 2
		}
		partition(p, half, longest(p))
		left := p[:half]
		if half >= parts.Least {
			wait.Go(func() { halve(left) })
		} else {
			halve(left)
		}
		p = p[half:]
	}
	wait.Wait()
}

// longest returns the axis along which the places reach farthest, of many by a
// sample.
func longest(p []place) int {
	lo, hi := p[0].at, p[0].at
	for i := 0; i < len(p); i += 1 + len(p)/512 {
		for k, x := range p[i].at {
			if x < lo[k] {
				lo[k] = x
			}
			if x > hi[k] {
				hi[k] = x
			}
		}
	}
	axis := 0
	for k := range hi {
		if hi[k]-lo[k] > hi[axis]-lo[axis] {
			axis = k
		}
	}
	return axis
}

// guess returns a value that about n of the places are below, from a sample of
// them.
func guess(p []place, n, axis int) float32 {
	var sample [31]float32
	size := min(len(sample), 3+len(p)/64)
	for i := range size {
		sample[i] = p[(2*i+1)*len(p)/(2*size)].at[axis]
	}
	slices.Sort(sample[:size])
	return sample[min(n*size/len(p), size-1)]
}

// partition moves the n places that are least along the axis to the front, by
// Hoare's selection (C. A. R. Hoare, "Algorithm 65: Find", Communications of
// the ACM 4 (7), 1961). Whatever the input, it ends by sorting what remains
// when it has not closed in after many rounds.
func partition(p []place, n, axis int) {
	for round := 0; len(p) > 8 && round < 64; round++ {
		pivot := guess(p, n, axis)
		front := gather(p, axis, pivot)
		if front == 0 { // the pivot is the least: take out all its equals
			front = gather(p, axis, math.Nextafter32(pivot, float32(math.Inf(1))))
			if front > n {
				return
			}
		}
		switch {
		case front == n:
			return
		case front > n:
			p = p[:front]
		default:
			p, n = p[front:], n-front
		}
	}
	slices.SortFunc(p, func(a, b place) int { return cmp.Compare(a.at[axis], b.at[axis]) })
}

// gather moves the places below the pivot to the front and returns how many
// they are. Every place is exchanged, if only for itself: the processor then
// has nothing to guess.
func gather(p []place, axis int, pivot float32) int {
	front := 0
	for i := range p {
		q := p[i]
		p[i], p[front] = p[front], q
		below := 0
		if q.at[axis] < pivot {
			below = 1
		}
		front += below
	}
	return front
}
