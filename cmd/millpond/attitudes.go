package main

import (
	"github.com/spf13/cobra"

	"millpond/hydro/design"
)

func newAttitudes(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var plot plotFlags
	c := &cobra.Command{
		Use:   "attitudes CRAFT",
		Short: "Every way it can float, and what it takes to tip it from upright into the others",
		Long: `Finds all attitudes in which the craft can stay: upright, on its back, on a side,
on its nose, least energy first. Shows for each draft, trim, heel, the least GM,
which watched places are wet, and the lowest pass of the energy between it and
upright: what a wave or a hand must put in to tip the craft over, and what it
takes to bring it back. Exits 1 when it does not stay upright.`,
		Example: `  millpond attitudes craft.toml
  millpond attitudes craft.toml --plot attitudes.png
  millpond attitudes hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm --json`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			all, err := trial.Body.Attitudes()
			if err != nil {
				return err
			}
			r := attitudesReport{trial: trial, all: all}
			warnings := f.Warnings
			if !all.Complete {
				warnings = append(warnings, r.incomplete())
			}
			if plot.path != "" {
				fig := r.figure()
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{
				warnings: warnings,
				no:       !design.Upright(&all.List[all.Upright].State),
				text:     r.text, json: r.json(),
			}, asJSON)
		},
	}
	src.flags(c)
	plot.flags(c, "each attitude from two sides")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}
