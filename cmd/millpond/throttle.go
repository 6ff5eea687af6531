package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newThrottle(t terminal) *cobra.Command {
	var src source
	var load loadingFlag
	var asJSON bool
	var plot plotFlags
	var motors []string
	c := &cobra.Command{
		Use:   "throttle CRAFT.toml",
		Short: "What opening the throttle does: trim, drafts, what goes under, what buries it",
		Long: `Opens the throttle of all motors slowly, from rest to full and beyond, and
follows how the craft sinks, trims and heels: the thrust turns with it and
carries weight or adds to it, and the water drags below. Shows the thrust at
which each watched place goes under, the thrust beyond which no attitude holds,
and where it lands then. What that assumes of the motors, of drag and of inertia
is listed below the answer. Exits 1 when a place to keep dry goes under, or nothing
holds, at full throttle or before.

To check it with the motor running, tie the craft down and keep out of the
propeller's plane: it cuts, in water too.`,
		Example: `  millpond throttle craft.toml
  millpond throttle craft.toml --plot throttle.png
  millpond throttle craft.toml --loading all
  millpond throttle twin.toml --motor "port motor=30 %"`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			if !isCraftFile(args[0]) {
				if err := misnamed(args[0]); err != nil {
					return err
				}
				return fmt.Errorf("%s: throttle takes a craft file (.toml), where thrust lines are written; a mesh alone has none", args[0])
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			shares, err := motorShares(trial, motors)
			if err != nil {
				return err
			}
			if plot.path != "" && len(trials) > 1 {
				return fmt.Errorf("--plot draws one loading: name one with --loading")
			}
			var all throttleLoadings
			for _, one := range trials {
				r := &throttleReport{trial: one, shares: shares}
				if err := r.solve(); err != nil {
					return loadingError(trials, one, err)
				}
				all = append(all, r)
			}
			warnings := append(f.Warnings, inLoadings(trials, design.Doubts)...)
			if len(all) > 1 {
				return t.show(reply{warnings: warnings, no: all.no(), text: all.text, json: all.json()}, asJSON)
			}
			r := all[0]
			if plot.path != "" {
				fig := r.figure()
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{warnings: warnings, no: r.no(), text: r.text, json: r.json()}, asJSON)
		},
	}
	load.flags(c)
	plot.flags(c, "trim and clearances against thrust")
	c.Flags().StringArrayVar(&motors, "motor", nil, "open one motor less, as `\"NAME=30 %\"` of full throttle when the others are at full")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// loadingError names the loading in which something went wrong, when there are
// several.
func loadingError(trials []*design.Trial, t *design.Trial, err error) error {
	if len(trials) > 1 {
		return fmt.Errorf("loading %q: %w", loadingName(t.Craft), err)
	}
	return err
}

// motorShares reads how far each motor is opened; nil for all in full.
func motorShares(t *design.Trial, set []string) ([]float64, error) {
	if len(set) == 0 {
		return nil, nil
	}
	var names []string
	shares := make([]float64, len(t.Craft.Thrusts))
	for i, m := range t.Craft.Thrusts {
		names = append(names, m.Name)
		shares[i] = 1
	}
	for _, text := range set {
		name, share, ok := strings.Cut(text, "=")
		if !ok {
			return nil, fmt.Errorf("--motor %q: write the motor's name, an equals sign and its share of full throttle, such as --motor \"port motor=30 %%\"", text)
		}
		v, err := unit.Parse(unit.Share, strings.TrimSpace(share))
		if err != nil {
			return nil, fmt.Errorf("--motor %q: %w", text, err)
		}
		if !(v >= 0 && v <= 1) {
			return nil, fmt.Errorf("--motor %q: a throttle opens from 0 to 100 %%", text)
		}
		at := -1
		for i, n := range names {
			if strings.EqualFold(n, strings.TrimSpace(name)) {
				at = i
			}
		}
		if at < 0 {
			return nil, fmt.Errorf("--motor: no thrust line is called %q; %s", strings.TrimSpace(name), design.Offer(strings.TrimSpace(name), names))
		}
		shares[at] = v
	}
	return shares, nil
}
