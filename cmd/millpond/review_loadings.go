package main

import (
	"fmt"

	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots/page"
)

// reviewLoadings sets the loadings of the craft file side by side: how it sits
// in each, and what each misses.
func reviewLoadings(r *reviewed) ([]page.Block, error) {
	if len(r.trials) == 0 {
		return nil, nil
	}
	side := newSideBySide(r.trials)
	side.results(r.style, "mass")
	side.row("CG forward of the origin", func(t *design.Trial) string { return r.style.Format(unit.Length, t.Body.CG.X) })
	side.results(r.style, "trim", "heel", "angle of attack", "draft")
	blocks := []page.Block{headedTable("How it sits", &side.tab)}
	if r.check == nil {
		return blocks, nil
	}
	judged := newSideBySide(r.trials)
	for i, v := range r.check.verdicts {
		k := -1
		judged.row(v.Title()+", "+bounds(v.Requirement), func(*design.Trial) string {
			k++
			return verdictCell(r.reports[k].verdicts[i])
		})
	}
	table := headedTable("Requirements", &judged.tab)
	for i := range table.Rows {
		for _, report := range r.reports {
			if !report.verdicts[i].Pass {
				table.Rows[i].Look = page.Bad
			}
		}
	}
	return append(blocks, table), nil
}

// judgeLoadings works out the craft as it is and under each of its loadings,
// and how each stands where there are requirements.
func (r *reviewed) judgeLoadings() error {
	if len(r.file.Craft.Loadings) == 0 {
		return nil
	}
	load := loadingFlag{names: []string{allLoadings}}
	var err error
	if r.trials, err = load.trials(r.trial); err != nil || r.check == nil {
		return err
	}
	for _, t := range r.trials {
		r.reports = append(r.reports, newCheckReport(t, r.file.Requirements))
	}
	return nil
}

// loadingsMissed says what the craft misses under which of its loadings, for
// the verdict.
func (r *reviewed) loadingsMissed() []string {
	var out []string
	for k, report := range r.reports {
		if report.lying != "" {
			out = append(out, fmt.Sprintf("Under the loading %q it does not stay upright: it rests %s", loadingName(r.trials[k].Craft), report.lying))
		}
		for i, v := range report.verdicts {
			if !v.Pass && r.check.verdicts[i].Pass {
				out = append(out, fmt.Sprintf("Under the loading %q it misses: %s", loadingName(r.trials[k].Craft), report.standing(i, r.style)))
			}
		}
	}
	return out
}
