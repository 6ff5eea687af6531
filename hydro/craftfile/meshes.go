package craftfile

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/unit"
	"millpond/mesh"
	"millpond/mesh/mend"
	"millpond/mesh/meshfile"
)

// Mesh is a mesh file that parts are made of, and what became of it.
type Mesh struct {
	Path     string   // as opened
	SHA256   string   // of the file, in hexadecimal
	Unit     string   // of its numbers, as the parts say, else as the file states
	Repair   Repair   // how far it may be mended
	Parts    []string // the names of the parts made of it
	Format   string   // one of the formats of meshfile
	Solids   []string // the names of the solids in the file
	Warnings []string // of the reader
	Report   *mend.Report
	Solid    *mesh.Solid // nil when Err is not
	Err      error       // why it could not be read or closed

	meters float64 // in one of its units, where the file states it, else 0
}

// loader reads a mesh and the checksum of its file.
type loader func(path string) (file *meshfile.File, sum string, err error)

// fromDisk is the loader of real files. The checksum is taken alongside.
func fromDisk(path string) (*meshfile.File, string, error) {
	type result struct {
		sum string
		err error
	}
	done := make(chan result, 1)
	go func() {
		sum, err := meshfile.SHA256(path)
		done <- result{sum, err}
	}()
	file, err := meshfile.Read(path)
	if err != nil {
		return nil, "", err
	}
	sum := <-done
	return file, sum.sum, sum.err
}

// load reads and closes the mesh.
func (m *Mesh) load(load loader) {
	file, sum, err := load(m.Path)
	if err != nil {
		m.Err = err
		return
	}
	m.SHA256, m.Format, m.Solids, m.Warnings = sum, file.Format, file.Solids, file.Warnings
	m.meters = file.Mesh.Unit
	if m.Unit == "" {
		m.Unit = nameOf(m.meters)
	}
	file.Mesh.Name = m.Path // so that messages say which
	result, err := mend.Close(file.Mesh, m.Repair.options(metersOf(m.Unit, m.meters), m.Unit))
	m.Repair.cure(err)
	m.Err = err
	if result != nil {
		m.Report = &result.Report
		m.Solid = result.Solid
	}
}

// nameOf returns the name of the unit of so many meters, empty when it has none.
func nameOf(meters float64) string {
	for _, name := range unit.Names(unit.Length) {
		if u, err := unit.Lookup(unit.Length, name); err == nil && u.Factor == meters {
			return name
		}
	}
	return ""
}

// loadAll loads meshes, as many at once as there are processors.
func loadAll(meshes []Mesh, load loader) {
	var all sync.WaitGroup
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range meshes {
		slots <- struct{}{}
		all.Add(1)
		go func() {
			defer func() { <-slots; all.Done() }()
			meshes[i].load(load)
		}()
	}
	all.Wait()
}

// hollows returns the cavities drawn inside the mesh.
func (m *Mesh) hollows() []*mesh.Solid {
	var all []*mesh.Solid
	for _, s := range m.Report.Shells {
		if s.Kind == mend.Cavity {
			all = append(all, s.Solid)
		}
	}
	return all
}

// mostNotes is how many notes of one kind on one mesh are passed on.
const mostNotes = 5

// warnings returns what a user should hear of the mesh, in every case.
func (m *Mesh) warnings() []string {
	all := append([]string(nil), m.Warnings...)
	for _, notes := range [][]string{m.Report.Warnings, m.Report.Mended} {
		all = append(all, notes[:min(mostNotes, len(notes))]...)
		if more := len(notes) - mostNotes; more > 0 {
			all = append(all, fmt.Sprintf("and %d more notes like this one: inspect the mesh", more))
		}
	}
	return all
}

// meshOf is what a part says of its mesh.
type meshOf struct {
	table       *table
	part        int
	path        string
	unit        string // empty when the part names none
	forward, up r3.Vec
	repair      Repair
	vented      []r3.Vec // points in cavities that water reaches, part axes
	index       int      // in File.Meshes
}

// mesh reads what a part says of its mesh.
func (t *table) mesh(part int) meshOf {
	m := meshOf{table: t, part: part, forward: axes["+x"], up: axes["+z"]}
	if name, ok := t.text("mesh", "float.stl"); ok {
		m.path = name
		if !filepath.IsAbs(name) {
			m.path = filepath.Join(filepath.Dir(t.path), name)
		}
	}
	if !t.has("mesh") {
		t.miss(`%s has no mesh; write mesh = "float.stl", with the path from the craft file`, t.what)
	}
	m.unit = t.unit("unit", unit.Length)
	t.axis("forward", &m.forward)
	t.axis("up", &m.up)
	m.repair = t.repair()
	m.vented = t.vented()
	if _, err := drawn(m.forward, m.up, 1); err != nil {
		at := "up"
		if !t.has(at) {
			at = "forward"
		}
		t.fail(t.place(at), "%s: %s", t.what, err)
	}
	return m
}

// axis reads the name of an axis, if it is there.
func (t *table) axis(key string, to *r3.Vec) {
	name, ok := t.text(key, "+x")
	if !ok {
		return
	}
	v, err := axis(name)
	if err != nil {
		t.fail(t.get(key).value.at, "%s: %s", t.of(key), err)
		return
	}
	*to = v
}

// loadMeshes reads the meshes that the parts name, each file once for each way
// to take it, and makes the parts of them.
func (r *reader) loadMeshes(load loader) {
	type way struct {
		path, unit string
		repair     Repair
	}
	f := r.file
	seen := make(map[way]int)
	for i := range r.meshes {
		m := &r.meshes[i]
		w := way{m.path, m.unit, m.repair}
		k, ok := seen[w]
		if !ok {
			k = len(f.Meshes)
			seen[w] = k
			f.Meshes = append(f.Meshes, Mesh{Path: m.path, Unit: m.unit, Repair: m.repair})
		}
		m.index = k
		f.Meshes[k].Parts = append(f.Meshes[k].Parts, f.Craft.Parts[m.part].Name)
	}
	loadAll(f.Meshes, load)
	for _, m := range r.meshes {
		r.shape(m)
	}
	for i := range f.Meshes {
		if m := &f.Meshes[i]; m.Err == nil {
			f.warn(m.Parts, m.warnings()...)
		}
	}
}

// shape gives a part its solid.
func (r *reader) shape(m meshOf) {
	t, p, loaded := m.table, &r.file.Craft.Parts[m.part], &r.file.Meshes[m.index]
	if loaded.Err != nil {
		e := t.get("mesh")
		t.faults = append(t.faults, fault{Error: t.fault(e.value.at, fmt.Sprintf("%s: %s", t.of("mesh"), loaded.Err), loaded.Err), at: e.value.at})
		return
	}
	meters := metersOf(m.unit, loaded.meters)
	switch {
	case meters == 0:
		t.miss(`%s has no unit: %s does not say what its numbers are in; write unit = "mm", or cm, m, in, ft`, t.what, kindOf(loaded.Format))
		return
	case loaded.meters != 0 && !sameUnit(meters, loaded.meters):
		t.fail(t.get("unit").value.at, "%s is %q, but the mesh file itself states %q; take the key out, or export the mesh in the unit that is meant", t.of("unit"), m.unit, nameOf(loaded.meters))
		return
	}
	p.Solid, p.Hollows = loaded.Solid, loaded.hollows()
	p.Drawn, _ = drawn(m.forward, m.up, meters) // at right angles: mesh looked
	t.vent(p, loaded, m.vented)
	if doubt := mend.UnitDoubt(loaded.Report.Box, meters); doubt != "" {
		r.file.warn([]string{p.Name}, doubt)
	}
	r.file.warnFilled(p, loaded)
}

// warn adds warnings about parts.
func (f *File) warn(parts []string, texts ...string) {
	noun := "part "
	if len(parts) > 1 {
		noun = "parts "
	}
	for _, text := range texts {
		f.Warnings = append(f.Warnings, noun+`"`+strings.Join(parts, `", "`)+`": `+text)
	}
}
