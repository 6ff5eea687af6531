package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// lies says in words how a craft lies whose upward direction is up.
func lies(up r3.Vec) string {
	x, y, z := math.Abs(up.X), math.Abs(up.Y), math.Abs(up.Z)
	leaning := func(more float64, is, other string) string {
		if more > 0 {
			return is
		}
		return other
	}
	// A second direction is worth a word from 15 deg on.
	const some = 0.26
	nose := leaning(up.X, "nose up", "nose down")
	side := leaning(up.Y, "to starboard", "to port")
	switch {
	case z > max(x, y)-1e-6: // on an edge, by its deck or bottom
		base := leaning(up.Z, "upright", "on its back")
		switch {
		case x > some && x >= y:
			return base + ", " + nose
		case y > some:
			return base + ", leaning " + side
		}
		return base
	case y >= x:
		base := leaning(up.Y, "on its starboard side", "on its port side")
		if x > some {
			return base + ", " + nose
		}
		return base
	default:
		base := leaning(up.X, "on its tail", "on its nose")
		if z > some {
			return base + leaning(up.Z, ", belly down", ", back down")
		}
		return base
	}
}
