package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shifted returns the trial of the same craft with its CG moved. The craft's
// parts stay.
func (t *Trial) Shifted(by r3.Vec) *Trial {
	b := *t.Body
	b.CG = r3.Add(b.CG, by)
	return &Trial{Craft: t.Craft, Body: &b}
}

// Telling returns the results that tell most about a build that gains mass and
// a CG that moves: the angle of attack, or the trim of a craft without a wing
// chord; the clearance of the point at the chord's leading edge, if one is
// watched there; and that of the lowest place that is to stay dry, or the draft
// where there is none.
func Telling(t *Trial) []Asked {
	c := t.Craft
	add := func(out []Asked, text string) []Asked {
		a, err := Find(c, text)
		if err != nil {
			return out // a name that two things share; nothing to tell of it
		}
		return append(out, a)
	}
	var out []Asked
	chord, ok := c.Chord()
	if !ok {
		out = add(out, "trim")
	} else {
		out = add(out, "angle of attack")
		for _, p := range c.Points {
			if r3.Norm(r3.Sub(c.Follow(p.On, p.At), chord.To)) < 1e-3 {
				out = add(out, "clearance of "+p.Name)
				break
			}
		}
	}
	lowest, least := "", math.Inf(1)
	if r, err := t.Rest(); err == nil {
		for _, w := range t.Watched() {
			if h, _ := w.Clearance(r.Attitude); w.KeepDry && h < least {
				lowest, least = w.Name, h
			}
		}
	}
	if lowest == "" {
		return add(out, "draft")
	}
	return add(out, "clearance of "+lowest)
}
