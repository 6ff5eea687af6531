package craftfile

import (
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// roles are the words for the roles, by craft.Role.
var roles = []string{craft.Flotation.String(), craft.Buoyant.String(), craft.NonBuoyant.String()}

// maxParts bounds the work of telling which parts cross.
const maxParts = 200

// parts reads the tables [[part]].
func (r *reader) parts(top *table) {
	all := top.each("part")
	if len(all) > maxParts {
		top.fail(top.place("part"), "a craft has %d parts at most, and not %d", maxParts, len(all))
		all = all[:maxParts]
	}
	afloat := false
	for i, t := range all {
		p := t.part(i)
		r.file.Craft.Parts = append(r.file.Craft.Parts, p)
		afloat = afloat || p.Role != craft.NonBuoyant
	}
	switch {
	case !top.has("part"):
		top.miss("the craft has no parts: write a [[part]] for each mesh")
	case len(all) > 0 && !afloat:
		top.miss(`no part displaces water: write role = "flotation" for what is there to carry the craft`)
	}
}

// part reads one part, all but its solid.
func (t *table) part(index int) craft.Part {
	p := craft.Part{Name: t.name("place")}
	t.form(index, &p)
	p.Role = t.role()
	p.Fit.At, _ = t.vector("at")
	p.Fit.Roll, _ = t.quantity("roll", unit.Angle, anything)
	p.Fit.Pitch, _ = t.quantity("pitch", unit.Angle, anything)
	p.Fit.Yaw, _ = t.quantity("yaw", unit.Angle, anything)
	p.Base = p.Fit
	p.Mirrored = t.flag("mirror")
	p.KeepDry = t.flag("keep_dry")
	p.Auxiliary = t.auxiliary(p.Role)
	p.Makeup = t.makeup()
	p.Marks = t.floatLines()
	return p
}

// role reads what the part does in the water.
func (t *table) role() craft.Role {
	i := t.choice("role", roles...)
	if !t.has("role") {
		t.miss(`%s has no role; write role = "flotation" (it carries the craft), "buoyant" (it displaces when it goes under) or "non-buoyant" (it fills or hardly displaces)`, t.what)
	}
	return craft.Role(max(i, 0))
}

// makeup reads what one of the part weighs.
func (t *table) makeup() craft.Makeup {
	var m craft.Makeup
	m.Weighed = t.pointer("mass", unit.Mass, notNegative)
	m.At = t.vectorPointer("cg")
	m.Follows = t.follows()
	m.Core, _ = t.quantity("core", unit.Density, overZero)
	m.Skin = t.skin()
	m.Overlap, _ = t.quantity("overlap", unit.Share, notNegative)
	m.Wall, _ = t.quantity("wall", unit.Length, overZero)
	m.WallMade, _ = t.quantity("wall_density", unit.Density, overZero)

	built := ""
	for _, key := range []string{"core", "skin", "wall"} {
		if t.has(key) {
			built = key
			break
		}
	}
	switch {
	case t.has("mass") && built != "":
		t.fail(t.place("mass"), "%s is weighed (mass) and built up (%s, line %d); keep one of the two", t.what, built, t.line(t.place(built).from))
	case t.has("cg") && !t.has("mass"):
		t.fail(t.place("cg"), "%s has a cg and no mass for it; write mass, or take cg out: what is built up from the mesh has its cg from there", t.what)
	}
	if t.has("overlap") && !t.has("skin") {
		t.fail(t.place("overlap"), "%s has overlap and no skin to overlap", t.what)
	}
	if t.has("wall") != t.has("wall_density") {
		t.fail(t.place("wall"), "%s needs both wall and wall_density, or neither", t.what)
	}
	if t.has("mass") {
		built = "mass"
	}
	if built != "" {
		t.massed = append(t.massed, massed{t.what, t.place(built).from})
	}
	return m
}

// measures are the words for what a weighed mass follows, by craft.Measure.
var measures = []string{"nothing", "area", "volume"}

// follows reads what a weighed part's mass grows with when the part does.
func (t *table) follows() craft.Measure {
	i := t.choice("mass_follows", measures...)
	if t.has("mass_follows") && !t.has("mass") {
		t.fail(t.place("mass_follows"), "%s has mass_follows and no mass; what is built up from the mesh follows it by itself", t.what)
	}
	return craft.Measure(max(i, 0))
}

// skin reads the layers over the surface of a part.
func (t *table) skin() []craft.Cloth {
	var all []craft.Cloth
	for _, layer := range t.each("skin") {
		c := craft.Cloth{Name: "skin"}
		if name, ok := layer.text("name", "glass and resin"); ok {
			c.Name = name
		}
		c.Areal, _ = layer.quantity("areal", unit.ArealDensity, overZero)
		if !layer.has("areal") {
			layer.miss(`%s has no areal; write areal = "160 g/m2"`, layer.what)
		}
		all = append(all, c)
	}
	return all
}
