package craft

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/mend"
)

// Pocket is a space that parts which cross or lie flush shut in between them.
// The parts are solids of their own, so it counts as water; within one file it
// would be a cavity.
type Pocket struct {
	Volume float64 // m3
	Center r3.Vec  // craft axes
	Parts  []int   // those around it, and what else reaches into the box about it
}

// Pockets returns the spaces that the parts shut in. Of parts that reach each
// other but cannot be joined into one surface none is found. Faces that are
// flush but for more than the rounding of their files leave a gap, which shuts
// nothing in.
func (c *Craft) Pockets() ([]Pocket, error) {
	var out []Pocket
	for _, group := range c.groups() {
		joined := new(mesh.Mesh)
		for i := range group {
			k, err := c.surface(&group[i])
			if err != nil {
				return nil, err
			}
			join(joined, k.Placed)
		}
		closed, err := mend.Close(joined, mend.Options{MaxHole: -1, Junction: -1, Unit: "m"})
		if err != nil || closed.Shut == 0 {
			continue
		}
		for _, s := range closed.Shells {
			if s.Kind != mend.Cavity || s.Parent >= 0 {
				continue
			}
			p := Pocket{Volume: s.Volume, Center: s.Centroid}
			about := side{box: s.Box}
			for i := range group {
				if group[i].near(&about) {
					p.Parts = append(p.Parts, group[i].part)
				}
			}
			slices.Sort(p.Parts)
			p.Parts = slices.Compact(p.Parts)
			out = append(out, p)
		}
	}
	return out, nil
}

// groups returns the sides that displace in groups that may touch, those of one
// side left out.
func (c *Craft) groups() [][]side {
	var groups [][]side
	for _, s := range c.sides([]Role{Flotation, Buoyant}) {
		joined := []side{s}
		apart := groups[:0:0]
		for _, g := range groups {
			if meets(g, &s) {
				joined = append(g, joined...)
			} else {
				apart = append(apart, g)
			}
		}
		groups = append(apart, joined)
	}
	many := groups[:0]
	for _, g := range groups {
		if len(g) > 1 {
			many = append(many, g)
		}
	}
	return many
}

// meets reports whether a side may touch one of the group.
func meets(group []side, s *side) bool {
	for i := range group {
		if group[i].near(s) {
			return true
		}
	}
	return false
}

// join appends the surface of a placed solid to a mesh.
func join(m *mesh.Mesh, p mesh.Placed) {
	first := uint32(len(m.Vertices))
	for i := range p.Solid.Vertices() {
		m.Vertices = append(m.Vertices, p.Place.Point(p.Solid.Vertex(i)))
	}
	mirrored := p.Place.Det() < 0
	for i := range p.Solid.Triangles() {
		t := p.Solid.Corners(i)
		if mirrored {
			t[1], t[2] = t[2], t[1]
		}
		m.Triangles = append(m.Triangles, [3]uint32{first + t[0], first + t[1], first + t[2]})
	}
}
