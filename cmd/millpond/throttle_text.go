package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// text prints the report for people.
func (r *throttleReport) text(w io.Writer) {
	t, style := r.trial, styleOf(r.trial)
	fmt.Fprintf(w, "%s under throttle in %s, %s%s\n\n", craftTitle(t.Craft), t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	r.motors(style).print(w, "Motors")
	r.attitudes(style).print(w, "As the throttle opens: "+r.assumption(style)+r.deeper())
	r.clearances(style).print(w, "Height above the water")
	for _, line := range r.verdict(style) {
		fmt.Fprintln(w, line)
	}
	printAssumed(w, r.assumed())
	fmt.Fprintf(w, "Left out: %s.\n", strings.Join(throttleLeftOut, "; "))
}

// motors lists the thrust lines.
func (r *throttleReport) motors(style unit.Style) *table {
	var tab table
	for i, m := range r.trial.Craft.Thrusts {
		line := r.trial.Craft.ThrustLine(i)
		torque := "no motor torque given"
		if m.Torque > 0 {
			torque = style.Format(unit.Torque, m.Torque) + ", turns " + m.Spin.String() + " seen from behind"
			if m.Spin == craft.Clockwise {
				torque += ", port side down"
			} else {
				torque += ", starboard side down"
			}
		}
		most := style.Format(unit.Force, m.Most)
		if r.shares != nil && r.shares[i] != 1 {
			most += ", opened to " + unit.Format(unit.Share, r.shares[i])
		}
		tab.row(m.Name, most, "at "+pointText(line.At, style), heading(line.Along), torque)
	}
	return &tab
}

// heading says where a thrust points.
func heading(along r3.Vec) string {
	up, port := math.Asin(along.Z), math.Atan2(along.Y, along.X)
	if math.Abs(up) < 1e-9 && math.Abs(port) < 1e-9 {
		return "straight ahead"
	}
	var words []string
	add := func(v float64, plus, minus string) {
		if math.Abs(v) < 1e-9 {
			return
		}
		side := plus
		if v < 0 {
			side = minus
		}
		words = append(words, unit.Format(unit.Angle, math.Abs(v))+" "+side)
	}
	add(up, "up", "down")
	add(port, "to port", "to starboard")
	return strings.Join(words, ", ")
}

// assumption says where the drag acts.
func (r *throttleReport) assumption(style unit.Style) string {
	rest, _ := r.trial.Rest()
	depth := func() string {
		h, _ := r.th.Load.Drag(rest.Attitude)
		if h < 0 {
			return style.Format(unit.Length, -h) + " under"
		}
		return style.Format(unit.Length, h) + " over"
	}
	switch r.trial.Craft.Reaction.Answer {
	case hydro.Tethered:
		return "held by a level rope at " + pointText(r.trial.Craft.Reaction.At, style)
	case hydro.AtHeight:
		return "a steady tow, drag equal to thrust at " + depth() + " water"
	case hydro.AtPoint:
		return "a steady tow, drag equal to thrust at " + pointText(r.trial.Craft.Reaction.At, style)
	}
	return "a steady tow, drag equal to thrust at the center of the wetted lateral area (" + depth() + " water at rest)"
}

// deeper says which side the drafts at the stations are of, where the craft
// heels under throttle.
func (r *throttleReport) deeper() string {
	var names []string
	for _, s := range r.steps(r.reach(), int(math.Round(r.reach()*10))) {
		if s.steady == nil {
			continue
		}
		for i := range r.trial.Craft.Stations {
			name := sideOf(r.trial.Station(i), s.steady.Attitude).name
			if name != "" && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; drafts are of the deeper side, " + strings.Join(names, ", then ")
}

// attitudes is the table of attitudes against thrust.
func (r *throttleReport) attitudes(style unit.Style) *table {
	var tab table
	head := []string{"throttle", "thrust", "trim"}
	if r.th.Free != nil {
		head = append(head, "trim, no drag yet")
	}
	head = append(head, "heel", "draft")
	for _, s := range r.trial.Craft.Stations {
		head = append(head, s.Name)
	}
	tab.row(head...)
	for _, s := range r.steps(r.reach(), int(math.Round(r.reach()*10))) {
		cells := []string{unit.Format(unit.Share, s.share), style.Format(unit.Force, s.share*r.th.Most)}
		angle := func(p *hydro.Point, of func(*hydro.Point) float64) string {
			if p == nil {
				return ""
			}
			return style.Format(unit.Angle, of(p))
		}
		trim := func(p *hydro.Point) float64 { return p.Trim() }
		if s.steady == nil {
			cells = append(cells, "none holds")
		} else {
			cells = append(cells, angle(s.steady, trim))
		}
		if r.th.Free != nil {
			cells = append(cells, angle(s.free, trim))
		}
		if s.steady != nil {
			cells = append(cells, angle(s.steady, func(p *hydro.Point) float64 { return p.Heel() }), style.Format(unit.Length, s.steady.Draft()))
			for i := range r.trial.Craft.Stations {
				h, _ := r.trial.Station(i).Clearance(s.steady.Attitude)
				cells = append(cells, style.Format(unit.Length, -h))
			}
		}
		tab.row(cells...)
	}
	return &tab
}

// clearances lists the watched places at rest, half and full throttle, and the
// thrust at which each goes under.
func (r *throttleReport) clearances(style unit.Style) *table {
	var tab table
	watched := r.trial.Watched()
	if len(watched) == 0 {
		return &tab
	}
	tab.row("", "at rest", "half throttle", "full throttle", "goes under at")
	for _, p := range watched {
		cells := []string{p.Name}
		for _, share := range []float64{0, 0.5, 1} {
			s := r.at(share)
			if s.steady == nil {
				cells = append(cells, "-")
				continue
			}
			h, _ := p.Clearance(s.steady.Attitude)
			cells = append(cells, style.Format(unit.Length, h))
		}
		note := "stays dry"
		if _, lost := r.limit(); lost {
			note = "dry until nothing holds"
		}
		for _, wet := range r.wet {
			if wet.Name != p.Name {
				continue
			}
			if note = style.Format(unit.Force, wet.Share*r.th.Most) + ", " + unit.Format(unit.Share, wet.Share) + " throttle"; wet.Share == 0 {
				note = "under at rest"
			}
		}
		if p.KeepDry {
			note += ", to keep dry"
		}
		tab.row(append(cells, note)...)
	}
	return &tab
}

// verdict says what the answer is, in sentences.
func (r *throttleReport) verdict(style unit.Style) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	limit, lost := r.limit()
	full := style.Format(unit.Force, r.th.Most)
	if first, wet := r.firstDry(); wet && first.Share <= 1 {
		if first.Share == 0 {
			say("NO: %s is under water before the throttle is touched.", first.Name)
		} else {
			say("NO: at %s, %s throttle, %s goes under.", style.Format(unit.Force, first.Share*r.th.Most), unit.Format(unit.Share, first.Share), first.Name)
		}
	}
	beyond := fmt.Sprintf("%s, %s throttle,", style.Format(unit.Force, limit), unit.Format(unit.Share, limit/r.th.Most))
	switch {
	case lost && !r.th.Holds():
		say("NO: beyond %s no attitude holds: %s.", beyond, happens(r.th.Steady.Stop))
	case lost:
		say("It holds at full throttle, %s. Beyond %s no attitude would: %s.", full, beyond, happens(r.th.Steady.Stop))
	default:
		say("It holds at full throttle, %s, and as far as it was followed, to %g times that.", full, float64(hydro.Overdriven))
	}
	if l := r.th.Landing; l != nil {
		say("%s", landing(l, style))
	}
	if r.th.Free != nil {
		say("The limit is for drag equal to thrust, which is the conservative end: while it speeds up, part of the thrust is taken by its own inertia, further up.")
		if fl := r.th.Free.Loss(); r.th.Free.Lost() {
			say("With no drag at all the limit is %s: %s.", style.Format(unit.Force, fl.Share*r.th.Most), happens(r.th.Free.Stop))
		}
	}
	// A little always comes of motor torque and trim; who has one motor need
	// not read of it.
	if yaw := r.yaw(); math.Abs(yaw) > 0.01*r.th.Most*r.trial.Body.Hull.Size() {
		side := "port"
		if yaw < 0 {
			side = "starboard"
		}
		say("It turns the nose to %s with %s; the water and the rudder must hold that. Trimmed, the same difference in thrust heels it, which is in the numbers above.", side, style.Format(unit.Torque, math.Abs(yaw)))
	}
	return out
}

// yaw returns the yawing moment at full throttle, or at the limit before it.
func (r *throttleReport) yaw() float64 {
	share := 1.0
	if limit, lost := r.limit(); lost {
		share = min(share, limit/r.th.Most)
	}
	s := r.at(share)
	if s.steady == nil {
		return 0
	}
	return share * r.th.Load.Yaw(s.steady.Attitude)
}

// landing says where it goes where nothing holds.
func landing(l *hydro.Landing, style unit.Style) string {
	at := func(s *hydro.State) string {
		heel := s.Heel()
		if heel < -math.Pi+1e-4 {
			heel = math.Pi // belly up, by rounding from the other side
		}
		return fmt.Sprintf("%s (trim %s, heel %s)", lies(s.Up), style.Format(unit.Angle, s.Trim()), style.Format(unit.Angle, heel))
	}
	switch {
	case l.Sinks:
		return "From there, with that throttle held, it goes down."
	case !l.Found:
		return "From there, with that throttle held, it comes to no rest that was found."
	}
	text := "From there, with that throttle held, it lands " + at(&l.State) + "."
	if l.Released != nil {
		text += " With the throttle closed then it lies " + at(&l.Released.State) + "."
	}
	return text
}
