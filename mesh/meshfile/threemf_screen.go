package meshfile

import (
	"bytes"

	"github.com/hpinc/go3mf"
)

// The library's decoder takes zero for a coordinate that is not there, loses
// count where elements stand inside their like, makes room for triangles anew
// at each list of them, and knows neither comments nor CDATA. The screen goes
// over a model before it, at the speed of memory: it blanks those, and refuses
// the rest.

// kind3MF is an element that matters. It stands nowhere inside its like.
type kind3MF struct {
	name string
	need []string // attributes it must have, once each
	once string   // the element in which it may stand once, empty for any number
	bit  uint
}

// kinds3MF are the elements that matter, by name.
var kinds3MF = func() map[string]*kind3MF {
	byName := make(map[string]*kind3MF)
	for i, k := range []kind3MF{
		{name: "model"},
		{name: "resources", once: "model"},
		{name: "build", once: "model"},
		{name: "item", need: []string{"objectid"}},
		{name: "object", need: []string{"id"}},
		{name: "mesh", once: "object"},
		{name: "components", once: "object"},
		{name: "component", need: []string{"objectid"}},
		{name: "vertices", once: "mesh"},
		{name: "triangles", once: "mesh"},
		{name: "vertex", need: []string{"x", "y", "z"}},
		{name: "triangle", need: []string{"v1", "v2", "v3"}},
	} {
		k.bit = 1 << i
		byName[k.name] = &k
	}
	return byName
}()

// maxDepth3MF bounds how deep elements are nested. A mesh is six deep.
const maxDepth3MF = 64

// screen is a model being gone over.
type screen struct {
	data   []byte
	at     int
	prefix []byte // of the names of 3MF's own elements, with its colon
	bound  bool   // the prefix stands for 3MF
	open   []element3MF
	inside uint   // bits of the open elements
	seen   uint   // bits of those met that may be met once
	object []byte // the number of the open object

	facets, vertices int
}

// element3MF is an open element.
type element3MF struct {
	name []byte
	kind *kind3MF // nil for one that does not matter
}

// screen3MF goes over a model, and returns the number of facets and of vertices
// in it, or what is wrong with it. Comments and CDATA are turned to blanks.
func screen3MF(data []byte) (facets, vertices int, reason string) {
	s := &screen{data: data}
	if bytes.HasPrefix(data, utf8BOM) {
		copy(data, "   ")
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return 0, 0, "it is text in UTF-16, which is not read"
	}
	for {
		next := bytes.IndexByte(data[s.at:], '<')
		if next < 0 {
			break
		}
		s.at += next
		if reason := s.markup(); reason != "" {
			if s.object != nil {
				reason = "object " + quote(s.object) + ": " + reason
			}
			return 0, 0, reason
		}
	}
	switch {
	case len(s.open) > 0:
		return 0, 0, "it ends inside an element " + quote(s.open[len(s.open)-1].name) + ": it was cut short"
	case !s.bound:
		return 0, 0, notModel
	}
	return s.facets, s.vertices, ""
}

const notModel = "it is no model of 3MF"

// markup reads what begins with a <.
func (s *screen) markup() string {
	rest := s.data[s.at:]
	for _, m := range [3]struct{ from, to, what string }{
		{"<!--", "-->", "a comment"}, {"<![CDATA[", "]]>", "a CDATA section"}, {"<?", "?>", "an instruction"},
	} {
		if !bytes.HasPrefix(rest, []byte(m.from)) {
			continue
		}
		end := bytes.Index(rest[len(m.from):], []byte(m.to))
		if end < 0 {
			return m.what + " is not closed"
		}
		length := len(m.from) + end + len(m.to)
		if m.from[1] == '!' {
			for i := range rest[:length] {
				rest[i] = ' '
			}
		}
		s.at += length
		return ""
	}
	switch {
	case bytes.HasPrefix(rest, []byte("<!")):
		return "it has a document type, which 3MF does not allow"
	case bytes.HasPrefix(rest, []byte("</")):
		return s.endTag()
	}
	return s.startTag()
}

// endTag reads the end of an element.
func (s *screen) endTag() string {
	end := bytes.IndexByte(s.data[s.at:], '>')
	if end < 0 {
		return "a tag is not closed"
	}
	name := bytes.TrimRight(s.data[s.at+2:s.at+end], whitespace)
	s.at += end + 1
	if last := len(s.open) - 1; last < 0 || !bytes.Equal(s.open[last].name, name) {
		return "an element ends with " + quote(name) + " that did not begin so"
	}
	s.close()
	return ""
}

// close closes the innermost element.
func (s *screen) close() {
	last := len(s.open) - 1
	k := s.open[last].kind
	s.open = s.open[:last]
	if k == nil {
		return
	}
	s.inside &^= k.bit
	for _, child := range kinds3MF {
		if child.once == k.name {
			s.seen &^= child.bit
		}
	}
	if k.name == "object" {
		s.object = nil
	}
}

// startTag reads the start of an element, and its end if it has no content.
func (s *screen) startTag() string {
	s.at++
	e := element3MF{name: s.name()}
	if len(e.name) == 0 {
		return "a < begins no element"
	}
	if len(s.open) == 0 {
		if s.prefix != nil {
			return "it goes on behind its end"
		}
		s.prefix = e.name[:bytes.IndexByte(e.name, ':')+1]
	}
	if local, ours := bytes.CutPrefix(e.name, s.prefix); ours {
		e.kind = kinds3MF[string(local)]
	}
	if len(s.open) == 0 && (e.kind == nil || e.kind.name != "model") {
		return notModel
	}
	empty, reason := s.attributes(e)
	if reason == "" {
		reason = s.enter(e)
	}
	if reason == "" && empty {
		s.close()
	}
	return reason
}

// enter opens an element whose start was read.
func (s *screen) enter(e element3MF) string {
	if len(s.open) >= maxDepth3MF {
		return "its elements are nested too deep"
	}
	s.open = append(s.open, e)
	k := e.kind
	if k == nil {
		return ""
	}
	if s.inside&k.bit != 0 {
		return "an element " + quote(e.name) + " stands inside another"
	}
	s.inside |= k.bit
	if k.once != "" {
		if s.seen&k.bit != 0 {
			return "a second element " + quote(e.name) + " where one is allowed"
		}
		s.seen |= k.bit
	}
	switch k.name {
	case "triangle":
		s.facets++
	case "vertex":
		s.vertices++
	}
	return ""
}

// attributes reads the attributes of an element and the end of its start tag,
// and reports whether the element ends there too.
func (s *screen) attributes(e element3MF) (empty bool, reason string) {
	met := 0 // bits of the attributes that are needed
	for {
		s.space()
		switch s.peek() {
		case 0:
			return false, "a tag is not closed"
		case '/':
			s.at++
			if s.peek() != '>' {
				return false, "a / stands inside the tag " + quote(e.name)
			}
			empty = true
			fallthrough
		case '>':
			s.at++
			if e.kind != nil && met != 1<<len(e.kind.need)-1 {
				for i, name := range e.kind.need {
					if met&(1<<i) == 0 {
						return false, "an element " + quote(e.name) + " has no " + name
					}
				}
			}
			return empty, ""
		}
		key, value, reason := s.attribute()
		if reason == "" {
			reason = s.namespace(key, value)
		}
		if reason != "" {
			return false, reason
		}
		if e.kind == nil {
			continue
		}
		for i, name := range e.kind.need {
			if string(key) != name {
				continue
			}
			if met&(1<<i) != 0 {
				return false, "an element " + quote(e.name) + " has " + name + " twice"
			}
			met |= 1 << i
			if name == "id" {
				s.object = value
			}
		}
	}
}

// namespace looks at what an attribute binds a prefix to: that of the first
// element must be bound to 3MF there, and nothing else may be.
func (s *screen) namespace(key, value []byte) string {
	name, ok := bytes.CutPrefix(key, []byte("xmlns"))
	if !ok || len(name) > 0 && name[0] != ':' {
		return ""
	}
	is3MF := string(value) == go3mf.Namespace
	mine := string(bytes.TrimPrefix(name, []byte{':'})) == string(bytes.TrimSuffix(s.prefix, []byte{':'}))
	switch {
	case bytes.IndexByte(value, '&') >= 0:
		return "the namespace " + quote(value) + " is not written plainly"
	case is3MF && mine && len(s.open) == 0 && !s.bound:
		s.bound = true
	case is3MF:
		return "it names the namespace of 3MF twice"
	case mine && len(s.open) == 0:
		return notModel
	}
	return ""
}
