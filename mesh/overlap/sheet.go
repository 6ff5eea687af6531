package overlap

import (
	"errors"
	"math/rand/v2"
)

// shard is a triangle of a facet that is being cut up. Its corners run
// anticlockwise as seen along the sheet's axis; side k lies opposite to corner
// k, from corner k+1 to corner k+2.
type shard struct {
	v    [3]uint32
	next [3]int32 // the shard across each side, -1 for none
	line [3]int32 // which of the sheet's lines a side lies on, -1 for none
}

// sheet is a facet that is being cut up: a triangulation of it, in which
// points and then lines are put one after the other. Every question is decided
// exactly, so no point is ever on the wrong side of a line; the shape of the
// triangles does not matter.
type sheet struct {
	*arrangement
	facet  uint32
	axis   uint8
	shards []shard
	lines  []line
	of     map[uint32]int32 // from a point to one of its shards
	last   int32
	random *rand.Rand
}

var errTangled = errors.New("overlap: the pieces of a facet do not fit together")

// cutUp returns the pieces of facet f, which run the way it does.
func (s *sheet) cutUp(f uint32) ([]shard, error) {
	t := &s.facets[f]
	s.facet, s.axis, s.last = f, t.axis, 0
	v := t.v
	if t.back {
		v[1], v[2] = v[2], v[1]
	}
	s.shards = append(s.shards[:0], shard{v: v, next: [3]int32{-1, -1, -1}, line: [3]int32{0, 1, 2}})
	s.lines = s.lines[:0]
	clear(s.of)
	for k := range 3 {
		s.lines = append(s.lines, line{none, [2]uint32{v[(k+1)%3], v[(k+2)%3]}})
		s.of[v[k]] = 0
	}
	// In random order few points are put into any one long thin shard.
	var list []cut
	for i := s.head[f]; i >= 0; i = s.cuts[i].next {
		list = append(list, s.cuts[i])
	}
	s.random = rand.New(rand.NewPCG(uint64(len(list)), 1))
	s.random.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	for _, c := range list {
		if err := s.put(c.from); err != nil {
			return nil, err
		}
		if err := s.put(c.to); err != nil {
			return nil, err
		}
	}
	for _, c := range list {
		if c.from == c.to {
			continue
		}
		s.lines = append(s.lines, c.line)
		if err := s.draw(c.from, c.to, int32(len(s.lines)-1)); err != nil {
			return nil, err
		}
	}
	if t.back {
		for i := range s.shards {
			w := &s.shards[i].v
			w[1], w[2] = w[2], w[1]
		}
	}
	return s.shards, nil
}

// put makes p a corner.
func (s *sheet) put(p uint32) error {
	if _, ok := s.of[p]; ok {
		return nil
	}
	i := s.last
	for steps := 0; ; steps++ {
		if steps > 100*len(s.shards)+100 {
			return errTangled
		}
		h := &s.shards[i]
		on, go3 := -1, false
		first := s.random.IntN(3) // always the same one could lead in circles
		for n := range 3 {
			k := (first + n) % 3
			switch s.turn(s.axis, h.v[(k+1)%3], h.v[(k+2)%3], p) {
			case -1:
				if i = h.next[k]; i < 0 {
					return errTangled
				}
				go3 = true
			case 0:
				on = k
			}
			if go3 {
				break
			}
		}
		if go3 {
			continue
		}
		s.last = i
		if on < 0 {
			s.inside(i, p)
		} else {
			s.amidSide(i, on, p)
		}
		return nil
	}
}

// inside makes three shards of shard i, around p.
func (s *sheet) inside(i int32, p uint32) {
	h := s.shards[i]
	j := int32(len(s.shards))
	ids := [3]int32{i, j, j + 1} // the shard that keeps side k
	s.shards = append(s.shards, shard{}, shard{})
	for k := range 3 {
		k1, k2 := (k+1)%3, (k+2)%3
		s.shards[ids[k]] = shard{
			v:    [3]uint32{p, h.v[k1], h.v[k2]},
			next: [3]int32{h.next[k], ids[k1], ids[k2]},
			line: [3]int32{h.line[k], -1, -1},
		}
		s.relink(h.next[k], i, ids[k])
	}
	for k := range 3 {
		s.of[h.v[(k+1)%3]] = ids[k]
	}
	s.of[p] = i
}

// relink tells shard i that its neighbor was is now is.
func (s *sheet) relink(i, was, is int32) {
	if i < 0 {
		return
	}
	for k := range 3 {
		if s.shards[i].next[k] == was {
			s.shards[i].next[k] = is
			return
		}
	}
}

// amidSide parts side k of shard i at p, and the shards on either side of it
// with it.
func (s *sheet) amidSide(i int32, k int, p uint32) {
	j := s.shards[i].next[k]
	back := s.half(i, k, p)
	if j < 0 {
		return
	}
	l := 0
	for s.shards[j].next[l] != i {
		l++
	}
	other := s.half(j, l, p)
	// Shard i kept the half of the side at corner k+1, shard j the half at
	// its own corner l+1, which is the far end.
	s.shards[i].next[k] = other
	s.shards[other].next[0] = i
	s.shards[back].next[0] = j
	s.shards[j].next[l] = back
}

// half parts shard i from its corner k to p on the side opposite. The shard
// keeps the half with corner k+1; the other is new, with the parted side as its
// side 0. Across the parted side nothing is linked yet.
func (s *sheet) half(i int32, k int, p uint32) int32 {
	h := s.shards[i]
	k1, k2 := (k+1)%3, (k+2)%3
	j := int32(len(s.shards))
	// New: corners k, p, k2, turned so that k comes first.
	s.shards = append(s.shards, shard{
		v:    [3]uint32{h.v[k], p, h.v[k2]},
		next: [3]int32{-1, h.next[k1], i},
		line: [3]int32{h.line[k], h.line[k1], -1},
	})
	s.relink(h.next[k1], i, j)
	g := &s.shards[i]
	g.v[k2] = p
	g.next[k1], g.line[k1] = j, -1
	s.of[p], s.of[h.v[k2]], s.of[h.v[k]], s.of[h.v[k1]] = i, j, i, i
	return j
}

// find returns which corner of shard i point p is.
func (h *shard) find(p uint32) int {
	for k := range 3 {
		if h.v[k] == p {
			return k
		}
	}
	return -1
}
