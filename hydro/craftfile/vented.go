package craftfile

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
	"millpond/mesh/mend"
)

// vented reads the points that name the cavities of a part which water reaches:
// one point in the part's axes, or a list of them.
func (t *table) vented() []r3.Vec {
	e := t.get("vented")
	if e == nil {
		return nil
	}
	if e.value.kind != aList || len(e.value.items) == 0 || e.value.items[0].kind != aList {
		if p, ok := t.vector("vented"); ok {
			return []r3.Vec{p}
		}
		return nil
	}
	points, _ := t.corners("vented", len(e.value.items), "")
	return points
}

// vent lets water into the cavities of a part that are named as vented.
func (t *table) vent(p *craft.Part, m *Mesh, points []r3.Vec) {
	if len(points) == 0 {
		return
	}
	back, _ := p.Drawn.Inverse() // it turns and scales only
	inFile := make([]r3.Vec, len(points))
	for i, q := range points {
		inFile[i] = back.Point(q)
	}
	result := mend.Result{Solid: m.Solid, Report: *m.Report}
	solid, shells, err := result.Vent(inFile)
	if err != nil {
		at := t.place("vented")
		t.faults = append(t.faults, fault{Error: t.fault(at, fmt.Sprintf("%s: %s", t.of("vented"), err), err), at: at})
		return
	}
	p.Vented = solid
	if p.Role == craft.NonBuoyant {
		t.file.warn([]string{p.Name}, "vented changes nothing: the part displaces no water")
		return
	}
	lost := (m.Solid.Volume() - solid.Volume()) * p.Drawn.Det()
	var names []string
	for _, i := range shells {
		names = append(names, fmt.Sprint(i+1))
	}
	noun := "cavity in shell "
	if len(names) > 1 {
		noun = "cavities in shells "
	}
	t.file.warn([]string{p.Name}, fmt.Sprintf("water reaches the %s%s, named as vented: it displaces %s less",
		noun, strings.Join(names, " and "), unit.Format(unit.Volume, lost)))
}
