package meshfile

import (
	"bytes"
	"io"

	"millpond/mesh"
)

// The values of File.Format.
const (
	BinarySTL = "binary STL"
	ASCIISTL  = "ASCII STL"
	OBJ       = "OBJ"
	BinaryPLY = "binary PLY"
	ASCIIPLY  = "ASCII PLY"
	ThreeMF   = "3MF"
)

// headSize is how much of a file is looked at to find its format.
const headSize = 4096

// input is a file being read.
type input struct {
	io.ReaderAt
	size int64
	name string
	head []byte // the first headSize bytes, or all of a shorter file
}

// fail makes an error about the file as a whole.
func (in *input) fail(reason, hint string) *Error {
	return &Error{Path: in.name, Facet: -1, Reason: reason, Hint: hint}
}

// A format tells whether a file is its own, from the head and the size, and
// reads it into a mesh that has its name already.
type format struct {
	is   func(*input) bool
	read func(*input, *mesh.Mesh) (*File, error)
}

// formats are asked in this order. A binary STL file is free in its first 80
// bytes, so one whose size fits its count goes before all others, and one
// whose size does not fit goes after all others.
var formats = []format{
	{isExactBinary, readBinary},
	{is3MF, read3MF},
	{isPLY, readPLY},
	{isASCII, readASCII},
	{isOBJ, readOBJ},
	{isDamagedBinary, readBinary},
}

var utf8BOM = []byte("\xef\xbb\xbf")

// isASCII reports whether the file begins with the word solid, as binary files
// may too, and goes on like text.
func isASCII(in *input) bool {
	text := bytes.TrimLeft(bytes.TrimPrefix(in.head, utf8BOM), whitespace)
	word := text[:min(len(text), len("solid"))]
	if !bytes.EqualFold(word, []byte("solid")) {
		return false
	}
	if after := text[len(word):]; len(after) > 0 && !isSpace(after[0]) {
		return false
	}
	// A count below 2^24 puts a zero byte into a binary file's head. A text may
	// have some too, but behind its facets.
	front, _, zero := bytes.Cut(text, []byte{0})
	front = bytes.ToLower(front)
	return !zero || bytes.Contains(front, []byte("facet")) || bytes.Contains(front, []byte("endsolid"))
}

// isDamagedBinary reports whether the file may be a binary STL file although
// its size does not fit its count: long enough, not text, nothing better known.
func isDamagedBinary(in *input) bool {
	return in.size >= binaryHeader && !in.isText() && in.lookalike() == nil
}

// isText reports whether the head has no zero byte, which every binary STL file
// has and no text.
func (in *input) isText() bool { return bytes.IndexByte(in.head, 0) < 0 }

// tail returns how many bytes at the end of the file are among the given ones.
func (in *input) tail(padding string) (int64, error) {
	var buf [8192]byte
	for end := in.size; end > 0; {
		block := buf[:min(end, int64(len(buf)))]
		end -= int64(len(block))
		if n, err := in.ReadAt(block, end); n < len(block) {
			return 0, err
		}
		if left := len(bytes.TrimRight(block, padding)); left > 0 {
			return in.size - end - int64(left), nil
		}
	}
	return in.size, nil
}
