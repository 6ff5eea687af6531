package hydro

import (
	"cmp"
	"math"
	"slices"
)

// attitudes merges what shallow passes join and returns the rest.
func (l *landscape) attitudes() Attitudes {
	slices.SortFunc(l.passes, func(p, q pass) int { return cmp.Compare(p.energy, q.energy) })
	// Lows joined by the passes so far, each group under its lowest member;
	// the passes rising. A pass that joins two groups is the easiest way
	// between them.
	group := make([]int, len(l.lows))
	for i := range group {
		group[i] = i
	}
	find := func(i int) int {
		for group[i] != i {
			i = group[i]
		}
		return i
	}
	merged := 0
	for _, p := range l.passes {
		a, b := find(p.a), find(p.b)
		if a == b {
			continue
		}
		if l.lows[b].energy < l.lows[a].energy {
			a, b = b, a
		}
		if p.energy-l.lows[b].energy < l.shallow {
			group[b] = a
			merged++
		}
	}
	kept := []int{}
	for i := range l.lows {
		if group[i] == i {
			kept = append(kept, i)
		}
	}
	upright := find(0)
	slices.SortStableFunc(kept, func(i, j int) int { return l.lows[i].compare(&l.lows[j].place) })

	out := Attitudes{Lows: len(kept), Passes: len(l.passes) - merged - l.passesOnRings(), Tops: l.loneTops()}
	rings := 0
	for _, i := range kept {
		s := Standing{State: l.body.state(&l.lows[i].place, 0), Neutral: l.lows[i].ring != nil}
		if s.Neutral {
			rings++
		}
		if i == upright {
			out.Upright = len(out.List)
		} else {
			l.weigh(&s, l.between(find, i, upright), &l.lows[i].place, &l.lows[upright].place)
		}
		out.List = append(out.List, s)
	}
	out.Complete = out.Lows-rings-out.Passes+out.Tops == 2
	return out
}

// compare orders lows by energy and, for those equal but for rounding, by
// direction: upright before starboard down before nose up.
func (p *place) compare(q *place) int {
	for _, d := range [4]float64{p.energy - q.energy, q.n.Z - p.n.Z, q.n.Y - p.n.Y, q.n.X - p.n.X} {
		if math.Abs(d) > 1e-9 {
			return cmp.Compare(d, 0)
		}
	}
	return 0
}

// weigh fills in what lies between a standing at the low here and upright.
func (l *landscape) weigh(s *Standing, over *pass, here, upright *place) {
	size := l.body.Hull.size
	weight := l.body.Mass * Gravity
	s.Rise, s.TipRise = math.NaN(), math.NaN()
	if over != nil {
		s.Rise, s.TipRise = (over.energy-here.energy)*size, (over.energy-upright.energy)*size
		at := l.body.state(&over.place, 0)
		s.At = &at
	}
	s.Pass, s.Tip = s.Rise*weight, s.TipRise*weight
}

// passesOnRings counts the passes that only divide a ring of equal tops or of
// equal lows: rounding or facets make them, and a ring as a whole adds nothing
// to the count of stationary directions.
func (l *landscape) passesOnRings() int {
	n := 0
	for _, p := range l.passes {
		onTop := slices.ContainsFunc(l.tops, func(t place) bool { return math.Abs(t.energy-p.energy) < l.shallow })
		low := l.lows[p.a]
		onLow := p.a == p.b && low.ring != nil && p.energy-low.energy < l.shallow
		if onTop || onLow {
			n++
		}
	}
	return n
}

// loneTops counts the tops that are not on a ring of equal ones.
func (l *landscape) loneTops() int {
	n := 0
	for _, t := range l.tops {
		if !slices.ContainsFunc(l.passes, func(p pass) bool { return math.Abs(t.energy-p.energy) < l.shallow }) {
			n++
		}
	}
	return n
}

// between returns the highest pass on the easiest way between two groups of
// lows, nil when no known passes lead there. Of ways that are equally easy it
// takes the one over the fewest passes.
func (l *landscape) between(find func(int) int, a, b int) *pass {
	joined := make([]int, len(l.lows))
	for i := range joined {
		joined[i] = find(i)
	}
	root := func(i int) int {
		for joined[i] != i {
			i = joined[i]
		}
		return i
	}
	for i := range l.passes {
		p := &l.passes[i]
		joined[root(p.a)] = root(p.b)
		if root(a) == root(b) {
			return l.highest(find, a, b, p.energy+1e-9)
		}
	}
	return nil
}

// highest returns the highest pass on the way of fewest passes from a to b that
// rises no higher than most.
func (l *landscape) highest(find func(int) int, a, b int, most float64) *pass {
	by := map[int]*pass{a: nil} // the pass by which a group is first reached
	from := map[int]int{}
	queue := []int{a}
	for len(queue) > 0 && by[b] == nil {
		g := queue[0]
		queue = queue[1:]
		for i := range l.passes {
			p := &l.passes[i]
			u, v := find(p.a), find(p.b)
			if v == g {
				u, v = v, u
			}
			if _, seen := by[v]; u != g || seen || p.energy > most {
				continue
			}
			by[v], from[v] = p, g
			queue = append(queue, v)
		}
	}
	top := by[b]
	for g := b; g != a; g = from[g] {
		if by[g].energy > top.energy+1e-9 {
			top = by[g]
		}
	}
	return top
}
