package page

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"strings"
)

// Page is a review from top to bottom.
type Page struct {
	Title    string // of what is reviewed
	Subtitle string // what kind of page this is
	Lead     Verdict
	Note     string // under the verdict: what it is worth
	Sections []Section
	Foot     []string // small lines at the end
}

// Verdict is the answer in one line and its reasons, before anything else.
type Verdict struct {
	Good    bool
	But     bool     // good, with something among the reasons that is not
	Words   string   // "meets all 8 requirements"
	Reasons []string // what binds, what is missed
}

// Section is a heading and what stands under it.
type Section struct {
	Title  string
	Blocks []Block
}

// Block is one of [Text], [List], [Facts], [Table], [Tables] and [Figures].
type Block interface{ kind() string }

// Text is a paragraph.
type Text string

// List is a list of short statements.
type List []string

// Facts are named values with a remark each, for what a reader looks for first.
type Facts []Fact

// Fact is a name, a value and what it is measured against.
type Fact struct{ Name, Value, Remark string }

// Table is a table with one line of headings.
type Table struct {
	Caption string // may be empty
	Columns []Column
	Rows    []Row
}

// Tables are small tables that stand side by side where there is room.
type Tables []Table

// Column is the heading of a column.
type Column struct {
	Title  string
	Number bool // set to the right, so that digits stand over one another
}

// Row is a line of a table.
type Row struct {
	Cells []string
	// Look sets a line off. What it says must be in the words too.
	Look Look
}

// Look is how a line of a table looks.
type Look string

// The looks of a line.
const (
	Plain Look = ""
	Good  Look = "good"
	Bad   Look = "bad"
	Sum   Look = "sum"
)

// Figures are pictures that stand side by side where there is room.
type Figures []Figure

func (Text) kind() string    { return "text" }
func (List) kind() string    { return "list" }
func (Facts) kind() string   { return "facts" }
func (Table) kind() string   { return "table" }
func (Tables) kind() string  { return "tables" }
func (Figures) kind() string { return "figures" }

//go:embed page.css
var css string

//go:embed page.html
var layout string

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"kind": Block.kind,
	"css":  func() template.CSS { return template.CSS(css) },
	"column": func(t Table, i int) string {
		if i < len(t.Columns) && t.Columns[i].Number {
			return "number"
		}
		return "words"
	},
	"shape": shape,
	"inc":   func(i int) int { return i + 1 },
}).Parse(layout))

// shape names what the style sheet treats apart: tables of many columns, which
// are slid sideways on a narrow screen, and short ones, which stay on a sheet.
func shape(t Table) string {
	var words []string
	if len(t.Columns) > 4 {
		words = append(words, "many")
	}
	if len(t.Rows) <= 16 {
		words = append(words, "short")
	}
	return strings.Join(words, " ")
}

// Write writes the page. Nothing is written before the page is complete.
func (p *Page) Write(w io.Writer) error {
	var b bytes.Buffer
	if err := page.Execute(&b, p); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}
