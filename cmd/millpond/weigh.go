package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newWeigh(t terminal) *cobra.Command {
	var asJSON bool
	var load loadingFlag
	c := &cobra.Command{
		Use:   "weigh CRAFT.toml",
		Short: "The mass build-up: what each part and item weighs, and where the CG comes out",
		Long: `Adds up the craft: weighed parts as weighed, others from their meshes (core
density times volume, skin times area, a print's wall), items, and the growth
margin. Shows each line with its CG, totals by part, and the sum.`,
		Example: `  millpond weigh craft.toml
  millpond weigh craft.toml --json`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			var src source
			f, err := src.read(c, args[0])
			if err != nil {
				return err
			}
			trial, err := design.New(f.Craft)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			if len(trials) > 1 {
				return fmt.Errorf("weigh lists one loading: name one with --loading; rest shows the masses of several side by side")
			}
			r := weighReport{trials[0].Craft}
			return t.show(reply{warnings: f.Warnings, text: r.text, json: r.json()}, asJSON)
		},
	}
	load.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// weighReport is what `weigh` has to say.
type weighReport struct{ craft *craft.Craft }

func (r *weighReport) text(w io.Writer) {
	c := r.craft
	fmt.Fprintf(w, "%s mass build-up\n\n", weighTitle(c))
	style := unit.Style{}
	mm := func(v float64) string { return style.Display(unit.Length, v).Number(v) }
	gram := func(v float64) string { return unit.Display{Unit: mustMass("g"), Decimals: 0}.Format(v) }
	entry := func(tab *table, name, what string, m craft.Mass) {
		tab.row(name, what, gram(m.Mass), mm(m.At.X), mm(m.At.Y), mm(m.At.Z))
	}
	var tab, sum table
	head := []string{"part or item", "made of", "mass", "x mm", "y mm", "z mm"}
	if c.Stated == nil {
		tab.row(head...)
		for _, e := range c.Buildup() {
			entry(&tab, e.Of, e.What, e.Mass)
		}
		tab.print(w, "Lines (a mirrored part counts both sides)")
		var by table
		by.row("part", "", "mass", "x mm", "y mm", "z mm")
		for _, g := range craft.ByPart(c.Buildup()) {
			entry(&by, g.Of, fmt.Sprintf("%.0f %%", 100*g.Mass.Mass/c.Built().Mass), g.Mass)
		}
		by.print(w, "By part")
	}
	sum.row(head[:1][0], "", "mass", "x mm", "y mm", "z mm")
	built, loaded := c.Built(), c.Loaded()
	name := "as built up"
	if c.Stated != nil {
		name = "as stated"
	}
	entry(&sum, name, "", built)
	if c.Growth.Share != 0 {
		at := built.At
		if c.Growth.At != nil {
			at = *c.Growth.At
		}
		entry(&sum, "growth margin", unit.Format(unit.Share, c.Growth.Share), craft.Mass{Mass: loaded.Mass - built.Mass, At: at})
	}
	entry(&sum, "all up", "", loaded)
	sum.print(w, "Sum")
}

func mustMass(name string) unit.Unit {
	u, err := unit.Lookup(unit.Mass, name)
	if err != nil {
		panic(err) // a unit of our own table
	}
	return u
}

func (r *weighReport) json() object {
	c := r.craft
	mass := func(m craft.Mass) object {
		var o object
		o.number("mass", unit.Mass, m.Mass)
		o.vector("cg_m", m.At)
		return o
	}
	lines := []object{}
	for _, e := range c.Buildup() {
		lines = append(lines, append(object{{"of", e.Of}, {"what", e.What}, {"count", e.Count}}, mass(e.Mass)...))
	}
	parts := []object{}
	for _, g := range craft.ByPart(c.Buildup()) {
		parts = append(parts, append(object{{"of", g.Of}, {"count", g.Count}}, mass(g.Mass)...))
	}
	o := object{{"name", c.Name}, {"stated", c.Stated != nil}, {"lines", lines}, {"totals", parts}, {"built", mass(c.Built())}}
	o.number("growth_margin", unit.Share, c.Growth.Share)
	return append(o, mass(c.Loaded())...)
}

// weighTitle names the craft, and the loading where there is one.
func weighTitle(c *craft.Craft) string {
	if c.Loading == "" {
		return c.Name + ":"
	}
	return craftTitle(c)
}
