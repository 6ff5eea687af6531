package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/mesh"
	"millpond/mesh/meshfile"
)

// resized is the folder that the parts as sized are written to.
type resized struct {
	dir, base string
	force     bool
}

// newResized checks the folder before the search, so that no search is lost to
// a name that is taken.
func newResized(dir, base string, force bool) (*resized, error) {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case !info.IsDir():
		return nil, fmt.Errorf("--write: %s is a file; name a folder", dir)
	}
	out := &resized{dir, base, force}
	path := out.craftPath()
	if _, err := os.Lstat(path); err == nil && !force {
		return nil, fmt.Errorf("%s exists and is kept: choose another folder or add --force", path)
	}
	return out, nil
}

// craftPath is where the craft file goes.
func (o *resized) craftPath() string { return filepath.Join(o.dir, "craft.toml") }

// file is one to be written.
type file struct {
	path string
	data []byte
}

// write writes the parts whose form has changed and the craft file, all or
// none, and returns their paths.
func (o *resized) write(f *craftfile.File, got *design.Sized, spans []design.Span) ([]string, error) {
	var files []file
	taken := map[string]bool{}
	for i := range got.Trial.Craft.Parts {
		p := &got.Trial.Craft.Parts[i]
		if !p.Reshaped() {
			continue
		}
		name := fileName(p.Name)
		for n := 2; taken[name]; n++ {
			name = fmt.Sprintf("%s-%d", fileName(p.Name), n)
		}
		taken[name] = true
		data, err := partSTL(p)
		if err != nil {
			return nil, fmt.Errorf("part %q: %w", p.Name, err)
		}
		files = append(files, file{filepath.Join(o.dir, name+".stl"), data})
	}
	text, err := o.craftFile(f, got, spans, files)
	if err != nil {
		return nil, err
	}
	files = append(files, file{o.craftPath(), []byte(text)})
	return o.writeAll(files)
}

// writeAll writes files, all or none.
func (o *resized) writeAll(files []file) ([]string, error) {
	if !o.force {
		for _, f := range files {
			if _, err := os.Lstat(f.path); err == nil {
				return nil, fmt.Errorf("%s exists: nothing was written; choose another folder or add --force", f.path)
			}
		}
	}
	made := false
	if _, err := os.Stat(o.dir); errors.Is(err, fs.ErrNotExist) {
		made = true
	}
	if err := os.MkdirAll(o.dir, 0o777); err != nil {
		return nil, err
	}
	var written []string
	for _, f := range files {
		if err := writeWhole(f.path, o.force, f.data); err != nil {
			if !o.force { // what was there before is not to be lost
				for _, p := range written {
					os.Remove(p)
				}
			}
			if made {
				os.Remove(o.dir)
			}
			return nil, err
		}
		written = append(written, f.path)
	}
	return written, nil
}

// fileName makes a file name of a part's name.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, name)
}

// partSTL returns the part with its new form as a binary STL file, in the unit
// and axes of its own file: the outer surface, and its cavities inside out.
func partSTL(p *craft.Part) ([]byte, error) {
	outer, err := p.Reshape(p.Solid)
	if err != nil {
		return nil, err
	}
	solids := []*mesh.Solid{outer}
	n := outer.Triangles()
	for _, h := range p.Hollows {
		s, err := p.Reshape(h)
		if err != nil {
			return nil, err
		}
		solids = append(solids, s)
		n += s.Triangles()
	}
	var buf bytes.Buffer
	k, first := 0, 0
	err = meshfile.WriteSTL(&buf, p.Name+", resized", n, func(i int) r3.Triangle {
		for i-first >= solids[k].Triangles() {
			first += solids[k].Triangles()
			k++
		}
		t := solids[k].Triangle(i - first)
		if k > 0 {
			t[1], t[2] = t[2], t[1]
		}
		return t
	})
	return buf.Bytes(), err
}

// craftFile returns the text of a craft file that names the base and lists what
// is other than in it. What the base itself says is changed already is listed
// again: a base of a base is no base.
func (o *resized) craftFile(f *craftfile.File, got *design.Sized, spans []design.Span, parts []file) (string, error) {
	basePath := o.base
	if f.Base != "" {
		basePath = f.Base
	}
	text, err := os.ReadFile(basePath)
	if err != nil {
		return "", err
	}
	relative, err := relativePath(o.dir, basePath)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Written by millpond size. The base stays as it is; these are the changes to it.\n")
	for _, p := range parts {
		fmt.Fprintf(&b, "# %s is the part with them, for CAD: it is not read from here.\n", filepath.Base(p.path))
	}
	fmt.Fprintf(&b, "name = %s\nbase = %s\nbase_sha256 = \"%x\"\n", quoteTOML(f.Craft.Name+", sized"), quoteTOML(relative), sha256.Sum256(text))
	done := map[string]bool{}
	change := func(v design.Varied, to float64) {
		done[v.Text()] = true
		fmt.Fprintf(&b, "\n[[change]]\nwhat = %s\nto = \"%s\"\n", quoteTOML(v.Text()), v.Exact(to))
		if v.IsPlug() {
			fmt.Fprintf(&b, "at = \"%s\"\n", v.ExactPlace())
		}
	}
	for k, span := range spans {
		change(span.Varied, got.Values[k])
	}
	for _, c := range f.Changes {
		if !done[c.Text()] {
			change(c.Varied, c.To)
		}
	}
	return b.String(), nil
}

// relativePath returns the base's path from the folder, or the absolute one
// where there is no way.
func relativePath(dir, path string) (string, error) {
	absDir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	if rel, err := filepath.Rel(absDir, abs); err == nil {
		return filepath.ToSlash(rel), nil
	}
	return abs, nil
}

// quoteTOML returns a text as a TOML string.
func quoteTOML(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}
