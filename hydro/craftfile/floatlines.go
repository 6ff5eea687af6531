package craftfile

import (
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// floatLines reads what the builder states of a float's lines, which overrules
// what the sheet of float geometry reads from the mesh.
func (t *table) floatLines() craft.FloatMarks {
	var m craft.FloatMarks
	e := t.get("lines")
	if e == nil {
		return m
	}
	if !t.is(e.value, aTable, t.of("lines"), `lines = { step_x = "0 mm", deadrise = "20 deg" }`) {
		return m
	}
	l := t.reader.open(e.value, "lines of "+t.what)
	m.StepX = l.pointer("step_x", unit.Length, anything)
	m.StepDepth = l.pointer("step_depth", unit.Length, notNegative)
	m.Beam = l.pointer("beam", unit.Length, overZero)
	m.Deadrise = l.pointer("deadrise", unit.Angle, anything)
	m.Forebody = l.pointer("forebody", unit.Angle, anything)
	m.Afterbody = l.pointer("afterbody", unit.Angle, anything)
	return m
}

// sheet reads the table [sheet]: the two places that the sheet of float
// geometry compares with and no mesh tells.
func (r *reader) sheet(top *table) {
	t := top.single("sheet")
	if t == nil {
		return
	}
	r.file.Craft.PropellerX = t.pointer("propeller_x", unit.Length, anything)
	r.file.Craft.TailX = t.pointer("tail_x", unit.Length, anything)
}
