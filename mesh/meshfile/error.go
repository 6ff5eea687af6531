package meshfile

import (
	"fmt"
	"strings"
	"unicode"
)

// Error says what is wrong with a file, where, and what to do about it. Its
// text reads
//
//	float.stl: facet 812 (byte 40684): x is NaN; export the mesh again
type Error struct {
	Path   string // as given by the caller
	Facet  int    // counted from zero, -1 when no one facet is to blame
	Line   int    // of a text file, counted from one, 0 when unknown
	Offset int64  // of a binary file, in bytes, where the facet or the row begins
	Reason string
	Hint   string // what to do, empty when there is nothing to say
	Err    error  // the cause, such as fs.ErrNotExist, or nil
}

// Error returns the message on one line.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Path)
	b.WriteString(": ")
	switch {
	case e.Facet >= 0 && e.Line > 0:
		fmt.Fprintf(&b, "facet %d (line %d): ", e.Facet, e.Line)
	case e.Facet >= 0 && e.Offset > 0:
		fmt.Fprintf(&b, "facet %d (byte %d): ", e.Facet, e.Offset)
	case e.Facet >= 0:
		fmt.Fprintf(&b, "facet %d: ", e.Facet)
	case e.Line > 0:
		fmt.Fprintf(&b, "line %d: ", e.Line)
	case e.Offset > 0:
		fmt.Fprintf(&b, "byte %d: ", e.Offset)
	}
	b.WriteString(e.Reason)
	if e.Hint != "" {
		b.WriteString("; ")
		b.WriteString(e.Hint)
	}
	return b.String()
}

// Unwrap returns the cause, for errors.Is.
func (e *Error) Unwrap() error { return e.Err }

// hintAgain is the cure for a file damaged by its writer or on its way.
const hintAgain = "export the mesh again"

// quote shows a piece of a file in a message: short, and safe for a terminal.
func quote(word []byte) string {
	if len(word) > 40 {
		return fmt.Sprintf("%q...", word[:40])
	}
	return fmt.Sprintf("%q", word)
}

// clean makes a name found in a file fit to print: printable letters only, no
// space at the ends, no longer than 80 bytes or so.
func clean(name []byte) string {
	s := strings.Map(func(r rune) rune {
		if r == unicode.ReplacementChar || !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(string(name), ""))
	s = strings.TrimSpace(s)
	if len(s) > 80 {
		s = strings.ToValidUTF8(s[:77], "") + "..."
	}
	return s
}
