package design

import (
	"fmt"
	"strings"

	"millpond/hydro/craft"
)

// Rule is a published rule as requirements ready for use.
type Rule struct {
	Name   string // as asked for: "14 CFR 23.2310"
	Says   string // what it says, in short, and what of it is looked at here
	Old    string // when it is no longer in force, what became of it
	demand []demand
}

// demand is a result and the least it may be, in its inside unit.
type demand struct {
	what  string
	least float64
}

// Caution stands beside every verdict on a rule.
const Caution = "a design aid here, worked out for calm water and for the shapes, masses and compartments in the craft file: it is no proof of compliance"

// Rules are the rules there are. Nothing here tells whether one applies to a
// machine: models are under none of them.
var Rules = []*Rule{
	{
		// 14 CFR 23.2310, Buoyancy for seaplanes and amphibians, text read.
		Name: "14 CFR 23.2310",
		Says: "buoyancy 80 percent over what carries the maximum weight in fresh water, and afloat at rest in calm water without capsizing with a likely float or hull flooding (here: any one compartment)",
		demand: []demand{
			{"fresh reserve buoyancy", 0.8},
			{"floodings survived", 1},
		},
	},
	{
		// 14 CFR 23.757, Auxiliary floats, text read; the year from memory.
		Name:   "14 CFR 23.757",
		Says:   "auxiliary floats that, wholly under in fresh water, right with at least 1.5 times the moment that upsets the tilted seaplane",
		Old:    "historical: it was taken out of part 23 in 2017",
		demand: []demand{{"auxiliary float moment", 1.5}},
	},
}

// FindRule returns the rule of a name. Case and spacing do not matter.
func FindRule(name string) (*Rule, error) {
	want := strings.Join(strings.Fields(strings.ToLower(name)), " ")
	var known []string
	for _, r := range Rules {
		if strings.ToLower(r.Name) == want {
			return r, nil
		}
		known = append(known, r.Name)
	}
	return nil, fmt.Errorf("no rule is called %q; %s", name, Offer(name, known))
}

// Requirements returns what the rule asks of a craft.
func (r *Rule) Requirements(c *craft.Craft) []Requirement {
	var out []Requirement
	for _, d := range r.demand {
		a, err := Find(c, d.what)
		if err != nil {
			panic(err) // a key of our own that is no row
		}
		out = append(out, Requirement{Asked: a, AtLeast: &d.least, Rule: r})
	}
	return out
}
