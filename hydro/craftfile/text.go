package craftfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// screen refuses what is no text at all, with a better word than a parser has.
func (s *source) screen() *Error {
	s.text = bytes.TrimPrefix(s.text, []byte("\xef\xbb\xbf"))
	s.text = s.text[:len(s.text):len(s.text)] // the parser tells places by capacity
	switch {
	case len(s.text) > maxText:
		return s.fault(span{}, fmt.Sprintf("is larger than %d bytes; is it a craft file?", maxText), nil)
	case bytes.HasPrefix(s.text, []byte("\xff\xfe")) || bytes.HasPrefix(s.text, []byte("\xfe\xff")):
		return s.fault(span{}, "is saved as UTF-16; save it as UTF-8", nil)
	case bytes.IndexByte(s.text, 0) >= 0:
		return s.fault(span{}, "is not text, so it is no craft file; a mesh is given with --unit, --mass and --cg", nil)
	}
	return nil
}

// decode has go-toml decode the text, for the errors alone.
func (s *source) decode() *Error {
	var any map[string]any
	err := toml.Unmarshal(s.text, &any)
	if err == nil {
		return nil
	}
	var at *toml.DecodeError
	if !errors.As(err, &at) {
		return s.fault(span{}, tomlWords(err.Error()), err)
	}
	row, column := at.Position()
	from := 0
	for ; row > 1; row-- {
		from += bytes.IndexByte(s.text[from:], '\n') + 1
	}
	from = min(from+column-1, len(s.text))
	return s.fault(span{from, s.wordEnd(from)}, tomlWords(at.Error()), err)
}

// syntax returns the error for a text that is no TOML.
func (s *source) syntax(p *unstable.Parser, err error) *Error {
	var at *unstable.ParserError
	if !errors.As(err, &at) {
		return s.fault(span{}, tomlWords(err.Error()), err)
	}
	r := p.Range(at.Highlight)
	from, to := int(r.Offset), int(r.Offset+r.Length)
	// A text that ends too early has its error at a line that is not there.
	if from == len(s.text) && from > 0 {
		from--
	}
	message := tomlWords(at.Message)
	for _, sign := range []string{"expected ',' or ']'", "must be quoted", "start of value", "expected newline"} {
		if strings.Contains(message, sign) {
			message += "; text and numbers with a unit stand in quotes, as in \"12 mm\""
			break
		}
	}
	return s.fault(span{from, max(to, from)}, message, err)
}

// tomlWords makes a message of go-toml one of ours.
func tomlWords(message string) string {
	return "not valid TOML: " + strings.TrimPrefix(message, "toml: ")
}

// wordEnd returns where the word at a byte ends.
func (s *source) wordEnd(from int) int {
	if i := bytes.IndexAny(s.text[from:], " \t\r\n=]},"); i > 0 {
		return from + i
	}
	return from
}
