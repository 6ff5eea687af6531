package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newRight(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var plot plotFlags
	var flags rightFlags
	var load loadingFlag
	c := &cobra.Command{
		Use:   "right CRAFT",
		Short: "The righting curve: how far it can be heeled or pitched and still come back",
		Long: `Heels the craft from rest to either side, free to sink and trim (or pitches it,
free to sink and roll), and shows the righting arm GZ and moment, the largest
and where stability vanishes, and the angle at which each watched place goes
under. Stability vanishes where GZ reaches zero, or where the craft leaps to
another attitude and, let go there, does not come back: what the curve shows
beyond a leap counts for nothing. Exits 1 when the craft does not rest upright.`,
		Example: `  millpond right craft.toml
  millpond right craft.toml --plot right.png --areas 10deg,20deg
  millpond right craft.toml --axis pitch --step 5deg
  millpond right craft.toml --loading all
  millpond right hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm --json`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			options, rows, areas, err := flags.read()
			if err != nil {
				return err
			}
			if err := plot.check(); err != nil {
				return err
			}
			if flags.wind != "" && (plot.path == "" || flags.axis != "heel") {
				return fmt.Errorf("--wind draws a heeling arm into the plot of heel: give --plot FILE with it, and no --axis pitch")
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			if len(trials) > 1 {
				if plot.path != "" || flags.axis != "heel" {
					return fmt.Errorf("several loadings are shown side by side, for heel and without a plot: name one loading for --plot or --axis %s", flags.axis)
				}
				r := rightLoadings{trials}
				return t.show(reply{
					warnings: append(f.Warnings, inLoadings(trials, design.Doubts)...),
					no:       !r.upright(), text: r.text, json: r.json(),
				}, asJSON)
			}
			trial = trials[0]
			rest, err := trial.Rest()
			if err != nil {
				return err
			}
			r := rightReport{trial: trial, upright: design.Upright(&rest.State), rows: rows, thin: flags.step != ""}
			if err := r.solve(rest, options, areas); err != nil {
				return err
			}
			if plot.path != "" {
				fig := r.figure()
				if err := r.heeling(fig, flags.wind); err != nil {
					return err
				}
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{
				warnings: append(f.Warnings, design.Doubts(trial)...),
				no:       !r.upright, text: r.text, json: r.json(),
			}, asJSON)
		},
	}
	src.flags(c)
	flags.flags(c)
	load.flags(c)
	plot.flags(c, "the curve")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// rightFlags say which curve is wanted, as written.
type rightFlags struct {
	axis, step, from, to, areas, wind string
}

func (r *rightFlags) flags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&r.axis, "axis", "heel", "turn it about which `axis`: heel or pitch")
	f.StringVar(&r.step, "step", "", "`angle` between the points of the curve, all of them shown (default: some 160 points, every few shown)")
	f.StringVar(&r.from, "from", "-180deg", "first `angle` of the curve")
	f.StringVar(&r.to, "to", "180deg", "last `angle` of the curve")
	f.StringVar(&r.areas, "areas", "", "also show the area under the curve from rest to these `angles`, as 10deg,20deg")
	f.StringVar(&r.wind, "wind", "", "draw the heeling arm of a beam wind of this `speed`, where it acts, into the plot")
	complete(c, "axis", "heel", "pitch")
}

// read returns what the flags say: the curve, how far apart the rows of its
// table are, and the angles to take areas to.
func (r *rightFlags) read() (o hydro.RightingOptions, rows float64, areas []float64, err error) {
	switch r.axis {
	case "heel":
		o.Axis = hydro.HeelAxis
	case "pitch":
		o.Axis = hydro.PitchAxis
	default:
		return o, 0, nil, fmt.Errorf("--axis is heel or pitch, not %q", r.axis)
	}
	angle := func(flag, text string, lo, hi float64) float64 {
		v, e := unit.Parse(unit.Angle, text)
		switch {
		case err != nil:
		case e != nil:
			err = fmt.Errorf("--%s: %w", flag, e)
		case !(v >= lo && v <= hi):
			err = fmt.Errorf("--%s is %s, it must be from %s to %s", flag, text, unit.Format(unit.Angle, lo), unit.Format(unit.Angle, hi))
		}
		return v
	}
	const half = math.Pi
	o.From = angle("from", r.from, -half, half)
	o.To = angle("to", r.to, -half, half)
	if err == nil && o.From >= o.To {
		err = fmt.Errorf("--from %s is not below --to %s", r.from, r.to)
	}
	if r.step == "" {
		rows, o.Step = spacing(o.To - o.From)
	} else if rows = angle("step", r.step, 0.1*math.Pi/180, math.Pi/2); err == nil {
		// The largest arm could hide between points farther apart.
		o.Step = rows / math.Ceil(rows/(2.5*math.Pi/180)-1e-9)
	}
	if r.areas != "" {
		for text := range strings.SplitSeq(r.areas, ",") {
			areas = append(areas, angle("areas", strings.TrimSpace(text), -half, half))
		}
	}
	return o, rows, areas, err
}

// spacing returns how far apart the rows of a curve's table and its points are
// when the user leaves it open: rows at round angles, points for a smooth
// picture.
func spacing(span float64) (rows, step float64) {
	const deg = math.Pi / 180
	switch {
	case span > 120*deg:
		return 10 * deg, 2 * deg
	case span > 50*deg:
		return 5 * deg, 0.5 * deg
	case span > 20*deg:
		return 2 * deg, 0.25 * deg
	}
	return deg, 0.1 * deg
}
