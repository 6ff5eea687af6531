package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newCheck(t terminal) *cobra.Command {
	var asJSON bool
	var load loadingFlag
	c := &cobra.Command{
		Use:   "check CRAFT.toml",
		Short: "Does it meet the requirements in its craft file? Exits 1 on a miss",
		Long: `Judges every [[require]] of the craft file: value, bound, margin, pass or miss,
and how much mass can still be added at the CG before it is missed, or before the
craft goes over to another attitude. Exits 1 when any is missed or the craft does
not stay upright, so that it can stand before a machining job.`,
		Example: `  millpond check craft.toml && echo cut the foam
  millpond check craft.toml --loading all`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if len(f.Requirements) == 0 {
				return fmt.Errorf("%s states no requirements: add a [[require]] table, for example\n\n  [[require]]\n  what = \"reserve buoyancy\"\n  at_least = \"80 %%\"", args[0])
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			var all checkLoadings
			for _, t := range trials {
				all = append(all, newCheckReport(t, f.Requirements))
			}
			r := reply{warnings: append(f.Warnings, inLoadings(trials, design.Doubts)...), no: all.no(), text: all.text, json: all.json()}
			if len(all) == 1 {
				r.text, r.json = all[0].text, all[0].json()
			}
			return t.show(r, asJSON)
		},
	}
	load.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// checkReport is what `check` has to say.
type checkReport struct {
	trial    *design.Trial
	verdicts []design.Verdict
	rooms    []design.Room
	missed   int
	lying    string // how it lies when it does not stay upright, else empty
}

// newCheckReport judges all requirements in a trial.
func newCheckReport(t *design.Trial, asked []craftfile.Requirement) *checkReport {
	r := &checkReport{trial: t}
	if rest, err := t.Rest(); err == nil && !design.Upright(&rest.State) {
		r.lying = lies(rest.Up)
	}
	for _, q := range asked {
		v := q.Judge(t)
		r.verdicts = append(r.verdicts, v)
		room, err := q.Room(t)
		if err != nil {
			room = design.Room{Mass: math.NaN()}
		}
		r.rooms = append(r.rooms, room)
		if !v.Pass {
			r.missed++
		}
	}
	return r
}

func (r *checkReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s in %s, %s%s\n\n", craftTitle(t.Craft), t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t))
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
		tab.row(mark, requirementTitle(v.Requirement), value, bounds(v.Requirement), margin, roomText(v, r.rooms[i], style))
	}
	tab.print(w, "")
	if over := roomsOver(r.rooms, style); over != "" {
		fmt.Fprintln(w, over)
	}
	for _, v := range r.verdicts {
		var sinks *hydro.SinksError
		if v.Err != nil && !errors.As(v.Err, &sinks) {
			fmt.Fprintf(w, "%s has no value: %s\n", v.Title(), v.Err)
		} else if v.Err != nil {
			fmt.Fprintf(w, "%s\n", v.Err)
			break
		}
	}
	fmt.Fprintln(w, r.verdict())
	printRules(w, rulesOf(r.verdicts))
	fmt.Fprintln(w)
	floatSheetText(w, r.trial.Craft)
}

// no reports whether the answer is no. A craft on its back may meet every
// requirement that its file thinks of.
func (r *checkReport) no() bool { return r.missed > 0 || r.lying != "" }

// verdict sums up in one line.
func (r *checkReport) verdict() string {
	held := fmt.Sprintf("all %d requirements hold", len(r.verdicts))
	switch n := len(r.verdicts); {
	case r.missed > 0 && n == 1:
		held = "its one requirement is missed"
	case r.missed > 0:
		held = fmt.Sprintf("%d of %d requirements missed", r.missed, n)
	case n == 1:
		held = "its one requirement holds"
	}
	if r.lying != "" {
		return fmt.Sprintf("it does NOT STAY UPRIGHT: it rests %s (%s)", r.lying, held)
	}
	return held
}

// allRequired names n requirements together.
func allRequired(n int) string {
	if n == 1 {
		return "the one requirement"
	}
	return fmt.Sprintf("all %d requirements", n)
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
	case room.Over != nil:
		return "goes over at +" + mass(room.Mass)
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
		if v.Rule != nil {
			o.add("rule", v.Rule.Name)
			o.add("rule_says", v.Rule.Says)
			o.add("caution", design.Caution)
		}
		if !r.rooms[i].Never {
			o.number("mass_to_miss", unit.Mass, r.rooms[i].Mass)
		}
		if over := r.rooms[i].Over; over != nil {
			o.add("goes_over", goesOverJSON(over))
		}
		list = append(list, o)
	}
	var o object
	o.add("name", r.trial.Craft.Name)
	o.add("loading", loadingName(r.trial.Craft))
	o.number("mass", unit.Mass, r.trial.Body.Mass)
	o.add("pass", !r.no())
	if r.lying != "" {
		o.add("lies", r.lying)
	}
	o.add("requirements", list)
	o.add("float_sheets", floatSheetJSON(r.trial.Craft))
	return o
}
