package mend

import (
	"errors"
	"math"

	"millpond/mesh"
)

// mostHinted is how many open edges a mesh may have for a cure to be sought;
// with more it would take seconds.
const mostHinted = 500_000

// seekCure tries what options would close the mesh, and tells in the error
// those that do: a tolerance for welding, and how large holes must be allowed.
func seekCure(m *mesh.Mesh, opt Options, res *Result, holes *HolesError) {
	if opt.Weld == 0 {
		for _, share := range [2]float64{1e-5, 1e-4} {
			box := fromR3(res.Box)
			try := opt
			try.Weld = roundUp(share*box.diagonal(), 1)
			if _, err := closeMesh(m, try); err == nil {
				holes.WeldAt = try.Weld
				return // it is a crack, not a hole
			}
		}
	}
	for _, curved := range [2]bool{opt.NonPlanar, true} {
		try := opt
		try.MaxHole, try.NonPlanar = 1, curved
		found, err := closeMesh(m, try)
		if err != nil && !errors.As(err, new(*HolesError)) {
			return // it is not the holes that are in the way
		}
		if err != nil {
			continue
		}
		area := found.Area
		largest, sum := 0.0, 0.0
		for _, h := range found.Holes {
			largest = max(largest, h.Share)
			sum += h.Area
			area -= h.Area
		}
		holes.CloseAt = min(1, roundUp(max(largest, sum/area), 2))
		holes.CloseCurved = curved && !opt.NonPlanar
		holes.CloseDoubt = found.VolumeDoubt / found.Volume
		try.MaxHole = holes.CloseAt
		if _, err := closeMesh(m, try); err != nil {
			holes.CloseAt, holes.CloseCurved, holes.CloseDoubt = 0, false, 0
		}
		return
	}
}

// roundUp rounds x up to so many significant digits.
func roundUp(x float64, digits int) float64 {
	if !(x > 0) {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-float64(digits-1))
	// What is a round number but for rounding stays that number.
	return unit * math.Ceil(x/unit-1e-9)
}
