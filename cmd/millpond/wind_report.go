package main

import (
	"math"

	"millpond/hydro"
	"millpond/hydro/design"
)

// windReport is what `wind` has to say about a trial.
type windReport struct {
	trial *design.Trial
	speed float64 // at the height where it acts, m/s
	froms []float64
	blows []blow
}

// blow is the wind from one direction.
type blow struct {
	from float64
	gale *hydro.Gale
	wet  []design.Drenching

	steady, gust       hydro.Point // at the speed asked for
	steadyOK, gustOK   bool        // false where it goes over
	over, gustOver     float64     // speeds at which it goes over, +Inf for none
	overAt, gustOverAt hydro.Point
}

// solve lays the craft to the wind.
func (r *windReport) solve() error {
	for _, from := range r.froms {
		g, err := r.trial.Gale(from)
		if err != nil {
			return err
		}
		b := blow{from: from, gale: g, wet: r.trial.Drenched(g), over: math.Inf(1), gustOver: math.Inf(1)}
		b.steady, b.steadyOK = g.At(r.speed)
		b.gust, b.gustOK = g.Gust(r.speed)
		if s, at, lost := g.Over(); lost {
			b.over, b.overAt = s, at
		}
		if s, at, lost := g.GustOver(); lost {
			b.gustOver, b.gustOverAt = s, at
		}
		r.blows = append(r.blows, b)
	}
	return nil
}

// firstWet returns the first place to keep dry, or float, that goes under by
// a speed of the kind that of picks.
func (b *blow) firstWet(of func(design.Drenching) float64) (design.Drenching, bool) {
	var first design.Drenching
	found := false
	for _, d := range b.wet {
		if d.KeepDry && !math.IsInf(of(d), 1) && (!found || of(d) < of(first)) {
			first, found = d, true
		}
	}
	return first, found
}

func steadySpeed(d design.Drenching) float64 { return d.Steady }
func gustSpeed(d design.Drenching) float64   { return d.Gust }

// worst returns the direction from which the least wind does harm: puts
// something under or turns it over.
func (r *windReport) worst() *blow {
	var worst *blow
	least := math.Inf(1)
	for i := range r.blows {
		b := &r.blows[i]
		harm := min(b.over, b.gustOver)
		for _, d := range b.wet {
			// What is under at rest says nothing of the wind.
			if d.KeepDry && d.Steady > 0 && d.Gust > 0 {
				harm = min(harm, d.Steady, d.Gust)
			}
		}
		// From either side alike, the first of the two.
		if worst == nil || harm < least*(1-1e-6) {
			worst, least = b, harm
		}
	}
	return worst
}

// no reports whether the answer is no at the speed asked for.
func (r *windReport) no() bool {
	for i := range r.blows {
		b := &r.blows[i]
		if !b.steadyOK || !b.gustOK {
			return true
		}
		if d, ok := b.firstWet(steadySpeed); ok && d.Steady <= r.speed {
			return true
		}
		if d, ok := b.firstWet(gustSpeed); ok && d.Gust <= r.speed {
			return true
		}
	}
	return false
}

// warnings says what the numbers are not to be trusted for.
func (r *windReport) warnings() []string {
	if _, ignores := r.trial.WindSource(); ignores {
		return []string{"the craft file has no [wing]: the wing's lift is ignored, so the effect of the wind is a lower bound"}
	}
	return nil
}

// aloft returns a speed as it would be measured at 10 m.
func (r *windReport) aloft(speed float64) float64 {
	w := r.trial.Craft.Wind
	return hydro.WindAt(10, speed, w.Measured(), w.Rough())
}

// windLeftOut is what the numbers of a wind do not have in them.
var windLeftOut = []string{
	"waves",
	"the turning of the nose into the wind: the heading is held",
	"a wing's lift in air that comes straight along its span",
	"the tail's lift",
	"damping, which makes gusts throw it less far",
}
