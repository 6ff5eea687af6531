package meshfile

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"millpond/mesh"
)

// asciiReader checks the grammar of an ASCII STL file word by word, and hands
// the facets to the library in batches of plain text that the library reads
// without trouble. Left to itself the library stops after the first solid,
// takes only lower case, gives up on long lines and forgets where it was.
type asciiReader struct {
	in    *input
	words *words
	batch batch
	sink  sink
	file  *File
	count []int // facets of each solid
}

// readASCII reads an ASCII STL file, all of its solids.
func readASCII(in *input, m *mesh.Mesh) (*File, error) {
	tail, err := in.tail("\x00\x1a")
	if err != nil {
		return nil, systemError(in.name, err)
	}
	var start int64
	if bytes.HasPrefix(in.head, utf8BOM) {
		start = int64(len(utf8BOM))
	}
	a := &asciiReader{
		in:    in,
		words: newWords(io.NewSectionReader(in, start, in.size-tail-start)),
		file:  &File{Mesh: m, Format: ASCIISTL},
	}
	if err := a.solids(); err != nil {
		// A bad number in a facet before that comes first.
		if early := a.flush(); early != nil {
			return nil, early
		}
		return nil, err
	}
	if err := a.flush(); err != nil {
		return nil, err
	}
	if a.sink.facets() == 0 {
		return nil, in.fail("the mesh has no facets", hintAgain)
	}
	a.warn(tail)
	a.sink.fill(m)
	return a.file, nil
}

// solids reads the file.
func (a *asciiReader) solids() error {
	for a.words.next() {
		if !a.words.is("solid") {
			return a.outside(a.misplaced("solid"))
		}
		if err := a.solid(); err != nil {
			return err
		}
	}
	if e := a.broken(); e != nil {
		return e
	}
	return nil
}

// solid reads from behind the word solid to the end of the endsolid line.
func (a *asciiReader) solid() error {
	first, line := a.facets(), a.words.line
	name, facet := a.name()
	for {
		if !facet {
			if !a.words.next() {
				return a.outside(a.ended(fmt.Sprintf("the file ends after %d facets without endsolid for the solid of line %d", a.facets(), line)))
			}
			facet = a.words.is("facet")
		}
		switch {
		case facet:
			if err := a.facet(); err != nil {
				return err
			}
			facet = false
		case a.words.is("endsolid"):
			if _, facet := a.name(); facet {
				return a.outside(a.fail("a facet stands on the line of an endsolid, outside of any solid"))
			}
			a.file.Solids = append(a.file.Solids, name)
			a.count = append(a.count, a.facets()-first)
			return nil
		default:
			return a.outside(a.misplaced("facet or endsolid"))
		}
	}
}

// name reads the rest of a solid or endsolid line. Files without line breaks
// exist, so it ends at the words facet normal too, and reports those; the next
// word is normal then.
func (a *asciiReader) name() (name string, facet bool) {
	var text []byte
	mark := 0 // length of text without the last word
	for a.words.next() {
		if a.words.broken {
			a.words.unread()
			break
		}
		if facet && a.words.is("normal") {
			a.words.unread()
			return clean(text[:mark]), true
		}
		facet = a.words.is("facet")
		mark = len(text)
		if len(text) < 200 {
			text = append(append(text, ' '), a.words.word...)
		}
	}
	return clean(text), false
}

// facet reads from behind the word facet to endfacet.
func (a *asciiReader) facet() error {
	if a.facets() >= MaxFacets {
		return a.in.fail(fmt.Sprintf("has more than the %d facets that are read", MaxFacets), "export it coarser")
	}
	if err := a.want("normal"); err != nil {
		return err
	}
	for range 3 {
		if !a.words.next() {
			return a.ended("")
		}
		if a.words.is("outer") {
			return a.fail("the normal has fewer than three numbers")
		}
	}
	if err := a.want("outer"); err != nil {
		return err
	}
	if err := a.want("loop"); err != nil {
		return err
	}
	a.batch.begin()
	corners := 0
	for ; ; corners++ {
		if !a.words.next() {
			return a.ended("")
		}
		if a.words.is("endloop") {
			break
		}
		if !a.words.is("vertex") {
			return a.misplaced("vertex or endloop")
		}
		if err := a.vertex(corners); err != nil {
			return err
		}
	}
	if corners != 3 {
		e := a.fail(fmt.Sprintf("has %d vertices, not three", corners))
		e.Hint = "export the mesh again, as triangles"
		return e
	}
	if err := a.want("endfacet"); err != nil {
		return err
	}
	a.batch.end()
	if a.batch.facets() == batchFacets {
		return a.flush()
	}
	return nil
}

// vertex reads the coordinates of a facet's corner. Those beyond the third are
// dropped: the facet will be refused.
func (a *asciiReader) vertex(corner int) error {
	line := a.words.line
	var axis int
	for axis = range 3 {
		if !a.words.next() {
			return a.ended("")
		}
		if a.words.is("vertex") || a.words.is("endloop") {
			return a.fail(fmt.Sprintf("a vertex has %d coordinates, not three", axis))
		}
		if corner < 3 {
			a.batch.number(a.words.word, axis == 0)
		}
	}
	if corner < 3 {
		a.batch.line(corner, line)
	}
	return nil
}

// want reads the one word that may come next.
func (a *asciiReader) want(word string) error {
	if !a.words.next() {
		return a.ended("")
	}
	if !a.words.is(word) {
		return a.misplaced(word)
	}
	return nil
}

// facets returns the number of facets read so far, which is the number of the
// one being read.
func (a *asciiReader) facets() int { return a.sink.facets() + a.batch.facets() }

// flush decodes the batch.
func (a *asciiReader) flush() error {
	if e := a.batch.decode(&a.sink); e != nil {
		e.Path = a.in.name
		return e
	}
	return nil
}

// fail makes an error about the facet being read.
func (a *asciiReader) fail(reason string) *Error {
	return &Error{Path: a.in.name, Facet: a.facets(), Line: a.words.line, Reason: reason, Hint: hintAgain}
}

// outside turns an error about a facet into one about the text between facets.
func (a *asciiReader) outside(e *Error) *Error {
	e.Facet = -1
	return e
}

// misplaced is the error for a word where another should be.
func (a *asciiReader) misplaced(want string) *Error {
	if word := string(a.words.word); len(word) < len(want) && strings.EqualFold(word, want[:len(word)]) && a.words.last() {
		return a.ended("") // in the middle of a word
	}
	return a.fail(fmt.Sprintf("%s stands where %s should be", quote(a.words.word), want))
}

// ended is the error for an end of the file where none should be.
func (a *asciiReader) ended(reason string) *Error {
	if e := a.broken(); e != nil {
		return e
	}
	if reason == "" {
		reason = "the file ends inside this facet"
	}
	e := a.fail(reason + ": it was cut short")
	e.Hint = "copy or export it again"
	return e
}

// broken is the error that stopped the words, nil at the end of the file.
func (a *asciiReader) broken() *Error {
	if a.words.err == nil {
		return nil
	}
	return a.in.wordError(a.words, "STL")
}

// wordError is the error that stopped the words of a file of some kind.
func (in *input) wordError(w *words, kind string) *Error {
	if w.err != errLongWord {
		return systemError(in.name, w.err)
	}
	e := in.fail("a word of more than 4096 letters: damaged, or not "+kind, hintAgain)
	e.Line = w.line
	return e
}

// warn says what was odd. The tail is the number of bytes of padding.
func (a *asciiReader) warn(tail int64) {
	f := a.file
	if tail > 1 {
		f.Warnings = append(f.Warnings, fmt.Sprintf("%d zero bytes at the end of the file were ignored", tail))
	}
	f.Warnings = append(f.Warnings, joined(f.Solids, a.count)...)
}
