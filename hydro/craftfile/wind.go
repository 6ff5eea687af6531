package craftfile

import (
	"math"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// wind reads the table [wind]: how speeds are meant and what the wind takes
// hold of.
func (r *reader) wind(top *table) {
	t := top.single("wind")
	if t == nil {
		return
	}
	w := &r.file.Craft.Wind
	w.Height, _ = t.quantity("height", unit.Length, overZero)
	w.Roughness, _ = t.quantity("roughness", unit.Length, overZero)
	w.Coefficient, _ = t.quantity("drag_coefficient", unit.None, overZero)
	w.Side, w.Front = t.area("side"), t.area("front")
	switch {
	case t.has("side") != t.has("front"):
		one, other := "side", "front"
		if t.has("front") {
			one, other = other, one
		}
		t.fail(t.place(one), `[wind] gives an area seen from the %s and none from the %s; give both, or neither to have them from the meshes`, one, other)
	case w.Measured() <= w.Rough():
		t.fail(t.node.at, "[wind] means speeds at a height within the roughness of the water, where there is no wind")
	}
}

// area reads an area and its center from an inline table.
func (t *table) area(key string) *craft.WindArea {
	e := t.get(key)
	if e == nil {
		return nil
	}
	if !t.is(e.value, aTable, t.of(key), key+` = { area = "0.12 m2", at = [0, 0, 210] }`) {
		return nil
	}
	in := t.reader.open(e.value, t.of(key))
	var a craft.WindArea
	a.Area, _ = in.quantity("area", unit.Area, overZero)
	if !in.has("area") {
		in.miss(`%s has no area; write area = "0.12 m2"`, in.what)
	}
	a.At, _ = in.spot("at")
	return &a
}

// wing reads the table [wing]: what lifts in a wind.
func (r *reader) wing(top *table) {
	t := top.single("wing")
	if t == nil {
		return
	}
	w := &craft.Wing{}
	w.Area, _ = t.quantity("area", unit.Area, overZero)
	w.Span, _ = t.quantity("span", unit.Length, overZero)
	for _, key := range []string{"area", "span"} {
		if !t.has(key) {
			example := map[string]string{"area": "0.36 m2", "span": "1600 mm"}[key]
			t.miss(`[wing] has no %s; write %s = "%s"`, key, key, example)
		}
	}
	w.At, _ = t.spot("at")
	w.Incidence = t.pointer("incidence", unit.Angle, lessThanUpright)
	w.Dihedral, _ = t.quantity("dihedral", unit.Angle, lessThanUpright)
	w.ZeroLift, _ = t.quantity("zero_lift", unit.Angle, small)
	w.MostLift, _ = t.quantity("most_lift", unit.None, overZero)
	w.On = t.on()
	if _, ok := r.file.Craft.Chord(); !ok && w.Incidence == nil && !t.has("incidence") {
		t.miss(`[wing] has no incidence; write incidence = "2.5 deg", the chord's angle to the craft's x axis, or mark a [[line]] with chord = true`)
	}
	r.file.Craft.Wing = w
}

// small is the demand on the angle of attack without lift.
func small(v float64) string {
	if math.Abs(v) > 20*math.Pi/180 {
		return "must lie between -20 and 20 deg"
	}
	return ""
}
