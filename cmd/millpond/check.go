package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newCheck(t terminal) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "check CRAFT.toml",
		Short: "Does it meet the requirements in its craft file? Exits 1 on a miss",
		Long: `Judges every [[require]] of the craft file: value, bound, margin, pass or miss,
and how much mass can still be added at the CG before it is missed. Exits 1 when
any is missed, so that it can stand before a machining job.`,
		Example: `  millpond check craft.toml && echo cut the foam`,
		Args:    oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if len(f.Requirements) == 0 {
				return fmt.Errorf("%s states no requirements: add a [[require]] table, for example\n\n  [[require]]\n  what = \"reserve buoyancy\"\n  at_least = \"80 %%\"", args[0])
			}
			r := checkReport{trial: trial}
			for _, q := range f.Requirements {
				v := q.Judge(trial)
				r.verdicts = append(r.verdicts, v)
				room, err := q.Room(trial)
				if err != nil {
					room = design.Room{Mass: math.NaN()}
				}
				r.rooms = append(r.rooms, room)
				if !v.Pass {
					r.missed++
				}
			}
			return t.show(reply{
				warnings: append(f.Warnings, design.Doubts(trial)...),
				no:       r.missed > 0, text: r.text, json: r.json(),
			}, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// checkReport is what `check` has to say.
type checkReport struct {
	trial    *design.Trial
	verdicts []design.Verdict
	rooms    []design.Room
	missed   int
}

func (r *checkReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s in %s, %s%s\n\n", t.Craft.Name, t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
	var tab table
	tab.row("", "requirement", "value", "bound", "margin", "mass to miss")
	for i, v := range r.verdicts {
		mark := "pass"
		if !v.Pass {
			mark = "MISS"
		}
		value, margin := "none", ""
		if v.Err == nil {
			value, margin = show(v.BoundKind(), v.Value), signed(v.BoundKind(), v.Margin)
		}
		tab.row(mark, v.Title(), value, bounds(v.Requirement), margin, roomText(v, r.rooms[i], style))
	}
	tab.print(w, "")
	for _, v := range r.verdicts {
		var sinks *hydro.SinksError
		if v.Err != nil && !errors.As(v.Err, &sinks) {
			fmt.Fprintf(w, "%s has no value: %s\n", v.Title(), v.Err)
		} else if v.Err != nil {
			fmt.Fprintf(w, "%s\n", v.Err)
			break
		}
	}
	if r.missed > 0 {
		fmt.Fprintf(w, "%d of %d requirements missed\n", r.missed, len(r.verdicts))
	} else {
		fmt.Fprintf(w, "all %d requirements hold\n", len(r.verdicts))
	}
}

// show prints a value one step finer than reports do, so that a value next to
// its bound is seen to be on its side.
func show(k unit.Kind, v float64) string {
	d := unit.Style{Fine: true}.Display(k, v)
	if k == unit.Share {
		d.Decimals = 1
	}
	return d.Format(v)
}

func signed(k unit.Kind, v float64) string {
	if v > 0 {
		return "+" + show(k, v)
	}
	return show(k, v)
}

func bounds(r design.Requirement) string {
	k := r.BoundKind()
	switch {
	case r.AtLeast != nil && r.AtMost != nil:
		return fmt.Sprintf("%s to %s", show(k, *r.AtLeast), show(k, *r.AtMost))
	case r.AtLeast != nil:
		return "at least " + show(k, *r.AtLeast)
	default:
		return "at most " + show(k, *r.AtMost)
	}
}

// roomText says how much mass can be added before a requirement is missed, or
// must come off before it holds.
func roomText(v design.Verdict, room design.Room, style unit.Style) string {
	mass := func(m float64) string { return style.Format(unit.Mass, math.Abs(m)) }
	switch {
	case math.IsNaN(room.Mass):
		return ""
	case room.Never && v.Pass:
		return "holds until it sinks"
	case room.Never:
		return "no lighter craft meets it"
	case v.Pass:
		return "+" + mass(room.Mass)
	}
	return mass(room.Mass) + " must come off"
}

func (r *checkReport) json() object {
	list := []object{}
	for i, v := range r.verdicts {
		o := object{{"what", v.Text()}, {"pass", v.Pass}}
		k := v.BoundKind()
		o.number("value", k, v.Value)
		if v.AtLeast != nil {
			o.number("at_least", k, *v.AtLeast)
		}
		if v.AtMost != nil {
			o.number("at_most", k, *v.AtMost)
		}
		o.number("margin", k, v.Margin)
		if v.Err != nil {
			o.add("reason", v.Err.Error())
		}
		if !r.rooms[i].Never {
			o.number("mass_to_miss", unit.Mass, r.rooms[i].Mass)
		}
		list = append(list, o)
	}
	var o object
	o.add("name", r.trial.Craft.Name)
	o.number("mass", unit.Mass, r.trial.Body.Mass)
	o.add("pass", r.missed == 0)
	o.add("requirements", list)
	return o
}
