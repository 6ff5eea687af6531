package craftfile

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// Readings is what was measured on a built craft: in a tub, with a shifted
// weight, on scales. It is a file of its own beside the craft file.
type Readings struct {
	Path string

	Marks  []hydro.WaterMark
	Levels []hydro.SlopeReading
	Scale  *hydro.Reading // nil when it was not weighed

	Water          craft.Water
	DensitySigma   float64 // kg/m3
	CGHeightSigma  float64 // m
	Shifts         []hydro.Shift
	Weighings      []hydro.Weighing
	marksTolerance float64
}

// What a builder can read without trying hard, as a standard deviation (common
// practice, no source): a waterline on a float, a phone level, a kitchen
// scale, tap water and the height of a CG worked out from parts.
const (
	usualMark     = 0.001               // m
	usualLevel    = 0.2 * math.Pi / 180 // rad
	usualScale    = 0.005               // kg
	usualDensity  = 1.0                 // kg/m3
	usualCGHeight = 0.010               // m
	usualPlace    = 0.001               // m
)

// ReadReadings reads a file of readings on the given craft, whose stations and
// lines it names. Its errors are of type [Errors].
func ReadReadings(path string, c *craft.Craft) (*Readings, error) {
	text, err := readText(path)
	if err != nil {
		return nil, err
	}
	r := &reader{
		source: &source{path: path, text: text},
		file:   &File{Path: path, Craft: c},
		names:  make(map[string]holder),
	}
	root, perr := parse(r.source)
	if perr != nil {
		return nil, Errors{perr}
	}
	out := &Readings{Path: path, Water: c.Water}
	r.readings(r.open(root, ""), out)
	for _, t := range r.tables {
		t.refuseUnknown()
	}
	if err := r.wrong(); err != nil {
		return nil, err
	}
	return out, nil
}

// readings reads the whole file.
func (r *reader) readings(top *table, out *Readings) {
	r.lengthUnit = top.unit("length_unit", unit.Length)
	r.massUnit = top.unit("mass_unit", unit.Mass)
	if top.has("water") {
		// The craft's own water is not what the tub holds.
		own := r.file.Craft.Water
		r.water(top)
		out.Water, r.file.Craft.Water = r.file.Craft.Water, own
	}
	out.DensitySigma = top.sigma("density_tolerance", unit.Density, usualDensity)
	out.CGHeightSigma = top.sigma("cg_height_tolerance", unit.Length, usualCGHeight)
	scaleSigma := top.sigma("scale_tolerance", unit.Mass, usualScale)
	if v, ok := top.quantity("scale", unit.Mass, overZero); ok {
		out.Scale = &hydro.Reading{Value: v, Sigma: scaleSigma}
	}
	out.marksTolerance = top.sigma("tolerance", unit.Length, usualMark)
	for _, t := range top.each("mark") {
		out.Marks = append(out.Marks, t.mark(out.marksTolerance))
	}
	for _, t := range top.each("level") {
		out.Levels = append(out.Levels, t.level())
	}
	for _, t := range top.each("shift") {
		out.Shifts = append(out.Shifts, t.shift())
	}
	for _, t := range top.each("weighing") {
		out.Weighings = append(out.Weighings, t.weighing(scaleSigma))
	}
	if len(out.Marks)+len(out.Shifts)+len(out.Weighings) == 0 {
		top.miss("nothing was read: write a [[mark]] for each place where the water meets the craft, a [[shift]] for each place of an inclining weight, or a [[weighing]]")
	}
}

// sigma reads a tolerance: two standard deviations, as a builder states one.
func (t *table) sigma(key string, k unit.Kind, usual float64) float64 {
	if v, ok := t.quantity(key, k, overZero); ok {
		return v / 2
	}
	return usual
}

// mark reads a place where the water meets the craft: at a station by its
// draft, or anywhere by its place.
func (t *table) mark(usual float64) hydro.WaterMark {
	m := hydro.WaterMark{Sigma: t.sigma("tolerance", unit.Length, usual)}
	name, hasName := t.text("name", "port bow")
	station, hasStation := t.text("station", "bow")
	side := t.choice("side", "port", "starboard")
	draft, _ := t.quantity("draft", unit.Length, anything)
	at, _ := t.vector("at")
	switch {
	case hasStation && t.has("at"):
		t.fail(t.place("at"), "%s has a station and a place; keep one of the two", t.what)
	case hasStation && !t.has("draft"):
		t.miss(`%s has no draft; write draft = "31 mm", measured up from the station along the craft's own z axis`, t.what)
	case !hasStation && t.has("draft"):
		t.fail(t.place("draft"), "%s has a draft and no station to measure it from", t.what)
	case !hasStation && !t.has("at"):
		t.miss(`%s names no place; write station = "bow" and draft = "31 mm", or at = [x, y, z]`, t.what)
	}
	m.Name, m.At = name, at
	if hasStation {
		m.At = t.station(station)
		if side == 1 {
			m.At.Y = -math.Abs(m.At.Y)
			station = "starboard " + station
		} else if side == 0 {
			m.At.Y = math.Abs(m.At.Y)
			station = "port " + station
		}
		m.At.Z += draft
		if !hasName {
			m.Name = station
		}
	}
	if m.Name == "" {
		m.Name = t.what
	}
	return m
}

// station returns the place of the craft's station of a name.
func (t *table) station(name string) r3.Vec {
	var all []string
	for _, s := range t.file.Craft.Stations {
		if strings.EqualFold(s.Name, name) {
			return t.file.Craft.Follow(s.On, s.At)
		}
		all = append(all, s.Name)
	}
	t.fail(t.place("station"), "%s: the craft has no station %q; %s", t.of("station"), name, design.Offer(name, all))
	return r3.Vec{}
}

// level reads an angle taken with a level laid along a line of the craft, or
// across it.
func (t *table) level() hydro.SlopeReading {
	l := hydro.SlopeReading{Sigma: t.sigma("tolerance", unit.Angle, usualLevel)}
	name, ok := t.text("line", "float deck")
	angle, _ := t.quantity("angle", unit.Angle, anything)
	if !t.has("line") {
		t.miss(`%s names no line; write line = "float deck", a line of the craft, or line = "across" for one from port to starboard`, t.what)
	}
	if !t.has("angle") {
		t.miss(`%s has no angle; write angle = "2.1 deg", front end up (starboard end down for "across")`, t.what)
	}
	l.Name, l.Angle = name, angle
	if !ok {
		return l
	}
	if strings.EqualFold(name, "across") {
		l.Direction = r3.Vec{Y: 1}
		return l
	}
	all := []string{"across"}
	for i, line := range t.file.Craft.Lines {
		if strings.EqualFold(line.Name, name) {
			l.Direction = t.file.Craft.LineNow(i).Direction()
			return l
		}
		all = append(all, line.Name)
	}
	t.fail(t.place("line"), "%s: the craft has no line %q; %s", t.of("line"), name, design.Offer(name, all))
	return l
}

// shift reads one place of an inclining weight.
func (t *table) shift() hydro.Shift {
	var s hydro.Shift
	s.Weight, _ = t.quantity("weight", unit.Mass, overZero)
	s.Port, _ = t.quantity("to_port", unit.Length, anything)
	s.Heel.Value, _ = t.quantity("heel", unit.Angle, anything)
	s.Heel.Sigma = t.sigma("tolerance", unit.Angle, usualLevel)
	for key, example := range map[string]string{"weight": "100 g", "to_port": "150 mm", "heel": "-1.2 deg"} {
		if !t.has(key) {
			t.miss("%s has no %s; write %s = %q", t.what, key, key, example)
		}
	}
	return s
}

// weighing reads the craft standing on scales.
func (t *table) weighing(usual float64) hydro.Weighing {
	w := hydro.Weighing{Place: t.sigma("place_tolerance", unit.Length, usualPlace)}
	trim, _ := t.quantity("trim", unit.Angle, anything)
	heel, _ := t.quantity("heel", unit.Angle, anything)
	w.Up = hydro.UpVector(trim, heel)
	sigma := t.sigma("scale_tolerance", unit.Mass, usual)
	for _, s := range t.each("support") {
		var p hydro.Support
		p.At, _ = s.spot("at")
		p.Load.Value, _ = s.quantity("load", unit.Mass, notNegative)
		p.Load.Sigma = sigma
		if !s.has("load") {
			s.miss(`%s has no load; write load = "1.20 kg"`, s.what)
		}
		w.Supports = append(w.Supports, p)
	}
	if len(w.Supports) < 2 {
		t.miss("%s needs two supports or more, each with at and load", t.what)
	}
	return w
}
