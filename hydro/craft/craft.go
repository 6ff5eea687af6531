package craft

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh/overlap"
)

// Craft is a machine as the builder describes it.
type Craft struct {
	Name     string
	Parts    []Part
	Items    []Item
	Points   []Point
	Lines    []Line
	Stations []Station

	Compartments []Compartment

	Loadings []Loading // what it may go out with
	Loading  string    // which of them this is; empty for as its file has it

	// Thrusts are the motors, Reaction what holds against them, Wing what
	// lifts in a wind. All may be absent.
	Thrusts  []Thrust
	Reaction hydro.Reaction
	Wing     *Wing
	Wind     Wind

	// Stated, when not nil, is the whole mass and CG outright; parts and
	// items then carry no mass of their own.
	Stated *Mass
	Growth Growth
	Water  Water

	// Overlaps remembers what parts share, for this craft and the changed
	// copies of it that a sweep makes. It may be nil.
	Overlaps *overlap.Cache

	// PropellerX and TailX are where the propeller's disc and the hinge of the
	// tail's control surface are along x, m; nil where not stated. The sheet of
	// float geometry compares with them.
	PropellerX, TailX *float64

	// Held replaces what the mass comes to.
	Held Held
}

// Held is what of the mass is held at a value, whatever it is made up of: what
// a sweep over mass or CG sets.
type Held struct {
	Mass *float64    // kg, with the growth margin
	CG   [3]*float64 // x, y, z, m
}

// Copy returns a craft that can be changed without changing this one. Solids
// are shared.
func (c *Craft) Copy() *Craft {
	d := *c
	d.Parts = slices.Clone(c.Parts)
	d.Items = slices.Clone(c.Items)
	d.Points = slices.Clone(c.Points)
	d.Lines = slices.Clone(c.Lines)
	d.Stations = slices.Clone(c.Stations)
	return &d
}

// Mass is a mass and where it acts, in craft axes.
type Mass struct {
	Mass float64 // kg
	At   r3.Vec  // m
}

// Growth is the margin for what a build always gains: a share of the mass
// without it.
type Growth struct {
	Share float64 // plain ratio, 0.1 is 10 %
	At    *r3.Vec // where it acts; nil for at the CG
}

// Water is what the craft floats on.
type Water struct {
	Name    string  // as shown to people: "fresh water"
	Density float64 // kg/m3
}

// Item is a mass with a place and no buoyancy: a battery, a motor, ballast.
type Item struct {
	Name string
	Mass float64 // kg
	At   r3.Vec  // m
	On   int     // part it moves with, -1 for none
}

// Point is a place whose height above the water is watched.
type Point struct {
	Name    string
	At      r3.Vec // m, craft axes, with every part in its Fit as drawn up
	KeepDry bool   // its going under ends what "mass to first wet" measures
	On      int    // part it moves with, -1 for none
	Feeds   string // the compartment, or one side of it, that it lets water into; empty for none
}

// Line is two places whose line's angle to the water is watched.
type Line struct {
	Name     string
	From, To r3.Vec // from the rear end to the front end, m
	Chord    bool   // the wing chord: its angle is the angle of attack
	On       int    // part it moves with, -1 for none
}

// Direction returns the unit vector from the rear end to the front end.
func (l Line) Direction() r3.Vec { return r3.Unit(r3.Sub(l.To, l.From)) }

// Station is a place at the bottom of the hull where the draft is read: the
// bow, the step, the stern. On a mirrored part it is on both sides.
type Station struct {
	Name string
	At   r3.Vec // m
	On   int    // part it moves with, -1 for none
}

// Chord returns the line whose angle is the angle of attack, and false when
// none is marked so.
func (c *Craft) Chord() (Line, bool) {
	for _, l := range c.Lines {
		if l.Chord {
			return c.moved(l), true
		}
	}
	return Line{}, false
}

// moved returns the line where its part's Fit now has it.
func (c *Craft) moved(l Line) Line {
	l.From, l.To = c.Follow(l.On, l.From), c.Follow(l.On, l.To)
	return l
}

// Follow returns where a place at p in the craft as drawn up lies now, given
// the part it moves with (-1 for none).
func (c *Craft) Follow(on int, p r3.Vec) r3.Vec {
	if on < 0 {
		return p
	}
	return c.Parts[on].follow(p)
}

// Check returns an error that names the first thing about the craft that no
// result could be computed from.
func (c *Craft) Check() error {
	if len(c.Parts) == 0 {
		return fmt.Errorf("craft %q has no parts", c.Name)
	}
	afloat := false
	for i := range c.Parts {
		if err := c.Parts[i].checkPlugs(); err != nil {
			return fmt.Errorf("part %q: %w", c.Parts[i].Name, err)
		}
		afloat = afloat || c.Parts[i].Role != NonBuoyant
	}
	if !afloat {
		return fmt.Errorf("craft %q has no part that displaces water: mark at least one as flotation", c.Name)
	}
	return nil
}

// LineNow returns line i where its part's Fit now has it.
func (c *Craft) LineNow(i int) Line { return c.moved(c.Lines[i]) }
