package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Wing is a plain wing as strip theory knows it, for what a wind on a craft
// that lies still does to it.
type Wing struct {
	Area, Span float64 // m2, m; the span straight across from tip to tip
	At         r3.Vec  // quarter-chord point on the centerline, body axes
	Chord      r3.Vec  // unit vector along the chord, trailing to leading edge
	Dihedral   float64 // rad
	ZeroLift   float64 // angle of attack without lift, rad, negative for common camber
	MostLift   float64 // largest lift coefficient; 0 means MostLift
}

// MostLift is the largest lift coefficient of a plain wing at the small
// Reynolds numbers of models; common practice, no source.
const MostLift = 1.1

// LiftSlope returns the slope of the lift coefficient, per rad: 2π/(1 + 2/A).
func (w *Wing) LiftSlope() float64 { return 2 * math.Pi / (1 + 2*w.Area/(w.Span*w.Span)) }

// Most returns the largest lift coefficient.
func (w *Wing) Most() float64 {
	if w.MostLift == 0 {
		return MostLift
	}
	return w.MostLift
}

// forces returns the force on each half of the wing, and where it acts, in air
// that moves with velocity v relative to the wing.
//
// Each half is a panel of area S/2. Of the air only what crosses its span
// counts (R. T. Jones, "Effects of sweepback on boundary layer and separation",
// NACA TR 884, 1947, states the principle): with c along the chord and m at
// right angles to the panel, upward, the speeds are -v.c and v.m, the angle of
// attack is their arc tangent, and the lift is at right angles to them. Air
// from behind is taken alike: by linear theory a wing lifts as much in reverse
// flow. The slope of lift is 2π/(1 + 2/A) at the aspect ratio A = b²/S (L.
// Prandtl's lifting line for elliptic lift), to the largest lift coefficient
// and from there falling to none at 90 deg. The force acts on the quarter
// chord at half the half span. Left out are the wing's drag, which is counted
// with the outline, its pitching moment, and the lift it has in air that comes
// straight along the span.
func (w *Wing) forces(v r3.Vec, density float64) (at, force [2]r3.Vec) {
	slope, most := w.LiftSlope(), w.Most()
	for i, side := range [2]float64{1, -1} { // port, starboard
		s, c := math.Sincos(w.Dihedral)
		out := r3.Vec{Y: side * c, Z: s}
		m := r3.Unit(r3.Cross(w.Chord, r3.Scale(side, out)))
		ahead, up := -r3.Dot(v, w.Chord), r3.Dot(v, m)
		speed := math.Hypot(ahead, up)
		at[i] = r3.Add(w.At, r3.Scale(w.Span/4, r3.Vec{Y: side, Z: math.Tan(w.Dihedral)}))
		if speed == 0 {
			continue
		}
		lift := density / 2 * speed * speed * w.Area / 2 * liftCoefficient(math.Atan2(up, math.Abs(ahead))-w.ZeroLift, slope, most)
		// At right angles to the flow (-ahead c + up m), on the side of m.
		along := math.Copysign(up, ahead*up)
		force[i] = r3.Scale(lift/speed, r3.Add(r3.Scale(along, w.Chord), r3.Scale(math.Abs(ahead), m)))
	}
	return at, force
}

// liftCoefficient is linear to the largest, then falls as a cosine to none at
// 90 deg.
func liftCoefficient(attack, slope, most float64) float64 {
	if math.Abs(attack) > math.Pi/2 {
		return 0
	}
	stall := most / slope
	if a := math.Abs(attack); a > stall {
		return math.Copysign(most*math.Cos(math.Pi/2*(a-stall)/(math.Pi/2-stall)), attack)
	}
	return slope * attack
}
