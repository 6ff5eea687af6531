package main

import (
	"errors"
	"fmt"
	"math"
	"runtime"

	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
	"millpond/plots/page"
)

// How far the review looks for larger floats where the craft file has no
// [[vary]] for them: shares of the part's size, in some ten steps, or fewer
// where a requirement takes a whole curve at each.
const (
	mostDeeper = 0.5
	mostLonger = 0.2
	floatSteps = 9
	curveSteps = 4
)

// reviewFloats is a map of deeper and longer floats, with the smallest depth
// that puts right what is missed.
func reviewFloats(r *reviewed) ([]page.Block, error) {
	part := r.onlyFloat()
	if part == nil || r.check == nil || r.restErr != nil {
		return nil, nil
	}
	size := part.Size()
	longer, err1 := r.plug("plug length of "+part.Name, mostLonger*size.X)
	deeper, err2 := r.plug("plug height of "+part.Name, mostDeeper*size.Z)
	if err := errors.Join(err1, err2); err != nil {
		return nil, nil // nothing can be let into such a part
	}
	s := sweep{file: r.file, trial: r.trial, spans: []design.Span{longer, deeper}}
	if err := s.columns([]string{"reserve buoyancy"}); err != nil {
		return nil, err
	}
	s.grid.AllMargins = true
	err := s.grid.Run(r.ctx, runtime.GOMAXPROCS(0), func(row design.Row) error {
		s.kept = append(s.kept, row)
		return nil
	})
	if err != nil {
		return nil, err
	}
	fig, err := s.designs()
	if err != nil {
		return nil, err
	}
	fig.Title, fig.Note = "", ""
	words, height, err := r.putRight(deeper)
	if err != nil {
		return nil, err
	}
	if !math.IsNaN(height) {
		fig.Chosen = pickOf(fig, height)
	}
	drawn, err := page.Draw(page.Whole, fig.HeightFor(page.Whole), fig.Draw,
		fmt.Sprintf("The length is %s, the height %s.", longer.Where(), deeper.Where()))
	if err != nil {
		return nil, err
	}
	return []page.Block{page.Text(words), page.Figures{drawn}}, nil
}

// onlyFloat returns the part that carries the craft, nil where there is not
// exactly one, mirrored or not.
func (r *reviewed) onlyFloat() *craft.Part {
	var out *craft.Part
	for i := range r.file.Craft.Parts {
		p := &r.file.Craft.Parts[i]
		if p.Role != craft.Flotation {
			continue
		}
		if out != nil {
			return nil
		}
		out = p
	}
	return out
}

// plug returns a variable of the craft with the values of the craft file, or up
// to about so much in round steps.
func (r *reviewed) plug(text string, most float64) (design.Span, error) {
	v, err := design.Vary(r.file.Craft, text, nil)
	if err != nil {
		return design.Span{}, err
	}
	if s, ok := r.file.Limits[v.Text()]; ok {
		return s, nil
	}
	steps := float64(floatSteps)
	if r.takesCurves() {
		steps = curveSteps
	}
	step := roundStep(most / steps)
	return design.Span{Varied: v, To: step * math.Ceil(most/step-1e-9), Step: step}, nil
}

// roundStep returns the least of 1, 2 or 5 times a power of ten that is no less
// than v.
func roundStep(v float64) float64 {
	p := math.Pow10(int(math.Floor(math.Log10(v))))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// putRight says which depth alone meets all requirements, and returns it; NaN
// where nothing is missed or no depth in range helps.
func (r *reviewed) putRight(deeper design.Span) (string, float64, error) {
	if r.check.missed == 0 {
		return "All requirements hold today. The map shows how much the floats could be made larger, and where a bound is met.", math.NaN(), nil
	}
	free := deeper
	if _, held := r.file.Limits[deeper.Text()]; !held {
		free.Step = 0 // the steps are the map's own
	}
	search := design.Sizing{Craft: r.file.Craft, Vary: []design.Span{free}, Requirements: requirements(r.file), Workers: runtime.GOMAXPROCS(0)}
	got, err := search.Solve(r.ctx)
	var nothing *design.NothingFitsError
	switch {
	case errors.As(err, &nothing):
		return fmt.Sprintf("No %s up to %s meets all requirements by itself.", deeper.Text(), shown(unit.Length, deeper.To)), math.NaN(), nil
	case err != nil:
		return "", math.NaN(), err
	}
	words := fmt.Sprintf("The smallest %s that meets all requirements is %s", deeper.Text(), found(free, got.Values[0], got.Beyond, 0))
	if free.Discrete() {
		words += " (of " + free.Words() + ")"
	}
	if got.Binds >= 0 {
		words += "; " + requirements(r.file)[got.Binds].Text() + " binds"
	}
	return words + ". It is marked on the map.", got.Values[0], nil
}

// pickOf marks a depth without more length on the map.
func pickOf(fig *plots.Map, height float64) *plots.Pick {
	d := unit.Style{Fine: true}.Display(unit.Length, height)
	return &plots.Pick{X: *fig.X.Today, Y: d.Unit.FromSI(height), Text: "smallest depth"}
}
