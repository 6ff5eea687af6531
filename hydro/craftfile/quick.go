package craftfile

import (
	"errors"
	"fmt"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
	"millpond/mesh/mend"
	"millpond/mesh/overlap"
)

// QuickOptions describe a craft of one mesh as typed on a command line. Mass
// and CG are needed, except by [QuickMesh], and Unit where the file states none.
type QuickOptions struct {
	Mesh    string // path of the mesh
	Unit    string // of the mesh's numbers: "mm"
	Mass    string // of all of it: "1.2kg"
	CG      string // in body axes: "10mm,0mm,35mm"
	Water   string // "fresh", "salt", "1003kg/m3"; empty for fresh
	Forward string // axis along which the nose was drawn; empty for +x
	Up      string // axis along which the top was drawn; empty for +z

	Weld        string // distance within which vertices are merged: "0.01mm"
	CloseHoles  string // largest hole closed: "3%"
	CurvedHoles bool   // close holes that are not planar too
}

// Quick makes a craft of one mesh: all of it floats, and its mass and CG are as
// stated. Errors name the flag that they are about, --mass for Mass.
func Quick(o QuickOptions) (*File, error) { return quick(o, fromDisk) }

// QuickMesh is [Quick] without mass and CG, for verbs that look at the mesh
// alone. The craft has no mass.
func QuickMesh(o QuickOptions) (*File, error) { return quickMesh(o, fromDisk) }

func quick(o QuickOptions, load loader) (*File, error) {
	if o.Mass == "" && o.CG == "" {
		return nil, errors.New("a mesh alone says neither what it weighs nor where it balances (x forward, y to port, z up), nor, unless it is 3MF, its unit; add, for example:\n\n  --unit mm --mass 1.2kg --cg 10mm,0mm,35mm")
	}
	if o.Mass == "" {
		return nil, fmt.Errorf("--mass is missing: say what it weighs, such as --mass 1.2kg")
	}
	mass, err := unit.Parse(unit.Mass, o.Mass)
	switch {
	case err != nil:
		return nil, fmt.Errorf("--mass: %w", err)
	case mass <= 0:
		return nil, fmt.Errorf("--mass: %q must be over zero", o.Mass)
	case mass > reach[unit.Mass]:
		return nil, fmt.Errorf("--mass: %q is beyond all measure; is the unit right?", o.Mass)
	}
	if o.CG == "" {
		return nil, fmt.Errorf("--cg is missing: say where it balances, x forward, y to port and z up, such as --cg 10mm,0mm,35mm")
	}
	cg, err := unit.ParseVector(o.CG, "")
	if err != nil {
		return nil, fmt.Errorf("--cg: %w", err)
	}
	if most := reach[unit.Length]; max(cg.X, -cg.X, cg.Y, -cg.Y, cg.Z, -cg.Z) > most {
		return nil, fmt.Errorf("--cg: %q is beyond all measure; is the unit right?", o.CG)
	}
	f, err := quickMesh(o, load)
	if err == nil {
		f.Craft.Stated = &craft.Mass{Mass: mass, At: cg}
	}
	return f, err
}

func quickMesh(o QuickOptions, load loader) (*File, error) {
	name := ""
	if o.Unit != "" {
		u, err := unit.Lookup(unit.Length, o.Unit)
		if err != nil {
			return nil, fmt.Errorf("--unit: %w", err)
		}
		name = u.Name
	}
	repair, err := quickRepair(o)
	if err != nil {
		return nil, err
	}
	water := fresh
	if o.Water != "" {
		if water, err = Water(o.Water); err != nil {
			return nil, fmt.Errorf("--water: %w", err)
		}
	}
	forward, up := axes["+x"], axes["+z"]
	if o.Forward != "" {
		if forward, err = axis(o.Forward); err != nil {
			return nil, fmt.Errorf("--forward: %w", err)
		}
	}
	if o.Up != "" {
		if up, err = axis(o.Up); err != nil {
			return nil, fmt.Errorf("--up: %w", err)
		}
	}
	if _, err := drawn(forward, up, 1); err != nil {
		return nil, fmt.Errorf("--up: %w", err)
	}

	part := stem(o.Mesh)
	f := &File{Path: o.Mesh, Meshes: []Mesh{{Path: o.Mesh, Unit: name, Repair: repair, Parts: []string{part}}}}
	m := &f.Meshes[0]
	m.load(load)
	if m.Err != nil {
		return f, m.Err
	}
	meters := metersOf(name, m.meters)
	switch {
	case meters == 0:
		return nil, fmt.Errorf("--unit is missing: %s does not say what its numbers are in; give --unit mm, or cm, m, in, ft", kindOf(m.Format))
	case m.meters != 0 && !sameUnit(meters, m.meters):
		return nil, fmt.Errorf("--unit is %q, but %s itself states %q; leave --unit out, or export the mesh in the unit that is meant", name, o.Mesh, nameOf(m.meters))
	}
	place, err := drawn(forward, up, meters)
	if err != nil {
		return nil, fmt.Errorf("--up: %w", err)
	}
	f.warn(m.Parts, m.warnings()...)
	if doubt := mend.UnitDoubt(m.Report.Box, meters); doubt != "" {
		f.warn(m.Parts, doubt)
	}
	p := craft.Part{Name: part, Role: craft.Flotation, Solid: m.Solid, Hollows: m.hollows(), Drawn: place}
	f.Craft = &craft.Craft{Name: part, Parts: []craft.Part{p}, Water: water, Overlaps: &overlap.Cache{}}
	return f, nil
}
