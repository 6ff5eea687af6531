package craftfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"millpond/mesh/meshfile"
	"millpond/mesh/shape"
)

// TestEditors reads what editors make of a text: other line ends, a mark at
// the front, no end at the last line.
func TestEditors(t *testing.T) {
	good := of("a", "brick.stl", "")
	for name, text := range map[string]string{
		"CRLF":    strings.ReplaceAll(good, "\n", "\r\n"),
		"mark":    "\xef\xbb\xbf" + good,
		"no end":  strings.TrimSpace(good),
		"inline":  `part = [{ name = "a", mesh = "brick.stl", role = "flotation", unit = "mm" }]`,
		"quoted":  strings.Replace(good, "name =", `"name" =`, 1),
		"literal": strings.Replace(good, `"brick.stl"`, `'brick.stl'`, 1),
	} {
		if f := mustRead(t, text); len(f.Craft.Parts) != 1 {
			t.Errorf("%s: %d parts, want 1", name, len(f.Craft.Parts))
		}
	}
	bad := strings.ReplaceAll("name = \"päß\"\nnäme = 1\n", "\n", "\r\n")
	_, err := read("craft.toml", []byte(bad), fromLibrary)
	if err == nil || !strings.HasPrefix(err.Error(), "craft.toml:2:2: ") {
		t.Errorf("read of %q: %v, want an error at 2:2", bad, err)
	}
	// Columns are counted in characters.
	_, err = read("craft.toml", []byte(`water = { "temperätur" = 1, x = 2 }`), fromLibrary)
	if err == nil || !strings.Contains(err.Error(), "craft.toml:1:29: unknown key \"x\"") {
		t.Errorf("an error behind an umlaut is at\n%v\nwant column 29", err)
	}
}

// TestHostile reads what is no craft file, or meant to hurt.
func TestHostile(t *testing.T) {
	many := make([]byte, 0, 1<<20)
	for i := range 12_000 {
		many = fmt.Appendf(many, "k%d = 1\n", i)
	}
	for _, c := range []struct{ name, text, want string }{
		{"UTF-16", "\xff\xfen\x00", "c.toml: is saved as UTF-16; save it as UTF-8"},
		{"binary", "solid\x00", "c.toml: is not text, so it is no craft file; a mesh is given with --unit, --mass and --cg"},
		{"large", strings.Repeat("#", 2<<20), "c.toml: is larger than 1048576 bytes; is it a craft file?"},
		{"deep", "a = " + strings.Repeat("[", 500_000), "c.toml:1:10005: not valid TOML: arrays and inline tables are nested more than the maximum of 10000 levels deep"},
		{"less deep", "a = " + strings.Repeat("[", 100) + strings.Repeat("]", 100), "c.toml:1:1: values are nested too deep"},
		{"deep inline", "a = " + strings.Repeat("{a=", 100) + "1" + strings.Repeat("}", 100), "c.toml:1:54: values are nested too deep"},
		{"long key", strings.Repeat("a.", 400_000) + "a = 1", "c.toml:1:1: the key has too many parts"},
		{"long heading", "[" + strings.Repeat("a.", 400_000) + "a]", "c.toml:1:2: the key has too many parts"},
		{"long word", "[water]\n" + strings.Repeat("k", 1_000_000) + " = 1", "c.toml:2:1: the key is longer than 4096 bytes"},
		{"long text", "name = \"" + strings.Repeat("gm ", 300_000) + "\"", "c.toml:1:1: the text is longer than 4096 bytes"},
		{"many keys", string(many), "c.toml:10001:1: more than 10000 keys; is it a craft file?"},
		{"long list", "a = [" + strings.Repeat("1,", 20_000) + "]", "c.toml:1:1: the list is too long"},
		{"many parts", strings.Repeat("[[part]]\n", 300), "c.toml:1:3: a craft has 200 parts at most, and not 300"},
	} {
		_, err := read("c.toml", []byte(c.text), fromLibrary)
		if err == nil {
			t.Errorf("%s: no error", c.name)
			continue
		}
		if first, _, _ := strings.Cut(err.Error(), "\n"); first != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, first, c.want)
		}
	}
}

// TestMany shows the first errors only, and counts the others.
func TestMany(t *testing.T) {
	var text strings.Builder
	for i := range 30 {
		fmt.Fprintf(&text, "k%d = 1\n", i)
	}
	_, err := read("c.toml", []byte(text.String()), fromLibrary)
	var all Errors
	if !errors.As(err, &all) || len(all) != 30 {
		t.Fatalf("read gives %d errors, want 30", len(all))
	}
	if s := err.Error(); !strings.HasSuffix(s, "\nand 10 more like these") || strings.Count(s, "unknown key") != 20 {
		t.Errorf("the message is\n%s\nwant 20 errors and a count", s)
	}
}

// TestManyAreCheap reads a file of the largest size with thousands of errors,
// each of which tells its line.
func TestManyAreCheap(t *testing.T) {
	text := of("a", "filled.stl", "") + strings.Repeat("[[item]]\nat = 1\n", 4500)
	text += strings.Repeat("#\n", (maxText-len(text))/2)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := read("c.toml", []byte(text), fromLibrary)
	runtime.ReadMemStats(&after)
	var all Errors
	if !errors.As(err, &all) || len(all) != 3*4500 {
		t.Fatalf("read gives %d errors, want 3 for each item", len(all))
	}
	if last := all[len(all)-1]; last.Line != 6+2*4500 || last.Column != 6 || !strings.HasPrefix(last.Excerpt, " 9006 | at = 1\n") {
		t.Errorf("the last error is %d:%d, %q", last.Line, last.Column, last.Excerpt)
	}
	if used, size := after.TotalAlloc-before.TotalAlloc, uint64(len(text)); used > 50*size {
		t.Errorf("read of %d bytes takes %d bytes of memory, want 50 for each at most", size, used)
	}
}

// TestDisk reads a craft file and a mesh that really are files.
func TestDisk(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	m := shape.Box(200, 100, 100)
	var stl strings.Builder
	if err := meshfile.WriteSTL(&stl, "brick", len(m.Triangles), m.Triangle); err != nil {
		t.Fatal(err)
	}
	write("parts/brick.stl", stl.String())
	craftPath := write("craft.toml", of("a", "parts/brick.stl", "")+of("b", "parts/../parts/brick.stl", `at = ["0 m", "0 m", "1 m"]`))
	f, err := Read(craftPath)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Meshes) != 1 || f.Craft.Parts[0].Solid != f.Craft.Parts[1].Solid {
		t.Errorf("%d meshes, want one, shared by both parts", len(f.Meshes))
	}
	got := f.Meshes[0]
	sum, err := meshfile.SHA256(filepath.Join(dir, "parts", "brick.stl"))
	if err != nil {
		t.Fatal(err)
	}
	if got.SHA256 != sum || got.Format != meshfile.BinarySTL || got.Unit != "mm" || got.Report.Kept != 12 {
		t.Errorf("mesh = %+v, want binary STL in mm of 12 facets with sum %s", got, sum)
	}
	near(t, "volume", f.Craft.FlotationVolume(), 4e-3)

	write("parts/bad.stl", "solid bad\nfacet")
	badPath := write("bad.toml", of("a", "parts/bad.stl", "")+of("b", "parts/brick.stl", ""))
	f, err = Read(badPath)
	if err == nil || f == nil || f.Craft != nil || len(f.Meshes) != 2 || f.Meshes[0].Err == nil || f.Meshes[1].Report == nil {
		t.Errorf("Read of a craft with one bad mesh: %+v, %v; want the error and both meshes", f, err)
	}
	var cause *meshfile.Error
	if !errors.As(err, &cause) || !strings.HasPrefix(err.Error(), badPath+":3:8: mesh of part \"a\": "+filepath.Join(dir, "parts", "bad.stl")) {
		t.Errorf("Read of a craft with one bad mesh: %v; want its part, line and path", err)
	}

	for _, c := range []struct{ path, want string }{
		{dir, dir + ": is a folder; name the craft file in it"},
		{filepath.Join(dir, "none.toml"), filepath.Join(dir, "none.toml") + ": no such file; check the name and the folder"},
		{write("large.toml", strings.Repeat("#", 2<<20)), filepath.Join(dir, "large.toml") + ": is larger than 1048576 bytes; is it a craft file?"},
		{os.DevNull, os.DevNull + ": is not a regular file"},
	} {
		if _, err := Read(c.path); err == nil || err.Error() != c.want {
			t.Errorf("Read(%s):\ngot  %v\nwant %s", c.path, err, c.want)
		}
	}
	if _, err := Read(filepath.Join(dir, "none.toml")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("Read of nothing: %v does not wrap fs.ErrNotExist", err)
	}
}
