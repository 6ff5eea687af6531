package craft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Makeup is what one of a part weighs: weighed, or built up from its mesh. A
// mirrored part has its makeup twice. The zero value weighs nothing.
type Makeup struct {
	Weighed *float64 // kg as drawn, replaces all below
	Follows Measure  // what a weighed mass grows and shrinks with
	At      *r3.Vec  // CG of the weighed mass in craft axes; nil for the centroid of its volume

	Core     float64 // density of what fills the drawn solid, cavities left out, kg/m3
	Skin     []Cloth // layers over the whole surface
	Overlap  float64 // extra skin at seams and edges, plain ratio
	Wall     float64 // thickness of a print's wall, m
	WallMade float64 // density of the wall, kg/m3
}

// Measure is what the mass of a weighed part is taken to follow when the part
// is made larger or smaller than it was weighed.
type Measure int

const (
	Nothing Measure = iota // the mass stays
	Area                   // a skin or a printed wall
	Volume                 // a solid
)

// BuiltUp reports whether the mass is built up from the mesh.
func (m *Makeup) BuiltUp() bool {
	return m.Weighed == nil && (m.Core > 0 || len(m.Skin) > 0 || m.Wall > 0)
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
	// Count is how many of it the mass is of: two for a mirrored part.
	Count int
}

// entries returns the part's lines of the build-up.
func (p *Part) entries() []Entry {
	m := p.Makeup
	n := float64(p.Count())
	solid := p.placed(p.Solid)
	if m.Weighed != nil {
		volume, moment := bulk(solid)
		at := p.both(r3.Scale(1/volume, moment))
		if m.At != nil {
			at = p.both(p.follow(*m.At))
		}
		return []Entry{{p.Name, "weighed", Mass{n * *m.Weighed * p.growth(), at}, p.Count()}}
	}
	var out []Entry
	if m.Core > 0 {
		v, moment := p.material(solid)
		out = append(out, Entry{p.Name, "core", Mass{n * m.Core * v, p.both(r3.Scale(1/v, moment))}, p.Count()})
	}
	if len(m.Skin) == 0 && m.Wall == 0 {
		return out
	}
	area, arm := skin(solid)
	at := p.both(r3.Scale(1/area, arm))
	for _, c := range m.Skin {
		out = append(out, Entry{p.Name, c.Name, Mass{n * area * c.Areal * (1 + m.Overlap), at}, p.Count()})
	}
	if m.Wall > 0 {
		out = append(out, Entry{p.Name, "wall", Mass{n * area * m.Wall * m.WallMade, at}, p.Count()})
	}
	return out
}

// growth returns the factor on a weighed part's mass for its size now.
func (p *Part) growth() float64 {
	if p.Makeup.Follows == Nothing || !p.Reshaped() {
		return 1
	}
	drawn := *p
	drawn.Fit = p.Base
	measure := func(p *Part) float64 {
		if p.Makeup.Follows == Area {
			area, _ := skin(p.placed(p.Solid))
			return area
		}
		volume, _ := bulk(p.placed(p.Solid))
		return volume
	}
	return measure(p) / measure(&drawn)
}

// material returns the volume of what is drawn between the outer surface and
// the cavities of one of the part, and its first moment about the craft's
// origin.
func (p *Part) material(solid []mesh.Placed) (volume float64, moment r3.Vec) {
	volume, moment = bulk(solid)
	for _, h := range p.Hollows {
		v, m := bulk(p.placed(h))
		volume, moment = volume-v, r3.Sub(moment, m)
	}
	return volume, moment
}

// bulk returns the volume of pieces and its first moment about the craft's
// origin.
func bulk(pieces []mesh.Placed) (volume float64, moment r3.Vec) {
	for _, q := range pieces {
		v := q.Volume()
		volume += v
		moment = r3.Add(moment, r3.Scale(v, q.Centroid()))
	}
	return volume, moment
}

// skin returns the area of pieces and its first moment about the craft's
// origin.
func skin(pieces []mesh.Placed) (area float64, arm r3.Vec) {
	for _, q := range pieces {
		a, m := q.Skin(r3.Vec{})
		area, arm = area+a, r3.Add(arm, m)
	}
	return area, arm
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
		out = append(out, Entry{it.Name, "item", Mass{it.Mass, c.Follow(it.On, it.At)}, 1})
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
// growth margin, but for what is Held.
func (c *Craft) Loaded() Mass {
	m := c.Built()
	extra := m.Mass * c.Growth.Share
	if c.Growth.At != nil && extra != 0 {
		m.At = r3.Scale(1/(m.Mass+extra), r3.Add(r3.Scale(m.Mass, m.At), r3.Scale(extra, *c.Growth.At)))
	}
	m.Mass += extra
	if c.Held.Mass != nil {
		m.Mass = *c.Held.Mass
	}
	for i, to := range []*float64{&m.At.X, &m.At.Y, &m.At.Z} {
		if c.Held.CG[i] != nil {
			*to = *c.Held.CG[i]
		}
	}
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
		out = append(out, Entry{Of: name, Mass: Total(groups[name]), Count: groups[name][0].Count})
	}
	return out
}
