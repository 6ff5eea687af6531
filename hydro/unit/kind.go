// Package unit is the one table of units: names, kinds, factors, JSON
// suffixes, and how numbers are read from and shown to people.
//
// Inside the program every number is SI with angles in radians and shares as
// plain ratios (0.8), with three exceptions, each because the formulas and the
// people that use the number agree on it: temperature is in degrees Celsius,
// salinity in grams of salt per kilogram of water, and a count is a count.
//
// At the edge, in JSON and CSV, angles are in degrees, shares in percent, mass
// per length in kg/mm (what a millimeter of sinkage costs) and moment per angle
// in N m/deg. [Kind.ToEdge] converts and [Kind.Key] puts the suffix on the key.
//
// Typed numbers come in through [Parse], [ParseWithDefault] and [ParseVector];
// numbers without a text of their own, such as TOML numbers and mesh
// coordinates, through a [Unit] from [Lookup]. Numbers for people go out through
// [Format] or a [Style].
//
// Out of scope: dimensional analysis, and whether a value makes sense (a
// negative mass parses).
package unit

import "fmt"

// Kind is what a number measures. The zero value is None, a plain number.
type Kind int

// The kinds. The comment gives the unit inside the program.
const (
	None           Kind = iota // plain number, such as a form coefficient
	Count                      // whole number
	Length                     // m
	Area                       // m2
	Volume                     // m3
	SecondMoment               // m4, of an area
	Mass                       // kg
	MassPerLength              // kg/m
	ArealDensity               // kg/m2
	Density                    // kg/m3
	Angle                      // rad
	Share                      // plain ratio
	Force                      // N
	Torque                     // N m
	MomentPerAngle             // N m/rad
	Pressure                   // Pa
	Energy                     // J
	Speed                      // m/s
	Time                       // s
	Temperature                // degrees Celsius
	Salinity                   // g/kg
)

// kinds has one row for each Kind. A suffix writes a product joined and a
// quotient with an underscore: _nm is N m, _kg_m3 is kg/m3.
var kinds = [...]struct {
	name   string // plain words
	inside string // unit inside the program
	edge   string // unit in JSON and CSV, a name of the table of units
	suffix string // of a JSON key or a CSV column
}{
	None:           {"plain number", "", "", ""},
	Count:          {"count", "", "", ""},
	Length:         {"length", "m", "m", "_m"},
	Area:           {"area", "m2", "m2", "_m2"},
	Volume:         {"volume", "m3", "m3", "_m3"},
	SecondMoment:   {"second moment of area", "m4", "m4", "_m4"},
	Mass:           {"mass", "kg", "kg", "_kg"},
	MassPerLength:  {"mass per length", "kg/m", "kg/mm", "_kg_mm"},
	ArealDensity:   {"areal density", "kg/m2", "kg/m2", "_kg_m2"},
	Density:        {"density", "kg/m3", "kg/m3", "_kg_m3"},
	Angle:          {"angle", "rad", "deg", "_deg"},
	Share:          {"share", "ratio", "%", "_percent"},
	Force:          {"force", "N", "N", "_n"},
	Torque:         {"torque", "N m", "N m", "_nm"},
	MomentPerAngle: {"moment per angle", "N m/rad", "N m/deg", "_nm_deg"},
	Pressure:       {"pressure", "Pa", "Pa", "_pa"},
	Energy:         {"energy", "J", "J", "_j"},
	Speed:          {"speed", "m/s", "m/s", "_m_s"},
	Time:           {"time", "s", "s", "_s"},
	Temperature:    {"temperature", "C", "C", "_c"},
	Salinity:       {"salinity", "g/kg", "g/kg", "_g_kg"},
}

// Kinds returns all kinds, None first.
func Kinds() []Kind {
	all := make([]Kind, len(kinds))
	for i := range all {
		all[i] = Kind(i)
	}
	return all
}

// String returns the kind in plain words, such as "areal density".
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kinds) {
		return fmt.Sprintf("Kind(%d)", int(k))
	}
	return kinds[k].name
}

// Inside returns the unit that numbers of this kind have inside the program.
// It is the zero Unit for None and Count.
func (k Kind) Inside() Unit { return byName[canonical(kinds[k].inside)] }

// Edge returns the unit that numbers of this kind have in JSON and CSV. It is
// the zero Unit for None and Count.
func (k Kind) Edge() Unit { return byName[canonical(kinds[k].edge)] }

// Suffix returns what a JSON key or CSV column of this kind ends with, such as
// "_kg_m3"; it is empty for None and Count.
func (k Kind) Suffix() string { return kinds[k].suffix }

// Key returns name with the suffix of the kind, such as "draft_m".
func (k Kind) Key(name string) string { return name + k.Suffix() }

// ToEdge converts a number from inside the program to JSON and CSV: radians to
// degrees, ratios to percent. See [Unit.FromSI] for accuracy.
func (k Kind) ToEdge(v float64) float64 { return k.Edge().FromSI(v) }

// FromEdge undoes ToEdge.
func (k Kind) FromEdge(x float64) float64 { return k.Edge().ToSI(x) }

// bare reports whether numbers of this kind are written without a unit.
func (k Kind) bare() bool { return kinds[k].inside == "" }

// compound reports whether a number may be given in parts: 5 lb 4 oz.
func (k Kind) compound() bool { return k == Length || k == Mass || k == Time }

// withArticle returns the kind as it stands in a sentence: "an angle".
func (k Kind) withArticle() string {
	switch name := k.String(); name[0] {
	case 'a', 'e':
		return "an " + name
	default:
		return "a " + name
	}
}
