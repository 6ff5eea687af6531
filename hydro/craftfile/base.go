package craftfile

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"strings"

	"millpond/hydro/unit"
)

// based reads a craft file that names its base and lists changes to it: the
// base is read as it stands and the changes applied. What is wrong with the
// base is reported as the base's.
func (r *reader) based(top *table, load loader) (*File, error) {
	name, _ := top.text("name", "heron, deeper floats")
	path, ok := top.text("base", "craft.toml")
	sum, hasSum := top.text("base_sha256", "the checksum of the base")
	r.lengthUnit = top.unit("length_unit", unit.Length)
	r.massUnit = top.unit("mass_unit", unit.Mass)
	if !top.has("change") {
		top.miss("it names a base and changes nothing: write a [[change]] for each thing that is other than in the base")
	}
	fail := func() error {
		top.known = append(top.known, "change")
		for _, t := range r.tables {
			t.refuseUnknown()
		}
		return r.wrong()
	}
	if !ok {
		return nil, fail()
	}
	if !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(r.path), path)
	}
	text, err := readText(path)
	if err != nil {
		top.fail(top.get("base").value.at, "base: %s", err)
		return nil, fail()
	}
	base := newReader(path, text)
	root, fault := parse(base.source)
	if fault != nil {
		return nil, Errors{fault}
	}
	if root.find("base") != nil {
		top.fail(top.get("base").value.at, "base: %s has a base itself; name that one, and list all changes to it here", path)
		return nil, fail()
	}
	f, err := base.whole(root, load)
	if err != nil {
		return f, err
	}
	r.file = f
	f.Base, f.Path = path, r.path
	if name != "" {
		f.Craft.Name = name
	}
	if is := sha256.Sum256(text); hasSum && !strings.EqualFold(sum, hex.EncodeToString(is[:])) {
		f.Warnings = append(f.Warnings, fmt.Sprintf("%s is not as it was when %s was written: the changes were worked out for another base", path, r.path))
	}
	r.changes(top)
	for _, t := range r.tables {
		t.refuseUnknown()
	}
	if err := r.wrong(); err != nil {
		return nil, err
	}
	return f, r.finish()
}
