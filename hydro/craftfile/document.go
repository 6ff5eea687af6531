package craftfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a value is in TOML.
type kind int

const (
	aText kind = iota
	aNumber
	aFlag
	aDate
	aList
	aTable
)

func (k kind) String() string {
	return [...]string{"a text", "a number", "true or false", "a date", "a list", "a table"}[k]
}

// node is a value and where it stands.
type node struct {
	kind  kind
	at    span     // of a list or a table, the key or the heading it stands under
	text  string   // of a text, decoded; of a number or flag, as written
	items []*node  // of a list
	keys  []*entry // of a table, in the order of the file
}

// entry is a key of a table with its value.
type entry struct {
	name  string
	at    span // of the key
	value *node
}

// find returns the entry of that name, nil when there is none.
func (n *node) find(name string) *entry {
	for _, e := range n.keys {
		if e.name == name {
			return e
		}
	}
	return nil
}

// Limits that keep a hostile file cheap. A craft file has a few hundred lines,
// and its values are nested three deep.
const (
	maxText  = 1 << 20 // bytes
	maxDepth = 16
	maxKeys  = 10_000
)

// parse reads a text into its tree.
//
// It goes over the text twice: go-toml's parser tells where everything stands
// but not what a document means as a whole, so that keys given twice and
// tables opened twice are left to its decoder.
func parse(s *source) (*node, *Error) {
	if err := s.screen(); err != nil {
		return nil, err
	}
	root := &node{kind: aTable}
	b := &builder{source: s, root: root, open: root}
	b.parser.Reset(s.text)
	for b.parser.NextExpression() {
		if err := b.expression(b.parser.Expression()); err != nil {
			// The decoder has the better words for a contradiction.
			if better := s.decode(); better != nil {
				return nil, better
			}
			return nil, err
		}
	}
	if err := b.parser.Error(); err != nil {
		return nil, s.syntax(&b.parser, err)
	}
	if err := s.decode(); err != nil {
		return nil, err
	}
	return root, nil
}

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

// builder makes a tree of the expressions of a text.
type builder struct {
	*source
	parser unstable.Parser
	root   *node
	open   *node // the table that keys go to
	count  int
}

// expression adds one top-level expression: a heading or a key with its value.
func (b *builder) expression(n *unstable.Node) *Error {
	if n.Kind == unstable.KeyValue {
		return b.keyValue(b.open, n, 0)
	}
	path, err := b.path(n.Key())
	if err != nil {
		return err
	}
	at := b.root
	for i, p := range path {
		last := i == len(path)-1
		e := at.find(p.name)
		switch {
		case e == nil && last && n.Kind == unstable.ArrayTable:
			e = b.add(at, p, &node{kind: aList, at: p.at})
		case e == nil:
			e = b.add(at, p, &node{kind: aTable, at: p.at})
		}
		v := e.value
		if v.kind == aList {
			switch {
			case last && n.Kind == unstable.ArrayTable:
				v.items = append(v.items, &node{kind: aTable, at: p.at})
			case len(v.items) == 0:
				return b.fault(p.at, "nothing to add to", nil)
			}
			v = v.items[len(v.items)-1]
		}
		if v.kind != aTable {
			return b.fault(p.at, p.name+" is no table", nil)
		}
		at = v
	}
	b.open = at
	return nil
}

// keyValue adds a key, which may be dotted, with its value to a table.
func (b *builder) keyValue(to *node, n *unstable.Node, depth int) *Error {
	path, err := b.path(n.Key())
	if err != nil {
		return err
	}
	for i, p := range path {
		e := to.find(p.name)
		if i == len(path)-1 {
			if e != nil {
				return b.fault(p.at, "the key "+p.name+" is there twice", nil)
			}
			v, err := b.value(n.Value(), p.at, depth+i)
			if err != nil {
				return err
			}
			b.add(to, p, v)
			break
		}
		if e == nil {
			e = b.add(to, p, &node{kind: aTable, at: p.at})
		}
		if e.value.kind != aTable {
			return b.fault(p.at, p.name+" is no table", nil)
		}
		to = e.value
	}
	if b.count > maxKeys {
		return b.fault(path[0].at, fmt.Sprintf("more than %d keys; is it a craft file?", maxKeys), nil)
	}
	return nil
}

// add appends a key to a table.
func (b *builder) add(to *node, key entry, v *node) *entry {
	b.count++
	e := &entry{name: key.name, at: key.at, value: v}
	to.keys = append(to.keys, e)
	return e
}

// path returns the parts of a dotted key.
func (b *builder) path(it unstable.Iterator) ([]entry, *Error) {
	var path []entry
	for it.Next() {
		n := it.Node()
		path = append(path, entry{name: string(n.Data), at: rangeOf(n)})
		if len(path) > maxDepth {
			return nil, b.fault(path[0].at, "the key has too many parts", nil)
		}
	}
	return path, nil
}

func rangeOf(n *unstable.Node) span {
	return span{int(n.Raw.Offset), int(n.Raw.Offset + n.Raw.Length)}
}

// value returns the tree of a value that stands under a key.
func (b *builder) value(n *unstable.Node, key span, depth int) (*node, *Error) {
	if depth > maxDepth {
		return nil, b.fault(key, "values are nested too deep", nil)
	}
	v := &node{at: rangeOf(n), text: string(n.Data)}
	switch n.Kind {
	case unstable.String:
		v.kind = aText
	case unstable.Integer, unstable.Float:
		v.kind = aNumber
	case unstable.Bool:
		v.kind = aFlag
	case unstable.Array:
		v.kind, v.at = aList, key
		for it := n.Children(); it.Next(); {
			item, err := b.value(it.Node(), key, depth+1)
			if err != nil {
				return nil, err
			}
			if b.count++; b.count > maxKeys {
				return nil, b.fault(key, "the list is too long", nil)
			}
			v.items = append(v.items, item)
		}
	case unstable.InlineTable:
		v.kind, v.at = aTable, key
		for it := n.Children(); it.Next(); {
			if err := b.keyValue(v, it.Node(), depth+1); err != nil {
				return nil, err
			}
		}
	default:
		v.kind = aDate
	}
	return v, nil
}
