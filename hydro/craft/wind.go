package craft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
)

// Wind is what a builder says about the wind. The zero value leaves all to
// usual sizes.
type Wind struct {
	Height      float64 // over the water at which speeds are meant, m; 0 means hydro.WindHeight
	Roughness   float64 // of the water, m; 0 means hydro.WaterRoughness
	Coefficient float64 // of drag; 0 means hydro.DragCoefficient
	// Side and Front, when not nil, are areas to use in place of the meshes.
	Side, Front *WindArea
}

// WindArea is an area above the water, seen from one side, and its center.
type WindArea struct {
	Area float64 // m2
	At   r3.Vec  // m
}

// Measured returns the height at which wind speeds are meant, m.
func (w Wind) Measured() float64 { return or(w.Height, hydro.WindHeight) }

// Rough returns the roughness length of the water, m.
func (w Wind) Rough() float64 { return or(w.Roughness, hydro.WaterRoughness) }

// Drag returns the drag coefficient.
func (w Wind) Drag() float64 { return or(w.Coefficient, hydro.DragCoefficient) }

// Stated reports whether areas are given.
func (w Wind) Stated() bool { return w.Side != nil || w.Front != nil }

func or(v, otherwise float64) float64 {
	if v == 0 {
		return otherwise
	}
	return v
}

// Exposed returns what the wind takes hold of: the areas given, or all parts
// as drawn, with those of a mirrored part on both sides. center is the hull's.
func (c *Craft) Exposed(center r3.Vec) hydro.Exposed {
	if c.Wind.Stated() {
		var a hydro.Areas
		if s := c.Wind.Side; s != nil {
			a.Side, a.SideAt = s.Area, s.At
		}
		if f := c.Wind.Front; f != nil {
			a.Front, a.FrontAt = f.Area, f.At
		}
		return a
	}
	var all []mesh.Placed
	for i := range c.Parts {
		all = append(all, c.Parts[i].Placed()...)
	}
	return hydro.NewOutlines(all, center)
}

// Wing is a wing's lift as a builder describes it.
type Wing struct {
	Area, Span float64  // m2, m
	At         r3.Vec   // quarter-chord point on the centerline, m
	Incidence  *float64 // rad, of the chord against the craft's x axis, nose up; nil takes the line marked as the chord
	Dihedral   float64  // rad
	ZeroLift   float64  // rad
	MostLift   float64  // largest lift coefficient; 0 means hydro.MostLift
	On         int      // part it moves with, -1 for none
}

// Lift returns the wing as the air feels it, nil where the craft file has none.
func (c *Craft) Lift() *hydro.Wing {
	w := c.Wing
	if w == nil {
		return nil
	}
	chord := r3.Vec{X: 1}
	if l, ok := c.Chord(); w.Incidence == nil && ok {
		chord = l.Direction()
	} else if w.Incidence != nil {
		s, co := math.Sincos(*w.Incidence)
		chord = r3.Vec{X: co, Z: s}
	}
	return &hydro.Wing{
		Area: w.Area, Span: w.Span, At: c.Follow(w.On, w.At), Chord: chord,
		Dihedral: w.Dihedral, ZeroLift: w.ZeroLift, MostLift: w.MostLift,
	}
}
