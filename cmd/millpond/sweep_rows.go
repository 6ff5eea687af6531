package main

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// csvRows writes a sweep as comma-separated values, row by row.
type csvRows struct {
	*sweep
	w *csv.Writer
}

func newCSVRows(s *sweep, w io.Writer) rowWriter {
	c := &csvRows{s, csv.NewWriter(w)}
	var head []string
	for _, v := range s.grid.Vary {
		head = append(head, v.JSONKey())
	}
	for _, a := range s.grid.Show {
		head = append(head, a.Column())
	}
	if err := c.w.Write(append(head, "holds", "missed", "no_answer")); err != nil {
		return failed{err}
	}
	return c
}

// failed is a writer that could not even begin.
type failed struct{ err error }

func (f failed) row(design.Row) error { return f.err }
func (f failed) end() error           { return f.err }

func (c *csvRows) row(r design.Row) error {
	var cells []string
	number := func(k unit.Kind, v float64) {
		cell := ""
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			cell = strconv.FormatFloat(k.ToEdge(v), 'g', -1, 64)
		}
		cells = append(cells, cell)
	}
	for i, v := range c.grid.Vary {
		number(v.Kind, r.Values[i])
	}
	for i, a := range c.grid.Show {
		number(a.Kind, r.Shown[i])
	}
	no := ""
	if r.No != nil {
		no = r.No.Error()
	}
	if err := c.w.Write(append(cells, c.holds(r), c.missed(r), no)); err != nil {
		return err
	}
	c.w.Flush()
	return c.w.Error()
}

func (c *csvRows) end() error {
	c.w.Flush()
	return c.w.Error()
}

// holds says whether a design meets the requirements: true, false, or nothing
// where there are none.
func (s *sweep) holds(r design.Row) string {
	if len(s.grid.Requirements) == 0 {
		return ""
	}
	return strconv.FormatBool(r.Holds())
}

// missed names the first requirement that a design misses.
func (s *sweep) missed(r design.Row) string {
	if r.Missed < 0 {
		return ""
	}
	return s.grid.Requirements[r.Missed].Text()
}

// jsonRows writes a sweep as one JSON object a line, row by row.
type jsonRows struct {
	*sweep
	enc *json.Encoder
}

func newJSONRows(s *sweep, w io.Writer) rowWriter {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return &jsonRows{s, enc}
}

func (j *jsonRows) row(r design.Row) error {
	var o object
	for i, v := range j.grid.Vary {
		o.add(v.JSONKey(), v.Kind.ToEdge(r.Values[i]))
	}
	for i, a := range j.grid.Show {
		o.add(a.Column(), a.Kind.ToEdge(r.Shown[i]))
	}
	if len(j.grid.Requirements) > 0 {
		o.add("holds", r.Holds())
	}
	if m := j.missed(r); m != "" {
		o.add("missed", m)
	}
	if r.No != nil {
		o.add("no_answer", r.No.Error())
	}
	return j.enc.Encode(o)
}

func (j *jsonRows) end() error { return nil }

// textRows gathers a sweep and writes it as an aligned table.
type textRows struct {
	*sweep
	w    io.Writer
	rows []design.Row
}

func newTextRows(s *sweep, w io.Writer) rowWriter { return &textRows{sweep: s, w: w} }

func (x *textRows) row(r design.Row) error {
	x.rows = append(x.rows, r)
	return nil
}

func (x *textRows) end() error {
	w := bufio.NewWriter(x.w)
	style := styleOf(x.trial)
	fmt.Fprintf(w, "%s in %s\n\n", x.file.Craft.Name, x.file.Craft.Water.Name)
	var today table
	for _, span := range x.spans {
		now, err := span.Now(x.file.Craft)
		if err != nil {
			return err
		}
		today.row(span.Title(), span.Words(), "today "+shown(span.Kind, now), span.Where())
	}
	today.print(w, "What varies")

	var titles, units []string
	var columns [][]string
	hold := 0
	column := func(title string, k unit.Kind, fine bool, value func(design.Row) float64) {
		values := make([]float64, len(x.rows))
		for i, r := range x.rows {
			values[i] = value(r)
		}
		d := (unit.Style{System: style.System, Fine: style.Fine || fine}).Display(k, values...)
		titles, units = append(titles, title), append(units, d.Unit.Name)
		var cells []string
		for _, v := range values {
			cells = append(cells, d.Number(v))
		}
		columns = append(columns, cells)
	}
	for i, v := range x.grid.Vary {
		column(v.Text(), v.Kind, true, func(r design.Row) float64 { return r.Values[i] })
	}
	for i, a := range x.grid.Show {
		column(a.Text(), a.Kind, false, func(r design.Row) float64 { return r.Shown[i] })
	}
	aligned := rightAligned(titles, units, columns)
	for _, line := range aligned.head {
		fmt.Fprintf(w, "  %s\n", strings.TrimRight(line, " "))
	}
	for i, r := range x.rows {
		if i > 0 && len(r.Values) > 1 && r.Values[0] != x.rows[i-1].Values[0] {
			fmt.Fprintln(w) // a gap between the lines of the grid
		}
		if r.Holds() {
			hold++
		}
		fmt.Fprintf(w, "  %s\n", strings.TrimRight(aligned.rows[i]+"  "+x.verdict(r), " "))
	}
	fmt.Fprintf(w, "\n%s\n", x.summary(len(x.rows), hold))
	return w.Flush()
}

// verdict says in a few words how a design fares.
func (s *sweep) verdict(r design.Row) string {
	switch {
	case r.No != nil:
		return r.No.Error()
	case len(s.grid.Requirements) == 0:
		return ""
	case r.Missed >= 0:
		return "misses " + s.missed(r)
	}
	return "holds"
}

// shown shows a value of a variable.
func shown(k unit.Kind, v float64) string { return unit.Style{Fine: true}.Format(k, v) }

// lines are the lines of a table of numbers.
type lines struct{ head, rows []string }

// rightAligned sets columns of numbers, each under its title and unit.
func rightAligned(titles, units []string, columns [][]string) lines {
	head := append(heads(titles), units)
	out := lines{head: make([]string, len(head)), rows: make([]string, len(columns[0]))}
	for k, cells := range columns {
		width := 0
		for _, h := range head {
			width = max(width, len(h[k]))
		}
		for _, c := range cells {
			width = max(width, len(c))
		}
		gap := "  "
		if k == 0 {
			gap = ""
		}
		for i, h := range head {
			out.head[i] += fmt.Sprintf("%s%*s", gap, width, h[k])
		}
		for i, c := range cells {
			out.rows[i] += fmt.Sprintf("%s%*s", gap, width, c)
		}
	}
	return out
}
