package meshfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// objReader reads OBJ: lines of a keyword and values, of which only v, a
// vertex, and f, a face that names vertices by their number from one or, if
// negative, from the last one back, make up a mesh.
type objReader struct {
	in *input
	builder
	words     *words
	word      []byte // the value being looked at
	continued bool   // a backslash before this word: the line goes on

	line    int // of the keyword
	other   int // lines and points, which bound nothing
	solids  []string
	facets  []int // of each solid
	began   int   // where the solid began
	current string
}

// The keywords that say nothing about flat faces: objNamed take a name, which
// may end in a backslash that continues nothing, objNumbered take values. Those
// of curves and surfaces mean nothing without a surface, which is refused.
var (
	objNamed    = wordSet("g mg usemtl mtllib usemap maplib shadow_obj trace_obj")
	objNumbered = wordSet("vt vn vp s lod bevel c_interp d_interp " +
		"cstype deg bmat step parm trim hole scrv sp end con ctech stech")
)

// objCurved are the keywords of shapes that are no faces.
var objCurved = wordSet("surf curv curv2")

func wordSet(list string) map[string]bool {
	set := make(map[string]bool)
	for w := range strings.FieldsSeq(list) {
		set[w] = true
	}
	return set
}

// isOBJ reports whether the file is text whose lines begin with keywords of
// OBJ, with a vertex among them, as far as the head goes.
func isOBJ(in *input) bool {
	text, _, zero := bytes.Cut(bytes.TrimPrefix(in.head, utf8BOM), []byte{0}) // there may be padding behind
	cut := in.size > headSize && !zero
	w := newWords(bytes.NewReader(text))
	for w.next() {
		key := string(w.word)
		switch {
		case key == "#VRML":
			return false
		case key == "v" || key == "vn" || key == "vt":
			if !w.next() {
				return cut
			}
			_, err := strconv.ParseFloat(string(w.word), 64)
			return err == nil && !w.broken
		case key[0] == '#' || key == "o" || objNamed[key] || objNumbered[key]:
			skipLine(w)
		default:
			return cut && !w.next()
		}
	}
	return cut
}

// skipLine passes the rest of the line.
func skipLine(w *words) {
	for w.next() {
		if w.broken {
			w.unread()
			return
		}
	}
}

// readOBJ reads an OBJ file, all of its objects.
func readOBJ(in *input, m *mesh.Mesh) (*File, error) {
	tail, err := in.tail("\x00\x1a")
	if err != nil {
		return nil, systemError(in.name, err)
	}
	var start int64
	if bytes.HasPrefix(in.head, utf8BOM) {
		start = int64(len(utf8BOM))
	}
	o := &objReader{
		in:      in,
		builder: builder{mesh: m},
		words:   newWords(io.NewSectionReader(in, start, in.size-tail-start)),
	}
	if err := o.lines(); err != nil {
		return nil, err
	}
	o.endSolid()
	if len(m.Triangles) == 0 {
		if o.other > 0 {
			return nil, in.fail("the mesh has no faces, only lines or points", "export the solid as a mesh")
		}
		return nil, in.fail("the mesh has no faces", hintAgain)
	}
	f := &File{Mesh: m, Format: OBJ, Solids: o.solids}
	f.Warnings = append(joined(o.solids, o.facets), o.warnings()...)
	if o.other > 0 {
		f.Warnings = append(f.Warnings, fmt.Sprintf("lines and points were ignored: %d", o.other))
	}
	return f, nil
}

// lines reads the file.
func (o *objReader) lines() error {
	for o.words.next() {
		o.line = o.words.line
		key := o.words.word
		if key[0] == '#' {
			skipLine(o.words)
			continue
		}
		o.take(key)
		if err := o.statement(string(o.word)); err != nil {
			return err
		}
		if o.words.err != nil {
			break
		}
	}
	if o.words.err != nil {
		return o.in.wordError(o.words, "OBJ")
	}
	return nil
}

// statement reads one line behind its keyword.
func (o *objReader) statement(key string) error {
	switch {
	case key == "v":
		return o.readVertex()
	case key == "f" || key == "fo":
		return o.readFace()
	case key == "o":
		o.endSolid()
		var name []byte
		for o.words.next() {
			if o.words.broken {
				o.words.unread()
				break
			}
			if len(name) < 200 {
				name = append(append(name, ' '), o.words.word...)
			}
		}
		o.current = clean(name)
	case key == "l" || key == "p":
		o.other++
		for o.more() {
		}
	case objNumbered[key]:
		for o.more() {
		}
	case objNamed[key]:
		skipLine(o.words)
	case objCurved[key]:
		return o.fail("it has curved surfaces ("+key+"), not only flat faces", "export it as triangles")
	case key == "call" || key == "csh":
		return o.fail("it wants another file to be read ("+key+")", "export all of it into one file")
	default:
		return o.fail(quote([]byte(key))+" is no keyword of an OBJ file", hintAgain)
	}
	return nil
}

// take makes a word of the file the value looked at.
func (o *objReader) take(word []byte) {
	o.word = bytes.TrimSuffix(word, []byte{'\\'})
	o.continued = len(o.word) < len(word)
}

// more goes to the next value of the line and reports whether there is one.
func (o *objReader) more() bool {
	for o.words.next() {
		if o.words.broken && !o.continued {
			o.words.unread()
			return false
		}
		if o.words.word[0] == '#' {
			skipLine(o.words)
			o.continued = false
			return false
		}
		if o.take(o.words.word); len(o.word) > 0 {
			return true
		}
	}
	return false
}

// readVertex reads a vertex. What follows its three coordinates is a weight or
// a color.
func (o *objReader) readVertex() error {
	var p [3]float64
	for axis := range p {
		if !o.more() {
			if o.words.err != nil {
				return nil // lines tells
			}
			return o.fail(fmt.Sprintf("a vertex has %d coordinates, not three", axis), hintAgain)
		}
		x, err := strconv.ParseFloat(string(o.word), 64)
		if err != nil && !errors.Is(err, strconv.ErrRange) {
			return o.notNumber(axis)
		}
		p[axis] = x
	}
	for o.more() {
	}
	if reason := o.vertex(r3.Vec{X: p[0], Y: p[1], Z: p[2]}); reason != "" {
		return o.fail(reason, hintAgain)
	}
	return nil
}

func (o *objReader) notNumber(axis int) error {
	hint := hintAgain
	if bytes.IndexByte(o.word, ',') >= 0 {
		hint = "export the mesh again, with decimal points"
	}
	return o.fail(fmt.Sprintf("%c is %s, not a number", "xyz"[axis], quote(o.word)), hint)
}

// readFace reads a face, of whose corners the vertex is all that counts: 3/1/2
// is vertex 3.
func (o *objReader) readFace() error {
	o.begin()
	for o.more() {
		word, _, _ := bytes.Cut(o.word, []byte{'/'})
		n, err := strconv.ParseInt(string(word), 10, 64)
		have := int64(len(o.mesh.Vertices))
		switch {
		case err != nil:
			return o.fail("a face names "+quote(o.word)+", which is no vertex", hintAgain)
		case n > have || n < -have || n == 0:
			return o.fail(fmt.Sprintf("a face names vertex %d, and %d stand above it", n, have), hintAgain)
		case n < 0:
			n += have
		default:
			n--
		}
		if reason := o.corner(n); reason != "" {
			return o.fail("a face: "+reason, hintTriangles)
		}
	}
	if reason := o.end(); reason != "" {
		return o.fail("a face: "+reason, hintTriangles)
	}
	return nil
}

const hintTriangles = "export the mesh again, as triangles"

// endSolid notes the solid that ends here, if it has facets.
func (o *objReader) endSolid() {
	if n := len(o.mesh.Triangles) - o.began; n > 0 {
		o.solids, o.facets = append(o.solids, o.current), append(o.facets, n)
	}
	o.began = len(o.mesh.Triangles)
}

// fail makes an error about the line.
func (o *objReader) fail(reason, hint string) error {
	return &Error{Path: o.in.name, Facet: -1, Line: o.line, Reason: reason, Hint: hint}
}
