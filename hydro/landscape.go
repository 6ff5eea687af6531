package hydro

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

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
	ring []r3.Vec // where it is neutral: directions along the valley's floor
}

// pass joins the lows a and b.
type pass struct {
	place
	a, b int
}

// explore adds the stationary directions that the samples show.
func (l *landscape) explore(s *samples) {
	for v := range s.up {
		if s.kind(v) == 0 && !l.spent() {
			l.descend(s.up[v], s.height[v])
		}
	}
	for v := range s.up {
		if l.spent() {
			return
		}
		switch s.kind(v) {
		case 1:
			if p, ok := l.body.critical(s.up[v], s.height[v], 1, l.cuts); ok {
				l.addPass(p)
			}
		case 2:
			if p, ok := l.body.critical(s.up[v], s.height[v], 2, l.cuts); ok {
				l.addTop(p)
			}
		}
	}
}

// mostCuts bounds the search, which takes some 2,000 cuts as a rule: a faceted
// round body at the limit of stability has a low and a top on every facet. The
// list is then not complete, and says so.
const mostCuts = 20000

func (l *landscape) spent() bool { return *l.cuts > mostCuts }

// climb adds the passes at the ends of the valleys that lead up from each low.
// They show what is finer than the samples, and may lead to lows that are new.
func (l *landscape) climb() {
	for i := 0; i < len(l.lows) && !l.spent(); i++ {
		if l.lows[i].ring == nil {
			way, _ := l.lows[i].softest()
			l.walk(l.lows[i].place, way, 1)
		}
	}
}

// follow adds the passes at the ends of the ridges that lead down from each
// top.
func (l *landscape) follow() {
	for i := 0; i < len(l.tops) && !l.spent(); i++ {
		way, _ := l.tops[i].softest()
		l.walk(l.tops[i], r3.Cross(l.tops[i].n, way), -1)
	}
}

func (l *landscape) walk(from place, way r3.Vec, side float64) {
	for _, sign := range []float64{1, -1} {
		if at, ok := l.body.turning(from, r3.Scale(sign, way), side, l.cuts); ok {
			if p, ok := l.body.critical(at.n, at.e, 1, l.cuts); ok {
				l.addPass(p)
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

// addLow returns the index of the low, appending it when it is new. One that
// lies on the ring of a known one is that one.
func (l *landscape) addLow(p place) int {
	for i := range l.lows {
		q := &l.lows[i]
		if same(&q.place, &p) {
			return i
		}
		if math.Abs(q.energy-p.energy) < l.shallow && slices.ContainsFunc(q.ring, func(n r3.Vec) bool { return angleBetween(n, p.n) < valleyStep }) {
			return i
		}
	}
	n := low{place: p}
	if floor, ring := l.body.valley(p, l.shallow, l.cuts); ring {
		n.ring = floor
	}
	l.lows = append(l.lows, n)
	return len(l.lows) - 1
}

func (l *landscape) addTop(p place) {
	if !slices.ContainsFunc(l.tops, func(q place) bool { return same(&p, &q) }) {
		l.tops = append(l.tops, p)
	}
}

// addPass adds a pass and finds the lows on its two sides, and the tops.
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
	if a < 0 || b < 0 {
		return
	}
	l.passes = append(l.passes, pass{p, a, b})
	// The tops on its other two sides.
	for _, sign := range []float64{1, -1} {
		n := tilt(p.n, r3.Scale(sign*math.Pi/180, r3.Cross(p.n, way)))
		if t, ok := l.body.critical(n, p.leveled(n, l.body.Hull.size), 2, l.cuts); ok {
			l.addTop(t)
		}
	}
}
