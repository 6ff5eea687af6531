package craftfile

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/mesh/overlap"
)

// File is a craft and what is wanted of it, as read.
type File struct {
	Path         string // of the craft file; of the mesh in the quick form
	Craft        *craft.Craft
	Requirements []Requirement
	Limits       design.Limits      // what [[vary]] holds variables to
	Changes      []Change           // what [[change]] sets
	Tolerances   []design.Tolerance // what [[tolerance]] says of how variables come out
	Base         string             // the craft file that the changes are to, when another
	Meshes       []Mesh             // in the order in which the parts name them
	Warnings     []string           // what may mislead, each naming the part or key
}

// Requirement is a requirement and the line of the craft file it stands at.
type Requirement struct {
	design.Requirement
	Line int
}

// sections are the tables of a craft file in the order in which they are read:
// a table comes after those whose names it uses.
var sections = []func(r *reader, top *table){
	(*reader).head,
	(*reader).water,
	(*reader).parts,
	(*reader).compartments,
	(*reader).items,
	(*reader).points,
	(*reader).lines,
	(*reader).stations,
	(*reader).thrusts,
	(*reader).reaction,
	(*reader).wind,
	(*reader).wing,
	(*reader).mass,
	(*reader).growth,
	(*reader).sheet,
	(*reader).loadings,
	(*reader).requirements,
	(*reader).limits,
	(*reader).changes,
	(*reader).tolerances,
}

// Read reads a craft file and the meshes it names. Its errors are of type
// [Errors]. When only the meshes are at fault the File comes with the error: it
// has no Craft, but its Meshes tell what is known of each.
func Read(path string) (*File, error) {
	text, err := readText(path)
	if err != nil {
		return nil, err
	}
	return read(path, text, fromDisk)
}

// readText returns the content of a craft file.
func readText(path string) ([]byte, error) {
	s := &source{path: path}
	fail := func(message string, err error) ([]byte, error) {
		return nil, Errors{s.fault(span{}, message, err)}
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fail("no such file; check the name and the folder", err)
	case err != nil:
		return fail(reason(err), err)
	case info.IsDir():
		return fail("is a folder; name the craft file in it", nil)
	case !info.Mode().IsRegular():
		return fail("is not a regular file", nil)
	case info.Size() > maxText:
		s.text = make([]byte, maxText+1)
		return nil, Errors{s.screen()}
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return fail(reason(err), err)
	}
	return text, nil
}

// reason returns what an error of the system says, without the path.
func reason(err error) string {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

// read reads a craft file's text, with its meshes from load.
func read(path string, text []byte, load loader) (*File, error) {
	r := newReader(path, text)
	root, err := parse(r.source)
	if err != nil {
		return nil, Errors{err}
	}
	if root.find("base") != nil {
		return r.based(r.open(root, ""), load)
	}
	f, wrong := r.whole(root, load)
	if wrong != nil {
		return f, wrong
	}
	return f, nil
}

func newReader(path string, text []byte) *reader {
	return &reader{
		source: &source{path: path, text: text},
		file:   &File{Path: path, Craft: &craft.Craft{Overlaps: &overlap.Cache{}}, Limits: design.Limits{}},
		names:  make(map[string]holder),
	}
}

// whole reads a file that describes a whole craft, with its meshes from load.
func (r *reader) whole(root *node, load loader) (*File, error) {
	top := r.open(root, "")
	for _, section := range sections {
		section(r, top)
	}
	for _, t := range r.tables {
		t.refuseUnknown()
	}
	if err := r.wrong(); err != nil {
		return nil, err
	}
	r.loadMeshes(load)
	if err := r.wrong(); err != nil {
		r.file.Craft, r.file.Requirements = nil, nil
		return r.file, err
	}
	if err := r.finish(); err != nil {
		return nil, err
	}
	return r.file, nil
}

// finish does what was left until the parts had their solids.
func (r *reader) finish() error {
	for _, do := range r.withSolids {
		do(r.file.Craft)
	}
	if err := r.wrong(); err != nil {
		return err
	}
	for _, warn := range []func() error{r.file.warnShared, r.file.warnPockets} {
		if err := warn(); err != nil {
			return Errors{r.fault(span{}, err.Error(), err)}
		}
	}
	return nil
}

// reader is a craft file being read.
type reader struct {
	*source
	file   *File
	tables []*table
	faults []fault
	names  map[string]holder // by set and name in lower case

	lengthUnit, massUnit string // of bare numbers, empty for none
	meshes               []meshOf
	massed               []massed // what says that the mass is built up
	withSolids           []func(*craft.Craft)
}

// fault is an error and what decides whether and where it is shown.
type fault struct {
	*Error
	at      span
	missing *table // the table in which something is not there
}

// holder is who has a name.
type holder struct {
	noun string
	at   int
}

// wrong returns all errors met, in the order of the file, nil for none.
func (r *reader) wrong() error {
	slices.SortStableFunc(r.faults, func(a, b fault) int { return cmp.Compare(a.at.from, b.at.from) })
	var all Errors
	for _, f := range r.faults {
		if f.missing == nil || len(f.missing.unknown()) == 0 {
			all = append(all, f.Error)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return all
}

// head reads the keys that stand above all tables.
func (r *reader) head(top *table) {
	c := r.file.Craft
	if c.Name, _ = top.text("name", "heron"); c.Name == "" {
		c.Name = stem(r.path)
	}
	r.lengthUnit = top.unit("length_unit", unit.Length)
	r.massUnit = top.unit("mass_unit", unit.Mass)
}

// stem returns the base of a file's name without its ending.
func stem(path string) string {
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// unit returns the name of a unit of a kind, empty when the key is not there.
// After an error it returns some unit all the same, so that bare numbers are
// not each an error too.
func (t *table) unit(key string, k unit.Kind) string {
	example := map[unit.Kind]string{unit.Length: "mm", unit.Mass: "g"}[k]
	name, ok := t.text(key, example)
	if !ok {
		if t.has(key) {
			name = k.Inside().Name
		}
		return name
	}
	if _, err := unit.Lookup(k, name); err != nil {
		t.fail(t.get(key).value.at, "%s: %s", t.of(key), err)
		return k.Inside().Name
	}
	return name
}
