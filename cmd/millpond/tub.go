package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newTub(t terminal) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "tub CRAFT.toml READINGS.toml",
		Short: "Mass and CG of the built craft, from readings in a bathtub and on scales",
		Long: `Reads back what the craft came out as: where the water meets it in a tub, the
heel when a known weight is moved across, the loads on scales. Fits mass and CG
with their uncertainty, compares them with the craft file, and says what would
explain a difference. It prints lines to paste into the craft file and changes
nothing itself.

READINGS.toml holds [[mark]], [[level]], [[shift]] and [[weighing]] tables; the
demo's tub.toml shows each. Tolerances are two standard deviations. Read a mark
from below the surface: the water climbs 1 to 4 mm up a wetted side. Unplug the
motor before you reach in.`,
		Example: `  millpond tub craft.toml tub.toml`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("%s needs a craft file and a file of readings\nsee: %s --help", c.CommandPath(), c.CommandPath())
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			readings, err := craftfile.ReadReadings(args[1], f.Craft)
			if err != nil {
				return err
			}
			r, err := newTubReport(trial, readings)
			if err != nil {
				return fmt.Errorf("%s: %w", args[1], err)
			}
			return t.show(reply{warnings: f.Warnings, text: r.text, json: r.json()}, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// tubReport is what `tub` has to say. Parts that were not measured are nil.
type tubReport struct {
	trial    *design.Trial
	readings *craftfile.Readings
	fit      *hydro.TubFit
	tub      hydro.Tub
	alone    *hydro.TubFit // without the scale, when there is one and marks enough
	suspect  *hydro.Suspect
	incline  *hydro.Inclining
	weighed  *hydro.Weighed
}

func newTubReport(t *design.Trial, q *craftfile.Readings) (*tubReport, error) {
	r := &tubReport{trial: t, readings: q}
	built := t.Craft.Built()
	if len(q.Weighings) > 0 {
		w, err := hydro.Weigh(q.Weighings)
		if err != nil {
			return nil, err
		}
		r.weighed = w
	}
	if len(q.Marks)+len(q.Levels) > 0 {
		r.tub = hydro.Tub{
			Hull: t.Body.Hull, Marks: q.Marks, Levels: q.Levels, Scale: q.Scale,
			Density:  hydro.Reading{Value: q.Water.Density, Sigma: q.DensitySigma},
			CGHeight: hydro.Reading{Value: built.At.Z, Sigma: q.CGHeightSigma},
		}
		if r.weighed != nil && r.weighed.HasHeight {
			r.tub.CGHeight = hydro.Reading{Value: r.weighed.CG.Z, Sigma: r.weighed.Sigma.Z}
		}
		fit, err := r.tub.Fit()
		if err != nil {
			return nil, err
		}
		r.fit = fit
		if q.Scale != nil {
			less := r.tub
			less.Scale = nil
			if alone, err := less.Fit(); err == nil {
				r.alone = alone
			} else if !errors.Is(err, hydro.ErrMarks) {
				return nil, err
			}
		}
		if s, ok := r.tub.Misread(); ok {
			r.suspect = &s
		}
	}
	if len(q.Shifts) > 0 {
		body := *t.Body
		body.Mass, body.CG, body.Density = built.Mass, built.At, q.Water.Density
		if r.fit != nil {
			body.Mass, body.CG = r.fit.Mass.Value, r.fit.CG
		} else if q.Scale != nil {
			body.Mass = q.Scale.Value
		}
		i, err := body.Incline(q.Shifts)
		if err != nil {
			return nil, err
		}
		r.incline = i
	}
	return r, nil
}

func (r *tubReport) text(w io.Writer) {
	fmt.Fprintf(w, "%s as built, by %s\n\n", r.trial.Craft.Name, r.readings.Path)
	fine := unit.Style{Fine: true}
	length := func(v float64) string { return fine.Format(unit.Length, v) }
	within := func(v, sigma float64, k unit.Kind) string {
		d := fine.Display(k, v)
		return d.Number(v) + " ± " + d.Format(2*sigma)
	}
	if r.fit != nil {
		var fit, marks table
		fit.row("mass", within(r.fit.Mass.Value, r.fit.Mass.Sigma, unit.Mass), "1 mm over the waterplane is "+fine.Format(unit.Mass, r.fit.MassPerMM))
		fit.row("CG x", within(r.fit.CG.X, r.fit.Sigma.X, unit.Length))
		fit.row("CG y", within(r.fit.CG.Y, r.fit.Sigma.Y, unit.Length))
		fit.row("CG z", within(r.fit.CG.Z, r.fit.Sigma.Z, unit.Length), r.heightFrom())
		fit.row("trim", fine.Format(unit.Angle, r.fit.Trim()), "heel "+fine.Format(unit.Angle, r.fit.Heel()))
		fit.print(w, "From the tub (± two standard deviations)")
		for i, m := range r.readings.Marks {
			note := ""
			if r.suspect != nil && r.suspect.Mark == i {
				note = "does not fit the others: misread by " + length(r.suspect.Error) + "?"
			}
			marks.row(m.Name, signed(unit.Length, r.fit.Off[i]), note)
		}
		marks.print(w, "Marks off the fitted surface, up positive")
	}
	if r.incline != nil {
		var tab table
		tab.row("GM, transverse", within(r.incline.GM.Value, r.incline.GM.Sigma, unit.Length), "by moment over displacement and tan heel: "+within(r.incline.Plain.Value, r.incline.Plain.Sigma, unit.Length))
		tab.row("CG z", within(r.incline.CGZ.Value, r.incline.CGZ.Sigma, unit.Length))
		tab.row("CG y", within(r.incline.CGY.Value, r.incline.CGY.Sigma, unit.Length))
		tab.print(w, "From the shifted weight (± two standard deviations)")
	}
	if r.weighed != nil {
		var tab table
		tab.row("mass", within(r.weighed.Mass.Value, r.weighed.Mass.Sigma, unit.Mass))
		tab.row("CG x", within(r.weighed.CG.X, r.weighed.Sigma.X, unit.Length))
		tab.row("CG y", within(r.weighed.CG.Y, r.weighed.Sigma.Y, unit.Length))
		if r.weighed.HasHeight {
			tab.row("CG z", within(r.weighed.CG.Z, r.weighed.Sigma.Z, unit.Length))
		} else {
			tab.row("CG z", "not told", "needs a weighing tilted by some 15 deg")
		}
		tab.print(w, "From the scales (± two standard deviations)")
	}
	r.compare(w)
	mass, cg := r.best()
	fmt.Fprintf(w, "To go on with these, replace the masses in the craft file by:\n\n  [mass]\n  total = \"%s\"\n  cg = [\"%s\", \"%s\", \"%s\"]\n",
		fine.Format(unit.Mass, mass), length(cg.X), length(cg.Y), length(cg.Z))
}

// heightFrom says where the tub's height of the CG comes from.
func (r *tubReport) heightFrom() string {
	if r.weighed != nil && r.weighed.HasHeight {
		return "from the tilted weighing"
	}
	return "from the craft file; the tub cannot tell"
}
