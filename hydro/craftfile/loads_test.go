package craftfile

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
)

const loaded = `length_unit = "mm"
[[part]]
name = "float"
mesh = "float.stl"
unit = "mm"
role = "flotation"
mass = "400 g"
[[thrust]]
name = "port motor"
at = [300, 150, 200]
most = "2.2 kgf"
pitch = "3 deg"
yaw = "-2 deg"
torque = "30 N cm"
spin = "clockwise"
on = "float"
[[thrust]]
name = "starboard motor"
at = [300, -150, 200]
most = "21 N"
torque = "0.3 N m"
spin = "anticlockwise"
[reaction]
tether = [-350, 0, 60]
[wind]
height = "2 m"
roughness = "1 mm"
drag_coefficient = 1.2
side = { area = "1200 cm2", at = [-40, 0, 210] }
front = { area = "0.05 m2", at = [0, 0, 220] }
[wing]
area = "36 dm2"
span = 1600
at = [30, 0, 300]
incidence = "2.5 deg"
dihedral = "3 deg"
zero_lift = "-2 deg"
most_lift = 1.3
`

func TestReadLoads(t *testing.T) {
	c := mustRead(t, loaded).Craft
	const deg = math.Pi / 180

	port, starboard := c.ThrustLine(0), c.ThrustLine(1)
	nearVec(t, "at of the port motor", port.At, r3.Vec{X: 0.3, Y: 0.15, Z: 0.2})
	nearVec(t, "direction of the port motor", port.Along,
		r3.Vec{X: math.Cos(3*deg) * math.Cos(2*deg), Y: -math.Cos(3*deg) * math.Sin(2*deg), Z: math.Sin(3 * deg)})
	near(t, "most of the port motor", port.Most, 2.2*9.80665)
	// A clockwise propeller turns the craft the other way: port side down.
	near(t, "torque of the port motor", port.Torque, -0.3)
	near(t, "torque of the starboard motor", starboard.Torque, 0.3)
	nearVec(t, "direction of the starboard motor", starboard.Along, r3.Vec{X: 1})

	if want := (hydro.Reaction{Answer: hydro.Tethered, At: r3.Vec{X: -0.35, Z: 0.06}}); c.Reaction != want {
		t.Errorf("reaction = %+v, want %+v", c.Reaction, want)
	}
	near(t, "wind height", c.Wind.Measured(), 2)
	near(t, "roughness", c.Wind.Rough(), 0.001)
	near(t, "drag coefficient", c.Wind.Drag(), 1.2)
	near(t, "side", c.Wind.Side.Area, 0.12)
	nearVec(t, "side at", c.Wind.Side.At, r3.Vec{X: -0.04, Z: 0.21})
	near(t, "front", c.Wind.Front.Area, 0.05)

	w := c.Lift()
	near(t, "wing area", w.Area, 0.36)
	near(t, "span", w.Span, 1.6)
	nearVec(t, "chord", w.Chord, r3.Vec{X: math.Cos(2.5 * deg), Z: math.Sin(2.5 * deg)})
	near(t, "dihedral", w.Dihedral, 3*deg)
	near(t, "zero lift", w.ZeroLift, -2*deg)
	near(t, "most lift", w.MostLift, 1.3)
}

// A craft file that says nothing of loads has none, and the usual sizes.
func TestReadWithoutLoads(t *testing.T) {
	before, _, _ := strings.Cut(loaded, "[[thrust]]")
	c := mustRead(t, before).Craft
	if len(c.Thrusts) != 0 || c.Lift() != nil || c.Wind.Stated() || c.Reaction != (hydro.Reaction{}) {
		t.Errorf("thrusts %v, wing %v, wind %+v, reaction %+v; want none", c.Thrusts, c.Wing, c.Wind, c.Reaction)
	}
	near(t, "wind height", c.Wind.Measured(), hydro.WindHeight)
	near(t, "drag coefficient", c.Wind.Drag(), hydro.DragCoefficient)
	near(t, "roughness", c.Wind.Rough(), hydro.WaterRoughness)
}

// A thrust line on a part goes with it, and turns with it.
func TestThrustFollows(t *testing.T) {
	c := mustRead(t, loaded).Craft
	c.Parts[0].Fit = craft.Fit{At: r3.Vec{Z: 0.01}, Yaw: math.Pi / 2}
	got := c.ThrustLine(0)
	nearVec(t, "at", got.At, r3.Vec{X: -0.15, Y: 0.3, Z: 0.21})
	const deg = math.Pi / 180
	nearVec(t, "direction", got.Along,
		r3.Vec{X: math.Cos(3*deg) * math.Sin(2*deg), Y: math.Cos(3*deg) * math.Cos(2*deg), Z: math.Sin(3 * deg)})
}
