package craftfile

import (
	"fmt"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
	"millpond/mesh/mend"
)

// QuickOptions describe a craft of one mesh as typed on a command line. Unit,
// Mass and CG are needed, except by [QuickMesh].
type QuickOptions struct {
	Mesh    string // path of the mesh
	Unit    string // of the mesh's numbers: "mm"
	Mass    string // of all of it: "1.2kg"
	CG      string // in body axes: "10mm,0mm,35mm"
	Water   string // "fresh", "salt", "1003kg/m3"; empty for fresh
	Forward string // axis along which the nose was drawn; empty for +x
	Up      string // axis along which the top was drawn; empty for +z
}

// Quick makes a craft of one mesh: all of it floats, and its mass and CG are as
// stated. Errors name the flag that they are about, --mass for Mass.
func Quick(o QuickOptions) (*File, error) { return quick(o, fromDisk) }

// QuickMesh is [Quick] without mass and CG, for verbs that look at the mesh
// alone. The craft has no mass.
func QuickMesh(o QuickOptions) (*File, error) { return quickMesh(o, fromDisk) }

func quick(o QuickOptions, load loader) (*File, error) {
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
	if o.Unit == "" {
		return nil, fmt.Errorf("--unit is missing: an STL file does not say what its numbers are in; give --unit mm, or cm, m, in, ft")
	}
	u, err := unit.Lookup(unit.Length, o.Unit)
	if err != nil {
		return nil, fmt.Errorf("--unit: %w", err)
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
	place, err := drawn(forward, up, u.Factor)
	if err != nil {
		return nil, fmt.Errorf("--up: %w", err)
	}

	name := stem(o.Mesh)
	f := &File{Path: o.Mesh, Meshes: []Mesh{{Path: o.Mesh, Unit: u.Name, Parts: []string{name}}}}
	m := &f.Meshes[0] // of the unit on the command line, whatever the file states
	m.load(load)
	if m.Err != nil {
		return f, m.Err
	}
	f.warn(m.Parts, m.warnings()...)
	if doubt := mend.UnitDoubt(m.Report.Box, u.Factor); doubt != "" {
		f.warn(m.Parts, doubt)
	}
	part := craft.Part{Name: name, Role: craft.Flotation, Solid: m.Solid, Hollows: m.hollows(), Drawn: place}
	f.Craft = &craft.Craft{Name: name, Parts: []craft.Part{part}, Water: water}
	return f, nil
}
