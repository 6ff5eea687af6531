package meshfile

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"

	"github.com/hschendel/stl"
)

const (
	// batchFacets bounds the memory a batch takes: some 600 kB of text.
	batchFacets = 4096
	// batchLine is the length at which a line of a batch is ended. The library
	// refuses lines of 64 kB, and makes a buffer of 4 kB for each line.
	batchLine = 1 << 14
	// facetWords is the number of words of a facet in a batch.
	facetWords = 7 + 3*4 + 2
)

// batch is a run of facets as text of one regular form, from any number of
// solids, and where in the file they came from.
type batch struct {
	text  []byte
	brk   int      // where the last line of text begins
	whole int      // length of text up to the last whole facet
	from  [3]int   // lines of the vertices of the facet begun
	lines [][3]int // lines of the vertices of each whole facet
}

func (b *batch) facets() int { return len(b.lines) }

// begin begins a facet. The normal is not passed on: it is not used, and where
// an exporter could not compute one it may not even be a number.
func (b *batch) begin() {
	if b.whole == 0 {
		b.text = append(b.text[:0], "solid \n"...)
		b.brk = len(b.text)
	} else if b.text = b.text[:b.whole]; b.whole-b.brk > batchLine {
		b.text = append(b.text, '\n')
		b.brk = len(b.text)
	}
	b.text = append(b.text, "facet normal 0 0 0 outer loop "...)
}

// number takes a coordinate, the first of its vertex or another.
func (b *batch) number(word []byte, first bool) {
	if first {
		b.text = append(b.text, "vertex "...)
	}
	b.text = append(append(b.text, word...), ' ')
}

// line notes where in the file a corner is.
func (b *batch) line(corner, line int) { b.from[corner] = line }

// end ends the facet.
func (b *batch) end() {
	b.text = append(b.text, "endloop endfacet "...)
	b.whole = len(b.text)
	b.lines = append(b.lines, b.from)
}

// decode lets the library decode the whole facets, and empties the batch.
func (b *batch) decode(s *sink) *Error {
	if len(b.lines) == 0 {
		return nil
	}
	first := s.facets()
	text := append(b.text[:b.whole], "\nendsolid\n"...)
	err := stl.CopyAll(bytes.NewReader(text), s)
	if s.bad != nil {
		line := b.lines[s.bad.facet-first][s.bad.corner]
		return &Error{Facet: s.bad.facet, Line: line, Reason: s.bad.reason(), Hint: hintAgain}
	}
	if err != nil || s.facets() != first+len(b.lines) {
		return b.blame(first, err)
	}
	b.text, b.whole, b.lines = text[:0], 0, b.lines[:0]
	return nil
}

// blame finds the number that the library could not read. The library itself
// says only that there is one.
func (b *batch) blame(first int, err error) *Error {
	fields := bytes.FieldsFunc(b.text[len("solid "):b.whole], func(r rune) bool { return r < 0x80 && isSpace(byte(r)) })
	for i, lines := range b.lines {
		for k := range 9 {
			corner, axis := k/3, k%3
			word := fields[facetWords*i+7+4*corner+1+axis]
			_, bad := strconv.ParseFloat(string(word), 32)
			if bad == nil {
				continue
			}
			e := &Error{Facet: first + i, Line: lines[corner], Hint: hintAgain}
			switch {
			case errors.Is(bad, strconv.ErrRange):
				e.Reason = fmt.Sprintf("%c is %.40s, beyond any sensible size (%g)", "xyz"[axis], word, float64(MaxCoordinate))
			case bytes.IndexByte(word, ',') >= 0:
				e.Reason = fmt.Sprintf("%c is %s, not a number", "xyz"[axis], quote(word))
				e.Hint = "export the mesh again, with decimal points"
			default:
				e.Reason = fmt.Sprintf("%c is %s, not a number", "xyz"[axis], quote(word))
			}
			return e
		}
	}
	return &Error{Facet: first, Line: b.lines[0][0], Reason: fmt.Sprintf("this or one of the next %d facets cannot be decoded", len(b.lines)), Hint: hintAgain, Err: err}
}
