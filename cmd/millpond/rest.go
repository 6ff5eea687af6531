package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newRest(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var plot plotFlags
	var at string
	var load loadingFlag
	c := &cobra.Command{
		Use:   "rest CRAFT",
		Short: "How it rests on the water: draft, trim, heel, what is left, what stays dry",
		Long: `Solves how deep, at what trim and at what heel the craft rests, as reached from
level by always falling, and shows what is left: reserve buoyancy, clearances,
the mass that can be added before the first place goes under, and how all of it
moves with mass and CG.`,
		Example: `  millpond rest craft.toml
  millpond rest craft.toml --plot rest.png
  millpond rest craft.toml --loading all
  millpond rest hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm --json`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			if len(trials) > 1 {
				if plot.path != "" {
					return fmt.Errorf("--plot draws one loading: name one with --loading")
				}
				r := restLoadings{trials}
				warnings := append(f.Warnings, inLoadings(trials, design.Doubts)...)
				return t.show(reply{warnings: warnings, no: !stands(trials...), text: r.text, json: r.json()}, asJSON)
			}
			trial = trials[0]
			if _, err := trial.Rest(); err != nil {
				return err
			}
			r := restReport{trial: trial, warnings: append(f.Warnings, design.Doubts(trial)...)}
			if at != "" {
				p, err := unit.ParseVector(at, "")
				if err != nil {
					return fmt.Errorf("--add-at: %w", err)
				}
				r.addAt = &p
			}
			if err := plot.profile(trial); err != nil {
				return err
			}
			return t.show(reply{warnings: r.warnings, no: !stands(trial), text: r.text, json: r.json()}, asJSON)
		},
	}
	src.flags(c)
	load.flags(c)
	plot.flags(c, "side, front and plan views at rest")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	c.Flags().StringVar(&at, "add-at", "", "also show what mass added at this place moves, as `x,y,z`")
	return c
}

// text prints the report for people.
func (r *restReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s at rest in %s, %s%s\n\n", craftTitle(t.Craft), t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	var top, left table
	for _, key := range []string{"trim", "heel", "angle of attack", "draft", "displaced volume", "waterplane area", "wetted area", "gm transverse", "gm longitudinal", "gm least"} {
		r.line(&top, key, style)
	}
	top.print(w, "How it sits")
	r.stations(style).print(w, "Drafts")
	r.clearances(style).print(w, "Height above the water (under 5 mm is within the water's own skin)")
	r.angles(style).print(w, "Angle to the water, front end up")
	for _, key := range []string{"reserve buoyancy", "whole reserve buoyancy", "mass to first wet"} {
		r.line(&left, key, style)
	}
	left.print(w, "What is left")
	r.parts(style).print(w, "By part")
	r.moves(style).print(w, "What moves it")
	r.others(style).print(w, "Level is balanced but unstable: it falls to either side. The other rests")
}

// line adds one result of the craft, with a remark where one helps. A result
// that the craft has no answer for is left out.
func (r *restReport) line(tab *table, key string, style unit.Style) {
	a, err := design.Find(r.trial.Craft, key)
	if err != nil {
		panic(err) // a key of our own that is no row
	}
	v, err := a.Value(r.trial)
	if err != nil {
		return
	}
	tab.row(a.Title(), style.Format(a.Kind, v), r.remark(key, style))
}
