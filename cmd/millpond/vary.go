package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// varyFlags are the flags of verbs that vary a craft.
type varyFlags struct {
	vary []string
	jobs int
}

func (v *varyFlags) flags(c *cobra.Command) {
	c.Flags().StringArrayVar(&v.vary, "vary", nil, "what varies, as `\"WHAT=FROM..TO/STEP\"`; see above (may be repeated)")
	c.Flags().IntVar(&v.jobs, "jobs", runtime.GOMAXPROCS(0), "use `N` cores; any number gives the same answer")
}

// varyHelp says what --vary takes, for the help of the verbs.
const varyHelp = `What can vary, for any part "float" and item "battery" of the craft file:

  plug height of float   a slice let in across the part, above the chine, so that
  plug length of float   the bottom keeps its deadrise and keel angles; "at PLACE"
                         says where, in the part's own axes (default: where its
                         section is fullest). Negative takes a slice out where
                         the section is even. The keel, or the end with the
                         part's origin, stays; the other side moves with what is
                         set on it, and all other parts stay: a taller float has
                         shorter struts under the same wing
  length scale of float  the whole part, about its origin; beam and height alike.
                         Changes keel angles, height and beam the deadrise too
  drop of float          its origin below the craft's; fore-aft, spread (from the
                         middle), incidence alike
  mass, growth, cg x, cg y, cg z, water density
  mass of battery, x of battery, y of battery, z of battery

Values carry their unit and are absolute, not added to today's:
  "plug height of float=0mm..40mm/5mm"         from, to, step
  "plug height of float=0mm..40mm/5mm at 45mm" let in 45 mm above its origin
  "plug height of float=0mm,10mm,15mm"         these only, as foam is sold
  "plug height of float"                       as [[vary]] in the craft file says`

// spans reads what --vary says.
func (v *varyFlags) spans(f *craftfile.File) ([]design.Span, error) {
	if len(v.vary) == 0 {
		return nil, errors.New("nothing varies: say what with --vary, for example --vary \"plug height of PART=0mm..40mm/5mm\"")
	}
	if v.jobs < 1 {
		return nil, fmt.Errorf("--jobs is %d: one core at least is needed", v.jobs)
	}
	var out []design.Span
	var vars []design.Varied
	for _, text := range v.vary {
		s, err := design.ParseSpan(f.Craft, f.Limits, text)
		if err != nil {
			return nil, fmt.Errorf("--vary: %w", err)
		}
		out, vars = append(out, s), append(vars, s.Varied)
	}
	if err := design.Distinct(vars); err != nil {
		return nil, fmt.Errorf("--vary: %w", err)
	}
	return out, nil
}

// notes are what should be known of the variables: where plugs go, and what a
// scale changes besides.
func notes(spans []design.Span) []string {
	var out []string
	for _, s := range spans {
		if s.Note != "" {
			out = append(out, s.Text()+": "+s.Note)
		}
	}
	return out
}

// requirements returns those of a craft file, without their lines.
func requirements(f *craftfile.File) []design.Requirement {
	var out []design.Requirement
	for _, q := range f.Requirements {
		out = append(out, q.Requirement)
	}
	return out
}

// progress shows how far a long job is, with the time left, on standard error
// when that is a terminal; else it shows nothing.
type progress struct{ bar *progressbar.ProgressBar }

// progress begins to show progress over so many steps, -1 for an unknown
// number.
func (t terminal) progress(steps int, what string) *progress {
	file, ok := t.errs.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return &progress{}
	}
	return &progress{progressbar.NewOptions(steps,
		progressbar.OptionSetWriter(file),
		progressbar.OptionSetDescription(what),
		progressbar.OptionShowCount(),
		progressbar.OptionSetPredictTime(true),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(30),
	)}
}

// step counts one more step.
func (p *progress) step() {
	if p.bar != nil {
		_ = p.bar.Add(1) // what cannot be shown is not worth an error
	}
}

// end takes the bar off the terminal.
func (p *progress) end() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}

// heads breaks the words of column headings into lines of at most a dozen
// letters, and returns as many rows of cells, the last words at the bottom.
func heads(titles []string) [][]string {
	const width = 12
	var columns [][]string
	rows := 0
	for _, title := range titles {
		var lines []string
		for _, word := range strings.Fields(title) {
			if n := len(lines); n > 0 && len(lines[n-1])+1+len(word) <= width {
				lines[n-1] += " " + word
			} else {
				lines = append(lines, word)
			}
		}
		columns = append(columns, lines)
		rows = max(rows, len(lines))
	}
	out := make([][]string, rows)
	for i := range out {
		for _, lines := range columns {
			cell := ""
			if k := i - (rows - len(lines)); k >= 0 {
				cell = lines[k]
			}
			out[i] = append(out[i], cell)
		}
	}
	return out
}
