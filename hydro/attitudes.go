package hydro

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Attitudes is every way in which a body can float.
type Attitudes struct {
	// List holds the stable attitudes, least energy first.
	List []Standing
	// Upright is the index in List of the one reached from level by always
	// falling.
	Upright int
	// Lows, Passes and Tops count the energy's stationary directions, shallow
	// ones merged and rings of equal passes and tops left out. Lows that are
	// isolated, less passes, plus tops make 2, the Euler number of the sphere
	// of directions; Complete reports that they do.
	Lows, Passes, Tops int
	Complete           bool
	Cuts               int
}

// Standing is one stable attitude.
type Standing struct {
	State
	// Neutral reports that the body lies anywhere along a ring, or all
	// around, with the same energy.
	Neutral bool
	// Pass is the energy that must be put in to get from here to upright by
	// the easiest way, J, and Rise the same as a height of the CG, m; zero for
	// the upright one. At is the state on the pass, where it is known exactly.
	Pass, Rise float64
	At         *State
	// Fall is the energy that takes upright to here by the same way, J.
	Fall float64
}

// shallow is the rise of the CG below which two rests are one: facets of a
// round hull make false ones.
const shallow = 1e-5 // m

// sampleLevels are the icosphere levels tried in turn: 642 and 2,562
// directions, 8 and 4 deg apart.
var sampleLevels = [...]int{3, 4}

// Attitudes returns every stable attitude. It fails with a *SinksError when
// the hull cannot carry the mass.
func (b *Body) Attitudes() (Attitudes, error) {
	rest, err := b.Rest()
	if err != nil {
		return Attitudes{}, err
	}
	var out Attitudes
	cuts := rest.Cuts
	for _, level := range sampleLevels {
		l := landscape{body: b, cuts: &cuts, shallow: shallow / b.Hull.size}
		s := b.sample(level, &cuts)
		if slices.Max(s.energy)-slices.Min(s.energy) < l.shallow {
			// A ball: no direction is better than another.
			out = Attitudes{List: []Standing{{State: rest.State, Neutral: true}}, Lows: 1, Complete: true}
			break
		}
		l.explore(s, rest.at)
		out = l.attitudes()
		if out.Complete {
			break
		}
	}
	out.Cuts = cuts
	return out, nil
}

// landscape is the energy over all directions: its lows, and the passes that
// join them.
type landscape struct {
	body    *Body
	cuts    *int
	shallow float64 // per size
	lows    []low
	passes  []pass
	tops    []place
}

type low struct {
	place
	neutral bool
}

// pass joins the lows a and b.
type pass struct {
	place
	a, b int
}

// explore finds the stationary directions that the samples show, starting the
// list of lows with the upright one.
func (l *landscape) explore(s *samples, upright place) {
	l.addLow(upright)
	for v := range s.up {
		if s.kind(v) == 0 {
			l.descend(s.up[v], s.height[v])
		}
	}
	for v := range s.up {
		switch s.kind(v) {
		case 1:
			if p, ok := l.body.critical(s.up[v], s.height[v], 1, l.cuts); ok {
				l.addPass(p)
			}
		case 2:
			if p, ok := l.body.critical(s.up[v], s.height[v], 2, l.cuts); ok && !l.knownTop(p) {
				l.tops = append(l.tops, p)
			}
		}
	}
}

// descend falls from a direction and returns the index of the low it reaches,
// a new one if need be, and -1 where the fall fails.
func (l *landscape) descend(n r3.Vec, height float64) int {
	p, c := l.body.level(n, height, 0.05)
	*l.cuts += c
	s := search{body: l.body}
	err := s.descend(p, 0)
	*l.cuts += s.cuts
	if err != nil || len(s.found) == 0 {
		return -1
	}
	first := -1
	for _, f := range s.found {
		if i := l.addLow(f); first < 0 {
			first = i
		}
	}
	return first
}

// same reports whether two stationary directions are one, to the precision
// they are found with.
func same(p, q *place) bool {
	return angleBetween(p.n, q.n) < 1e-4 && math.Abs(p.energy-q.energy) < 1e-9
}

// addLow returns the index of the low, appending it when it is new. A new one
// that lies on the valley floor of a known one is that one.
func (l *landscape) addLow(p place) int {
	for i := range l.lows {
		if same(&l.lows[i].place, &p) {
			return i
		}
	}
	n := low{place: p}
	for i := range l.lows {
		if l.lows[i].neutral && math.Abs(l.lows[i].energy-p.energy) < l.shallow && l.joined(p, l.lows[i].place) {
			return i
		}
	}
	n.neutral = len(l.body.valley(p, l.shallow, l.cuts)) > 8
	l.lows = append(l.lows, n)
	return len(l.lows) - 1
}

// joined reports whether the valley floor from p leads to the low q, or both
// directions of a body even all around are soft.
func (l *landscape) joined(p, q place) bool {
	xx, yy, xy := p.reduced()
	if _, hi, _ := eigen2(xx, yy, xy); math.Abs(hi) < flat {
		return true
	}
	for _, n := range l.body.valley(p, l.shallow, l.cuts) {
		if angleBetween(n, q.n) < valleyStep {
			return true
		}
	}
	return false
}

func (l *landscape) knownTop(p place) bool {
	return slices.ContainsFunc(l.tops, func(q place) bool { return same(&p, &q) })
}

// addPass adds a pass and finds the lows on its two sides.
func (l *landscape) addPass(p place) {
	if slices.ContainsFunc(l.passes, func(q pass) bool { return same(&p, &q.place) }) {
		return
	}
	way, _ := p.softest()
	side := func(sign float64) int {
		// Far enough that the fall does not take it for a tie.
		return l.descend(tilt(p.n, r3.Scale(sign*0.5*math.Pi/180, way)), p.e)
	}
	a, b := side(1), side(-1)
	if a >= 0 && b >= 0 {
		l.passes = append(l.passes, pass{p, a, b})
	}
}

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
	slices.SortStableFunc(kept, func(i, j int) int { return cmp.Compare(l.lows[i].energy, l.lows[j].energy) })

	rings := l.passesOnRings()
	out := Attitudes{Lows: len(kept), Passes: len(l.passes) - merged - rings, Tops: l.loneTops()}
	isolated := 0
	for _, i := range kept {
		s := Standing{State: l.body.state(&l.lows[i].place, 0), Neutral: l.lows[i].neutral}
		if !s.Neutral {
			isolated++
		}
		if i == upright {
			out.Upright = len(out.List)
		} else if p := l.between(find, i, upright); p != nil {
			joule := l.body.Mass * Gravity * l.body.Hull.size
			s.Pass = (p.energy - l.lows[i].energy) * joule
			s.Rise = (p.energy - l.lows[i].energy) * l.body.Hull.size
			s.Fall = (p.energy - l.lows[upright].energy) * joule
			at := l.body.state(&p.place, 0)
			s.At = &at
		}
		out.List = append(out.List, s)
	}
	out.Complete = isolated-out.Passes+out.Tops == 2
	return out
}

// passesOnRings counts the passes that only divide a ring of equal tops or of
// equal lows: rounding or facets make them, and a ring as a whole adds nothing
// to the count of stationary directions.
func (l *landscape) passesOnRings() int {
	n := 0
	for _, p := range l.passes {
		onTop := slices.ContainsFunc(l.tops, func(t place) bool { return math.Abs(t.energy-p.energy) < l.shallow })
		low := l.lows[p.a]
		onLow := p.a == p.b && low.neutral && p.energy-low.energy < l.shallow
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
// lows, nil when no known passes lead there.
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
			return p
		}
	}
	return nil
}
