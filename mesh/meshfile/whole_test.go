package meshfile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// names lists a folder.
func names(t *testing.T, dir string) string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return strings.Join(all, " ")
}

func put(text string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
}

func check(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q, %v, want %q", filepath.Base(path), got, err, want)
	}
}

func TestWriteWhole(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.csv")
	if err := WriteWhole(path, false, put("one")); err != nil {
		t.Fatal(err)
	}
	check(t, path, "one")

	called := false
	err := WriteWhole(path, false, func(io.Writer) error { called = true; return nil })
	if want := path + ": exists already; choose another name, or ask to overwrite it"; err == nil || err.Error() != want {
		t.Errorf("WriteWhole(existing): %v, want %s", err, want)
	}
	if !errors.Is(err, fs.ErrExist) || called {
		t.Errorf("WriteWhole(existing): wraps ErrExist %v, write called %v, want true, false", errors.Is(err, fs.ErrExist), called)
	}
	check(t, path, "one")

	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := WriteWhole(path, true, put("two")); err != nil {
		t.Fatal(err)
	}
	check(t, path, "two")
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("WriteWhole(overwrite): mode %v, %v, want 0640", info.Mode(), err)
	}

	// A new file has the permissions of any other new file.
	plain := filepath.Join(dir, "plain")
	if err := os.WriteFile(plain, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(dir, "fresh")
	if err := WriteWhole(fresh, true, put("x")); err != nil {
		t.Fatal(err)
	}
	a, _ := os.Stat(plain)
	b, _ := os.Stat(fresh)
	if a.Mode() != b.Mode() {
		t.Errorf("WriteWhole(new): mode %v, want %v", b.Mode(), a.Mode())
	}
	if got, want := names(t, dir), "a.csv fresh plain"; got != want {
		t.Errorf("folder holds %s, want %s", got, want)
	}
}

func TestWriteWholeFails(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.csv")
	if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	failed := errors.New("no such rest")
	half := func(w io.Writer) error {
		io.WriteString(w, strings.Repeat("half", 100_000))
		return failed
	}
	if err := WriteWhole(path, true, half); err != failed {
		t.Errorf("WriteWhole(failing): %v, want %v", err, failed)
	}
	if err := WriteWhole(filepath.Join(dir, "new"), false, half); err != failed {
		t.Errorf("WriteWhole(failing, new): %v, want %v", err, failed)
	}
	func() {
		defer func() { recover() }()
		WriteWhole(path, true, func(w io.Writer) error { panic("bug") })
	}()
	check(t, path, "old")
	if got := names(t, dir); got != "a.csv" {
		t.Errorf("folder holds %s, want a.csv", got)
	}

	// Taken by another while it is written.
	late := filepath.Join(dir, "late")
	err := WriteWhole(late, false, func(w io.Writer) error {
		return os.WriteFile(late, []byte("theirs"), 0o666)
	})
	if !errors.Is(err, fs.ErrExist) {
		t.Errorf("WriteWhole(taken meanwhile): %v, want %v", err, fs.ErrExist)
	}
	check(t, late, "theirs")
}

func TestWriteWholePlaces(t *testing.T) {
	dir := t.TempDir()
	real, link, dead := filepath.Join(dir, "real"), filepath.Join(dir, "link"), filepath.Join(dir, "dead")
	if err := os.WriteFile(real, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(os.Symlink("real", link), os.Symlink("nothing", dead)); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	for _, c := range []struct{ path, want string }{
		{filepath.Join(dir, "no", "a.csv"), "the folder " + filepath.Join(dir, "no") + " does not exist; make it first"},
		{dir, "is a folder; name a file in it"},
		{os.DevNull, "is not a regular file; choose another name"},
		{dead, "is a link to a file that does not exist; remove the link or choose another name"},
		{filepath.Join(real, "a.csv"), "cannot be written: not a directory"},
	} {
		err := WriteWhole(c.path, true, put("new"))
		if err == nil || err.Error() != c.path+": "+c.want {
			t.Errorf("WriteWhole(%s): %v, want %s", c.path, err, c.want)
		}
	}
	if err := WriteWhole(link, true, put("new")); err != nil {
		t.Fatal(err)
	}
	check(t, real, "new")
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("WriteWhole(link): the link became %v, %v", info.Mode(), err)
	}
}
