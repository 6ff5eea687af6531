package hydro

// point turns a knot into a Point.
func (p *Path) point(k *knot) Point {
	joule := p.body.Mass * Gravity * p.body.Hull.size
	return Point{
		State: p.body.state(&k.place, p.Cuts),
		Share: k.share, Work: k.work * joule, Energy: (k.energy - p.start) * joule,
		Least: k.lesser * p.body.Hull.size,
	}
}

// Points returns the solved points, from rest on. Those after Loss are balanced
// but do not hold.
func (p *Path) Points() []Point {
	out := make([]Point, len(p.knots))
	for i := range p.knots {
		out[i] = p.point(&p.knots[i])
	}
	return out
}

// Loss returns the last point that holds: the one at which stability is lost,
// or the end of the course.
func (p *Path) Loss() Point { return p.point(&p.knots[p.loss]) }

// Lost reports whether the course ended before its end.
func (p *Path) Lost() bool { return p.Stop != Holds }

// At returns the stable point at a share of the load, and false where none
// holds.
func (p *Path) At(share float64) (Point, bool) {
	if share <= 0 {
		return p.point(&p.knots[0]), share == 0
	}
	for i := 1; i <= p.loss; i++ {
		switch b := &p.knots[i]; {
		case b.share == share:
			return p.point(b), true
		case b.share > share:
			k := p.at(&p.knots[i-1], b, share)
			return p.point(&k), true
		}
	}
	return Point{}, false
}

// First returns the first point at which g is no longer positive, and false
// where it stays so to the last point, those past the loss included only when
// past is set. A g that is not positive at rest gives rest.
func (p *Path) First(past bool, g func(*Point) float64) (Point, bool) {
	last := p.loss
	if past {
		last = len(p.knots) - 1
	}
	of := func(k *knot) float64 { at := p.point(k); return g(&at) }
	if of(&p.knots[0]) <= 0 {
		return p.point(&p.knots[0]), true
	}
	for i := 1; i <= last; i++ {
		if of(&p.knots[i]) > 0 {
			continue
		}
		k := p.root(&p.knots[i-1], &p.knots[i], fine, of)
		return p.point(&k), true
	}
	return Point{}, false
}
