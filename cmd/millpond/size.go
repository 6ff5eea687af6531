package main

import (
	"context"
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newSize(t terminal) *cobra.Command {
	var vary varyFlags
	var asJSON, nearest, force bool
	var least, dir string
	var plot plotFlags
	var load loadingFlag
	c := &cobra.Command{
		Use:   "size CRAFT.toml --vary WHAT",
		Short: "The smallest change that meets all requirements, and which one binds",
		Long: `Finds the smallest value of one thing that may vary, or with --nearest the one
nearest to today's, at which every [[require]] of the craft file holds, and names
the requirement that binds. With several things that may vary it finds the
lightest craft that meets all, or with --least volume the one with the smallest
floats. Exits 1 when nothing in range fits, and says what comes nearest.

Steps are kept to: with them the answer is one that can be cut from the sheets
there are. With --write it writes the changed parts as STL, in the unit and axes
they were drawn in, to take back to CAD as a reference, and a craft file that
names this one as its base and lists the changes. CRAFT.toml itself is not
touched.

` + varyHelp,
		Example: `  millpond size craft.toml --vary "plug height of float"
  millpond size craft.toml --vary "plug height of float=0mm..60mm/5mm" --write deeper
  millpond size craft.toml --vary "plug height of float=0mm..60mm" --plot sized.png
  millpond size craft.toml --vary "x of battery=-60mm..60mm" --nearest`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			plot.force = force
			if err := plot.check(); err != nil {
				return err
			}
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if trial, err = load.one("size", f, trial); err != nil {
				return err
			}
			if len(f.Requirements) == 0 {
				return fmt.Errorf("%s states no requirements to size by: add a [[require]] table, for example\n\n  [[require]]\n  what = \"reserve buoyancy\"\n  at_least = \"80 %%\"", args[0])
			}
			s := sizing{terminal: t, file: f, trial: trial, path: args[0], plot: plot}
			if s.spans, err = vary.spans(f); err != nil {
				return err
			}
			s.Sizing = design.Sizing{
				Craft: f.Craft, Vary: s.spans, Requirements: requirements(f),
				Nearest: nearest, Workers: vary.jobs,
			}
			if err := s.check(c, least); err != nil {
				return err
			}
			var out *resized
			if dir != "" {
				if out, err = newResized(dir, args[0], force); err != nil {
					return err
				}
			}
			return s.run(c.Context(), out, asJSON)
		},
	}
	vary.flags(c)
	load.flags(c)
	f := c.Flags()
	f.BoolVar(&nearest, "nearest", false, "the value nearest to today's instead of the smallest")
	f.StringVar(&least, "least", "mass", "of several that vary, make `WHAT` the least: mass or volume (of the floats)")
	f.StringVar(&dir, "write", "", "write the changed parts and their craft file to the folder `DIR`")
	f.BoolVar(&force, "force", false, "write over files that exist")
	plot.pathFlag(c, "today's design and the sized one at rest, one over the other,")
	f.BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	complete(c, "least", "mass", "volume")
	return c
}

// sizing is a search for sizes and what it is told with.
type sizing struct {
	terminal
	design.Sizing
	file  *craftfile.File
	trial *design.Trial
	path  string
	spans []design.Span
	plot  plotFlags
	doubt []string // warnings of the choice made
}

// mostVaried is how many things may vary at once: more are beyond what a search
// that knows nothing of their nature can promise.
const mostVaried = 6

// check checks the call and settles what is to be least.
func (s *sizing) check(c *cobra.Command, least string) error {
	switch {
	case len(s.spans) > mostVaried:
		return fmt.Errorf("--vary: %d things vary, %d at most can be searched", len(s.spans), mostVaried)
	case s.Nearest && len(s.spans) > 1:
		return errors.New("--nearest is for one thing that varies; of several, the least mass or volume is found")
	case least != "mass" && least != "volume":
		return fmt.Errorf("--least cannot be %q: write mass or volume", least)
	}
	s.Volume = least == "volume"
	if len(s.spans) > 1 && !s.Volume && s.file.Craft.Stated != nil {
		if c.Flags().Changed("least") {
			return fmt.Errorf("--least mass: the mass of %s is stated outright, so no size is lighter; write --least volume", s.path)
		}
		s.Volume = true
		s.doubt = append(s.doubt, "the mass is stated outright and stays whatever the size: the smallest volume of the floats is looked for")
	}
	return nil
}

// run searches, writes what is to be written, and shows the answer.
func (s *sizing) run(ctx context.Context, out *resized, asJSON bool) error {
	bar := s.progress(-1, "designs")
	s.Progress = func(int, int) { bar.step() }
	got, err := s.Solve(ctx)
	bar.end()
	var nothing *design.NothingFitsError
	switch {
	case errors.As(err, &nothing):
		r := nothingReport{s, nothing}
		return s.show(reply{warnings: s.warnings(), no: true, text: r.text, json: r.json()}, asJSON)
	case err != nil && ctx.Err() != nil:
		return &haltedError{}
	case err != nil:
		return err
	}
	r := sizeReport{sizing: s, got: got}
	if err := r.draw(); err != nil {
		return err
	}
	if out != nil {
		if r.written, err = out.write(s.file, got, s.spans); err != nil {
			return err
		}
	}
	return s.show(reply{warnings: append(s.warnings(), design.Doubts(got.Trial)...), text: r.text, json: r.json()}, asJSON)
}

func (s *sizing) warnings() []string {
	return append(append(append([]string{}, s.file.Warnings...), notes(s.spans)...), s.doubt...)
}

// haltedError says that a search was stopped.
type haltedError struct{}

func (*haltedError) Error() string { return "stopped before the search was done; nothing was written" }

// written shows a value of a variable that was found, to a hundredth of a
// millimeter or the like, rounded away from the side that misses.
func found(span design.Span, v float64, beyond *design.Design, k int) string {
	d := unit.Style{Fine: true}.Display(span.Kind, v)
	if !span.Discrete() {
		d.Decimals++
	}
	x := d.Unit.FromSI(v)
	if beyond != nil && beyond.Values[k] != v && !span.Discrete() {
		grid := math.Pow10(d.Decimals)
		up := math.Ceil(x*grid-1e-6) / grid
		if beyond.Values[k] > v {
			up = math.Floor(x*grid+1e-6) / grid
		}
		x = up
	}
	text := unit.Decimal(x, d.Decimals)
	if d.Unit.Name == "" {
		return text
	}
	return text + " " + d.Unit.Name
}
