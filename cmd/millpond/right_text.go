package main

import (
	"fmt"
	"io"
	"math"

	"millpond/hydro"
	"millpond/hydro/unit"
	"millpond/plots"
)

// fineStyle shows arms, which are small: 0.1 mm.
var fineStyle = unit.Style{Fine: true}

func (r *rightReport) text(w io.Writer) {
	t, words, style := r.trial, r.words(), styleOf(r.trial)
	fmt.Fprintf(w, "%s %s from rest in %s, %s%s, free to sink and %s\n\n", t.Craft.Name, words.turned, t.Craft.Water.Name,
		style.Format(unit.Mass, t.Body.Mass), marginNote(t), words.free)
	if !r.upright {
		fmt.Fprintf(w, "It does not rest upright but %s. The curve starts there, and what rights it brings\nit back to there.\n\n", lies(r.curve.Start.Up))
	}
	r.summary(style).print(w, "What rights it")
	r.under(style).print(w, "Where the water reaches watched places")
	r.areaTable(style).print(w, "Area under the curve, from rest")
	if len(r.areas) > 0 {
		fmt.Fprintf(w, "With the %s free the area is not the energy: that changes by weight x GZ x cos(%s) x d(%s).\nThe work is exact.\n\n", words.free, words.free, words.angle)
	}
	r.curveTable(style).print(w, "Curve")
	r.notes(w, style)
}

// summary lists what the curve comes to, by side.
func (r *rightReport) summary(style unit.Style) *table {
	w, c := r.words(), r.curve
	var tab table
	angle := func(v float64) string { return style.Format(unit.Angle, v) }
	arm := func(v float64) string { return fineStyle.Format(unit.Length, v) }
	weight := r.trial.Body.Mass * hydro.Gravity
	row := func(title string, of func(hydro.RightingSide) string) {
		tab.row(title, of(r.sides[0]), of(r.sides[1]))
	}
	gm := "GM, transverse"
	if c.Axis == hydro.PitchAxis {
		gm = "GM, longitudinal"
	}
	tab.row("", w.falling, w.rising)
	tab.row(gm, style.Format(unit.Length, c.GM), style.Format(unit.Length, c.GM))
	if !r.upright {
		return &tab
	}
	row("largest GZ", func(s hydro.RightingSide) string { return arm(s.Max) })
	row("at "+w.angle, func(s hydro.RightingSide) string { return angle(s.MaxAngle) })
	row("moment there", func(s hydro.RightingSide) string { return style.Format(unit.Torque, weight*s.Max) })
	row("stability vanishes at "+w.angle, func(s hydro.RightingSide) string {
		switch {
		case math.IsNaN(s.Vanishing):
			return "not on this curve"
		case math.Abs(s.Vanishing) > math.Pi-1e-3:
			return "not up to " + angle(s.Vanishing)
		}
		return angle(s.Vanishing)
	})
	if r.endWords(r.sides[0])+r.endWords(r.sides[1]) != "" {
		row("since there", r.endWords)
	}
	return &tab
}

// under lists the angles at which places go under.
func (r *rightReport) under(style unit.Style) *table {
	var tab table
	if len(r.wets) == 0 {
		return &tab
	}
	w := r.words()
	tab.row("", w.falling, w.rising)
	angle := func(v float64, side int) string {
		switch {
		case !math.IsNaN(v):
			return style.Format(unit.Angle, v)
		case r.left[side] != nil:
			return "dry until it leaps"
		}
		return "never"
	}
	for _, p := range r.wets {
		note := ""
		if p.KeepDry {
			note = "to keep dry"
		}
		if p.wet {
			tab.row(p.Name, "wet at rest", "wet at rest", note)
			continue
		}
		tab.row(p.Name, angle(p.falling, 0), angle(p.rising, 1), note)
	}
	return &tab
}

func (r *rightReport) areaTable(style unit.Style) *table {
	var tab table
	if len(r.areas) == 0 {
		return &tab
	}
	tab.row("to "+r.words().angle, "area", "work")
	for _, a := range r.areas {
		if a.left != nil {
			tab.row(style.Format(unit.Angle, a.point.Angle), "none: it has leaped at "+style.Format(unit.Angle, a.left.Leap.Angle))
			continue
		}
		tab.row(style.Format(unit.Angle, a.point.Angle), unit.Decimal(a.value*1000, 2)+" mm rad", millijoules(a.point.Work))
	}
	return &tab
}

func (r *rightReport) curveTable(style unit.Style) *table {
	var tab table
	w := r.words()
	tab.row(w.angle, "GZ", "moment", w.free, "draft", "work", "")
	for i := range r.curve.Points {
		if !r.shown(i) {
			continue
		}
		p := &r.curve.Points[i]
		note := ""
		switch {
		case r.other(i):
			note = "after the leap: another attitude"
		case r.leapt(i):
			note = "after it leaps"
		case p.Angle == r.curve.Start.Angle:
			note = "rest"
		case p.Area == 0:
			note = fmt.Sprintf("nothing pierces the surface: the level is free over %s", style.Format(unit.Length, p.Slack))
		}
		tab.row(style.Format(unit.Angle, p.Angle), fineStyle.Format(unit.Length, p.GZ), style.Format(unit.Torque, p.Moment),
			style.Format(unit.Angle, p.Free), style.Format(unit.Length, p.Draft), millijoules(p.Work), note)
	}
	return &tab
}

// leapt reports whether point i of the curve is the far side of a jump.
func (r *rightReport) leapt(i int) bool {
	p := r.curve.Points
	nearer := i - 1
	if p[i].Angle < r.curve.Start.Angle {
		nearer = i + 1
	}
	return nearer >= 0 && nearer < len(p) && p[nearer].Angle == p[i].Angle
}

// notes says where the angle means little, and where the branch that was
// followed ended.
func (r *rightReport) notes(w io.Writer, style unit.Style) {
	words := r.words()
	for i := range r.curve.Points {
		if math.Abs(math.Cos(r.curve.Points[i].Free)) < 0.2 {
			fmt.Fprintf(w, "Where %s is near 90 deg it stands on end, and %s means little.\n", words.free, words.angle)
			break
		}
	}
	angle := func(v float64) string { return style.Format(unit.Angle, v) }
	r.jumpNotes(w, angle)
}

// figure returns the picture of the curve.
func (r *rightReport) figure() *plots.Righting {
	t, w, c := r.trial, r.words(), r.curve
	deg := func(v float64) float64 { return v * 180 / math.Pi }
	style := styleOf(t)
	at := func(v float64) string { return plots.Number(deg(v), 1) + "°" }
	fig := &plots.Righting{
		Title: fmt.Sprintf("%s, %s, %s from rest in %s: righting arm", t.Craft.Name, style.Format(unit.Mass, t.Body.Mass), w.turned, t.Craft.Water.Name),
		Angle: w.angleAxis, Free: w.freeAxis, Unit: "mm", Rest: deg(c.Start.Angle),
	}
	for i := range c.Points {
		p := &c.Points[i]
		fig.Angles = append(fig.Angles, deg(p.Angle))
		fig.Arms = append(fig.Arms, 1000*p.GZ)
		fig.Frees = append(fig.Frees, deg(p.Free))
		fig.Other = append(fig.Other, r.other(i))
	}
	for i, sign := range []float64{-1, 1} {
		if !r.upright {
			break
		}
		s := r.sides[i]
		if s.Max > 0 {
			fig.Marks = append(fig.Marks, plots.RightingMark{Angle: deg(s.MaxAngle), Arm: sign * 1000 * s.Max,
				Label: fineStyle.Format(unit.Length, s.Max) + " at " + at(s.MaxAngle)})
		}
		if !math.IsNaN(s.Vanishing) && math.Abs(s.Vanishing) < math.Pi-1e-3 {
			how := "GZ zero at "
			if s.Ends == hydro.Leaps {
				how = "leaps at "
			}
			fig.Ends = append(fig.Ends, plots.RightingAngle{Angle: deg(s.Vanishing), Label: how + at(s.Vanishing)})
		}
	}
	for _, p := range r.wets {
		for _, v := range []float64{p.falling, p.rising} {
			if !p.wet && !math.IsNaN(v) {
				fig.Wets = append(fig.Wets, plots.RightingAngle{Angle: deg(v), Label: p.Name + " wet at " + at(v)})
			}
		}
	}
	for _, j := range c.Jumps {
		if j.From != j.To {
			fig.Jumps = append(fig.Jumps, deg(j.Angle))
		}
	}
	return fig
}
