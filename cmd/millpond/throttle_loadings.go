package main

import (
	"fmt"
	"io"

	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// throttleLoadings is what `throttle` has to say about several loadings.
type throttleLoadings []*throttleReport

// no reports whether the answer is no in any of them.
func (all throttleLoadings) no() bool {
	for _, r := range all {
		if r.no() {
			return true
		}
	}
	return false
}

func (all throttleLoadings) text(w io.Writer) {
	t := all[0].trial
	style := styleOf(t)
	fmt.Fprintf(w, "%s under throttle in %s%s\n\n", t.Craft.Name, t.Craft.Water.Name, marginNote(t))
	byTrial := map[*design.Trial]*throttleReport{}
	var trials []*design.Trial
	for _, r := range all {
		byTrial[r.trial] = r
		trials = append(trials, r.trial)
	}
	tab := newSideBySide(trials)
	row := func(title string, cell func(*throttleReport) string) {
		tab.row(title, func(t *design.Trial) string { return cell(byTrial[t]) })
	}
	row("mass", func(r *throttleReport) string { return style.Format(unit.Mass, r.trial.Body.Mass) })
	angle := func(share float64) func(*throttleReport) string {
		return func(r *throttleReport) string {
			s := r.at(share)
			if s.steady == nil {
				return "none holds"
			}
			return style.Format(unit.Angle, s.steady.Trim())
		}
	}
	row("trim at rest", angle(0))
	row("trim at full throttle", angle(1))
	row("no attitude holds beyond", func(r *throttleReport) string {
		limit, lost := r.limit()
		if !lost {
			return "holds"
		}
		return style.Format(unit.Force, limit)
	})
	row("then", func(r *throttleReport) string {
		if _, lost := r.limit(); !lost {
			return ""
		}
		return happens(r.th.Steady.Stop)
	})
	for _, p := range t.Watched() {
		row(p.Name+" goes under", func(r *throttleReport) string {
			for _, s := range r.wet {
				if s.Name == p.Name {
					return style.Format(unit.Force, s.Share*r.th.Most)
				}
			}
			return "dry"
		})
	}
	row("verdict", func(r *throttleReport) string {
		if r.no() {
			return "NO"
		}
		return "holds"
	})
	tab.print(w)
	fmt.Fprintf(w, "Full throttle is %s. For all of one loading: millpond throttle CRAFT --loading %q\n", style.Format(unit.Force, all[0].th.Most), loadingName(all[len(all)-1].trial.Craft))
}

func (all throttleLoadings) json() object {
	list := []object{}
	for _, r := range all {
		list = append(list, r.json())
	}
	return object{{"name", all[0].trial.Craft.Name}, {"loadings", list}}
}
