package mend

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// InputError says that a mesh holds something that is no geometry.
type InputError struct {
	Name     string
	Triangle int // index of the triangle, -1 when none is to blame
	Reason   string
}

func (e *InputError) Error() string {
	if e.Triangle < 0 {
		return fmt.Sprintf("%s%s", prefix(e.Name), e.Reason)
	}
	return fmt.Sprintf("%striangle %d: %s", prefix(e.Name), e.Triangle+1, e.Reason)
}

// HolesError says that a mesh is open and why it was not closed.
type HolesError struct {
	Name      string
	OpenEdges int
	Holes     int  // number of holes that were not closed
	Largest   Hole // the largest of them
	Shells    int  // number of shells that are open
	Of        int  // number of shells in all
	// WeldAt is a tolerance at which merging near vertices would leave no
	// hole, zero when none was found.
	WeldAt float64
	// CloseAt is how large holes must be allowed, as in Options.MaxHole, to
	// close them all, zero when that would not do. CloseCurved says that some
	// are not planar, CloseDoubt how much of the volume would be uncertain.
	CloseAt     float64
	CloseCurved bool
	CloseDoubt  float64
	Unit        string
	// Cure is what to do about it, in the words in which the caller's users
	// set the options; empty for words of no caller.
	Cure string
	// SharedEdges counts edges with more than two facets: inner walls make
	// them.
	SharedEdges int
}

func (e *HolesError) Error() string {
	u := unit(e.Unit)
	s := fmt.Sprintf("%sthe mesh is open: %s (%s)", prefix(e.Name), count(e.Holes, "hole"), count(e.OpenEdges, "open edge"))
	if e.Shells < e.Of {
		s += fmt.Sprintf(" in %d of %d shells", e.Shells, e.Of)
	}
	h := e.Largest
	s += fmt.Sprintf("; the largest is %s across, near %s, not closed because %s", u.length(h.Size), place(h.Center), h.Why)
	if e.SharedEdges > 0 {
		s += fmt.Sprintf("; %s with more than two facets: is there a wall inside?", count(e.SharedEdges, "edge"))
	}
	if e.Cure != "" {
		return s + "; " + e.Cure
	}
	switch {
	case e.WeldAt > 0:
		return s + fmt.Sprintf("; merging vertices within %s of each other would close it", u.length(e.WeldAt))
	case e.CloseAt > 0:
		return s + fmt.Sprintf("; allowing holes of %s would close it", percent(e.CloseAt))
	}
	return s + "; close it in the CAD program and export again"
}

// SideError says that a shell has no inside and outside: like a Möbius strip it
// cannot be oriented.
type SideError struct {
	Name     string
	Triangle int    // where the contradiction was met, in the welded mesh
	Place    r3.Vec // the middle of that facet
}

func (e *SideError) Error() string {
	return fmt.Sprintf("%sthe surface has no inside: its facets contradict each other near %s; rebuild that place in the CAD program and export again",
		prefix(e.Name), place(e.Place))
}

// EmptyError says that nothing that holds volume is left of a mesh.
type EmptyError struct {
	Name   string
	Reason string
}

func (e *EmptyError) Error() string { return prefix(e.Name) + e.Reason }
