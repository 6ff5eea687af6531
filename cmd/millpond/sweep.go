package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

func newSweep(t terminal) *cobra.Command {
	var src source
	var vary varyFlags
	var show []string
	var asJSON, asCSV, force bool
	var path string
	var plot plotFlags
	var load loadingFlag
	c := &cobra.Command{
		Use:   "sweep CRAFT --vary WHAT=FROM..TO/STEP",
		Short: "Work the craft through over one or two variables: a line for each design",
		Long: `Changes one or two things about the craft over a range and lists for each design
the results asked for, whether the requirements of the craft file hold, and which
is missed first. A design that sinks or turns over stays in the list and says so.

` + varyHelp,
		Example: `  millpond sweep craft.toml --vary "plug height of float=0mm..40mm/5mm"
  millpond sweep craft.toml --vary "plug height of float=0mm..40mm/2mm" \
      --vary "plug length of float=0mm..100mm/5mm" -o floats.csv
  millpond sweep craft.toml --vary "plug height of float=0mm..40mm/2mm" --plot heights.png
  millpond sweep craft.toml --vary "cg x=-10mm..10mm/2mm" --show "trim, draft, clearance of propeller tip"`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			plot.force = force
			if err := plot.check(); err != nil {
				return err
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if trial, err = load.one("sweep", f, trial); err != nil {
				return err
			}
			s := sweep{file: f, trial: trial, terminal: t, path: path, plot: plot, force: force}
			if s.spans, err = vary.spans(f); err != nil {
				return err
			}
			if len(s.spans) > 2 {
				return fmt.Errorf("--vary: %d things vary; a sweep is over one or two", len(s.spans))
			}
			if s.write, err = formatOf(path, asCSV, asJSON); err != nil {
				return err
			}
			if err := s.columns(show); err != nil {
				return err
			}
			s.grid.AllMargins = plot.path != ""
			return s.run(c.Context(), vary.jobs)
		},
	}
	src.flags(c)
	vary.flags(c)
	load.flags(c)
	f := c.Flags()
	f.StringArrayVar(&show, "show", nil, "`results` to list, with commas between (default: what the requirements ask for)")
	f.BoolVar(&asCSV, "csv", false, "write comma-separated values, SI units, full precision")
	f.BoolVar(&asJSON, "json", false, "write one JSON object a line, SI units, full precision")
	f.StringVarP(&path, "output", "o", "", "write to `FILE` (.csv, .jsonl or .txt), whole or not at all")
	f.BoolVar(&force, "force", false, "write over a file that exists")
	plot.pathFlag(c, "the results over one variable, or the first of them as a map over two,")
	return c
}

// sweep is a sweep to be run and written.
type sweep struct {
	terminal
	file  *craftfile.File
	trial *design.Trial // of today's craft
	spans []design.Span
	grid  design.Grid
	path  string
	plot  plotFlags
	kept  []design.Row // for the plot
	asked bool         // the columns were asked for by name
	force bool
	write func(*sweep, io.Writer) rowWriter
}

// rowWriter writes the rows of a sweep.
type rowWriter interface {
	row(design.Row) error
	end() error
}

// formatOf returns what writes the rows: as the flags say, or by the ending of
// the file.
func formatOf(path string, asCSV, asJSON bool) (func(*sweep, io.Writer) rowWriter, error) {
	ending := strings.ToLower(filepath.Ext(path))
	switch {
	case asCSV && asJSON:
		return nil, errors.New("--csv and --json: choose one of the two")
	case asCSV, !asJSON && ending == ".csv":
		return newCSVRows, nil
	case asJSON, ending == ".json", ending == ".jsonl", ending == ".ndjson":
		return newJSONRows, nil
	case ending == "", ending == ".txt":
		return newTextRows, nil
	}
	return nil, fmt.Errorf("--output %s: cannot write %s, only .csv (which spreadsheets open), .jsonl and .txt", path, ending)
}

// columns sets up the grid with what is to be shown.
func (s *sweep) columns(show []string) error {
	c := s.file.Craft
	s.grid = design.Grid{Craft: c, Requirements: requirements(s.file)}
	for _, span := range s.spans {
		s.grid.Vary = append(s.grid.Vary, span.Varied)
		s.grid.Values = append(s.grid.Values, span.Values(0))
	}
	if err := s.grid.Check(); err != nil {
		return err
	}
	add := func(a design.Asked) {
		for _, b := range s.grid.Show {
			if a.Text() == b.Text() {
				return
			}
		}
		s.grid.Show = append(s.grid.Show, a)
	}
	for _, list := range show {
		for _, text := range strings.Split(list, ",") {
			a, err := design.Find(c, text)
			if err != nil {
				return fmt.Errorf("--show: %w", err)
			}
			add(a)
		}
	}
	if s.asked = len(s.grid.Show) > 0; s.asked {
		return nil
	}
	for _, q := range s.grid.Requirements {
		add(q.Asked)
	}
	if len(s.grid.Requirements) > 0 {
		return nil
	}
	for _, key := range []string{"draft", "trim", "angle of attack", "reserve buoyancy", "gm least"} {
		a, err := design.Find(c, key)
		if err != nil {
			panic(err) // a key of our own that is no row
		}
		if _, err := a.Value(s.trial); err == nil {
			add(a)
		}
	}
	return nil
}

// run works the grid through and writes it.
func (s *sweep) run(ctx context.Context, jobs int) error {
	for _, w := range append(append([]string{}, s.file.Warnings...), notes(s.spans)...) {
		fmt.Fprintf(s.errs, "warning: %s\n", w)
	}
	designs, done, hold := s.grid.Designs(), 0, 0
	bar := s.progress(designs, "designs")
	var stopped error
	write := func(w io.Writer) error {
		rows := s.write(s, w)
		err := s.grid.Run(ctx, jobs, func(r design.Row) error {
			done++
			if r.Holds() {
				hold++
			}
			bar.step()
			if s.plot.path != "" {
				s.kept = append(s.kept, r)
			}
			return rows.row(r)
		})
		bar.end()
		if err != nil && ctx.Err() != nil && errors.Is(err, ctx.Err()) {
			stopped, err = &stoppedError{done, designs}, nil
		}
		if err != nil {
			return err
		}
		return rows.end()
	}
	if s.path == "" {
		if err := write(s.out); err != nil {
			return fmt.Errorf("the sweep could not be written: %w", err)
		}
		if stopped != nil {
			return stopped
		}
		return s.draw()
	}
	if err := writeTo(s.path, s.force, write); err != nil {
		return err
	}
	if stopped != nil {
		return fmt.Errorf("%w, written to %s", stopped, s.path)
	}
	fmt.Fprintf(s.out, "%s: %s\n", s.path, s.summary(done, hold))
	return s.draw()
}

// summary says how many of the designs hold.
func (s *sweep) summary(done, hold int) string {
	if len(s.grid.Requirements) == 0 {
		return fmt.Sprintf("%d designs; the craft file states no requirements", done)
	}
	return fmt.Sprintf("%d of %d designs meet %s", hold, done, allRequired(len(s.grid.Requirements)))
}

// stoppedError says that a job was stopped before it was done.
type stoppedError struct{ done, of int }

func (e *stoppedError) Error() string {
	return fmt.Sprintf("stopped after %d of %d designs", e.done, e.of)
}
