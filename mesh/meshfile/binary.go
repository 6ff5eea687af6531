package meshfile

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"millpond/mesh"
)

// A binary STL file is a header of 80 free bytes, the number of facets in four
// more (little endian), and 50 bytes for each facet.
const (
	binaryHeader = 84
	binaryFacet  = 50
)

// binaryCount returns the number of facets a binary file announces.
func (in *input) binaryCount() int64 {
	return int64(binary.LittleEndian.Uint32(in.head[80:binaryHeader]))
}

// isExactBinary reports whether the size is just what the count asks for. No
// text can pass: four letters read as a count ask for 8 GB or more.
func isExactBinary(in *input) bool {
	return in.size >= binaryHeader && in.size == binaryHeader+binaryFacet*in.binaryCount()
}

// readBinary reads a binary STL file. The library takes a file for binary only
// if its size fits the count to the byte, and otherwise tries it as text, so
// the size is settled here.
func readBinary(in *input, m *mesh.Mesh) (*File, error) {
	n := in.binaryCount()
	want := binaryHeader + binaryFacet*n
	f := &File{Mesh: m, Format: BinarySTL, Solids: []string{headerName(in.head)}}
	switch {
	case want > in.size:
		return nil, in.truncated(n)
	case want < in.size:
		warning, err := in.leftOver(n, want)
		if err != nil {
			return nil, err
		}
		f.Warnings = append(f.Warnings, warning)
	}
	if n == 0 {
		return nil, in.fail("the mesh has no facets", hintAgain)
	}
	if n > MaxFacets {
		return nil, in.fail(fmt.Sprintf("has %d facets, more than the %d that are read", n, MaxFacets), "export it coarser")
	}

	if err := in.decode(n, m); err != nil {
		return nil, err
	}
	return f, nil
}

// truncated is the error for a count that the file cannot hold.
func (in *input) truncated(n int64) *Error {
	if n > MaxFacets {
		return in.fail(fmt.Sprintf("not an STL file, or a damaged one: as binary STL its header announces %d facets, and its %d bytes hold no more than %d",
			n, in.size, (in.size-binaryHeader)/binaryFacet), hintAgain)
	}
	return in.fail(fmt.Sprintf("cut short: the header announces %d facets (%d bytes), but the file holds %d (%d bytes)",
		n, binaryHeader+binaryFacet*n, (in.size-binaryHeader)/binaryFacet, in.size), "copy or export it again")
}

// leftOver judges the bytes behind the last facet, which begin at want: a
// warning if they are padding, an error if they may be geometry.
func (in *input) leftOver(n, want int64) (warning string, err error) {
	extra := in.size - want
	zeros, err := in.tail("\x00")
	if err != nil {
		return "", systemError(in.name, err)
	}
	if zeros >= extra {
		return fmt.Sprintf("%d zero bytes after the last of %d facets were ignored", extra, n), nil
	}
	if extra < binaryFacet {
		return fmt.Sprintf("%d bytes after the last of %d facets were ignored: too few for a facet", extra, n), nil
	}
	hint := "if it is several STL files joined, export each alone; otherwise " + hintAgain
	if n == 0 {
		hint = "the export was not finished: " + hintAgain
	}
	return "", in.fail(fmt.Sprintf("the header announces %d facets, but %d bytes are left over behind them, room for %d more",
		n, extra, extra/binaryFacet), hint)
}

// headerName returns the text in the header of a binary file.
func headerName(head []byte) string {
	text, _, _ := bytes.Cut(head[:80], []byte{0})
	return clean(text)
}
