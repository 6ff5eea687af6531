package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

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
from below the surface: the water climbs 1 to 4 mm up a wetted side.`,
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

// best returns the mass and CG that the readings say, each from the readings
// that fix it best; from the craft file what was not read.
func (r *tubReport) best() (float64, r3.Vec) {
	built := r.trial.Craft.Built()
	var mass, x, y, z keenest
	if r.fit != nil {
		mass.offer(r.fit.Mass)
		x.offer(hydro.Reading{Value: r.fit.CG.X, Sigma: r.fit.Sigma.X})
		y.offer(hydro.Reading{Value: r.fit.CG.Y, Sigma: r.fit.Sigma.Y})
	}
	if r.weighed != nil {
		mass.offer(r.weighed.Mass)
		x.offer(hydro.Reading{Value: r.weighed.CG.X, Sigma: r.weighed.Sigma.X})
		y.offer(hydro.Reading{Value: r.weighed.CG.Y, Sigma: r.weighed.Sigma.Y})
		if r.weighed.HasHeight {
			z.offer(hydro.Reading{Value: r.weighed.CG.Z, Sigma: r.weighed.Sigma.Z})
		}
	}
	if r.incline != nil {
		y.offer(r.incline.CGY)
		z.offer(r.incline.CGZ)
	}
	return mass.or(built.Mass), r3.Vec{X: x.or(built.At.X), Y: y.or(built.At.Y), Z: z.or(built.At.Z)}
}

// keenest keeps the reading with the least deviation of those offered.
type keenest struct {
	best hydro.Reading
	any  bool
}

func (k *keenest) offer(q hydro.Reading) {
	if !k.any || q.Sigma < k.best.Sigma {
		k.best, k.any = q, true
	}
}

// or returns the reading kept, or another value where there is none.
func (k *keenest) or(other float64) float64 {
	if k.any {
		return k.best.Value
	}
	return other
}

// compare sets the readings against the craft file and names what would
// explain the differences.
func (r *tubReport) compare(w io.Writer) {
	built := r.trial.Craft.Built()
	mass, cg := r.best()
	fine := unit.Style{Fine: true}
	var tab table
	tab.row("", "craft file", "as read", "difference")
	row := func(name string, k unit.Kind, plan, read float64) {
		tab.row(name, fine.Format(k, plan), fine.Format(k, read), signed(k, read-plan))
	}
	row("mass", unit.Mass, built.Mass, mass)
	row("CG x", unit.Length, built.At.X, cg.X)
	row("CG y", unit.Length, built.At.Y, cg.Y)
	row("CG z", unit.Length, built.At.Z, cg.Z)
	tab.print(w, "Against the craft file, without its growth margin")
	lines := r.causes()
	if len(lines) == 0 {
		return
	}
	fmt.Fprintln(w, "What would explain it")
	for _, l := range lines {
		fmt.Fprintf(w, "  - %s\n", l)
	}
	fmt.Fprintln(w)
}

// causes lists what fits the differences that the tolerances do not cover.
func (r *tubReport) causes() []string {
	if r.fit == nil {
		return nil
	}
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	fine := unit.Style{Fine: true}
	built := r.trial.Craft.Built()
	significant := func(d, sigma float64) bool { return math.Abs(d) > 2*sigma }
	if r.suspect != nil {
		say("the mark at %s seems misread by %s: read it again from below", r.readings.Marks[r.suspect.Mark].Name, fine.Format(unit.Length, r.suspect.Error))
	}
	if d := r.fit.Mass.Value - built.Mass; significant(d, r.fit.Mass.Sigma) {
		word := "heavier"
		if d < 0 {
			word = "lighter"
		}
		say("it is %s than the craft file says by %s, %s", word, fine.Format(unit.Mass, math.Abs(d)), unit.Format(unit.Share, math.Abs(d)/built.Mass))
	}
	if d := r.fit.CG.X - built.At.X; significant(d, r.fit.Sigma.X) {
		word := "forward"
		if d < 0 {
			word = "aft"
		}
		say("its CG lies %s further %s", fine.Format(unit.Length, math.Abs(d)), word)
	}
	if d := r.fit.CG.Y - built.At.Y; significant(d, r.fit.Sigma.Y) {
		word := "port"
		if d < 0 {
			word = "starboard"
		}
		say("its CG lies %s to %s of where it should", fine.Format(unit.Length, math.Abs(d)), word)
	}
	return append(out, r.againstScale()...)
}

// againstScale says what would explain that it displaces other than it weighs.
func (r *tubReport) againstScale() []string {
	if r.alone == nil {
		return nil
	}
	fine := unit.Style{Fine: true}
	scale := r.readings.Scale
	d := r.alone.Mass.Value - scale.Value
	if math.Abs(d) <= 2*math.Hypot(r.alone.Mass.Sigma, scale.Sigma) {
		return nil
	}
	density := r.readings.Water.Density * scale.Value / r.alone.Mass.Value
	all := fine.Format(unit.Length, d/r.alone.MassPerMM/1000)
	var out []string
	if d > 0 {
		out = append(out, fmt.Sprintf("it displaces %s more than the scale says: water soaked in since it was weighed, or all marks read %s too high (the meniscus), would do that", fine.Format(unit.Mass, d), all))
	} else {
		out = append(out, fmt.Sprintf("it displaces %s less than the scale says: all marks read %s too low would do that", fine.Format(unit.Mass, -d), all))
	}
	if density > 990 && density < 1045 {
		out = append(out, fmt.Sprintf("so would water of %s instead of %s: measure its temperature and salt", unit.Format(unit.Density, density), unit.Format(unit.Density, r.readings.Water.Density)))
	}
	return out
}

func (r *tubReport) json() object {
	var o object
	o.add("name", r.trial.Craft.Name)
	reading := func(k unit.Kind, name string, q hydro.Reading) object {
		var v object
		v.number(name, k, q.Value)
		v.number(name+"_sigma", k, q.Sigma)
		return v
	}
	if r.fit != nil {
		v := reading(unit.Mass, "mass", r.fit.Mass)
		v.vector("cg_m", r.fit.CG)
		v.vector("cg_sigma_m", r.fit.Sigma)
		v.number("trim", unit.Angle, r.fit.Trim())
		v.number("heel", unit.Angle, r.fit.Heel())
		v.number("gm_least", unit.Length, r.fit.GM)
		v.number("mass_per_sinkage", unit.MassPerLength, r.fit.MassPerMM*1000)
		v.add("chi_square", r.fit.ChiSquare)
		v.add("degrees_of_freedom", r.fit.Freedom)
		marks := []object{}
		for i, m := range r.readings.Marks {
			var q object
			q.add("name", m.Name)
			q.number("off", unit.Length, r.fit.Off[i])
			q.add("suspect", r.suspect != nil && r.suspect.Mark == i)
			marks = append(marks, q)
		}
		v.add("marks", marks)
		o.add("tub", v)
	}
	if r.incline != nil {
		v := reading(unit.Length, "gm_transverse", r.incline.GM)
		v = append(v, reading(unit.Length, "gm_by_straight_line", r.incline.Plain)...)
		v = append(v, reading(unit.Length, "cg_z", r.incline.CGZ)...)
		o.add("incline", append(v, reading(unit.Length, "cg_y", r.incline.CGY)...))
	}
	if r.weighed != nil {
		v := reading(unit.Mass, "mass", r.weighed.Mass)
		for _, c := range []struct {
			name     string
			at, with float64
		}{{"cg_x", r.weighed.CG.X, r.weighed.Sigma.X}, {"cg_y", r.weighed.CG.Y, r.weighed.Sigma.Y}, {"cg_z", r.weighed.CG.Z, r.weighed.Sigma.Z}} {
			v = append(v, reading(unit.Length, c.name, hydro.Reading{Value: c.at, Sigma: c.with})...)
		}
		o.add("scales", v)
	}
	mass, cg := r.best()
	built := r.trial.Craft.Built()
	o.number("mass", unit.Mass, mass)
	o.vector("cg_m", cg)
	o.number("planned_mass", unit.Mass, built.Mass)
	o.vector("planned_cg_m", built.At)
	o.add("causes", append([]string{}, r.causes()...))
	return o
}
