package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newSure(t terminal) *cobra.Command {
	var asJSON bool
	var samples int
	var seed uint64
	var least string
	c := &cobra.Command{
		Use:   "sure CRAFT.toml",
		Short: "How sure: bands on the results, and the chance that each requirement holds",
		Long: `Builds the craft many times over with its inputs as uncertain as the [[tolerance]]
tables of the craft file say, and shows where 95 % of the builds come out, the
chance that each requirement holds, and which input matters most. The same by
derivatives at today's design stands beside, to check one by the other. The
answer is as good as the distributions assumed: they are shown with it.`,
		Example: `  millpond sure craft.toml
  millpond sure craft.toml --samples 5000 --at-least 95%   exits 1 when a chance is less`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			var src source
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if len(f.Tolerances) == 0 {
				return fmt.Errorf("%s states no tolerances: add a [[tolerance]] table, for example\n\n  [[tolerance]]\n  what = \"mass of battery\"\n  within = \"20 g\" # two standard deviations", args[0])
			}
			if samples < 100 || samples > 1_000_000 {
				return fmt.Errorf("--samples %d: from 100 to 1000000 are wanted", samples)
			}
			r := sureReport{trial: trial, file: f, seed: seed}
			if least != "" {
				if r.least, err = unit.Parse(unit.Share, least); err != nil {
					return fmt.Errorf("--at-least: %w", err)
				}
			}
			d := design.Doubt{Craft: f.Craft, Tolerances: f.Tolerances, Show: design.Usual(f.Craft), Samples: samples, Seed: seed}
			for _, q := range f.Requirements {
				d.Requirements = append(d.Requirements, q.Requirement)
			}
			if r.sure, err = d.Work(c.Context()); err != nil {
				return err
			}
			return t.show(reply{warnings: append(f.Warnings, design.Doubts(trial)...), no: r.misses() > 0, text: r.text, json: r.json()}, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	c.Flags().IntVar(&samples, "samples", 1000, "how `many` times it is built")
	c.Flags().Uint64Var(&seed, "seed", 1, "of the random numbers: the same one gives the same answer")
	c.Flags().StringVar(&least, "at-least", "", "exit 1 when the `chance` of a requirement is less, as 95%")
	return c
}

// sureReport is what `sure` has to say.
type sureReport struct {
	trial *design.Trial
	file  *craftfile.File
	sure  *design.Sureness
	seed  uint64
	least float64 // chance asked of each requirement, 0 for none
}

// misses counts the requirements whose chance is less than asked, and staying
// upright as one of them.
func (r *sureReport) misses() int {
	n := 0
	if up := r.sure.Samples - r.sure.NoRest - r.sure.Fallen; float64(up) < r.least*float64(r.sure.Samples) {
		n++
	}
	for _, c := range r.sure.Chances {
		if c.Holds < r.least {
			n++
		}
	}
	return n
}

func (r *sureReport) text(w io.Writer) {
	t := r.trial
	fmt.Fprintf(w, "%s in %s: how sure, from %d builds (seed %d)\n\n", t.Craft.Name, t.Craft.Water.Name, r.sure.Samples, r.seed)
	r.assumed().print(w, "What may come out otherwise")
	r.bands().print(w, "Where it comes out (± is two standard deviations)")
	for _, lost := range r.lost() {
		fmt.Fprintf(w, "%s\n\n", lost)
	}
	r.chances().print(w, "Requirements")
	r.matters().print(w, "What matters most (share of the scatter)")
}

// assumed is the table of distributions.
func (r *sureReport) assumed() *table {
	var tab table
	tab.row("", "today", "assumed")
	for _, q := range r.file.Tolerances {
		now, err := q.Now(r.trial.Craft)
		if err != nil {
			continue
		}
		tab.row(q.Title(), show(q.Kind, now), q.Assumed())
	}
	return &tab
}

// bands is the table of where results come out.
func (r *sureReport) bands() *table {
	var tab table
	tab.row("", "today", "95 % of builds", "", "± by derivatives")
	for _, b := range r.sure.Bands {
		tab.row(b.Title(), show(b.Kind, b.Today), show(b.Kind, b.Low)+" to", show(b.Kind, b.High), show(b.Kind, 2*b.Linear))
	}
	return &tab
}

// lost says how many builds find no rest, and how many none upright.
func (r *sureReport) lost() []string {
	var out []string
	say := func(n int, what string) {
		if n > 0 {
			out = append(out, fmt.Sprintf("%d of %d builds %s; they miss every requirement.", n, r.sure.Samples, what))
		}
	}
	say(r.sure.NoRest, "sink or find no rest")
	say(r.sure.Fallen, "DO NOT STAY UPRIGHT")
	if n := len(out); r.sure.Fallen > 0 && r.sure.Ranged == r.sure.Samples-r.sure.NoRest-r.sure.Fallen {
		out[n-1] += fmt.Sprintf(" What comes out is shown of the %d that do.", r.sure.Ranged)
	}
	return out
}

// chances is the table of how likely requirements hold, empty without any.
func (r *sureReport) chances() *table {
	var tab table
	if len(r.sure.Chances) == 0 {
		return &tab
	}
	tab.row("", "chance that it holds", "by derivatives", "")
	for _, c := range r.sure.Chances {
		mark := ""
		if c.Holds < r.least {
			mark = "less than " + unit.Format(unit.Share, r.least)
		}
		tab.row(c.Title()+" "+bounds(c.Requirement), chanceText(c.Holds, r.sure.Samples), chanceText(c.Linear, 0), mark)
	}
	return &tab
}

// matters is the table of what accounts for most of each band.
func (r *sureReport) matters() *table {
	var tab table
	for _, b := range r.sure.Bands {
		if line := r.foremost(b); line != "" {
			tab.row(b.Title(), line)
		}
	}
	return &tab
}

// chanceText shows a chance; of n samples none or all say no more than that
// fewer than 3 in n differ (the rule of three for 95 % confidence).
func chanceText(p float64, n int) string {
	if math.IsNaN(p) {
		return "-"
	}
	text := unit.Decimal(100*p, 1) + " %"
	if n > 0 && (p == 0 || p == 1) {
		text += fmt.Sprintf(" (± %s %%)", unit.Decimal(300/float64(n), 1))
	}
	return text
}

// foremost names the tolerances that account for most of a band.
func (r *sureReport) foremost(b design.Band) string {
	order := make([]int, len(b.Shares))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case b.Shares[i] > b.Shares[j]:
			return -1
		case b.Shares[i] < b.Shares[j]:
			return 1
		}
		return 0
	})
	var words []string
	for _, i := range order[:min(3, len(order))] {
		if b.Shares[i] >= 0.01 {
			words = append(words, fmt.Sprintf("%s %s", r.file.Tolerances[i].Text(), unit.Format(unit.Share, b.Shares[i])))
		}
	}
	return strings.Join(words, ", ")
}

func (r *sureReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	o.add("samples", r.sure.Samples)
	o.add("seed", r.seed)
	o.add("without_rest", r.sure.NoRest)
	o.add("not_upright", r.sure.Fallen)
	o.add("in_bands", r.sure.Ranged)
	assumed := []object{}
	for _, q := range r.file.Tolerances {
		now, err := q.Now(r.trial.Craft)
		if err != nil {
			continue
		}
		var a object
		a.add("what", q.Text())
		a.number("today", q.Kind, now)
		if q.Within > 0 {
			a.add("distribution", "normal")
			a.number("two_sigma", q.Kind, q.Within)
		} else {
			a.add("distribution", "even")
			a.number("from", q.Kind, q.From)
			a.number("to", q.Kind, q.To)
		}
		assumed = append(assumed, a)
	}
	o.add("assumed", assumed)
	bands := []object{}
	for _, b := range r.sure.Bands {
		var q object
		q.add("what", b.Text())
		q.number("today", b.Kind, b.Today)
		q.number("mean", b.Kind, b.Mean)
		q.number("sigma", b.Kind, b.Sigma)
		q.number("low", b.Kind, b.Low)
		q.number("high", b.Kind, b.High)
		q.number("linear_sigma", b.Kind, b.Linear)
		shares := []object{}
		for i, s := range b.Shares {
			var v object
			v.add("of", r.file.Tolerances[i].Text())
			v.number("share", unit.Share, s)
			v.add("exact_derivative", b.Exact[i])
			shares = append(shares, v)
		}
		q.add("shares", shares)
		bands = append(bands, q)
	}
	o.add("bands", bands)
	chances := []object{}
	for _, c := range r.sure.Chances {
		var q object
		q.add("what", c.Text())
		q.number("chance", unit.Share, c.Holds)
		q.number("chance_error", unit.Share, c.Error)
		q.number("linear_chance", unit.Share, c.Linear)
		chances = append(chances, q)
	}
	o.add("requirements", chances)
	return o
}
