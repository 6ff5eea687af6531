package meshfile

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// plyText is the rows of a text, a line each.
type plyText struct {
	in    *input
	words *words
	ahead int // lines of the header
	fresh bool
	first bool
}

func newPLYText(h *plyHeader, tail int64) plyRow {
	end := max(h.size, h.in.size-tail)
	return &plyText{in: h.in, words: newWords(io.NewSectionReader(h.in, h.size, end-h.size)), ahead: h.lines, first: true}
}

func (t *plyText) next() error {
	if t.words.next() {
		return nil
	}
	if t.words.err == nil {
		return errRowShort
	}
	e := t.in.wordError(t.words, "PLY")
	if e.Line > 0 {
		e.Line += t.ahead
	}
	return e
}

func (t *plyText) begin() error {
	if err := t.next(); err != nil {
		return err
	}
	if !t.words.broken && !t.first {
		return errRowMore
	}
	t.words.unread()
	t.fresh, t.first = true, false
	return nil
}

func (t *plyText) number(*plyType) (float64, error) {
	if err := t.next(); err != nil {
		return 0, err
	}
	if t.words.broken && !t.fresh {
		return 0, errRowLess
	}
	t.fresh = false
	x, err := strconv.ParseFloat(string(t.words.word), 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) {
		text := quote(t.words.word) + " is not a number"
		if bytes.IndexByte(t.words.word, ',') >= 0 {
			text += "; numbers are written with decimal points"
		}
		return 0, errors.New(text)
	}
	return x, nil
}

func (t *plyText) skip(kind *plyType, n int64) error {
	for range n {
		if _, err := t.number(kind); err != nil {
			return err
		}
	}
	return nil
}

func (t *plyText) finish() error {
	if !t.words.next() {
		return nil
	}
	e := t.in.fail("the file goes on with "+quote(t.words.word)+" where the header announces no more", hintAgain)
	t.place(e)
	return e
}

func (t *plyText) place(e *Error) { e.Line = t.words.line + t.ahead }

// plyBytes is the rows of a binary file, one behind the other.
type plyBytes struct {
	*plyHeader
	r     *bufio.Reader
	read  int64 // bytes of all rows so far
	start int64 // of the row in the file
}

func newPLYBytes(h *plyHeader) plyRow {
	r := io.NewSectionReader(h.in, h.size, h.in.size-h.size)
	return &plyBytes{plyHeader: h, r: bufio.NewReaderSize(r, 1<<16)}
}

func (b *plyBytes) begin() error {
	b.start = b.size + b.read
	return nil
}

func (b *plyBytes) number(t *plyType) (float64, error) {
	piece, err := b.r.Peek(t.size)
	if err != nil {
		return 0, b.short(err)
	}
	x := t.get(b.order, piece)
	b.r.Discard(t.size)
	b.read += int64(t.size)
	return x, nil
}

func (b *plyBytes) skip(t *plyType, n int64) error {
	n *= int64(t.size)
	if n > b.in.size-b.size-b.read {
		return errRowShort
	}
	b.read += n
	if _, err := b.r.Discard(int(n)); err != nil {
		return b.short(err)
	}
	return nil
}

func (b *plyBytes) short(err error) error {
	if err == io.EOF {
		return errRowShort
	}
	return systemError(b.in.name, err)
}

// finish refuses what is left over, unless it is blank.
func (b *plyBytes) finish() error {
	left := b.in.size - b.size - b.read
	tail, err := b.in.tail("\x00\x1a" + whitespace)
	if err != nil {
		return systemError(b.in.name, err)
	}
	if tail < left {
		return b.in.fail(fmt.Sprintf("%d bytes are left over behind what the header announces", left), hintAgain)
	}
	return nil
}

func (b *plyBytes) place(e *Error) { e.Offset = b.start }
