package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newTable(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var csvPath string
	var trims []string
	from, to, step := lengthFlag(""), lengthFlag(""), lengthFlag("")
	var plot plotFlags
	c := &cobra.Command{
		Use:   "table CRAFT",
		Short: "Hydrostatic table: what the hull carries and where, over a range of drafts",
		Long: `Sets the hull to drafts one after another, at one trim or several, and lists the
displaced mass, the centers, the waterplane, KM both ways, the mass per mm of
sinkage, the moment per degree of trim, wetted area and form coefficients. Draft
is the depth of the hull's lowest point. The craft's own mass does not enter; its
CG does, in the moments. Breadth is each hull's own, added up.`,
		Example: `  millpond table craft.toml
  millpond table craft.toml --from 20mm --to 70mm --step 10mm --trim 0deg --trim 3deg
  millpond table hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm --csv table.csv`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			r := tableReport{trial: trial}
			if len(trims) == 0 {
				trims = []string{"0 deg"}
			}
			for _, text := range trims {
				trim, err := unit.Parse(unit.Angle, text)
				if err != nil {
					return fmt.Errorf("--trim: %w", err)
				}
				drafts, err := draftRange(floatDepth(trial, trim), from, to, step)
				if err != nil {
					return err
				}
				rows, err := trial.Body.Table(trim, drafts)
				if err != nil {
					return err
				}
				r.rows = append(r.rows, rows...)
			}
			if csvPath != "" {
				if err := writeTo(csvPath, plot.force, r.csv); err != nil {
					return err
				}
			}
			if plot.path != "" {
				fig, err := r.figure()
				if err != nil {
					return err
				}
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{warnings: f.Warnings, text: r.text, json: r.json()}, asJSON)
		},
	}
	src.flags(c)
	plot.flags(c, "the curves, and the section areas at rest,")
	c.Flags().Var(&from, "from", "least `draft` (default a tenth of the floats' depth)")
	c.Flags().Var(&to, "to", "largest `draft` (default the floats' depth)")
	c.Flags().Var(&step, "step", "`step` between drafts (default a tenth of the floats' depth)")
	c.Flags().StringArrayVar(&trims, "trim", nil, "`trim` to set it to, nose up; may be repeated (default 0 deg)")
	c.Flags().StringVar(&csvPath, "csv", "", "also write the table to `FILE` as CSV, SI units")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// lengthFlag is a flag that takes a length with its unit; empty when not
// given.
type lengthFlag string

func (l *lengthFlag) String() string { return string(*l) }
func (l *lengthFlag) Type() string   { return "length" }
func (l *lengthFlag) Set(text string) error {
	v, err := unit.Parse(unit.Length, text)
	if err != nil {
		return err
	}
	if !(v > 0) {
		return fmt.Errorf("%s must be over zero", text)
	}
	*l = lengthFlag(text)
	return nil
}

// or returns the length given, or another one.
func (l *lengthFlag) or(other float64) float64 {
	if *l == "" {
		return other
	}
	v, err := unit.Parse(unit.Length, string(*l))
	if err != nil {
		panic(err) // Set has parsed it
	}
	return v
}

// floatDepth returns the height of the flotation from its lowest to its highest
// point at a trim; of all that displaces where nothing is marked as flotation.
func floatDepth(t *design.Trial, trim float64) float64 {
	floats := hydro.Surface(t.Craft.Flotation())
	if len(floats) == 0 {
		return t.Body.Hull.Depth(trim)
	}
	up := hydro.UpVector(trim, 0)
	low, _ := floats.Clearance(hydro.Attitude{Up: up})
	high, _ := floats.Clearance(hydro.Attitude{Up: r3.Scale(-1, up)})
	return -high - low
}

// mostDrafts keeps a slip in a step from asking for a million rows.
const mostDrafts = 1000

// draftRange returns the drafts that the flags ask for.
func draftRange(depth float64, from, to, step lengthFlag) ([]float64, error) {
	lo, hi, by := from.or(depth/10), to.or(depth), step.or(depth/10)
	if lo > hi {
		return nil, fmt.Errorf("drafts from %s to %s: the range is empty", unit.Format(unit.Length, lo), unit.Format(unit.Length, hi))
	}
	n := math.Floor((hi-lo)/by+1e-9) + 1
	if n > mostDrafts {
		return nil, fmt.Errorf("a step of %s makes %.0f drafts, more than %d: take a larger one", unit.Style{Fine: true}.Format(unit.Length, by), n, mostDrafts)
	}
	var out []float64
	for i := range int(n) {
		out = append(out, lo+by*float64(i))
	}
	return out, nil
}
