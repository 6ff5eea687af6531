package main

import (
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/unit"
)

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
