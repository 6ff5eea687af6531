package main

import "millpond/hydro"

// assumed lists what the numbers of a throttle are reckoned with, so that they
// can be reckoned again.
func (r *throttleReport) assumed() []string {
	out := []string{"thrust stays along its motor's line as the craft turns, and motor torque grows in proportion to it"}
	switch r.trial.Craft.Reaction.Answer {
	case hydro.Tethered:
		return append(out, "the rope is level and holds all of the level thrust")
	case hydro.AtLateral:
		out = append(out, "drag is level; the wetted lateral area is the wet surface of what floats it as projected on the craft's own centerplane, half of both sides, each float counted")
	default:
		out = append(out, "drag is level")
	}
	return append(out, "no drag yet means that all of the level thrust speeds it up, answered by its inertia through the CG")
}
