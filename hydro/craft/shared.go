package craft

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/overlap"
)

// side is one of a part that displaces: a mirrored part has two.
type side struct {
	part, copy int
	pieces     []mesh.Placed
	box        r3.Box         // around the pieces
	whole      *overlap.Keyed // nil until needed
}

// sides returns the sides of the parts of some roles, by role.
func (c *Craft) sides(roles []Role) []side {
	out := make([]side, 0, 2*len(c.Parts))
	for _, role := range roles {
		for i := range c.Parts {
			p := &c.Parts[i]
			if p.Role != role {
				continue
			}
			all, n := p.Displacing(), p.Count()
			for k := range n {
				pieces := all[k*len(all)/n : (k+1)*len(all)/n]
				out = append(out, side{part: i, copy: k, pieces: pieces, box: around(pieces)})
			}
		}
	}
	return out
}

// around returns a box that holds all pieces.
func around(pieces []mesh.Placed) r3.Box {
	inf := math.Inf(1)
	b := r3.Box{Min: r3.Vec{X: inf, Y: inf, Z: inf}, Max: r3.Vec{X: -inf, Y: -inf, Z: -inf}}
	for _, q := range pieces {
		x0, x1 := q.Span(r3.Vec{X: 1}, r3.Vec{})
		y0, y1 := q.Span(r3.Vec{Y: 1}, r3.Vec{})
		z0, z1 := q.Span(r3.Vec{Z: 1}, r3.Vec{})
		b.Min = r3.Vec{X: min(b.Min.X, x0), Y: min(b.Min.Y, y0), Z: min(b.Min.Z, z0)}
		b.Max = r3.Vec{X: max(b.Max.X, x1), Y: max(b.Max.Y, y1), Z: max(b.Max.Z, z1)}
	}
	return b
}

// near reports whether two sides may touch, by their boxes. The margin is more
// than the rounding of files, within which they may be meant to.
func (s *side) near(o *side) bool {
	a, b := &s.box, &o.box
	margin := 1e-6 * (r3.Norm(a.Size()) + r3.Norm(b.Size()))
	apart := func(lo, hi float64) bool { return lo > hi+margin }
	return !apart(a.Min.X, b.Max.X) && !apart(b.Min.X, a.Max.X) &&
		!apart(a.Min.Y, b.Max.Y) && !apart(b.Min.Y, a.Max.Y) &&
		!apart(a.Min.Z, b.Max.Z) && !apart(b.Min.Z, a.Max.Z)
}

// plugged says which solid the surface of a part with plugs is, however often
// it is made.
type plugged struct {
	solid          *mesh.Solid
	drawn          mesh.Affine
	longer, deeper Plug
	stretch        Stretch
}

// surface returns a side as one closed surface.
func (c *Craft) surface(s *side) (overlap.Keyed, error) {
	if s.whole != nil {
		return *s.whole, nil
	}
	p := &c.Parts[s.part]
	k := overlap.Keyed{Placed: s.pieces[0]}
	if f := p.Fit; len(s.pieces) > 1 || f.Longer.Add != 0 || f.Deeper.Add != 0 {
		// Pieces have inner faces, which are no surface.
		one := *p
		one.Solid = p.displacer()
		placed, err := one.Surfaces()
		if err != nil {
			return k, fmt.Errorf("part %q: %w", p.Name, err)
		}
		k = overlap.Keyed{Placed: placed[s.copy], Key: plugged{one.Solid, p.Drawn, f.Longer, f.Deeper, f.Stretch}}
	}
	s.whole = &k
	return k, nil
}

// share returns what side s has in common with others, nil for nothing.
func (c *Craft) share(s *side, others []side) (*mesh.Solid, error) {
	var near []overlap.Keyed
	for i := range others {
		if !s.near(&others[i]) {
			continue
		}
		k, err := c.surface(&others[i])
		if err != nil {
			return nil, err
		}
		near = append(near, k)
	}
	if len(near) == 0 {
		return nil, nil
	}
	k, err := c.surface(s)
	if err != nil {
		return nil, err
	}
	chain, err := c.Overlaps.Shared(k, near)
	if err != nil {
		return nil, fmt.Errorf("part %q: what it shares with other parts cannot be worked out: %w", c.Parts[s.part].Name, err)
	}
	return chain, nil
}

// shared appends, for each of the sides, what it shares with those before it as
// a term of weight -1. Sides that have nothing in common give no term. With
// flotation first, what it shares with other structure counts as its own.
func (c *Craft) shared(sides []side, terms []hydro.Term) ([]hydro.Term, error) {
	for i := range sides {
		s := &sides[i]
		chain, err := c.share(s, sides[:i])
		if err != nil {
			return nil, err
		}
		if chain != nil {
			terms = append(terms, hydro.Term{Placed: mesh.Placed{Solid: chain, Place: s.whole.Place}, Weight: -1, Part: s.part})
		}
	}
	return terms, nil
}

// Overlap is a volume that two parts both fill. For a mirrored part that passes
// through its own image A and B are the same.
type Overlap struct {
	A, B   int     // the parts, A before B
	Volume float64 // m3, of all of both
	Share  float64 // of the smaller one's volume
}

// trifle is the share of the smaller part's volume that two may have in common
// without a word: what drawing flush leaves when a file or a turn rounds it.
const trifle = 1e-6

// Overlapping returns the pairs of parts that share a volume worth a word.
func (c *Craft) Overlapping() ([]Overlap, error) {
	sides := c.sides([]Role{Flotation, Buoyant})
	sum := make(map[[2]int]float64)
	for j := range sides {
		for i := range j {
			s, o := &sides[j], &sides[i]
			chain, err := c.share(s, sides[i:i+1])
			if err != nil {
				return nil, err
			}
			if chain != nil {
				v := mesh.Placed{Solid: chain, Place: s.whole.Place}.Volume()
				sum[[2]int{min(o.part, s.part), max(o.part, s.part)}] += v
			}
		}
	}
	var out []Overlap
	for a := range c.Parts {
		for b := a; b < len(c.Parts); b++ {
			v, ok := sum[[2]int{a, b}]
			if !ok {
				continue
			}
			least := min(c.Parts[a].Volume(), c.Parts[b].Volume())
			if a == b {
				least /= 2
			}
			if v > trifle*least {
				out = append(out, Overlap{A: a, B: b, Volume: v, Share: v / least})
			}
		}
	}
	return out, nil
}
