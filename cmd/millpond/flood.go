package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newFlood(t terminal) *cobra.Command {
	var asJSON bool
	var plot plotFlags
	var load loadingFlag
	var flags floodFlags
	c := &cobra.Command{
		Use:   "flood CRAFT.toml",
		Short: "What becomes of it with a compartment full of water",
		Long: `Floods each compartment of the craft file in turn and shows how the craft then
lies, what reserve is left, which points are under, and whether it stays afloat
and upright. Water can be in a compartment in three ways, shown one after the
other:

  open     holed: it stands inside as high as outside, and what displaced there
           displaces no more
  trapped  some got in and is shut in, free to run to the low side
  soaked   foam has drunk it: it weighs, and stays where it is

A point with "feeds" in the craft file opens its compartment to the sea when it
goes under, and so on until the water stops. A craft that leans by more than
45 deg counts as capsized. Exits 1 when it capsizes or sinks in any of the
floodings shown. A lithium battery that has been under water may burn hours
later.`,
		Example: `  millpond flood craft.toml
  millpond flood craft.toml --pairs --way open
  millpond flood craft.toml --way trapped --trapped 0.3L
  millpond flood craft.toml --compartment "port bow" --plot flooded.png
  millpond flood craft.toml --loading all`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			if plot.path != "" && (len(flags.compartments) == 0 || len(trials) > 1) {
				return fmt.Errorf("--plot draws one flooding: name what is flooded with --compartment, and one loading at most")
			}
			var reports floodLoadings
			for _, t := range trials {
				r := &floodReport{trial: t}
				if err := flags.solve(r); errors.As(err, new(*design.NoSpaceError)) {
					return fmt.Errorf("%s: %w, for example\n\n  [[compartment]]\n  name = \"bow\"\n  part = %q\n  from = \"100 mm\" # along the part's own x; to its front end\n  permeability = 0.95 # of an empty one; 0.05 of one full of foam", args[0], err, f.Craft.Parts[0].Name)
				} else if err != nil {
					return err
				}
				reports = append(reports, r)
			}
			if plot.path != "" {
				fig := reports[0].figure()
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			out := reply{warnings: append(f.Warnings, inLoadings(trials, design.Doubts)...), no: reports.lost(), text: reports.text, json: reports.json()}
			if len(reports) == 1 {
				out.text, out.json = reports[0].text, reports[0].json()
			}
			return t.show(out, asJSON)
		},
	}
	flags.flags(c)
	load.flags(c)
	plot.flags(c, "side, front and plan views as flooded")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// floodFlags say what is flooded and how, as written.
type floodFlags struct {
	pairs           bool
	ways            []string
	compartments    []string
	trapped, soaked string
}

// wayNames are the ways on the command line, by hydro.Way.
var wayNames = []string{"open", "trapped", "soaked"}

func (f *floodFlags) flags(c *cobra.Command) {
	fl := c.Flags()
	fl.BoolVar(&f.pairs, "pairs", false, "also flood every two compartments together")
	fl.StringSliceVar(&f.ways, "way", nil, "in which `WAY`: open, trapped or soaked (default all three)")
	fl.StringArrayVar(&f.compartments, "compartment", nil, "flood this one `NAME` only, as \"port bow\"; more than one are flooded together")
	fl.StringVar(&f.trapped, "trapped", "50%", "how much `WATER` is trapped: a share of what fits, or an amount as 300g or 0.3L")
	fl.StringVar(&f.soaked, "soaked", "5%", "what `SHARE` of its volume is soaked")
	complete(c, "way", wayNames...)
}

// solve computes all floodings that the flags ask for.
func (f *floodFlags) solve(r *floodReport) error {
	spaces, err := r.trial.Spaces()
	if err != nil {
		return err
	}
	if _, err := r.trial.Rest(); err != nil {
		return err
	}
	ways, err := f.chosen()
	if err != nil {
		return err
	}
	if r.intact, err = r.trial.Flood(nil); err != nil {
		return err
	}
	groups, err := f.groups(r.trial.Craft.SpaceNames())
	if err != nil {
		return err
	}
	for _, way := range ways {
		b := floodBlock{way: way, note: f.note(way)}
		for _, g := range groups {
			var in []hydro.Flooding
			for _, s := range g {
				share, err := f.share(way, &spaces[s].Space, r.trial.Body.Density)
				if err != nil {
					return err
				}
				in = append(in, hydro.Flooding{Space: s, Way: way, Share: share})
			}
			one, err := r.trial.Flood(in)
			if err != nil {
				return err
			}
			b.cases = append(b.cases, one)
		}
		r.blocks = append(r.blocks, b)
	}
	return nil
}

// chosen reads the ways.
func (f *floodFlags) chosen() ([]hydro.Way, error) {
	if len(f.ways) == 0 {
		return []hydro.Way{hydro.Open, hydro.Trapped, hydro.Soaked}, nil
	}
	var out []hydro.Way
	for _, name := range f.ways {
		way := -1
		for i, w := range wayNames {
			if strings.EqualFold(w, strings.TrimSpace(name)) {
				way = i
			}
		}
		if way < 0 {
			return nil, fmt.Errorf("--way cannot be %q; %s", name, design.Offer(name, wayNames))
		}
		out = append(out, hydro.Way(way))
	}
	return out, nil
}

// groups returns the sets of spaces to flood together.
func (f *floodFlags) groups(names []string) ([][]int, error) {
	var out [][]int
	if len(f.compartments) > 0 {
		if f.pairs {
			return nil, fmt.Errorf("--pairs goes over all compartments; leave it out, or --compartment")
		}
		var one []int
		for _, name := range f.compartments {
			at := -1
			for i, n := range names {
				if strings.EqualFold(n, strings.Join(strings.Fields(name), " ")) {
					at = i
				}
			}
			if at < 0 {
				return nil, fmt.Errorf("--compartment: none is called %q; %s", name, design.Offer(name, names))
			}
			one = append(one, at)
		}
		return append(out, one), nil
	}
	for i := range names {
		out = append(out, []int{i})
	}
	if f.pairs {
		if err := design.CheckPairs(len(names)); err != nil {
			return nil, fmt.Errorf("--pairs: %w, with --compartment", err)
		}
		for i := range names {
			for j := i + 1; j < len(names); j++ {
				out = append(out, []int{i, j})
			}
		}
	}
	return out, nil
}

// share returns how much of a space is flooded.
func (f *floodFlags) share(way hydro.Way, s *hydro.Space, density float64) (float64, error) {
	if way == hydro.Open {
		return 0, nil
	}
	text, flag := f.trapped, "--trapped"
	if way == hydro.Soaked {
		text, flag = f.soaked, "--soaked"
	}
	v, err := unit.Parse(unit.Share, text)
	if err != nil && way == hydro.Trapped {
		room := s.Permeability * s.Volume()
		volume, verr := unit.Parse(unit.Volume, text)
		mass, merr := unit.Parse(unit.Mass, text)
		switch {
		case verr == nil:
			err = nil
			v = min(volume/room, 1) // what does not fit stays out
		case merr == nil:
			err = nil
			v = min(mass/density/room, 1)
		}
		if volume < 0 || mass < 0 {
			return 0, fmt.Errorf("%s is negative: %q", flag, text)
		}
	}
	switch {
	case err != nil:
		return 0, fmt.Errorf("%s: %w", flag, err)
	case !(v >= 0 && v <= 1):
		return 0, fmt.Errorf("%s lies between 0 %% and 100 %%, not at %q", flag, text)
	}
	return v, nil
}

// note says how much water a way stands for.
func (f *floodFlags) note(way hydro.Way) string {
	switch way {
	case hydro.Trapped:
		if _, err := unit.Parse(unit.Share, f.trapped); err == nil {
			return f.trapped + " of what fits"
		}
		return f.trapped + ", or what fits"
	case hydro.Soaked:
		return f.soaked + " of its volume"
	}
	return ""
}
