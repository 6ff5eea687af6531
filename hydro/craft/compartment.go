package craft

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
)

// Compartment is the room of a part between bulkheads. A mirrored part has two
// of each, one to port and one to starboard.
//
// It is taken from the part as drawn and goes along with its Fit, plugs and
// stretch included. It is the whole room between the outer walls: what is drawn
// inside, and what another part shares with it, is for the permeability to
// count.
type Compartment struct {
	Name         string
	Part         int
	Walls        []Bulkhead
	Permeability float64     // share of it that water can fill, 0 to 1
	Solid        *mesh.Solid // in the coordinates of the part's file; see Divide
}

// Bulkhead is a plane across a part, in the part's axes as drawn, m. The
// compartment is on the side to which Toward leads, which need not be of unit
// length.
type Bulkhead struct {
	At, Toward r3.Vec
}

// plane returns the bulkhead over the coordinates of the part's file, with the
// compartment below it.
func (w Bulkhead) plane(drawn mesh.Affine) mesh.Plane {
	n := r3.Scale(-1, r3.Unit(w.Toward))
	return mesh.Plane{Normal: drawn.Covector(n), Offset: r3.Dot(n, r3.Sub(drawn.T, w.At))}
}

// MissError says that a bulkhead does not cross what it is to divide.
type MissError struct {
	Wall   int     // index in the compartment's Walls
	Lo, Hi float64 // how far along Toward the part, or what the bulkheads before it leave, reaches from At, m
}

func (e *MissError) Error() string {
	if e.Hi <= 0 {
		return fmt.Sprintf("the bulkhead leaves nothing: the part ends %.4g m short of it", -e.Hi)
	}
	return fmt.Sprintf("the bulkhead misses the part, which begins %.4g m beyond it", e.Lo)
}

// thin is the distance from its end at which a bulkhead still cuts off a
// compartment, m.
const thin = 1e-6

// Divide makes the compartment's Solid from its part. Its error is a *MissError
// for a bulkhead that does not cross the part.
func (c *Compartment) Divide(p *Part) error {
	s := p.displacer()
	for i, w := range c.Walls {
		if !(r3.Norm(w.Toward) > 0) {
			return fmt.Errorf("bulkhead %d has no direction", i+1)
		}
		pl := w.plane(p.Drawn)
		placed, in := mesh.Placed{Solid: s, Place: p.Drawn}, r3.Unit(w.Toward)
		lo := r3.Dot(in, r3.Sub(placed.Lowest(in), w.At))
		hi := r3.Dot(in, r3.Sub(placed.Lowest(r3.Scale(-1, in)), w.At))
		if hi <= thin || lo >= -thin {
			return &MissError{Wall: i, Lo: lo, Hi: hi}
		}
		cut, err := s.Split(pl)
		if err != nil {
			return fmt.Errorf("bulkhead %d: %w", i+1, err)
		}
		if cut.Below == nil || !(cut.Below.Volume() > 0) {
			return &MissError{Wall: i, Lo: lo, Hi: hi}
		}
		s = cut.Below
	}
	c.Solid = s
	return nil
}

// Shares returns the share of the smaller one of two compartments of a part
// that lies in both.
func (c *Compartment) Shares(other *Compartment, p *Part) (float64, error) {
	s := c.Solid
	for _, w := range other.Walls {
		cut, err := s.Split(w.plane(p.Drawn))
		if err != nil {
			return 0, err
		}
		if cut.Below == nil {
			return 0, nil
		}
		s = cut.Below
	}
	return s.Volume() / min(c.Solid.Volume(), other.Solid.Volume()), nil
}

// Space is a compartment on one side of the craft, for the water to get into.
type Space struct {
	Name string // of the compartment, after "port" or "starboard" for a mirrored part's
	hydro.Space
	compartment int
}

// SpaceNames returns the names of Spaces, for which no solids are needed.
func (c *Craft) SpaceNames() []string {
	var out []string
	for _, k := range c.Compartments {
		if c.Parts[k.Part].Mirrored {
			out = append(out, "port "+k.Name, "starboard "+k.Name)
		} else {
			out = append(out, k.Name)
		}
	}
	return out
}

// Spaces returns all compartments as set on the craft, in the order of
// Compartments, port before starboard.
func (c *Craft) Spaces() []Space {
	var out []Space
	for i := range c.Compartments {
		k := &c.Compartments[i]
		p := &c.Parts[k.Part]
		near := Space{Name: k.Name, compartment: i, Space: hydro.Space{Solids: p.placed(k.Solid), Permeability: k.Permeability, Part: k.Part}}
		if !p.Mirrored {
			out = append(out, near)
			continue
		}
		far := near
		far.Solids = nil
		for _, s := range near.Solids {
			far.Solids = append(far.Solids, mesh.Placed{Solid: s.Solid, Place: s.Place.Then(mirror)})
		}
		near.Name, far.Name = "port "+k.Name, "starboard "+k.Name
		if near.Centroid().Y < 0 {
			near.Solids, far.Solids = far.Solids, near.Solids
		}
		out = append(out, near, far)
	}
	return out
}

// Vent is a point that lets water into a compartment when it goes under.
type Vent struct {
	Name string // of the point; with its side for the one that mirrors it
	hydro.Vent
}

// Vents returns the points that feed compartments, the indices being those of
// Spaces. A point that names a mirrored part's compartment without a side
// stands for itself and for its mirror image on the other float.
func (c *Craft) Vents() []Vent {
	var out []Vent
	spaces := c.Spaces()
	for _, p := range c.Points {
		if p.Feeds == "" {
			continue
		}
		at := c.Follow(p.On, p.At)
		twin := r3.Vec{X: at.X, Y: -at.Y, Z: at.Z}
		for i, s := range spaces {
			k := &c.Compartments[s.compartment]
			switch {
			case s.Name == p.Feeds, k.Name == p.Feeds && s.Centroid().Y*at.Y >= 0:
				out = append(out, Vent{p.Name, hydro.Vent{At: at, Space: i}})
			case k.Name == p.Feeds:
				out = append(out, Vent{p.Name + ", other side", hydro.Vent{At: twin, Space: i}})
			}
		}
	}
	return out
}
