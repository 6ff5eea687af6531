package craft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
)

// Thrust is a motor's thrust line.
type Thrust struct {
	Name       string
	At         r3.Vec  // a point on it, such as the propeller's hub, m
	Pitch, Yaw float64 // rad, from straight ahead: up and to port positive
	Most       float64 // at full throttle, N
	Torque     float64 // of the propeller's shaft at full throttle, N m, positive
	Spin       Spin    // of the propeller
	On         int     // part it moves with, -1 for none
}

// Spin is the sense in which a propeller turns, seen from behind.
type Spin int

const (
	// Clockwise presses the craft's port side down.
	Clockwise Spin = iota
	Counterclockwise
)

func (s Spin) String() string { return [...]string{"clockwise", "counterclockwise"}[s] }

// ThrustLine returns thrust line i as the water feels it, where its part's Fit
// now has it. The craft is turned against the propeller, so the torque of a
// clockwise one is negative about the thrust.
func (c *Craft) ThrustLine(i int) hydro.ThrustLine {
	t := c.Thrusts[i]
	sp, cp := math.Sincos(t.Pitch)
	sy, cy := math.Sincos(t.Yaw)
	along := r3.Vec{X: cp * cy, Y: cp * sy, Z: sp}
	at := c.Follow(t.On, t.At)
	if t.On >= 0 {
		along = r3.Unit(r3.Sub(c.Follow(t.On, r3.Add(t.At, along)), at))
	}
	torque := -t.Torque
	if t.Spin == Counterclockwise {
		torque = t.Torque
	}
	return hydro.ThrustLine{At: at, Along: along, Most: t.Most, Torque: torque}
}
