package craftfile

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// spins are the words for the senses of a propeller, by craft.Spin; the last is
// another word for the one before it.
var spins = []string{craft.Clockwise.String(), craft.Counterclockwise.String(), "anticlockwise"}

// thrusts reads the tables [[thrust]].
func (r *reader) thrusts(top *table) {
	for _, t := range top.each("thrust") {
		m := craft.Thrust{Name: t.name("thrust")}
		m.At, _ = t.spot("at")
		m.Pitch, _ = t.quantity("pitch", unit.Angle, lessThanUpright)
		m.Yaw, _ = t.quantity("yaw", unit.Angle, anything)
		m.Most, _ = t.quantity("most", unit.Force, overZero)
		if !t.has("most") {
			t.miss(`%s has no most; write its static thrust at full throttle, such as most = "22 N" or "2.2 kgf"`, t.what)
		}
		m.Torque, _ = t.quantity("torque", unit.Torque, notNegative)
		m.Spin = craft.Spin(min(max(t.choice("spin", spins...), 0), int(craft.Counterclockwise)))
		switch {
		case t.has("torque") && !t.has("spin"):
			t.miss(`%s has a torque and no spin; write spin = "clockwise" or "counterclockwise", as the propeller turns seen from behind`, t.what)
		case t.has("spin") && !t.has("torque"):
			t.fail(t.place("spin"), `%s has a spin and no torque; write torque = "0.3 N m", or take spin out`, t.what)
		}
		m.On = t.on()
		r.file.Craft.Thrusts = append(r.file.Craft.Thrusts, m)
	}
}

// lessThanUpright is the demand on an angle from the level.
func lessThanUpright(v float64) string {
	if math.Abs(v) > math.Pi/2 {
		return "must lie between -90 and 90 deg"
	}
	return ""
}

// reaction reads the table [reaction]: where the water holds against the
// thrust.
func (r *reader) reaction(top *table) {
	t := top.single("reaction")
	if t == nil {
		return
	}
	to := &r.file.Craft.Reaction
	height, hasHeight := t.quantity("height", unit.Length, anything)
	at, hasAt := t.vector("at")
	tether, hasTether := t.vector("tether")
	given := 0
	for _, key := range []string{"height", "at", "tether"} {
		if t.has(key) {
			given++
		}
	}
	switch {
	case given == 0:
		t.miss(`[reaction] says nothing; write height = "-20 mm" (of the water's drag, over the surface), at = [x, y, z] (a place of the craft where the drag acts) or tether = [x, y, z] (where a level rope holds it), or leave [reaction] out for the center of the wetted lateral area`)
	case given > 1:
		t.fail(t.node.at, "[reaction] takes one of height, at and tether, and has %d of them", given)
	}
	set := func(ok bool, a hydro.Answer, height float64, at r3.Vec) {
		if ok {
			*to = hydro.Reaction{Answer: a, Height: height, At: at}
		}
	}
	set(hasHeight, hydro.AtHeight, height, r3.Vec{})
	set(hasAt, hydro.AtPoint, 0, at)
	set(hasTether, hydro.Tethered, 0, tether)
}
