package meshfile

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// plyRow gives the numbers of a PLY file one after the other.
type plyRow interface {
	// begin begins a row.
	begin() error
	// number returns the next number.
	number(t *plyType) (float64, error)
	// skip passes some numbers.
	skip(t *plyType, n int64) error
	// finish looks at what is left behind the last row.
	finish() error
	// place adds to an error where the row is.
	place(e *Error)
}

// Errors of a plyRow that are told where the row is known.
var (
	errRowShort = errors.New("the file ends here: it was cut short")
	errRowLess  = errors.New("its line has fewer numbers than the header announces")
	errRowMore  = errors.New("its line has more numbers than the header announces")
)

// plyReader reads the elements behind the header.
type plyReader struct {
	*plyHeader
	builder
	row     plyRow
	element *plyElement
	at      int64 // the element being read, counted from zero
}

// read reads all elements.
func (p *plyReader) read() error {
	seen := make(map[string]bool)
	for i := range p.elements {
		e := &p.elements[i]
		p.element = e
		read := p.skipRow
		switch e.name {
		case "vertex":
			where, reason := e.coordinates()
			if reason == "" && seen["vertex"] {
				reason = "the header announces vertices twice"
			}
			if reason != "" {
				return p.in.fail(reason, hintAgain)
			}
			read = func() error { return p.readVertex(where) }
		case "face":
			list, reason := e.list()
			if reason == "" && !seen["vertex"] {
				reason = "the faces stand before the vertices"
			}
			if reason != "" {
				return p.in.fail(reason, hintAgain)
			}
			read = func() error { return p.readFace(list) }
		}
		seen[e.name] = true
		p.reserve(e)
		if len(e.properties) == 0 {
			continue // nothing to read, however many
		}
		for p.at = 0; p.at < e.count; p.at++ {
			if err := p.readRow(read); err != nil {
				return p.place(err)
			}
		}
	}
	if len(p.mesh.Triangles) == 0 {
		if seen["tristrips"] {
			return p.in.fail("the mesh has triangle strips and no faces", hintTriangles)
		}
		return p.in.fail("the mesh has no faces", hintAgain)
	}
	return p.row.finish()
}

// reserve makes room for an element's rows. The file is known to have some
// bytes for each.
func (p *plyReader) reserve(e *plyElement) {
	switch e.name {
	case "vertex":
		p.mesh.Vertices = make([]r3.Vec, 0, min(e.count, maxVertices))
	case "face":
		p.mesh.Triangles = make([][3]uint32, 0, min(e.count, MaxFacets, p.in.size/8))
	}
}

// readRow reads one element.
func (p *plyReader) readRow(read func() error) error {
	if err := p.row.begin(); err != nil {
		return err
	}
	return read()
}

// place says where an error was met.
func (p *plyReader) place(err error) error {
	var done *Error
	if errors.As(err, &done) {
		return err
	}
	e := p.in.fail(fmt.Sprintf("%s %d of %d: %v", clean([]byte(p.element.name)), p.at, p.element.count, err), hintAgain)
	if err == errRowShort {
		e.Hint = "copy or export it again"
	}
	p.row.place(e)
	return e
}

// coordinates returns which axis each property of a vertex is, -1 for none, or
// what is wrong.
func (e *plyElement) coordinates() (axes []int, reason string) {
	found := 0
	for _, p := range e.properties {
		axis := -1
		if len(p.name) == 1 && p.name[0] >= 'x' && p.name[0] <= 'z' {
			axis = int(p.name[0] - 'x')
			if p.count != nil || found&(1<<axis) != 0 {
				return nil, fmt.Sprintf("the header announces vertices with a list for their %s, or two", p.name)
			}
			found |= 1 << axis
		}
		axes = append(axes, axis)
	}
	if found != 7 {
		return nil, "the header announces vertices without x, y and z"
	}
	return axes, ""
}

// list returns which property of a face lists its vertices, or what is wrong.
func (e *plyElement) list() (number int, reason string) {
	for i, p := range e.properties {
		if (p.name == "vertex_indices" || p.name == "vertex_index") && p.count != nil && p.value.whole {
			return i, ""
		}
	}
	return 0, "the header announces faces without a list of whole numbers called vertex_indices"
}

func (p *plyReader) readVertex(axes []int) error {
	var c [3]float64
	for i := range p.element.properties {
		if axes[i] < 0 {
			if err := p.skipProperty(i); err != nil {
				return err
			}
			continue
		}
		x, err := p.row.number(p.element.properties[i].value)
		if err != nil {
			return fmt.Errorf("%s: %w", p.element.properties[i].name, err)
		}
		c[axes[i]] = x
	}
	if reason := p.vertex(r3.Vec{X: c[0], Y: c[1], Z: c[2]}); reason != "" {
		return errors.New(reason)
	}
	return nil
}

func (p *plyReader) readFace(list int) error {
	for i := range p.element.properties {
		if i != list {
			if err := p.skipProperty(i); err != nil {
				return err
			}
			continue
		}
		n, err := p.length(i)
		if err != nil {
			return err
		}
		p.builder.begin()
		for range n {
			v, err := p.row.number(p.element.properties[i].value)
			if err != nil {
				return err
			}
			if v != math.Trunc(v) {
				return fmt.Errorf("it names vertex %g", v)
			}
			if reason := p.corner(int64(max(-1e15, min(v, 1e15)))); reason != "" {
				return errors.New(reason)
			}
		}
		if reason := p.builder.end(); reason != "" {
			return errors.New(reason)
		}
	}
	return nil
}

// skipRow passes an element that is of no use.
func (p *plyReader) skipRow() error {
	for i := range p.element.properties {
		if err := p.skipProperty(i); err != nil {
			return err
		}
	}
	return nil
}

func (p *plyReader) skipProperty(i int) error {
	n := int64(1)
	if p.element.properties[i].count != nil {
		var err error
		if n, err = p.length(i); err != nil {
			return err
		}
	}
	return p.row.skip(p.element.properties[i].value, n)
}

// length reads the length of a list.
func (p *plyReader) length(i int) (int64, error) {
	n, err := p.row.number(p.element.properties[i].count)
	if err != nil {
		return 0, err
	}
	if n != math.Trunc(n) || n < 0 || n > math.MaxUint32 {
		return 0, fmt.Errorf("a list of %g values", n)
	}
	return int64(n), nil
}
