package meshfile

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// WriteWhole writes a file whole or not at all: write fills a temporary file in
// the same folder, which takes the name path only when all of it is on the
// disk. If anything fails nothing is left behind and a file of that name stays
// as it was. A file that exists is refused with an error that wraps
// fs.ErrExist, before write is called, unless overwrite is set; then its
// permissions are kept, and a symbolic link is followed. Anything that is not a
// regular file, such as a folder or a device, is always refused.
//
// An error returned by write is returned unchanged, others are of type *Error.
// What write writes is buffered.
func WriteWhole(path string, overwrite bool, write func(io.Writer) error) (err error) {
	target, mode, err := writeTarget(path, overwrite)
	if err != nil {
		return err
	}
	// Not os.CreateTemp, whose files only their owner may read.
	name := filepath.Join(filepath.Dir(target), fmt.Sprintf(".%016x.tmp", rand.Uint64()))
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return writeError(path, err)
	}
	// Also when write panics. After the rename there is nothing to remove.
	defer os.Remove(name)
	defer file.Close()

	buf := bufio.NewWriterSize(file, 1<<16)
	if err := write(buf); err != nil {
		// A full disk is our error to explain, even if write passes it on.
		if flush := buf.Flush(); flush == nil || !errors.Is(err, flush) {
			return err
		}
		return writeError(path, err)
	}
	if err := errors.Join(buf.Flush(), file.Sync()); err != nil {
		return writeError(path, err)
	}
	if mode != 0 {
		if err := file.Chmod(mode); err != nil {
			return writeError(path, err)
		}
	}
	if err := file.Close(); err != nil {
		return writeError(path, err)
	}
	if overwrite {
		err = os.Rename(name, target)
	} else {
		err = renameNew(name, target)
	}
	if err != nil {
		return writeError(path, err)
	}
	return nil
}

// writeTarget returns the file to write, links followed, and the permissions of
// the one to overwrite, zero if there is none.
func writeTarget(path string, overwrite bool) (target string, mode fs.FileMode, err error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(path); err == nil {
			return "", 0, &Error{Path: path, Facet: -1, Reason: "is a link to a file that does not exist", Hint: "remove the link or choose another name"}
		}
		return path, 0, nil
	case err != nil:
		return "", 0, writeError(path, err)
	case info.IsDir():
		return "", 0, &Error{Path: path, Facet: -1, Reason: "is a folder", Hint: "name a file in it"}
	case !info.Mode().IsRegular():
		return "", 0, &Error{Path: path, Facet: -1, Reason: "is not a regular file", Hint: "choose another name"}
	case !overwrite:
		return "", 0, writeError(path, fs.ErrExist)
	}
	target, err = filepath.EvalSymlinks(path)
	if err != nil {
		return "", 0, writeError(path, err)
	}
	return target, info.Mode().Perm(), nil
}

// renameNew renames a file to a name that must be new. A hard link fails if
// the name was taken meanwhile, which a rename would not; where the file system
// has no links a rename must do.
func renameNew(name, target string) error {
	err := os.Link(name, target)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(target); err == nil {
		return fs.ErrExist
	}
	return os.Rename(name, target)
}

// writeError dresses an error met in writing.
func writeError(path string, err error) *Error {
	e := &Error{Path: path, Facet: -1, Reason: "cannot be written: " + err.Error(), Err: err}
	var pathErr *fs.PathError
	switch {
	case errors.Is(err, fs.ErrExist):
		e.Reason, e.Hint = "exists already", "choose another name, or ask to overwrite it"
	case errors.Is(err, fs.ErrNotExist):
		e.Reason, e.Hint = fmt.Sprintf("the folder %s does not exist", filepath.Dir(path)), "make it first"
	case errors.Is(err, fs.ErrPermission):
		e.Reason, e.Hint = "cannot be written: permission denied", "choose another folder"
	case errors.As(err, &pathErr):
		e.Reason = "cannot be written: " + pathErr.Err.Error()
	}
	return e
}
