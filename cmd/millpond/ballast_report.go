package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// ballastReport is what `ballast` has to say.
type ballastReport struct {
	trial *design.Trial
	aim   design.Aim
	now   float64 // the angle as it is
	ways  []ballastWay
}

// reached reports whether any way leads there.
func (r *ballastReport) reached() bool {
	for _, w := range r.ways {
		if w.why == nil {
			return true
		}
	}
	return false
}

// best returns the first way that leads there, nil when none does.
func (r *ballastReport) best() *ballastWay {
	for i := range r.ways {
		if r.ways[i].why == nil {
			return &r.ways[i]
		}
	}
	return nil
}

// doubts are those about the craft as it then is.
func (r *ballastReport) doubts() []string {
	if w := r.best(); w != nil {
		return design.Doubts(w.trial)
	}
	return design.Doubts(r.trial)
}

// fine shows a number one step finer than reports do: what is solved for is
// to be built to.
func fine(k unit.Kind, v float64) string { return unit.Style{Fine: true}.Format(k, v) }

func (r *ballastReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s in %s, %s%s: for %s of %s, now %s\n\n", craftTitle(t.Craft), t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t),
		r.aim.Key, unit.Format(unit.Angle, r.aim.Want), unit.Format(unit.Angle, r.now))
	var tab table
	for _, way := range r.ways {
		tab.row(way.what(), way.where(style), way.reason())
	}
	heading := ""
	if len(r.ways) > 1 {
		heading = "Any one of these"
	}
	tab.print(w, heading)
	best := r.best()
	if best == nil {
		fmt.Fprintln(w, "out of reach")
		return
	}
	side := newSideBySide([]*design.Trial{t, best.trial})
	side.tab.rows = [][]string{{"", "now", "then"}}
	side.results(style, "mass", "trim", "angle of attack", "heel", "draft", "draft at *", "reserve buoyancy", "mass to first wet", "gm least", "clearance of *")
	side.tab.print(w, "What that does"+map[bool]string{true: " (the first of them)"}[len(r.ways) > 1])
}

// what says what is done.
func (w *ballastWay) what() string {
	if w.item != "" {
		return "move " + w.item
	}
	if w.why != nil && w.mass == 0 {
		return "ballast"
	}
	return "add " + fine(unit.Mass, w.mass)
}

// where says where it goes.
func (w *ballastWay) where(style unit.Style) string {
	if w.item == "" {
		return "at " + pointText(w.at, style)
	}
	if w.why != nil {
		return ""
	}
	by := w.at.X - w.from.X
	way := "forward"
	if by < 0 {
		way = "aft"
	}
	return fmt.Sprintf("from x %s to x %s: %s %s", fine(unit.Length, w.from.X), fine(unit.Length, w.at.X), fine(unit.Length, math.Abs(by)), way)
}

// reason says why a way does not lead there.
func (w *ballastWay) reason() string {
	var no *design.OutOfReachError
	switch {
	case !errors.As(w.why, &no):
		return ""
	case no.Jumps:
		return "no: it falls from one attitude to another there"
	case no.Away:
		return "no: that turns it the other way"
	case no.Hi-no.Lo < 1e-9:
		return "no: it changes nothing"
	}
	return fmt.Sprintf("no: that takes it from %s to %s only", unit.Format(unit.Angle, no.Lo), unit.Format(unit.Angle, no.Hi))
}

func (r *ballastReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	o.add("loading", loadingName(r.trial.Craft))
	o.add("wanted", r.aim.Text())
	o.number("wanted", unit.Angle, r.aim.Want)
	o.number("now", unit.Angle, r.now)
	o.add("reached", r.reached())
	list := []object{}
	for _, w := range r.ways {
		list = append(list, w.json())
	}
	o.add("ways", list)
	return o
}

func (w *ballastWay) json() object {
	var o object
	o.add("reached", w.why == nil)
	if w.item != "" {
		o.add("item", w.item)
		o.vector("from_m", w.from)
	}
	var no *design.OutOfReachError
	if errors.As(w.why, &no) {
		o.add("reason", w.why.Error())
		o.number("least", unit.Angle, no.Lo)
		o.number("most", unit.Angle, no.Hi)
		return o
	}
	o.number("mass", unit.Mass, w.mass)
	o.vector("at_m", w.at)
	rest := restReport{trial: w.trial}
	o.add("then", rest.json())
	return o
}
