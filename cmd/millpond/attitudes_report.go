package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// attitudesReport is what `attitudes` has to say.
type attitudesReport struct {
	trial *design.Trial
	all   hydro.Attitudes
}

func (r *attitudesReport) text(w io.Writer) {
	t := r.trial
	style := styleOf(t)
	ways := "one way"
	if n := len(r.all.List); n > 1 {
		ways = fmt.Sprintf("%d ways", n)
	}
	fmt.Fprintf(w, "%s in %s, %s%s: it can float %s\n\n", t.Craft.Name, t.Craft.Water.Name, style.Format(unit.Mass, t.Body.Mass), marginNote(t), ways)
	r.list(style).print(w, "Attitudes, least energy first")
	r.passes().print(w, "What it takes (energy, and how far the CG must rise)")
	r.wet().print(w, "Watched places under water")
	for i := range r.all.List {
		if r.all.List[i].Neutral {
			fmt.Fprintf(w, "Number %d is neutral: it stays at any turn of a ring of such attitudes, or all around.\n", i+1)
		}
	}
	if up := r.upright(); !design.Upright(&up.State) {
		fmt.Fprintf(w, "Put down level it does not stay upright: it ends %s.\n", lies(up.Up))
	}
	if r.all.Complete {
		fmt.Fprintf(w, "The list is complete: %s.\n", r.count())
	}
}

// upright is the attitude reached from level.
func (r *attitudesReport) upright() *hydro.Standing { return &r.all.List[r.all.Upright] }

// count tells the check that the list is complete.
func (r *attitudesReport) count() string {
	a := &r.all
	rings := 0
	for i := range a.List {
		if a.List[i].Neutral {
			rings++
		}
	}
	if a.Lows == 1 && rings == 1 && a.Passes == 0 && a.Tops == 0 {
		return "no direction is better than another"
	}
	beside := ""
	if rings > 0 {
		beside = " beside the rings"
	}
	return fmt.Sprintf("minima - passes + maxima of the energy%s is %d - %d + %d = 2, as it must be", beside, a.Lows-rings, a.Passes, a.Tops)
}

func (r *attitudesReport) incomplete() string {
	a := &r.all
	return fmt.Sprintf("the list may not be complete: %d minima, %d passes and %d maxima of the energy were found, which do not add up (minima - passes + maxima is 2)", a.Lows, a.Passes, a.Tops)
}

// angleText shows trim and heel, heel as "-" where it means nothing.
func angleText(up r3.Vec, style unit.Style) (trim, heel string) {
	a := hydro.Attitude{Up: up}
	trim = style.Format(unit.Angle, a.Trim())
	if math.Abs(up.X) > 0.999 {
		return trim, "-"
	}
	h := a.Heel()
	if h < -math.Pi+1e-9 {
		h = math.Pi // which side rounding takes on its back says nothing
	}
	return trim, style.Format(unit.Angle, h)
}

func (r *attitudesReport) list(style unit.Style) *table {
	var tab table
	tab.row("", "lies", "trim", "heel", "draft", "least GM", "")
	for i := range r.all.List {
		s := &r.all.List[i]
		trim, heel := angleText(s.Up, style)
		gm, axis := s.GMLeast()
		about := "about " + axisName(s.Up, axis)
		if math.Abs(s.Up.X) > 0.999 {
			about = ""
		}
		if i == r.all.Upright {
			about = strings.TrimPrefix(about+"; reached from level", "; ")
		}
		tab.row(fmt.Sprint(i+1), lies(s.Up), trim, heel, style.Format(unit.Length, s.Draft()), style.Format(unit.Length, gm), about)
	}
	return &tab
}

// millijoules shows an energy in the unit of a model's stability.
func millijoules(j float64) string {
	if math.IsNaN(j) {
		return "unknown"
	}
	return unit.Decimal(j*1000, 0) + " mJ"
}

// passes lists what lies between upright and the others.
func (r *attitudesReport) passes() *table {
	var tab table
	if len(r.all.List) < 2 {
		return &tab
	}
	fine := unit.Style{Fine: true}
	tab.row("", "lies", "from upright", "", "back to upright", "", "over")
	for i := range r.all.List {
		if i == r.all.Upright {
			continue
		}
		s := &r.all.List[i]
		over := "no way found"
		rise := func(v float64) string { return fine.Format(unit.Length, v) }
		if s.At != nil {
			trim, heel := angleText(s.At.Up, fine)
			over = "trim " + trim + ", heel " + heel
		}
		tab.row(fmt.Sprint(i+1), lies(s.Up), millijoules(s.Tip), rise(s.TipRise), millijoules(s.Pass), rise(s.Rise), over)
	}
	return &tab
}

// wet lists the watched places under water in each attitude.
func (r *attitudesReport) wet() *table {
	var tab table
	if len(r.trial.Watched()) == 0 {
		return &tab
	}
	for i := range r.all.List {
		names := strings.Join(r.wetNames(&r.all.List[i].State), ", ")
		if names == "" {
			names = "none"
		}
		tab.row(fmt.Sprint(i+1), lies(r.all.List[i].Up), names)
	}
	return &tab
}

func (r *attitudesReport) wetNames(s *hydro.State) []string {
	names := []string{}
	for _, p := range r.trial.Watched() {
		if h, _ := p.Clearance(s.Attitude); h < 0 {
			names = append(names, p.Name)
		}
	}
	return names
}

// figure returns the picture of all attitudes.
func (r *attitudesReport) figure() *plots.Attitudes {
	t, style := r.trial, styleOf(r.trial)
	degrees := func(s string) string { return strings.NewReplacer(" deg", "°", "-", "−").Replace(s) }
	fig := &plots.Attitudes{Title: fmt.Sprintf("%s, %s: every way it can float in %s", t.Craft.Name, style.Format(unit.Mass, t.Body.Mass), t.Craft.Water.Name)}
	for i := range r.all.List {
		s := &r.all.List[i]
		trim, heel := angleText(s.Up, style)
		gm, _ := s.GMLeast()
		lines := []string{
			degrees("trim " + trim + ", heel " + heel),
			"draft " + style.Format(unit.Length, s.Draft()),
			"least GM " + style.Format(unit.Length, gm),
		}
		if i == r.all.Upright {
			lines = append(lines, "reached from level")
		} else {
			lines = append(lines, "from upright "+millijoules(s.Tip), "back to upright "+millijoules(s.Pass))
		}
		fig.Rows = append(fig.Rows, plots.AttitudeRow{
			Heading: fmt.Sprintf("%d  %s", i+1, lies(s.Up)), Lines: lines, Profile: profileAt(t, &s.State),
		})
	}
	return fig
}

func (r *attitudesReport) json() object {
	list := []object{}
	for i := range r.all.List {
		s := &r.all.List[i]
		o := attitudeJSON(&s.State)
		_, axis := s.GMLeast()
		o.vector("gm_least_axis", axis)
		o.add("lies", lies(s.Up))
		o.add("from_level", i == r.all.Upright)
		o.add("neutral", s.Neutral)
		o.add("under_water", r.wetNames(&s.State))
		o.number("energy_from_upright", unit.Energy, s.Tip)
		o.number("rise_from_upright", unit.Length, s.TipRise)
		o.number("energy_to_upright", unit.Energy, s.Pass)
		o.number("rise_to_upright", unit.Length, s.Rise)
		if s.At != nil {
			o.add("pass", attitudeJSON(s.At))
		}
		list = append(list, o)
	}
	var o object
	o.add("name", r.trial.Craft.Name)
	o.number("mass", unit.Mass, r.trial.Body.Mass)
	o.vector("cg_m", r.trial.Body.CG)
	o.number("water_density", unit.Density, r.trial.Body.Density)
	o.add("upright", design.Upright(&r.upright().State))
	o.add("attitudes", list)
	o.add("minima", r.all.Lows)
	o.add("passes", r.all.Passes)
	o.add("maxima", r.all.Tops)
	o.add("complete", r.all.Complete)
	o.add("cuts", r.all.Cuts)
	return o
}
