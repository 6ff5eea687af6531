package meshfile

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"strconv"

	"millpond/mesh"
)

// A PLY file is a header of text that declares elements, each with a count and
// properties, and behind it the elements one after the other: as text, a line
// each, or as binary numbers in either order of bytes.

// plyType is a kind of number.
type plyType struct {
	size  int
	get   func(order binary.ByteOrder, b []byte) float64
	whole bool // no fractions
}

// plyTypes are the kinds by both sets of names in use. A float64 holds each
// value exactly.
var plyTypes = func() map[string]*plyType {
	kinds := []struct {
		names [2]string
		plyType
	}{
		{[2]string{"char", "int8"}, plyType{1, func(_ binary.ByteOrder, b []byte) float64 { return float64(int8(b[0])) }, true}},
		{[2]string{"uchar", "uint8"}, plyType{1, func(_ binary.ByteOrder, b []byte) float64 { return float64(b[0]) }, true}},
		{[2]string{"short", "int16"}, plyType{2, func(o binary.ByteOrder, b []byte) float64 { return float64(int16(o.Uint16(b))) }, true}},
		{[2]string{"ushort", "uint16"}, plyType{2, func(o binary.ByteOrder, b []byte) float64 { return float64(o.Uint16(b)) }, true}},
		{[2]string{"int", "int32"}, plyType{4, func(o binary.ByteOrder, b []byte) float64 { return float64(int32(o.Uint32(b))) }, true}},
		{[2]string{"uint", "uint32"}, plyType{4, func(o binary.ByteOrder, b []byte) float64 { return float64(o.Uint32(b)) }, true}},
		{[2]string{"float", "float32"}, plyType{4, func(o binary.ByteOrder, b []byte) float64 { return float64(math.Float32frombits(o.Uint32(b))) }, false}},
		{[2]string{"double", "float64"}, plyType{8, func(o binary.ByteOrder, b []byte) float64 { return math.Float64frombits(o.Uint64(b)) }, false}},
	}
	byName := make(map[string]*plyType)
	for i := range kinds {
		for _, name := range kinds[i].names {
			byName[name] = &kinds[i].plyType
		}
	}
	return byName
}()

// plyProperty is one number of each element, or a list of numbers.
type plyProperty struct {
	name  string
	count *plyType // of the number of values in a list; nil for one number
	value *plyType
}

// plyElement is a kind of element, all of whose properties stand in a row.
type plyElement struct {
	name       string
	count      int64
	properties []plyProperty
}

// least returns the least number of bytes that an element takes.
func (e *plyElement) least(text bool) int64 {
	n := 0
	for _, p := range e.properties {
		switch {
		case text:
			n += 2 // a digit and a space
		case p.count != nil:
			n += p.count.size
		default:
			n += p.value.size
		}
	}
	return int64(n)
}

// maxPLYHeader is the longest header read, maxPLYProperties the most properties
// in it.
const (
	maxPLYHeader     = 1 << 16
	maxPLYProperties = 1000
)

// plyHeader is what the header declares.
type plyHeader struct {
	in       *input
	order    binary.ByteOrder // nil for text
	elements []plyElement
	size     int64 // of the header in bytes
	lines    int
	known    bool // the format was given
	total    int  // properties
}

func isPLY(in *input) bool {
	rest, ok := bytes.CutPrefix(in.head, []byte("ply"))
	return ok && len(rest) > 0 && isSpace(rest[0])
}

// readPLYHeader reads the header, and holds what it declares against the size
// of the file before anything is allocated for it.
func readPLYHeader(in *input) (*plyHeader, error) {
	h := &plyHeader{in: in}
	r := bufio.NewReader(io.NewSectionReader(in, 0, min(in.size, maxPLYHeader)))
	for {
		line, err := h.line(r)
		if err != nil {
			return nil, err
		}
		fields := bytes.Fields(line)
		switch {
		case h.lines == 1 || len(fields) == 0:
			continue // the word ply
		case string(fields[0]) == "end_header":
			return h, h.check()
		}
		if reason := h.declare(fields); reason != "" {
			return nil, h.fail(reason, hintAgain)
		}
	}
}

// line returns the next line of the header, which ends in LF, CR or both.
func (h *plyHeader) line(r *bufio.Reader) ([]byte, error) {
	var line []byte
	h.lines++
	for {
		c, err := r.ReadByte()
		if err == io.EOF && h.in.size > maxPLYHeader {
			return nil, h.fail("the header is too long", hintAgain)
		}
		if err == io.EOF {
			return nil, h.fail("the file ends inside its header: it was cut short", "copy or export it again")
		}
		if err != nil {
			return nil, systemError(h.in.name, err)
		}
		h.size++
		if c == '\n' {
			return line, nil
		}
		if c == '\r' {
			if next, err := r.Peek(1); err == nil && next[0] == '\n' {
				r.Discard(1)
				h.size++
			}
			return line, nil
		}
		line = append(line, c)
	}
}

// declare takes a line of the header, and returns what is wrong with it.
func (h *plyHeader) declare(fields [][]byte) string {
	word := func(i int) string {
		if i < len(fields) {
			return string(fields[i])
		}
		return ""
	}
	switch word(0) {
	case "comment", "obj_info":
	case "format":
		return h.format(word(1), word(2))
	case "element":
		n, err := strconv.ParseUint(word(2), 10, 32)
		if err != nil || len(fields) != 3 {
			return "an element needs a name and a count, and has " + quote(bytes.Join(fields[1:], []byte{' '}))
		}
		if len(h.elements) >= maxPLYProperties {
			return fmt.Sprintf("more than %d kinds of element", maxPLYProperties)
		}
		h.elements = append(h.elements, plyElement{name: word(1), count: int64(n)})
	case "property":
		return h.property(fields[1:])
	default:
		return quote(fields[0]) + " means nothing in the header of a PLY file"
	}
	return ""
}

func (h *plyHeader) format(kind, version string) string {
	switch kind {
	case "ascii":
	case "binary_little_endian":
		h.order = binary.LittleEndian
	case "binary_big_endian":
		h.order = binary.BigEndian
	default:
		return "the format is " + quote([]byte(kind)) + ", not ascii, binary_little_endian or binary_big_endian"
	}
	if version != "1.0" {
		return "the version is " + quote([]byte(version)) + ", not 1.0"
	}
	h.known = true
	return ""
}

// property takes a property of the last element.
func (h *plyHeader) property(fields [][]byte) string {
	if len(h.elements) == 0 {
		return "a property before any element"
	}
	if h.total++; h.total > maxPLYProperties {
		return fmt.Sprintf("more than %d properties", maxPLYProperties)
	}
	var p plyProperty
	var types [][]byte
	switch {
	case len(fields) == 2:
		types = fields[:1]
	case len(fields) == 4 && string(fields[0]) == "list":
		types = fields[1:3]
	default:
		return "a property needs a type and a name, and has " + quote(bytes.Join(fields, []byte{' '}))
	}
	for _, t := range types {
		if plyTypes[string(t)] == nil {
			return quote(t) + " is no type of number"
		}
	}
	p.name = string(fields[len(fields)-1])
	p.value = plyTypes[string(types[len(types)-1])]
	if len(types) == 2 {
		if p.count = plyTypes[string(types[0])]; !p.count.whole {
			return "the length of a list cannot be " + quote(types[0])
		}
	}
	last := &h.elements[len(h.elements)-1]
	last.properties = append(last.properties, p)
	return ""
}

// check holds the counts against what is left of the file.
func (h *plyHeader) check() error {
	if !h.known {
		return h.fail("the header does not give the format", hintAgain)
	}
	left := h.in.size - h.size
	need := int64(0)
	for i := range h.elements {
		need += h.elements[i].count * h.elements[i].least(h.order == nil)
	}
	// The last number of a text needs no space behind it.
	if need > left+1 || h.order != nil && need > left {
		var list []byte
		for i, e := range h.elements {
			if i > 0 {
				list = append(list, ", "...)
			}
			list = fmt.Appendf(list, "%d %s", e.count, clean([]byte(e.name)))
		}
		if len(list) > 200 {
			list = append(list[:200], "..."...)
		}
		return h.in.fail(fmt.Sprintf("cut short: the header announces elements (%s) of %d bytes at least, and %d bytes are left behind it",
			list, need, max(left, 0)), "copy or export it again")
	}
	return nil
}

func (h *plyHeader) fail(reason, hint string) error {
	return &Error{Path: h.in.name, Facet: -1, Line: h.lines, Reason: reason, Hint: hint}
}

// readPLY reads a PLY file.
func readPLY(in *input, m *mesh.Mesh) (*File, error) {
	h, err := readPLYHeader(in)
	if err != nil {
		return nil, err
	}
	p := &plyReader{plyHeader: h, builder: builder{mesh: m}}
	f := &File{Mesh: m, Format: ASCIIPLY}
	if h.order == nil {
		tail, err := in.tail("\x00\x1a")
		if err != nil {
			return nil, systemError(in.name, err)
		}
		p.row = newPLYText(h, tail)
	} else {
		f.Format = BinaryPLY
		p.row = newPLYBytes(h)
	}
	if err := p.read(); err != nil {
		return nil, err
	}
	f.Warnings = p.warnings()
	return f, nil
}
