package meshfile

import (
	"bufio"
	"encoding/binary"
	"io"

	"github.com/hschendel/stl"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/parts"
)

// decode lets the library decode the first n facets, which the file must hold,
// into the mesh. A binary file has no state from one facet to the next, so it
// is shown to the library as several files, one for each processor.
func (in *input) decode(n int64, m *mesh.Mesh) error {
	m.Vertices = make([]r3.Vec, 3*n)
	m.Triangles = make([][3]uint32, n)
	errs := make([]*Error, parts.Count(int(n)))
	parts.Each(len(errs), int(n), func(i, from, to int) {
		errs[i] = in.decodePart(int64(from), int64(to), m)
	})
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// decodePart decodes the facets [from, to) into their places in the mesh.
func (in *input) decodePart(from, to int64, m *mesh.Mesh) *Error {
	s := &sink{vertices: m.Vertices[3*from : 3*from : 3*to]}
	r := newPart(in, from, to)
	err := stl.CopyAll(r, s)
	facet := int(from) + s.facets()
	switch {
	case s.bad != nil:
		return &Error{
			Path: in.name, Facet: facet, Offset: binaryHeader + binaryFacet*int64(facet),
			Reason: s.bad.reason(), Hint: hintAgain,
		}
	case r.err != nil:
		return systemError(in.name, r.err)
	case err != nil || facet != int(to):
		return &Error{Path: in.name, Facet: facet, Reason: "cannot be decoded", Hint: hintAgain, Err: err}
	}
	for i := from; i < to; i++ {
		k := uint32(3 * i)
		m.Triangles[i] = [3]uint32{k, k + 1, k + 2}
	}
	return nil
}

// part shows a run of facets in a binary file as a file of its own. It is
// buffered, because the library's own buffer is so small that reading would
// cost more than decoding, and keeps the first error, which the library would
// turn into text. The end is one too: the library has no business there.
type part struct {
	*bufio.Reader
	section *io.SectionReader
	err     error
}

var _ io.ReadSeeker = (*part)(nil)

func newPart(in *input, from, to int64) *part {
	p := partReader{in: in, skip: binaryFacet * from}
	binary.LittleEndian.PutUint32(p.header[80:], uint32(to-from))
	section := io.NewSectionReader(&p, 0, binaryHeader+binaryFacet*(to-from))
	return &part{Reader: bufio.NewReaderSize(section, 1<<18), section: section}
}

// Read is io.Reader.
func (p *part) Read(b []byte) (int, error) {
	n, err := p.Reader.Read(b)
	if err != nil && p.err == nil {
		p.err = err
	}
	return n, err
}

// Seek is io.Seeker.
func (p *part) Seek(offset int64, whence int) (int64, error) {
	at, err := p.section.Seek(offset, whence)
	p.Reset(p.section)
	return at, err
}

// partReader is a file with a header of its own and facets left out behind it.
type partReader struct {
	in     io.ReaderAt
	header [binaryHeader]byte
	skip   int64
}

// ReadAt is io.ReaderAt.
func (p *partReader) ReadAt(b []byte, offset int64) (int, error) {
	if offset >= binaryHeader {
		return p.in.ReadAt(b, offset+p.skip)
	}
	n := copy(b, p.header[offset:])
	if n == len(b) {
		return n, nil
	}
	k, err := p.in.ReadAt(b[n:], binaryHeader+p.skip)
	return n + k, err
}
