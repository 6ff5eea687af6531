package main

import (
	"fmt"
	"io"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
)

// other reports whether point i of the curve lies beyond a leap that does not
// come back: it is of another attitude.
func (r *rightReport) other(i int) bool {
	p, side := r.curve.Points, 1
	if p[i].Angle < r.curve.Start.Angle {
		side = 0
	}
	left := r.left[side]
	if left == nil {
		return false
	}
	if p[i].Angle == left.Leap.Angle {
		return r.leapt(i)
	}
	return math.Abs(p[i].Angle-r.curve.Start.Angle) > math.Abs(left.Leap.Angle-r.curve.Start.Angle)
}

// sideAt returns the number of the side that a jump is on.
func (r *rightReport) sideAt(j hydro.Jump) int {
	if j.Angle < r.curve.Start.Angle {
		return 0
	}
	return 1
}

// ends reports whether a jump is the leap that does not come back.
func (r *rightReport) ends(j hydro.Jump) bool {
	left := r.left[r.sideAt(j)]
	return left != nil && left.Leap == j
}

// endWords says in a few words how stability ends on a side.
func (r *rightReport) endWords(s hydro.RightingSide) string {
	switch s.Ends {
	case hydro.ArmGone:
		return "GZ reaches zero"
	case hydro.Leaps:
		return fmt.Sprintf("it leaps to %s %s", r.words().free, styleOf(r.trial).Format(unit.Angle, s.Leap.To))
	}
	return ""
}

// endKeys are the ways in which stability ends, in JSON.
var endKeys = map[hydro.Ending]string{
	hydro.GoesOn: "beyond_curve", hydro.AllAround: "never", hydro.ArmGone: "gz_zero", hydro.Leaps: "leap",
}

// jumpNotes says where the branch that was followed ended, and what then.
func (r *rightReport) jumpNotes(w io.Writer, angle func(float64) string) {
	words := r.words()
	for _, j := range r.curve.Jumps {
		if j.From == j.To {
			fmt.Fprintf(w, "At %s %s it may turn either way in %s: the negative side is followed.\n", words.angle, angle(j.Angle), words.free)
			continue
		}
		either := ""
		if j.Either {
			either = ", or as far the other way"
		}
		fmt.Fprintf(w, "At %s %s it does not hold: the %s leaps from %s to %s%s, and frees %s.\n",
			words.angle, angle(j.Angle), words.free, angle(j.From), angle(j.To), either, millijoules(j.Lost))
		left := r.left[r.sideAt(j)]
		switch {
		case left == nil || math.Abs(j.Angle-r.curve.Start.Angle) < math.Abs(left.Leap.Angle-r.curve.Start.Angle):
			fmt.Fprintln(w, "  Let go there, it comes back to rest.")
		case left.Leap == j:
			c := left.Comes
			fmt.Fprintf(w, "  That is another attitude, and it does not come back: let go there, it comes to rest %s (trim %s, heel %s).\n",
				lies(c.Up), angle(c.Trim()), angle(c.Heel()))
		}
	}
}
