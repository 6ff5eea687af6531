package craftfile

import (
	"bytes"
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// Error is one thing wrong with a craft file.
type Error struct {
	Path    string // as given by the caller
	Line    int    // counted from one, 0 when no one place is to blame
	Column  int    // in characters, counted from one
	Message string // what is wrong and what to do
	Excerpt string // the line, and the place in it marked below; may be empty
	Err     error  // the cause, such as a *meshfile.Error, or nil
}

// Error returns "path:line:column: message", and the excerpt on two more lines
// where there is one.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Path)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", e.Line, e.Column)
	}
	b.WriteString(": ")
	b.WriteString(e.Message)
	if e.Excerpt != "" {
		b.WriteByte('\n')
		b.WriteString(e.Excerpt)
	}
	return b.String()
}

// Unwrap returns the cause, for errors.Is and errors.As.
func (e *Error) Unwrap() error { return e.Err }

// Errors is everything wrong with a craft file, in the order of its lines. It
// is never empty when it is returned as an error.
type Errors []*Error

// most is how many errors are shown: who has more has one cause for many.
const most = 20

// Error returns the errors one below the other, the first 20 of them.
func (e Errors) Error() string {
	var lines []string
	for _, one := range e[:min(most, len(e))] {
		lines = append(lines, one.Error())
	}
	if len(e) > most {
		lines = append(lines, fmt.Sprintf("and %d more like these", len(e)-most))
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns all errors, for errors.Is and errors.As.
func (e Errors) Unwrap() []error {
	all := make([]error, len(e))
	for i, one := range e {
		all[i] = one
	}
	return all
}

// span is a range of bytes in the text of a file. The zero value is no place.
type span struct{ from, to int }

// source is the text of a craft file.
type source struct {
	path string
	text []byte

	starts []int // where each line starts, once it was asked for
}

// lines returns where each line starts. A file may have an error in each of
// many lines, so the text is not gone through for every one of them.
func (s *source) lines() []int {
	if s.starts == nil {
		s.starts = make([]int, 1, 1+bytes.Count(s.text, []byte("\n")))
		for i, b := range s.text {
			if b == '\n' {
				s.starts = append(s.starts, i+1)
			}
		}
	}
	return s.starts
}

// position returns the line and the column, in characters, of a byte.
func (s *source) position(at int) (line, column int) {
	line = s.line(at)
	return line, utf8.RuneCount(s.text[s.lines()[line-1]:at]) + 1
}

// line returns the line of a byte.
func (s *source) line(at int) int {
	starts := s.lines()
	return sort.Search(len(starts), func(i int) bool { return starts[i] > at })
}

// fault makes the error about a place.
func (s *source) fault(at span, message string, cause error) *Error {
	e := &Error{Path: s.path, Message: message, Err: cause}
	if at != (span{}) {
		e.Line, e.Column = s.position(at.from)
		e.Excerpt = s.excerpt(at, e.Line)
	}
	return e
}

// maxExcerpt is the longest line shown, in bytes.
const maxExcerpt = 160

// excerpt returns the line in which a span begins, with the span marked below.
// It is empty when the line is too long to help.
func (s *source) excerpt(at span, number int) string {
	start, end := s.lines()[number-1], len(s.text)
	if number < len(s.lines()) {
		end = s.lines()[number] - 1
	}
	shown := bytes.TrimRight(s.text[start:end], "\r \t")
	if len(shown) > maxExcerpt {
		return ""
	}
	line := string(shown)
	if strings.TrimSpace(line) == "" || !printable(strings.ReplaceAll(line, "\t", " ")) {
		return ""
	}
	before := line[:min(at.from-start, len(line))]
	marked := line[len(before):min(max(at.to-start, len(before)), len(line))]
	pad := strings.Map(func(r rune) rune {
		if r == '\t' {
			return r // so that the mark stands right whatever a tab is worth
		}
		return ' '
	}, before)
	gutter := fmt.Sprintf("%5d | ", number)
	return gutter + line + "\n" + strings.Repeat(" ", len(gutter)-2) + "| " + pad +
		strings.Repeat("~", max(1, utf8.RuneCountInString(marked)))
}
