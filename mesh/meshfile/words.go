package meshfile

import (
	"bytes"
	"errors"
	"io"
)

// whitespace parts the words of an ASCII file.
const whitespace = " \t\r\n\v\f"

var isSpaceTable = func() (t [256]bool) {
	for _, c := range []byte(whitespace) {
		t[c] = true
	}
	return t
}()

func isSpace(c byte) bool { return isSpaceTable[c] }

// maxWord bounds a word; no number or name needs as much.
const maxWord = 4096

// words cuts a text into words and counts its lines, which end in LF, CR or
// both. It holds no more than a block of the text.
type words struct {
	r     io.Reader
	block []byte
	pos   int  // of the next byte in block
	done  bool // nothing left in r
	cr    bool // the last byte passed was a CR

	word   []byte // the current word, valid until the next call of next
	line   int    // the current word's, from 1; at the end the last word's
	broken bool   // a line ended between the last word and this one
	again  bool   // next gives the current word once more
	err    error  // why next returned false, nil at the end of the text
}

// errLongWord is a word longer than maxWord.
var errLongWord = errors.New("word too long")

func newWords(r io.Reader) *words {
	return &words{r: r, block: make([]byte, 0, 1<<16), line: 1}
}

// next goes to the next word and reports whether there is one.
func (w *words) next() bool {
	if w.again {
		w.again = false
		return true
	}
	w.broken = false
	line := w.line
	for {
		for ; w.pos < len(w.block) && isSpaceTable[w.block[w.pos]]; w.pos++ {
			c := w.block[w.pos]
			if c == '\r' || c == '\n' && !w.cr {
				w.line++
				w.broken = true
			}
			w.cr = c == '\r'
		}
		if w.pos < len(w.block) {
			break
		}
		if !w.refill() {
			w.line = line
			return false
		}
	}
	w.cr = false
	for end := w.pos; ; end++ {
		if end == len(w.block) {
			at := end - w.pos
			if !w.refill() && w.err != nil {
				return false
			}
			end = w.pos + at
		}
		if end-w.pos > maxWord {
			w.err = errLongWord
			return false
		}
		if end == len(w.block) || isSpaceTable[w.block[end]] {
			w.word = w.block[w.pos:end]
			w.pos = end
			return true
		}
	}
}

// unread makes next give the current word once more.
func (w *words) unread() { w.again = true }

// last reports whether the text ends with the current word.
func (w *words) last() bool {
	word := string(w.word) // the block may move
	at := w.pos == len(w.block) && !w.refill()
	w.word = []byte(word)
	return at
}

// is reports whether the current word is the given one, in either case.
func (w *words) is(word string) bool {
	return string(w.word) == word || len(w.word) == len(word) && bytes.EqualFold(w.word, []byte(word))
}

// refill moves what is left of the block to its front, reads more behind it,
// and reports whether there was more.
func (w *words) refill() bool {
	if w.done {
		return false
	}
	rest := copy(w.block[:cap(w.block)], w.block[w.pos:])
	w.pos = 0
	for {
		n, err := w.r.Read(w.block[rest:cap(w.block)])
		w.block = w.block[:rest+n]
		if err != nil {
			w.done = true
			if err != io.EOF {
				w.err = err
			}
			return n > 0 && w.err == nil
		}
		if n > 0 {
			return true
		}
	}
}
