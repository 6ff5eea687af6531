package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// sizeReport is what `size` has to say when something fits.
type sizeReport struct {
	*sizing
	got     *design.Sized
	written []string
}

// aim says what was looked for.
func (s *sizing) aim() string {
	switch {
	case len(s.spans) > 1 && s.Volume:
		return "the smallest floats"
	case len(s.spans) > 1:
		return "the lightest"
	case s.Nearest:
		return "the nearest to today's"
	}
	return "the smallest"
}

func (r *sizeReport) text(w io.Writer) {
	g := r.got
	fmt.Fprintf(w, "%s in %s: %s that meets %s\n\n", r.file.Craft.Name, r.file.Craft.Water.Name, r.aim(), allRequired(len(r.Requirements)))
	var tab table
	for k, span := range r.spans {
		tab.row(span.Title(), found(span, g.Values[k], g.Beyond, k), "today "+shown(span.Kind, g.Today.Values[k]), "of "+span.Words(), span.Where())
	}
	tab.print(w, "")
	r.effect(w)
	fmt.Fprintf(w, "%s\n", r.binds())
	fmt.Fprintf(w, "%s\n", r.trust())
	for _, line := range r.stays() {
		fmt.Fprintf(w, "%s\n", line)
	}
	if len(r.written) > 0 {
		fmt.Fprintf(w, "\nwritten:\n")
		for _, path := range r.written {
			fmt.Fprintf(w, "  %s\n", path)
		}
	}
}

// effect prints the requirements today and as sized, and what it costs.
func (r *sizeReport) effect(w io.Writer) {
	var tab table
	tab.row("", "today", "", "sized", "bound")
	for i, v := range r.got.Verdicts {
		was, mark := "none", "MISS"
		if old := r.got.Today.Verdicts; i < len(old) && old[i].Err == nil {
			was = show(old[i].BoundKind(), old[i].Value)
			if old[i].Pass {
				mark = ""
			}
		}
		binds := ""
		if i == r.got.Binds {
			binds = "binds"
		}
		tab.row(v.Title(), was, mark, show(v.BoundKind(), v.Value), bounds(v.Requirement), binds)
	}
	today := r.trial
	fine := unit.Style{}
	tab.row("mass", fine.Format(unit.Mass, today.Body.Mass), "", fine.Format(unit.Mass, r.got.Trial.Body.Mass), "")
	tab.row("volume of the flotation", fine.Format(unit.Volume, today.Craft.FlotationVolume()), "",
		fine.Format(unit.Volume, r.got.Trial.Craft.FlotationVolume()), "")
	tab.print(w, "")
}

// binds says what keeps the answer from being better.
func (r *sizeReport) binds() string {
	g := r.got
	switch {
	case g.Binds >= 0 && len(r.spans) == 1 && r.spans[0].Discrete():
		v := g.Beyond.Verdicts[g.Binds]
		return fmt.Sprintf("%s binds: at %s it is %s", v.Text(), shown(r.spans[0].Kind, g.Beyond.Values[0]), show(v.BoundKind(), v.Value))
	case g.Binds >= 0 && len(r.spans) == 1:
		way := "less"
		if g.Beyond.Values[0] > g.Values[0] {
			way = "more"
		}
		return fmt.Sprintf("%s binds: with any %s it is missed", r.Requirements[g.Binds].Text(), way)
	case g.Binds >= 0:
		return fmt.Sprintf("%s binds: what is lighter or smaller misses it", r.Requirements[g.Binds].Text())
	case g.Beyond != nil && g.Beyond.No != nil:
		return fmt.Sprintf("beyond it there is no answer: %s", g.Beyond.No)
	case r.Nearest:
		return "nothing binds: today's value meets all requirements"
	case len(r.spans) > 1:
		return "nothing binds but the ends of the ranges"
	}
	return "nothing binds: the smallest value allowed meets all requirements"
}

// stays says what moves with a plug and what does not.
func (r *sizeReport) stays() []string {
	var out []string
	for k, span := range r.spans {
		if !span.IsPlug() || r.got.Values[k] == r.got.Today.Values[k] {
			continue
		}
		out = append(out, span.Text()+": "+span.Moves())
	}
	return out
}

// trust says how sure the answer is.
func (r *sizeReport) trust() string {
	g := r.got
	if g.Starts > 0 {
		return fmt.Sprintf("%d of %d searches from different starts ended here, within 0.1 %% of the least (%d designs tried); a search, not a proof",
			g.Agree, g.Starts, g.Tried)
	}
	if len(r.spans) > 1 {
		return fmt.Sprintf("the least of all %d designs that the steps allow", g.Tried)
	}
	if g.Tolerance[0] == 0 {
		return fmt.Sprintf("%d values tried", g.Tried)
	}
	// No builder works finer than a hundredth of what is shown.
	d := unit.Style{Fine: true}.Display(r.spans[0].Kind, g.Values[0])
	d.Decimals += 2
	within := max(g.Tolerance[0], d.Unit.ToSI(math.Pow10(-d.Decimals)))
	return fmt.Sprintf("found to within %s (%d values tried)", d.Format(within), g.Tried)
}

func (r *sizeReport) json() object {
	g := r.got
	o := object{{"name", r.file.Craft.Name}, {"fits", true}, {"aim", r.aim()}}
	var list []object
	for k, span := range r.spans {
		v := object{{"what", span.Text()}}
		v.number("value", span.Kind, g.Values[k])
		v.number("today", span.Kind, g.Today.Values[k])
		v.number("tolerance", span.Kind, g.Tolerance[k])
		if span.IsPlug() {
			v.number("at", unit.Length, span.At)
		}
		list = append(list, v)
	}
	o.add("vary", list)
	if g.Binds >= 0 {
		o.add("binds", r.Requirements[g.Binds].Text())
	}
	o.add("requirements", verdictsJSON(g.Verdicts))
	o.number("mass", unit.Mass, g.Trial.Body.Mass)
	o.number("flotation_volume", unit.Volume, g.Trial.Craft.FlotationVolume())
	o.add("designs_tried", g.Tried)
	if g.Starts > 0 {
		o.add("searches", g.Starts)
		o.add("searches_that_agree", g.Agree)
	}
	if len(r.written) > 0 {
		o.add("written", r.written)
	}
	return o
}

func verdictsJSON(all []design.Verdict) []object {
	out := []object{}
	for _, v := range all {
		o := object{{"what", v.Text()}, {"pass", v.Pass}}
		if v.Err != nil {
			o.add("error", v.Err.Error())
		} else {
			o.number("value", v.BoundKind(), v.Value)
			o.number("margin", v.BoundKind(), v.Margin)
		}
		out = append(out, o)
	}
	return out
}

// nothingReport is what `size` has to say when nothing fits.
type nothingReport struct {
	*sizing
	not *design.NothingFitsError
}

func (r *nothingReport) text(w io.Writer) {
	n := r.not.Nearest
	fmt.Fprintf(w, "%s in %s: nothing in range meets %s (%d designs tried)\n\n", r.file.Craft.Name, r.file.Craft.Water.Name, allRequired(len(r.Requirements)), r.not.Tried)
	var tab table
	for k, span := range r.spans {
		tab.row(span.Title(), found(span, n.Values[k], nil, k), "today "+shown(span.Kind, r.today(k)), "of "+span.Words(), span.Where())
	}
	tab.print(w, "What comes nearest")
	if n.No != nil {
		fmt.Fprintf(w, "even that has no answer: %s\n", n.No)
		return
	}
	var miss table
	least := n.LeastMissed()
	for _, i := range n.Missed() {
		v := n.Verdicts[i]
		mark := ""
		if i == least {
			mark = "missed by least"
		}
		if v.Err != nil {
			miss.row(v.Title(), "none", bounds(v.Requirement), v.Err.Error(), "")
			continue
		}
		miss.row(v.Title(), show(v.BoundKind(), v.Value), bounds(v.Requirement), "short by "+strings.TrimPrefix(show(v.BoundKind(), v.Margin), "-"), mark)
	}
	miss.print(w, "What it still misses")
	fmt.Fprintf(w, "widen the range, let something else vary too, or ease a requirement\n")
}

// today returns today's value of a variable.
func (r *nothingReport) today(k int) float64 {
	v, err := r.spans[k].Now(r.file.Craft)
	if err != nil {
		panic(err) // it was read when the search began
	}
	return v
}

func (r *nothingReport) json() object {
	n := r.not.Nearest
	o := object{{"name", r.file.Craft.Name}, {"fits", false}, {"aim", r.aim()}}
	var list []object
	for k, span := range r.spans {
		v := object{{"what", span.Text()}}
		v.number("nearest", span.Kind, n.Values[k])
		v.number("today", span.Kind, r.today(k))
		list = append(list, v)
	}
	o.add("vary", list)
	if n.No != nil {
		o.add("no_answer", n.No.Error())
	} else {
		o.add("least_missed", r.Requirements[n.LeastMissed()].Text())
	}
	o.add("requirements", verdictsJSON(n.Verdicts))
	o.add("designs_tried", r.not.Tried)
	return o
}
