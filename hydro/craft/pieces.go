package craft

import (
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// piece is a share of a part's solid that a plug moves or stretches as one. Its
// solid does not depend on how thick a plug is.
type piece struct {
	solid *mesh.Solid
	x, z  place
}

// taking is all that the pieces of a solid depend on.
type taking struct {
	solid *mesh.Solid
	drawn mesh.Affine
	x, z  band
}

// taken is the cache of pieces: a sweep of two plugs over thousands of designs
// takes a float apart once. Pieces are a pure function of their key.
var taken = cache{limit: 64}

// cache holds the pieces asked for last.
type cache struct {
	limit   int
	mutex   sync.Mutex
	entries map[taking]*entry
	order   []taking // oldest first
}

type entry struct {
	once   sync.Once
	pieces []piece
	err    error
}

// get returns the pieces for a key.
func (c *cache) get(k taking) ([]piece, error) {
	c.mutex.Lock()
	e := c.entries[k]
	if e == nil {
		if c.entries == nil {
			c.entries = make(map[taking]*entry)
		}
		if len(c.order) == c.limit {
			delete(c.entries, c.order[0])
			c.order = append(c.order[:0], c.order[1:]...)
		}
		e = &entry{}
		c.entries[k] = e
		c.order = append(c.order, k)
	}
	c.mutex.Unlock()
	e.once.Do(func() { e.pieces, e.err = k.take() })
	return e.pieces, e.err
}

// take takes the solid apart.
func (k taking) take() ([]piece, error) {
	pieces := []piece{{solid: k.solid}}
	var err error
	if pieces, err = k.across(pieces, AlongZ, k.z, func(p *piece, at place) { p.z = at }); err != nil {
		return nil, err
	}
	return k.across(pieces, AlongX, k.x, func(p *piece, at place) { p.x = at })
}

// across takes each piece apart across one axis.
func (k taking) across(pieces []piece, a Axis, b band, mark func(*piece, place)) ([]piece, error) {
	if b.way == whole {
		return pieces, nil
	}
	var out []piece
	add := func(from piece, s *mesh.Solid, at place) {
		if s != nil {
			from.solid = s
			mark(&from, at)
			out = append(out, from)
		}
	}
	for _, p := range pieces {
		cut, err := p.solid.Split(plane(k.drawn, a, b.at))
		if err != nil {
			return nil, err
		}
		add(p, cut.Below, near)
		switch {
		case b.way == swept:
			prism, err := cut.Prism(inFile(k.drawn, a, sweep))
			if err != nil {
				return nil, err
			}
			add(p, prism, between)
			add(p, cut.Above, far)
		case cut.Above != nil:
			beyond, err := cut.Above.Split(plane(k.drawn, a, b.to))
			if err != nil {
				return nil, err
			}
			add(p, beyond.Below, between)
			add(p, beyond.Above, far)
		}
	}
	return out, nil
}

// plane returns the plane across an axis of the part in the file's coordinates.
func plane(drawn mesh.Affine, a Axis, at float64) mesh.Plane {
	n := a.unit()
	return mesh.Plane{Normal: drawn.Covector(n), Offset: r3.Dot(n, drawn.T) - at}
}

// inFile returns a step along an axis of the part in the file's coordinates.
func inFile(drawn mesh.Affine, a Axis, step float64) r3.Vec {
	back, _ := drawn.Inverse() // a turn and a unit: it has one
	return back.Vector(r3.Scale(step, a.unit()))
}

// placed returns a solid of the part as set on the craft, taken apart where
// there are plugs.
func (p *Part) placed(s *mesh.Solid) []mesh.Placed {
	f := p.Fit
	k := taking{s, p.Drawn, f.Longer.band(), f.Deeper.band()}
	pieces := []piece{{solid: s}}
	if k.x.way != whole || k.z.way != whole {
		// Check reports the error, and every solve begins there.
		if apart, err := taken.get(k); err == nil {
			pieces = apart
		}
	}
	out := make([]mesh.Placed, len(pieces))
	set := f.affine()
	for i, q := range pieces {
		out[i] = mesh.Placed{Solid: q.solid, Place: p.Drawn.Then(f.plugged(q.x, q.z)).Then(set)}
	}
	return out
}

// plugged returns the map of a piece in the part's axes.
func (f Fit) plugged(x, z place) mesh.Affine {
	if f.Longer.Add == 0 && f.Deeper.Add == 0 {
		return mesh.Identity()
	}
	lx := f.Longer.line(x, one(f.Stretch.Length))
	lz := f.Deeper.line(z, one(f.Stretch.Height))
	a := mesh.Scaling(lx.by, 1, lz.by)
	a.T = r3.Vec{X: lx.plus, Z: lz.plus}
	return a
}

// at returns where a point of the part, in its axes as drawn, lies on the
// craft.
func (f Fit) at(q r3.Vec) r3.Vec {
	return f.affine().Point(f.plugged(f.Longer.where(q.X), f.Deeper.where(q.Z)).Point(q))
}

// one returns a factor, 0 meaning 1.
func one(x float64) float64 {
	if x == 0 {
		return 1
	}
	return x
}

// checkPlugs returns an error when the part cannot be taken apart for its
// plugs.
func (p *Part) checkPlugs() error {
	for _, g := range []Plug{p.Fit.Longer, p.Fit.Deeper} {
		if err := g.check(); err != nil {
			return err
		}
	}
	k := taking{p.Solid, p.Drawn, p.Fit.Longer.band(), p.Fit.Deeper.band()}
	if k.x.way == whole && k.z.way == whole {
		return nil
	}
	_, err := taken.get(k)
	return err
}
