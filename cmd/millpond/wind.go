package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newWind(t terminal) *cobra.Command {
	var src source
	var load loadingFlag
	var asJSON bool
	var plot plotFlags
	var flags windFlags
	c := &cobra.Command{
		Use:   "wind CRAFT.toml",
		Short: "What the wind does to it at rest: heel and pitch, gusts, what goes under, what turns it over",
		Long: `Lays the craft to the wind from all sides, its heading held, and shows how
it heels and pitches in a steady wind and how far a gust of the same speed out of
still air throws it; then the speeds at which the first place or float goes under
and at which it goes over. Drag is that of the outline above the water, or of
areas stated in the craft file; the wing's own lift is in it when the craft file
has a [wing]. What that assumes of the air, the water's answer and the wing is
listed below the answer. Exits 1 when at the given speed, steady or as a gust, the craft
goes over or a place to keep dry or a float goes under.`,
		Example: `  millpond wind craft.toml
  millpond wind craft.toml --speed 12kn --measured-at 10m
  millpond wind craft.toml --from 90deg --plot wind.png`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			if !isCraftFile(args[0]) {
				if err := misnamed(args[0]); err != nil {
					return err
				}
				return fmt.Errorf("%s: wind takes a craft file (.toml), which tells what stands in it; for a bare hull write one with a single [[part]]", args[0])
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
				return fmt.Errorf("wind takes one loading at a time: name one with --loading")
			}
			r := &windReport{trial: trials[0]}
			if err := flags.read(r); err != nil {
				return err
			}
			if err := r.solve(); err != nil {
				return err
			}
			warnings := append(f.Warnings, design.Doubts(r.trial)...)
			if plot.path != "" {
				fig := r.figure()
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{warnings: append(warnings, r.warnings()...), no: r.no(), text: r.text, json: r.json()}, asJSON)
		},
	}
	load.flags(c)
	flags.flags(c)
	plot.flags(c, "heel, trim and clearances against wind speed from the worst direction, or from --from,")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// windFlags say which wind is wanted, as written.
type windFlags struct{ speed, from, measured string }

func (w *windFlags) flags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&w.speed, "speed", "5 m/s", "`speed` of the wind to show the attitude in, as 5m/s, 10kn or 12mph")
	f.StringVar(&w.measured, "measured-at", "", "the `height` over the water at which that speed was measured, as 10m for a forecast's (default: where it acts, see [wind])")
	f.StringVar(&w.from, "from", "", "only from this `angle`, clockwise from ahead: 90deg is from starboard (default: every 45 deg)")
}

// read sets what the flags say.
func (w *windFlags) read(r *windReport) error {
	wind := r.trial.Craft.Wind
	speed, err := unit.Parse(unit.Speed, w.speed)
	switch {
	case err != nil:
		return fmt.Errorf("--speed: %w", err)
	case !(speed >= 0 && speed <= hydro.Hurricane):
		return fmt.Errorf("--speed is %s, it must be from 0 to %g m/s", w.speed, float64(hydro.Hurricane))
	}
	if w.measured != "" {
		h, err := unit.Parse(unit.Length, w.measured)
		switch {
		case err != nil:
			return fmt.Errorf("--measured-at: %w", err)
		case !(h > wind.Rough() && h <= 1000):
			return fmt.Errorf("--measured-at is %s, it must be over the roughness of the water and at most 1000 m", w.measured)
		}
		speed = hydro.WindAt(wind.Measured(), speed, h, wind.Rough())
	}
	r.speed = speed
	if r.froms, err = r.trial.Quarters(); err != nil {
		return err
	}
	if w.from != "" {
		from, err := unit.Parse(unit.Angle, w.from)
		if err != nil {
			return fmt.Errorf("--from: %w", err)
		}
		if !(from >= -2*math.Pi && from <= 2*math.Pi) {
			return fmt.Errorf("--from is %s, it must be within 360 deg of ahead", w.from)
		}
		r.froms = []float64{math.Mod(from+4*math.Pi, 2*math.Pi)}
	}
	return nil
}
