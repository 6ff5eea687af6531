package craft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Makeup is what one of a part weighs: weighed, or built up from its mesh. A
// mirrored part has its makeup twice. The zero value weighs nothing.
type Makeup struct {
	Weighed *float64 // kg, replaces all below
	At      *r3.Vec  // CG of the weighed mass in craft axes; nil for the centroid of its volume

	Core     float64 // density of what fills the drawn solid, cavities left out, kg/m3
	Skin     []Cloth // layers over the whole surface
	Overlap  float64 // extra skin at seams and edges, plain ratio
	Wall     float64 // thickness of a print's wall, m
	WallMade float64 // density of the wall, kg/m3
}

// Cloth is one layer of skin.
type Cloth struct {
	Name  string  // "glass 80 g/m2 with resin", "filler", "paint"
	Areal float64 // kg/m2
}

// Entry is one line of the mass build-up.
type Entry struct {
	Of   string // part or item
	What string // "core", "skin: glass", "weighed", "item"
	Mass        // both sides of a mirrored part together
}

// entries returns the part's lines of the build-up.
func (p *Part) entries() []Entry {
	m := p.Makeup
	if m.Weighed != nil {
		at := p.both(mesh.Placed{Solid: p.Solid, Place: p.Place()}.Centroid())
		if m.At != nil {
			at = p.both(*m.At)
		}
		return []Entry{{p.Name, "weighed", Mass{float64(p.Count()) * *m.Weighed, at}}}
	}
	var out []Entry
	n := float64(p.Count())
	if m.Core > 0 {
		v, moment := p.material()
		out = append(out, Entry{p.Name, "core", Mass{n * m.Core * v, p.both(r3.Scale(1/v, moment))}})
	}
	if len(m.Skin) == 0 && m.Wall == 0 {
		return out
	}
	area, arm := mesh.Placed{Solid: p.Solid, Place: p.Place()}.Skin(r3.Vec{})
	at := p.both(r3.Scale(1/area, arm))
	for _, c := range m.Skin {
		out = append(out, Entry{p.Name, c.Name, Mass{n * area * c.Areal * (1 + m.Overlap), at}})
	}
	if m.Wall > 0 {
		out = append(out, Entry{p.Name, "wall", Mass{n * area * m.Wall * m.WallMade, at}})
	}
	return out
}

// material returns the volume of what is drawn between the outer surface and
// the cavities of one of the part, and its first moment about the craft's
// origin.
func (p *Part) material() (volume float64, moment r3.Vec) {
	place := p.Place()
	add := func(s *mesh.Solid, sign float64) {
		q := mesh.Placed{Solid: s, Place: place}
		v := sign * q.Volume()
		volume += v
		moment = r3.Add(moment, r3.Scale(v, q.Centroid()))
	}
	add(p.Solid, 1)
	for _, h := range p.Hollows {
		add(h, -1)
	}
	return volume, moment
}

// both returns the middle of a place on the part and of its mirror image where
// there is one.
func (p *Part) both(at r3.Vec) r3.Vec {
	if p.Mirrored {
		at.Y = 0
	}
	return at
}

// Buildup returns the lines of the mass build-up in the order of the craft's
// parts and items. It is empty for a craft whose mass is stated outright.
func (c *Craft) Buildup() []Entry {
	if c.Stated != nil {
		return nil
	}
	var out []Entry
	for i := range c.Parts {
		out = append(out, c.Parts[i].entries()...)
	}
	for _, it := range c.Items {
		out = append(out, Entry{it.Name, "item", Mass{it.Mass, c.Follow(it.On, it.At)}})
	}
	return out
}

// Total returns the sum of masses at their common CG. The CG of no mass is the
// origin.
func Total(entries []Entry) Mass {
	var t Mass
	for _, e := range entries {
		t.Mass += e.Mass.Mass
		t.At = r3.Add(t.At, r3.Scale(e.Mass.Mass, e.At))
	}
	if t.Mass != 0 {
		t.At = r3.Scale(1/t.Mass, t.At)
	}
	return t
}

// Built returns the mass and CG without the growth margin: the sum of the
// build-up, or as stated.
func (c *Craft) Built() Mass {
	if c.Stated != nil {
		return *c.Stated
	}
	return Total(c.Buildup())
}

// Loaded returns the mass and CG that every result is for: as built, with the
// growth margin.
func (c *Craft) Loaded() Mass {
	m := c.Built()
	extra := m.Mass * c.Growth.Share
	if c.Growth.At != nil && extra != 0 {
		m.At = r3.Scale(1/(m.Mass+extra), r3.Add(r3.Scale(m.Mass, m.At), r3.Scale(extra, *c.Growth.At)))
	}
	m.Mass += extra
	return m
}

// finite reports whether a mass can be solved for.
func (m Mass) finite() bool {
	return m.Mass > 0 && !math.IsInf(m.Mass, 0) && r3.Norm(m.At) < math.Inf(1)
}

// ByPart returns the totals of the build-up by part or item, in the order of
// their first entries.
func ByPart(entries []Entry) []Entry {
	var order []string
	groups := map[string][]Entry{}
	for _, e := range entries {
		if groups[e.Of] == nil {
			order = append(order, e.Of)
		}
		groups[e.Of] = append(groups[e.Of], e)
	}
	var out []Entry
	for _, name := range order {
		out = append(out, Entry{Of: name, Mass: Total(groups[name])})
	}
	return out
}
