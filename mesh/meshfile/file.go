package meshfile

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"millpond/mesh"
)

// MaxFacets is the largest number of facets read from or written to one file.
// A mesh of that size fills 4 GB of memory, and about five times as much while
// it is mended; vertex numbers would fit their 32 bits up to 28 times as many.
const MaxFacets = 50_000_000

// MaxCoordinate is the largest coordinate accepted, in file units: a thousand
// kilometers if they are millimeters. Nothing to be floated is that large, but
// the numbers in a damaged file are.
const MaxCoordinate = 1e9

// File is a mesh and what its file told about it.
type File struct {
	// Mesh has the file's base name, its facets in the order of the file, and
	// its coordinates exactly. From STL, triangle i has vertices 3i to 3i+2.
	Mesh *mesh.Mesh
	// Format is the format found, one of the constants.
	Format string
	// Solids are the names of the solids in the file, in order, possibly
	// empty. They are joined in Mesh. A binary STL file has one, named by the
	// text in its header.
	Solids []string
	// Warnings are things accepted that the user should hear of.
	Warnings []string
}

// Read reads the mesh in a file, whatever the format, judged by content. All
// errors are of type *Error.
func Read(path string) (*File, error) {
	// Asked before opening: to open a pipe would wait for a writer.
	info, err := os.Stat(path)
	if err != nil {
		return nil, systemError(path, err)
	}
	if info.IsDir() {
		return nil, &Error{Path: path, Facet: -1, Reason: "is a folder, not a mesh file", Hint: "name a file in it"}
	}
	if !info.Mode().IsRegular() {
		return nil, &Error{Path: path, Facet: -1, Reason: "is not a regular file", Hint: "save the mesh to a file first"}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, systemError(path, err)
	}
	defer file.Close()
	return ReadFrom(file, info.Size(), path)
}

// ReadFrom reads the mesh held by the first size bytes of r, as [Read] does.
// The name stands for the path in messages; its base is the mesh's name.
func ReadFrom(r io.ReaderAt, size int64, name string) (*File, error) {
	in := &input{ReaderAt: r, size: size, name: name}
	in.head = make([]byte, min(size, headSize))
	if _, err := io.ReadFull(io.NewSectionReader(r, 0, size), in.head); err != nil {
		return nil, systemError(name, err)
	}
	for _, f := range formats {
		if f.is(in) {
			m := &mesh.Mesh{Name: filepath.Base(name)}
			return f.read(in, m)
		}
	}
	return nil, in.refuse()
}

// SHA256 returns the SHA-256 sum of a file in hexadecimal, to tell later
// whether a result was computed from that very file. It is apart from [Read]
// because it takes as long.
func SHA256(path string) (string, error) {
	file, err := os.Open(path)
	if err != nil {
		return "", systemError(path, err)
	}
	defer file.Close()
	h := sha256.New()
	if _, err := io.Copy(h, file); err != nil {
		return "", systemError(path, err)
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// systemError dresses an error of the operating system.
func systemError(path string, err error) *Error {
	e := &Error{Path: path, Facet: -1, Reason: err.Error(), Err: err}
	var pathErr *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.Reason, e.Hint = "no such file", "check the name and the folder"
	case errors.Is(err, fs.ErrPermission):
		e.Reason, e.Hint = "permission denied", "check who may read it"
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		e.Reason, e.Hint = "became shorter while it was read", "wait until it is written and read it again"
	case errors.As(err, &pathErr):
		e.Reason = pathErr.Op + ": " + pathErr.Err.Error()
	}
	return e
}
