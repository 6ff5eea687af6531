package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// text prints the report for people.
func (r *windReport) text(w io.Writer) {
	t, style := r.trial, styleOf(r.trial)
	c := t.Craft
	fmt.Fprintf(w, "%s in the wind on %s, %s%s\n\n", craftTitle(c), c.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	what, ignores := t.WindSource()
	wing := "The wing's own lift is in it."
	if ignores {
		wing = "LOWER BOUND: the craft file has no [wing], so its lift is ignored."
	}
	fmt.Fprintf(w, "Drag of %s, times %.3g. %s\n", what, c.Wind.Drag(), wing)
	fmt.Fprintf(w, "Speeds are at %s over the water; measured at 10 m the same wind has %.3g times the speed (log law over open water, roughness %s).\n\n",
		style.Format(unit.Length, c.Wind.Measured()), r.aloft(1), unit.Style{Fine: true}.Format(unit.Length, c.Wind.Rough()))
	if len(r.blows) == 5 {
		fmt.Fprintln(w, "It is alike on both sides: from port it does the same, the other way round.")
		fmt.Fprintln(w)
	}
	r.attitudes(style).print(w, fmt.Sprintf("In %s (%s at 10 m), steady and as a gust out of still air", wind(r.speed), wind(r.aloft(r.speed))))
	r.limits().print(w, "Wind that puts a place to keep dry or a float under, and that turns it over")
	if b := r.worst(); len(r.blows) > 1 {
		r.places(b).print(w, fmt.Sprintf("What goes under, from %s, the worst direction", design.Beam(b.from)))
	} else {
		r.places(b).print(w, "What goes under")
	}
	for _, line := range r.verdict(style) {
		fmt.Fprintln(w, line)
	}
	printAssumed(w, r.assumed(style))
	fmt.Fprintf(w, "Left out: %s.\n", strings.Join(windLeftOut, "; "))
}

// wind writes a speed, to a tenth.
func wind(v float64) string {
	if math.IsInf(v, 1) {
		return fmt.Sprintf("over %g m/s", float64(hydro.Hurricane))
	}
	return unit.Decimal(v, 1) + " m/s"
}

// blowing is wind for a speed at which something goes under.
func blowing(v float64) string {
	switch {
	case v == 0:
		return "at rest"
	case math.IsInf(v, 1):
		return "-"
	}
	return wind(v)
}

// attitudes is the table of attitudes at the speed asked for.
func (r *windReport) attitudes(style unit.Style) *table {
	var tab table
	tab.row("from", "heel", "trim", "draft", "gust: heel", "trim", "draft", "drag")
	cells := func(p *hydro.Point, ok bool) []string {
		if !ok {
			return []string{"goes over", "", ""}
		}
		return []string{style.Format(unit.Angle, p.Heel()), style.Format(unit.Angle, p.Trim()), style.Format(unit.Length, p.Draft())}
	}
	for i := range r.blows {
		b := &r.blows[i]
		row := append([]string{design.Beam(b.from)}, cells(&b.steady, b.steadyOK)...)
		row = append(row, cells(&b.gust, b.gustOK)...)
		if b.steadyOK {
			drag, area, height := b.gale.Load.Drag(b.steady.Attitude)
			row = append(row, fmt.Sprintf("%s on %s, %s up", style.Format(unit.Force, drag*hydro.Share(r.speed)), style.Format(unit.Area, area), style.Format(unit.Length, height)))
		}
		tab.row(row...)
	}
	return &tab
}

// limits is the table of speeds that do harm.
func (r *windReport) limits() *table {
	var tab table
	tab.row("from", "steady: under", "", "over", "", "gust: under", "", "over")
	for i := range r.blows {
		b := &r.blows[i]
		row := []string{design.Beam(b.from)}
		first := func(of func(design.Drenching) float64) {
			if d, ok := b.firstWet(of); ok {
				row = append(row, blowing(of(d)), drenched(d))
			} else {
				row = append(row, "-", "")
			}
		}
		first(steadySpeed)
		how := ""
		if !math.IsInf(b.over, 1) {
			how = b.gale.Ways[hydro.Drifting].Stop.String()
		}
		row = append(row, wind(b.over), how)
		first(gustSpeed)
		tab.row(append(row, wind(b.gustOver))...)
	}
	return &tab
}

// places lists what goes under from one direction.
func (r *windReport) places(b *blow) *table {
	var tab table
	tab.row("", "steady wind", "gust")
	floats := 0
	for _, d := range b.wet {
		if d.Whole {
			floats++
		}
		note := ""
		if d.KeepDry && !d.Whole {
			note = "to keep dry"
		}
		tab.row(drenched(d), blowing(d.Steady), blowing(d.Gust), note)
	}
	if floats == 0 && len(r.trial.Floats()) > 0 {
		tab.row("a float, all of it", "-", "-", "not before it goes over")
	}
	return &tab
}

// verdict says what the answer is, in sentences.
func (r *windReport) verdict(unit.Style) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if d, wet := r.blows[0].firstWet(steadySpeed); wet && d.Steady == 0 {
		say("NO: %s is under water in still air.", drenched(d))
	}
	for i := range r.blows {
		b := &r.blows[i]
		from := design.Beam(b.from)
		puts := func(how string, of func(design.Drenching) float64) bool {
			d, wet := b.firstWet(of)
			if wet = wet && of(d) > 0 && of(d) <= r.speed; wet {
				say("NO: a %s %s from %s puts %s under.", how, wind(r.speed), from, drenched(d))
			}
			return wet
		}
		switch {
		case !b.steadyOK:
			say("NO: a steady %s from %s turns it over.", wind(r.speed), from)
		case puts("steady", steadySpeed):
		case !b.gustOK:
			say("NO: a gust of %s from %s throws it over.", wind(r.speed), from)
		default:
			puts("gust of", gustSpeed)
		}
	}
	if len(out) == 0 {
		say("It stands %s, steady and in gusts, with every float and place to keep dry above water.", wind(r.speed))
	}
	return out
}

// drenched names what goes under.
func drenched(d design.Drenching) string {
	if d.Whole {
		return "all of " + d.Name
	}
	return d.Name
}
