package craft

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Role is what a part does in the water.
type Role int

const (
	// Flotation is a float or a hull: it is there to carry the craft, and
	// the reserve buoyancy of first rank is counted from it alone.
	Flotation Role = iota
	// Buoyant is other structure that displaces when it goes under, such as
	// a foam wing.
	Buoyant
	// NonBuoyant fills with water or is too thin to count.
	NonBuoyant
)

func (r Role) String() string { return [...]string{"flotation", "buoyant", "non-buoyant"}[r] }

// Part is a closed solid set on the craft.
type Part struct {
	Name     string
	Role     Role
	Solid    *mesh.Solid
	Hollows  []*mesh.Solid // cavities drawn inside the solid, which displace all the same
	Vented   *mesh.Solid   // the solid without the cavities that water reaches, nil where it reaches none
	Drawn    mesh.Affine   // from the file's unit and axes to the part's axes in meters
	Fit      Fit           // how it is set now
	Base     Fit           // how the craft file sets it, without plugs
	Mirrored bool          // a second one stands on the other side of y = 0
	KeepDry  bool          // the whole of it is to stay above water
	Makeup   Makeup
	Marks    FloatMarks // what the builder states of a float's geometry

	// Auxiliary marks a float at a wing tip or a sponson: it holds the craft
	// upright and does not carry it.
	Auxiliary bool
}

// Fit says how a part is set on the craft. It is a record of absolute values:
// its zero value but for Stretch leaves the part where it was drawn.
type Fit struct {
	At               r3.Vec  // where the part's origin goes, m
	Roll, Pitch, Yaw float64 // rad: starboard down, nose up, nose to port positive
	Longer, Deeper   Plug    // along the part's x and z axes
	Stretch          Stretch
}

// Stretch multiplies a part's length, beam and height about an anchor that
// stays where it is. The zero value means no stretch.
type Stretch struct {
	Length, Beam, Height float64 // factors, 0 meaning 1
	Anchor               r3.Vec  // in the part's axes, m
}

// affine returns the stretch as a map of the part's axes.
func (s Stretch) affine() mesh.Affine {
	return mesh.Translation(r3.Scale(-1, s.Anchor)).
		Then(mesh.Scaling(one(s.Length), one(s.Beam), one(s.Height))).
		Then(mesh.Translation(s.Anchor))
}

// affine returns the map from the part's axes, plugs let in, to the craft's:
// stretch, then roll, pitch and yaw, then move.
func (f Fit) affine() mesh.Affine {
	// With y to port a right-handed turn about +x lifts port, so it puts
	// starboard down; about +y it puts the nose down, hence the minus.
	return f.Stretch.affine().Then(mesh.Rotation(r3.Vec{X: 1}, f.Roll)).
		Then(mesh.Rotation(r3.Vec{Y: 1}, -f.Pitch)).
		Then(mesh.Rotation(r3.Vec{Z: 1}, f.Yaw)).
		Then(mesh.Translation(f.At))
}

// Place returns the map from the part's file to the craft's axes, but for what
// its plugs move.
func (p *Part) Place() mesh.Affine { return p.Drawn.Then(p.Fit.affine()) }

// mirror is the map to the other side of the craft.
var mirror = mesh.Scaling(1, -1, 1)

// Placed returns the part's solid as set on the craft, and a mirrored part's
// second one after it. Where the part has plugs each is several pieces, closed
// against each other by faces that are no surface; see [Part.Surfaces].
func (p *Part) Placed() []mesh.Placed { return p.pair(p.placed(p.Solid)) }

// Displacing is [Part.Placed] for what displaces: without the cavities that
// water reaches.
func (p *Part) Displacing() []mesh.Placed { return p.pair(p.placed(p.displacer())) }

// displacer returns the solid that displaces.
func (p *Part) displacer() *mesh.Solid {
	if p.Vented != nil {
		return p.Vented
	}
	return p.Solid
}

// pair adds the second ones of a mirrored part.
func (p *Part) pair(out []mesh.Placed) []mesh.Placed {
	if p.Mirrored {
		out = slices.Grow(out, len(out))
		for _, q := range out {
			out = append(out, mesh.Placed{Solid: q.Solid, Place: q.Place.Then(mirror)})
		}
	}
	return out
}

// Count returns how many of the part there are: two for a mirrored one.
func (p *Part) Count() int {
	if p.Mirrored {
		return 2
	}
	return 1
}

// Volume returns what all of the part displaces when wholly under and alone,
// m3. What it shares with other parts is counted in; see [hydro.Hull.PartWhole].
func (p *Part) Volume() float64 {
	sum := 0.0
	for _, q := range p.Displacing() {
		sum += q.Volume()
	}
	return sum
}

// follow returns where a place at q in the craft, with the part in its Base,
// lies with the part in its Fit. A place on the far side of a mirrored part
// goes with the second one.
func (p *Part) follow(q r3.Vec) r3.Vec {
	if p.Fit == p.Base {
		return q
	}
	back, ok := p.Base.affine().Inverse()
	if !ok {
		return q
	}
	if p.Mirrored && q.Y*p.Base.affine().Point(p.Drawn.Point(p.Solid.Centroid())).Y < 0 {
		q.Y = -q.Y
		q = p.Fit.at(back.Point(q))
		q.Y = -q.Y
		return q
	}
	return p.Fit.at(back.Point(q))
}
