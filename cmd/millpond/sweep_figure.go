package main

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// mostCharts is how many results over one variable make a figure that can still
// be read, when nobody asked for certain ones.
const mostCharts = 5

// figure is what is drawn to a file.
type figure interface {
	Size() (w, h vg.Length)
	Draw(draw.Canvas)
}

// draw draws the sweep to the file that the flag names, if any.
func (s *sweep) draw() error {
	if s.plot.path == "" {
		return nil
	}
	fig, err := s.figure()
	if err != nil {
		return fmt.Errorf("--plot: %w", err)
	}
	w, h := fig.Size()
	return s.plot.write(w, h, fig.Draw)
}

// figure returns the picture of the rows that were kept.
func (s *sweep) figure() (figure, error) {
	if len(s.grid.Vary) == 1 {
		return s.curves()
	}
	return s.designs()
}

// axis returns a variable of the sweep as drawn, and its unit.
func (s *sweep) axis(k int) (plots.Variable, unit.Display, error) {
	v := s.grid.Vary[k]
	now, err := v.Now(s.file.Craft)
	if err != nil {
		return plots.Variable{}, unit.Display{}, err
	}
	d := unit.Style{Fine: true}.Display(v.Kind, append([]float64{now}, s.grid.Values[k]...)...)
	today := d.Unit.FromSI(now)
	return plots.Variable{Name: sentence(v.Title()), Unit: figureUnit(d.Unit), Values: inUnit(d, s.grid.Values[k]), Today: &today}, d, nil
}

// curves is the figure of a sweep over one variable.
func (s *sweep) curves() (*plots.Swept, error) {
	over, d, err := s.axis(0)
	if err != nil {
		return nil, err
	}
	over.Holds, over.Gaps = standingSpans(s.grid.Stretches(s.kept), len(s.grid.Requirements), d.Unit.FromSI)
	fig := &plots.Swept{Title: s.file.Craft.Name + ": " + s.grid.Vary[0].Title(), Over: over, Note: plots.Caution}
	telling := s.telling()
	var show []design.Asked
	for _, k := range telling {
		show = append(show, s.grid.Show[k])
	}
	sigmas := scatterOver(s.file, show, s.grid.Values[0], func(v float64) (*craft.Craft, error) {
		return design.Changed(s.file.Craft, s.grid.Vary, []float64{v})
	})
	for i, k := range telling {
		var sigma []float64
		if sigmas != nil {
			sigma = sigmas[i]
		}
		fig.Charts = append(fig.Charts, chartOf(s.grid.Show[k], s.results(k), sigma, s.trial, s.grid.Requirements))
	}
	return fig, nil
}

// results returns result k of each row, NaN where the design has no answer.
func (s *sweep) results(k int) []float64 {
	out := make([]float64, len(s.kept))
	for i, r := range s.kept {
		out[i] = r.Shown[k]
		if r.No != nil {
			out[i] = nan
		}
	}
	return out
}

// telling returns which results to draw: those asked for, or the reserve, the
// angle of attack and what is missed first at some value.
func (s *sweep) telling() []int {
	var out []int
	for k := range s.grid.Show {
		out = append(out, k)
	}
	if s.asked || len(out) <= mostCharts {
		return out
	}
	missed := map[string]bool{"reserve buoyancy": true, "angle of attack": true}
	for _, r := range s.kept {
		if r.Missed >= 0 {
			missed[s.grid.Requirements[r.Missed].Text()] = true
		}
	}
	rank := func(k int) int {
		if missed[s.grid.Show[k].Text()] {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b int) int { return rank(a) - rank(b) })
	out = out[:mostCharts]
	slices.Sort(out)
	return out
}

// designs is the map of a sweep over two variables: of the first result asked
// for, or of the reserve buoyancy.
func (s *sweep) designs() (*plots.Map, error) {
	x, _, err := s.axis(0)
	if err != nil {
		return nil, err
	}
	y, _, err := s.axis(1)
	if err != nil {
		return nil, err
	}
	k := 0
	for i, a := range s.grid.Show {
		if !s.asked && a.Key == "reserve buoyancy" {
			k = i
		}
	}
	a, values := s.grid.Show[k], s.results(k)
	d := styleOf(s.trial).Display(a.Kind, values...)
	fig := &plots.Map{
		Title: s.file.Craft.Name + ": " + a.Title(), X: x, Y: y,
		Name: sentence(a.Title()), Unit: figureUnit(d.Unit), Values: inUnit(d, values), Note: plots.Caution,
	}
	for q, r := range s.grid.Requirements {
		m := plots.Margin{Name: figureText(r.Text() + " " + bounds(r))}
		for _, row := range s.kept {
			m.Values = append(m.Values, row.Margins[q])
		}
		fig.Margins = append(fig.Margins, m)
	}
	fig.NoAnswer = reasons(s.kept, s.grid.Requirements)
	return fig, nil
}

// reasons lists in words why designs have no answer, each once.
func reasons(rows []design.Row, asked []design.Requirement) string {
	var out []string
	for _, r := range rows {
		if no := r.Standing(asked).No; no != "" && !slices.Contains(out, no) {
			out = append(out, no)
		}
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}
