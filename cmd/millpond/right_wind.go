package main

import (
	"fmt"
	"math"

	"millpond/hydro/unit"
	"millpond/plots"
)

// heeling adds the heeling arm of a beam wind to the figure, and marks where it
// meets the righting arm: the steady heel. An empty speed adds nothing.
func (r *rightReport) heeling(fig *plots.Righting, speed string) error {
	if speed == "" {
		return nil
	}
	v, err := unit.Parse(unit.Speed, speed)
	switch {
	case err != nil:
		return fmt.Errorf("--wind: %w", err)
	case !(v > 0):
		return fmt.Errorf("--wind: %s must be over zero", speed)
	}
	arm, err := r.trial.WindArm(v)
	if err != nil {
		return err
	}
	h := plots.HeelingArm{Name: "beam wind of " + unit.Format(unit.Speed, v)}
	last, lastAngle := math.NaN(), 0.0
	for i := range r.curve.Points {
		p := &r.curve.Points[i]
		angle, against := p.Angle*180/math.Pi, 1000*arm(p.Attitude)
		// With the wings upright the sides change places: no beam wind there.
		// Nor after a leap: what balances then does not come of heeling.
		if math.Abs(angle) > 90 || math.Abs(p.Trim()) > math.Pi/3 || r.other(i) {
			against = math.NaN()
		}
		if i > 0 && lastAngle < fig.Rest && angle >= fig.Rest {
			// The wind changes sides, and the curve is broken there.
			h.Angles, h.Arms = append(h.Angles, fig.Rest), append(h.Arms, math.NaN())
		}
		h.Angles, h.Arms = append(h.Angles, angle), append(h.Arms, against)
		// On either side the righting arm rises through the heeling one
		// where the craft comes to lie steadily.
		over := 1000*p.GZ - against
		if last < 0 && over >= 0 {
			at := lastAngle + (angle-lastAngle)*last/(last-over)
			fig.Balances = append(fig.Balances, plots.RightingMark{Angle: at, Arm: against, Label: "heels to " + plots.Number(at, 1) + "°"})
		}
		last, lastAngle = over, angle
	}
	fig.Heeling = append(fig.Heeling, h)
	return nil
}
