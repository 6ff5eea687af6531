package overlap

import (
	"math/rand/v2"
	"slices"
)

// piece is a triangle that a facet was cut into, or all of the facet. No facet
// passes through the inside of a piece.
type piece struct {
	v     [3]uint32
	facet uint32
}

// pieces returns what the given facets are cut into.
func (a *arrangement) pieces(facets []uint32) ([]piece, error) {
	s := &sheet{arrangement: a, of: make(map[uint32]int32)}
	list := make([]piece, 0, len(facets)+4*len(a.head))
	for _, f := range facets {
		if _, ok := a.head[f]; !ok {
			list = append(list, piece{a.facets[f].v, f})
			continue
		}
		shards, err := s.cutUp(f)
		if err != nil {
			return nil, err
		}
		for _, h := range shards {
			list = append(list, piece{h.v, f})
		}
	}
	return list, nil
}

// patches sorts pieces into patches: connected over edges that two pieces of
// one solid have to themselves. As no surface passes through such an edge, all
// of a patch lies alike in the other solids. It returns the number of each
// piece's patch, and how many there are.
func (a *arrangement) patches(list []piece) (of []uint32, count int) {
	mate := a.mates(list)
	of = make([]uint32, len(list))
	for i := range of {
		of[i] = none
	}
	var queue []uint32
	for i := range list {
		if of[i] != none {
			continue
		}
		of[i] = uint32(count)
		queue = append(queue[:0], uint32(i))
		for len(queue) > 0 {
			j := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			for k := range uint32(3) {
				if m := mate[3*j+k]; m != none && of[m/3] == none {
					of[m/3] = uint32(count)
					queue = append(queue, m/3)
				}
			}
		}
		count++
	}
	return of, count
}

// mates returns, for each side of each piece (3 i + k runs from corner k of
// piece i), the one other side on the same edge, or none where there is no
// other or more than one, or that is another solid's.
func (a *arrangement) mates(list []piece) []uint32 {
	// The sides by the lower number of their ends.
	start := make([]uint32, len(a.at)+1)
	ends := func(h uint32) (lo, hi uint32) {
		v := &list[h/3].v
		p, q := v[h%3], v[(h%3+1)%3]
		return min(p, q), max(p, q)
	}
	sides := uint32(3 * len(list))
	for h := range sides {
		lo, _ := ends(h)
		start[lo+1]++
	}
	for i := range len(a.at) {
		start[i+1] += start[i]
	}
	type side struct{ hi, h uint32 }
	sorted := make([]side, sides)
	fill := slices.Clone(start)
	for h := range sides {
		lo, hi := ends(h)
		sorted[fill[lo]] = side{hi, h}
		fill[lo]++
	}
	mate := make([]uint32, sides)
	for h := range mate {
		mate[h] = none
	}
	for i := range len(a.at) {
		group := sorted[start[i]:start[i+1]]
		slices.SortFunc(group, func(x, y side) int { return int(int64(x.hi) - int64(y.hi)) })
		for from := 0; from < len(group); {
			to := from + 1
			for to < len(group) && group[to].hi == group[from].hi {
				to++
			}
			if to-from == 2 {
				g, h := group[from].h, group[from+1].h
				p, q := &list[g/3], &list[h/3]
				if a.facets[p.facet].solid == a.facets[q.facet].solid && p.v[g%3] != q.v[h%3] {
					mate[g], mate[h] = h, g
				}
			}
			from = to
		}
	}
	return mate
}

// judge returns for each piece what decide says of a piece of its patch. That
// one is the largest, so that little is asked about slivers.
func (a *arrangement) judge(list []piece, bodies func(p *piece) []int, decide func(p *piece, v *view) bool) ([]bool, error) {
	of, count := a.patches(list)
	best := make([]int, count)
	most := make([]float64, count)
	for i := range most {
		most[i] = -1
	}
	for i := range list {
		if s := a.shadow(&list[i]); s > most[of[i]] {
			most[of[i]], best[of[i]] = s, i
		}
	}
	verdict := make([]bool, count)
	v := &view{random: rand.New(rand.NewPCG(1, 2))}
	for i := range verdict {
		p := &list[best[i]]
		if err := a.look(p, bodies(p), v); err != nil {
			return nil, err
		}
		verdict[i] = decide(p, v)
	}
	out := make([]bool, len(list))
	for i := range out {
		out[i] = verdict[of[i]]
	}
	return out, nil
}

// shadow returns about twice the area of a piece as seen along its facet's
// axis.
func (a *arrangement) shadow(p *piece) float64 {
	u, v := plane(a.facets[p.facet].axis)
	x, y, z := &a.at[p.v[0]], &a.at[p.v[1]], &a.at[p.v[2]]
	s := (y[u]-x[u])*(z[v]-x[v]) - (y[v]-x[v])*(z[u]-x[u])
	return max(s, -s)
}
