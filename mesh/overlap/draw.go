package overlap

// draw makes sides of the stretch from p to q, which lies on the given line.
// Where it crosses lines drawn before, both are parted at the crossing.
func (s *sheet) draw(p, q uint32, l int32) error {
	for steps := 0; p != q; steps++ {
		if steps > 1<<20 {
			return errTangled
		}
		to, err := s.step(p, q, l)
		if err != nil {
			return err
		}
		p = to
	}
	return nil
}

// step draws the first bit of the stretch from p toward q and returns where it
// ends.
func (s *sheet) step(p, q uint32, l int32) (uint32, error) {
	i, k, end := s.toward(p, q)
	if i < 0 {
		return 0, errTangled
	}
	if end != none { // along a side that is there
		s.mark(i, k, l)
		return end, nil
	}
	// Go through the shards up to the next corner on the way, or the next
	// line across it.
	var crossed [][2]uint32
	for {
		h := &s.shards[i]
		from, to := h.v[(k+1)%3], h.v[(k+2)%3]
		if m := h.line[k]; m >= 0 {
			x := s.meetOn(s.facet, s.lines[l], s.lines[m])
			if len(s.made) > s.limit.points {
				return 0, &TooManyError{What: "points where facets cross", Most: s.limit.points}
			}
			if _, ok := s.of[x]; ok || h.next[k] < 0 {
				return 0, errTangled
			}
			s.amidSide(i, k, x)
			if len(crossed) == 0 && s.join(p, x, l) {
				return x, nil
			}
			end = x
			break
		}
		crossed = append(crossed, [2]uint32{from, to})
		j := h.next[k]
		if j < 0 {
			return 0, errTangled
		}
		g := &s.shards[j]
		m := 0
		for g.next[m] != i {
			m++
		}
		apex := g.v[m]
		i = j
		t := 0
		if apex != q {
			t = s.turn(s.axis, p, q, apex)
		}
		if t == 0 {
			end = apex
			break
		}
		// The side that the way leaves by has one end on either side: the
		// apex and whichever of from and to is across from it. From lies
		// to the right of the way, to to the left.
		if t > 0 {
			k = g.find(to)
		} else {
			k = g.find(from)
		}
	}
	return end, s.clearWay(p, end, crossed, l)
}

// toward returns the shard at corner p through which the way to q leads, and
// which side of it the way crosses. Where the way runs along a side, it
// returns that side and where it ends.
func (s *sheet) toward(p, q uint32) (i int32, k int, end uint32) {
	start, ok := s.of[p]
	if !ok {
		return -1, 0, none
	}
	// Around p one way, and from the start the other way when that ends at
	// the border.
	for _, way := range [2]int{1, 2} {
		for i = start; i >= 0; {
			h := &s.shards[i]
			k = h.find(p)
			k1, k2 := (k+1)%3, (k+2)%3
			b, c := h.v[k1], h.v[k2]
			if b == q {
				return i, k2, q
			}
			if c == q {
				return i, k1, q
			}
			right, left := s.turn(s.axis, p, b, q), s.turn(s.axis, p, c, q)
			switch {
			case right > 0 && left < 0:
				return i, k, none
			case right == 0 && left < 0:
				return i, k2, b
			case right > 0 && left == 0:
				return i, k1, c
			}
			i = h.next[(k+way)%3]
			if i == start {
				return -1, 0, none
			}
		}
	}
	return -1, 0, none
}

// mark says on both sides that a side lies on a line.
func (s *sheet) mark(i int32, k int, l int32) {
	h := &s.shards[i]
	if h.line[k] >= 0 {
		return
	}
	h.line[k] = l
	if j := h.next[k]; j >= 0 {
		g := &s.shards[j]
		for m := range 3 {
			if g.next[m] == i {
				g.line[m] = l
			}
		}
	}
}

// sideBetween returns the shard that has the side from p to q, in either
// direction, and which of its sides that is.
func (s *sheet) sideBetween(p, q uint32) (i int32, k int) {
	start := s.of[p]
	for _, way := range [2]int{1, 2} {
		for i = start; i >= 0; {
			h := &s.shards[i]
			k = h.find(p)
			if h.v[(k+1)%3] == q {
				return i, (k + 2) % 3
			}
			if h.v[(k+2)%3] == q {
				return i, (k + 1) % 3
			}
			if i = h.next[(k+way)%3]; i == start {
				return -1, 0
			}
		}
	}
	return -1, 0
}

// join marks the side between p and q where there is one.
func (s *sheet) join(p, q uint32, l int32) bool {
	i, k := s.sideBetween(p, q)
	if i >= 0 {
		s.mark(i, k, l)
	}
	return i >= 0
}

// clearWay flips the sides that cross the way from p to q until that is a side
// itself (S. W. Sloan, "A fast algorithm for generating constrained Delaunay
// triangulations", Computers & Structures 47 (1993), section 5, without making
// it Delaunay).
func (s *sheet) clearWay(p, q uint32, crossed [][2]uint32, l int32) error {
	for turns := 0; len(crossed) > 0; turns++ {
		if turns > 1<<22 {
			return errTangled
		}
		e := crossed[0]
		crossed = crossed[1:]
		i, k := s.sideBetween(e[0], e[1])
		if i < 0 {
			continue // parted at a point of the way since it was seen
		}
		h := &s.shards[i]
		j := h.next[k]
		if j < 0 {
			return errTangled
		}
		g := &s.shards[j]
		m := 0
		for g.next[m] != i {
			m++
		}
		x, y := h.v[k], g.v[m]
		from, to := h.v[(k+1)%3], h.v[(k+2)%3]
		// The two shards are from, to, x and to, from, y: convex when from
		// lies to the right of x to y, and to to its left.
		if s.turn(s.axis, y, x, from)*s.turn(s.axis, y, x, to) >= 0 {
			crossed = append(crossed, e)
			continue
		}
		s.flip(i, k, j, m)
		if x != p && x != q && y != p && y != q &&
			s.turn(s.axis, p, q, x)*s.turn(s.axis, p, q, y) < 0 {
			crossed = append(crossed, [2]uint32{x, y})
		}
	}
	if !s.join(p, q, l) {
		return errTangled
	}
	return nil
}

// flip replaces the side between shards i and j, side k of the one and m of the
// other, by the other diagonal.
func (s *sheet) flip(i int32, k int, j int32, m int) {
	h, g := s.shards[i], s.shards[j]
	k1, k2, m1, m2 := (k+1)%3, (k+2)%3, (m+1)%3, (m+2)%3
	x, y := h.v[k], g.v[m]
	from, to := h.v[k1], h.v[k2] // g has to at m1 and from at m2
	// i: x, from, y; j: y, to, x.
	s.shards[i] = shard{
		v:    [3]uint32{x, from, y},
		next: [3]int32{g.next[m1], j, h.next[k2]},
		line: [3]int32{g.line[m1], -1, h.line[k2]},
	}
	s.shards[j] = shard{
		v:    [3]uint32{y, to, x},
		next: [3]int32{h.next[k1], i, g.next[m2]},
		line: [3]int32{h.line[k1], -1, g.line[m2]},
	}
	s.relink(g.next[m1], j, i)
	s.relink(h.next[k1], i, j)
	s.of[x], s.of[from], s.of[y], s.of[to] = i, i, i, j
}
