package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newGrow(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var plot plotFlags
	var flags growFlags
	c := &cobra.Command{
		Use:   "grow CRAFT",
		Short: "What it does when the build gains mass and the CG moves",
		Long: `Every build gains mass on its plan, and its CG comes out some millimeters off.
Shows the angle of attack and the clearances that tell most for mass from
today's to 30 % more, added at the CG, and for the CG some millimeters fore and
aft, and up to where all requirements hold.`,
		Example: `  millpond grow craft.toml
  millpond grow craft.toml --plot grow.png
  millpond grow craft.toml --to 50% --shift 20mm --show draft --show "reserve buoyancy"`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			o, err := flags.read()
			if err != nil {
				return err
			}
			if err := plot.check(); err != nil {
				return err
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if _, err := trial.Rest(); err != nil {
				return err
			}
			if o.show, err = flags.results(trial); err != nil {
				return err
			}
			r := newGrowReport(f, trial, o)
			if plot.path != "" {
				fig := r.figure()
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{warnings: append(f.Warnings, design.Doubts(trial)...), text: r.text, json: r.json()}, asJSON)
		},
	}
	src.flags(c)
	flags.flags(c)
	plot.flags(c, "all of it over mass and CG")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// growFlags say how far mass and CG go, as written.
type growFlags struct {
	to, shift, at string
	show          []string
}

func (g *growFlags) flags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&g.to, "to", "30%", "how much `mass` is gained in the end: a share or a mass, as 500g")
	f.StringVar(&g.shift, "shift", "10mm", "how far the CG moves, fore and aft: a `length`")
	f.StringVar(&g.at, "at", "", "where the mass is added, as `x,y,z` (default at the CG)")
	f.StringArrayVar(&g.show, "show", nil, "a `RESULT` to show instead of those that tell most; may be repeated")
}

// growth says how far mass and CG go.
type growth struct {
	share float64 // of the mass, or
	mass  float64 // kg
	shift float64 // m
	at    *r3.Vec
	show  []design.Asked
}

func (g *growFlags) read() (growth, error) {
	var o growth
	var err error
	if o.share, err = unit.Parse(unit.Share, g.to); err != nil {
		o.share = 0
		if o.mass, err = unit.Parse(unit.Mass, g.to); err != nil {
			return o, fmt.Errorf("--to %s: write a share as 30%% or a mass as 500g", g.to)
		}
	}
	if !(o.share > 0 || o.mass > 0) || o.share > 100 || math.IsInf(o.mass, 0) {
		return o, fmt.Errorf("--to %s: the mass gained must be over zero, and at most a hundred times the craft's", g.to)
	}
	if o.shift, err = unit.Parse(unit.Length, g.shift); err != nil {
		return o, fmt.Errorf("--shift: %w", err)
	}
	if !(o.shift > 0) || math.IsInf(o.shift, 0) {
		return o, fmt.Errorf("--shift %s: the CG must move by more than zero", g.shift)
	}
	if g.at != "" {
		p, err := unit.ParseVector(g.at, "")
		if err != nil {
			return o, fmt.Errorf("--at: %w", err)
		}
		o.at = &p
	}
	return o, nil
}

// results returns what is to be shown of the craft.
func (g *growFlags) results(t *design.Trial) ([]design.Asked, error) {
	if len(g.show) == 0 {
		return design.Telling(t), nil
	}
	var out []design.Asked
	for _, text := range g.show {
		a, err := design.Find(t.Craft, text)
		if err != nil {
			return nil, fmt.Errorf("--show: %w", err)
		}
		out = append(out, a)
	}
	return out, nil
}
