package craftfile

import (
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// items reads the tables [[item]].
func (r *reader) items(top *table) {
	for _, t := range top.each("item") {
		r.file.Craft.Items = append(r.file.Craft.Items, t.oneItem("item"))
		r.massed = append(r.massed, massed{t.what, t.place("mass").from})
	}
}

// oneItem reads one item, whose name is to differ from the others of a set.
func (t *table) oneItem(set string) craft.Item {
	it := craft.Item{Name: t.name(set)}
	it.Mass, _ = t.quantity("mass", unit.Mass, notNegative)
	if !t.has("mass") {
		t.miss(`%s has no mass; write mass = "430 g"`, t.what)
	}
	it.At, _ = t.spot("at")
	it.On = t.on()
	return it
}

// points reads the tables [[point]].
func (r *reader) points(top *table) {
	for _, t := range top.each("point") {
		p := craft.Point{Name: t.name("place")}
		p.At, _ = t.spot("at")
		p.KeepDry = t.flag("keep_dry")
		p.On = t.on()
		p.Feeds = t.feeds()
		r.file.Craft.Points = append(r.file.Craft.Points, p)
	}
}

// shortestLine is the distance below which two places are one, m.
const shortestLine = 1e-9

// lines reads the tables [[line]].
func (r *reader) lines(top *table) {
	chord := 0 // line of the file at which one is marked
	for _, t := range top.each("line") {
		l := craft.Line{Name: t.name("line")}
		var from, to bool
		l.From, from = t.spot("from")
		l.To, to = t.spot("to")
		if from && to && r3.Norm(r3.Sub(l.To, l.From)) < shortestLine {
			t.fail(t.place("to"), "%s goes from one place to the same place, so it has no direction", t.what)
		}
		if l.Chord = t.flag("chord"); l.Chord {
			at := t.place("chord")
			if chord > 0 {
				t.fail(at, "the wing chord is marked at line %d already; the craft has one angle of attack", chord)
			} else {
				chord = t.line(at.from)
			}
		}
		l.On = t.on()
		r.file.Craft.Lines = append(r.file.Craft.Lines, l)
	}
}

// stations reads the tables [[station]].
func (r *reader) stations(top *table) {
	for _, t := range top.each("station") {
		s := craft.Station{Name: t.name("station")}
		s.At, _ = t.spot("at")
		s.On = t.on()
		r.file.Craft.Stations = append(r.file.Craft.Stations, s)
	}
}

// spot reads a place that must be there. It returns false when there is none
// that can be used.
func (t *table) spot(key string) (r3.Vec, bool) {
	v, ok := t.vector(key)
	if !t.has(key) {
		t.miss(`%s has no %s; write %s = ["10 mm", "0 mm", "35 mm"]`, t.what, key, key)
	}
	return v, ok
}
