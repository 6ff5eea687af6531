package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/shape"
)

// samples holds the energy at balanced volume over directions spread evenly
// around the sphere, with their neighbors.
type samples struct {
	up     []r3.Vec
	energy []float64 // per W L
	height []float64 // of the hull's center above the water, m
	ring   [][]int   // neighbors in order around each direction
}

// sampleTolerance balances the volume well enough for sampling. The energy is
// taken to the bottom of its parabola over the height, so that it is wrong by
// the third power of this.
const sampleTolerance = 3e-3

// sample takes the energy at the corners of an icosphere: 10*4^level + 2
// directions, some 63/2^level deg apart.
func (b *Body) sample(level int, cuts *int) *samples {
	ball := shape.Icosphere(1, level)
	n := len(ball.Vertices)
	s := &samples{up: make([]r3.Vec, n), energy: make([]float64, n), height: make([]float64, n), ring: make([][]int, n)}
	next := make([]map[int]int, n)
	for _, t := range ball.Triangles {
		for k := range 3 {
			v := int(t[k])
			if next[v] == nil {
				next[v] = map[int]int{}
			}
			next[v][int(t[(k+1)%3])] = int(t[(k+2)%3])
		}
	}
	for v := range n {
		s.up[v] = r3.Unit(ball.Vertices[v])
		s.height[v] = math.NaN()
		first := int(math.MaxInt)
		for u := range next[v] {
			first = min(first, u)
		}
		for u := first; ; {
			s.ring[v] = append(s.ring[v], u)
			if u = next[v][u]; u == first {
				break
			}
		}
	}
	// Spread from the first direction outward, so that every solve starts
	// from a neighbor's height.
	queue := []int{0}
	seen := make([]bool, n)
	seen[0] = true
	guess := make([]float64, n)
	guess[0] = math.NaN()
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		p := b.sampleAt(s.up[v], guess[v], cuts)
		s.energy[v], s.height[v] = p.energy, p.e
		for _, u := range s.ring[v] {
			if !seen[u] {
				seen[u] = true
				guess[u] = p.leveled(s.up[u], b.Hull.size)
				queue = append(queue, u)
			}
		}
	}
	return s
}

// sampleAt returns the place at direction n with the volume balanced well
// enough for sampling, from a guess of the height.
func (b *Body) sampleAt(n r3.Vec, guess float64, cuts *int) place {
	p, c := b.level(n, guess, sampleTolerance)
	*cuts += c
	if !p.finish(b.Hull.size) {
		p, c = b.level(n, p.e, levelTolerance)
		*cuts += c
	}
	return p
}

// below reports whether sample u is lower than v; equal ones are told apart by
// their numbers, so that no two are level.
func (s *samples) below(u, v int) bool {
	return s.energy[u] < s.energy[v] || s.energy[u] == s.energy[v] && u < v
}

// kind returns the Morse index that sample v seems to have among its
// neighbors: 0 a low, 1 a pass, 2 a top, and -1 for an ordinary place on a
// slope. (For a function that is linear between samples these are its critical
// points: T. F. Banchoff, "Critical points and curvature for embedded
// polyhedra", J. Differential Geometry 1, 1967.)
func (s *samples) kind(v int) int {
	changes, lower := 0, 0
	ring := s.ring[v]
	for i, u := range ring {
		if s.below(u, v) {
			lower++
		}
		if s.below(u, v) != s.below(ring[(i+1)%len(ring)], v) {
			changes++
		}
	}
	switch {
	case lower == 0:
		return 0
	case lower == len(ring):
		return 2
	case changes >= 4:
		return 1
	}
	return -1
}

// finish takes the last Newton step of a level solve without cutting again: to
// the height and the energy at the bottom of the energy's parabola over the
// height. It reports whether the parabola holds that far; with next to no
// waterplane it does not.
func (p *place) finish(size float64) bool {
	h, lack := p.hess[2][2], p.grad[2]
	if math.Abs(lack) > 0.01*h {
		return false
	}
	p.e -= lack / h * size
	p.energy -= lack * lack / (2 * h)
	p.grad[2] = 0
	return true
}

// leveled returns the height at which the volume stays balanced, to first
// order, at a direction n near that of a balanced place.
func (p *place) leveled(n r3.Vec, size float64) float64 {
	turn := r3.Sub(n, p.n)
	lack := p.hess[0][2]*r3.Dot(turn, p.t1) + p.hess[1][2]*r3.Dot(turn, p.t2)
	if h := p.hess[2][2]; math.Abs(lack) < h {
		return p.e - lack/h*size
	}
	return p.e
}
