package craftfile

import (
	"fmt"

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
	maxWord  = 4096 // bytes of a key or a text: messages repeat them
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
			if b.contradiction {
				if better := s.decode(); better != nil {
					return nil, better
				}
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

// builder makes a tree of the expressions of a text.
type builder struct {
	*source
	parser unstable.Parser
	root   *node
	open   *node // the table that keys go to
	count  int
	// contradiction says that the text is at odds with itself, for which the
	// decoder has better words.
	contradiction bool
}

// clash returns the error about a contradiction.
func (b *builder) clash(at span, message string) *Error {
	b.contradiction = true
	return b.fault(at, message, nil)
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
				return b.clash(p.at, p.name+" has no last one to add to")
			}
			v = v.items[len(v.items)-1]
		}
		if v.kind != aTable {
			return b.clash(p.at, p.name+" is no table")
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
				return b.clash(p.at, "the key "+p.name+" is there twice")
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
			return b.clash(p.at, p.name+" is no table")
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
		if len(n.Data) > maxWord {
			return nil, b.fault(rangeOf(n), fmt.Sprintf("the key is longer than %d bytes", maxWord), nil)
		}
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
		if v.kind = aText; len(v.text) > maxWord {
			return nil, b.fault(key, fmt.Sprintf("the text is longer than %d bytes", maxWord), nil)
		}
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
