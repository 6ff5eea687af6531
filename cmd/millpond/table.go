package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// table prints rows of cells in aligned columns, indented by two.
type table struct {
	rows [][]string
}

// row appends a row.
func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

// print writes the table under a heading, or nothing when it has no rows.
func (t *table) print(w io.Writer, heading string) {
	if len(t.rows) == 0 {
		return
	}
	if heading != "" {
		fmt.Fprintf(w, "%s\n", heading)
	}
	var b strings.Builder
	tw := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, r := range t.rows {
		fmt.Fprintf(tw, "  %s\n", strings.Join(r, "\t"))
	}
	tw.Flush()
	for line := range strings.Lines(b.String()) {
		fmt.Fprintln(w, strings.TrimRight(line, " \n"))
	}
	fmt.Fprintln(w)
}
