package design

import (
	"context"
	"fmt"
	"math"
	"sync"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Grid is a craft to be worked through at every combination of the values of
// some variables.
type Grid struct {
	Craft        *craft.Craft
	Vary         []Varied
	Values       [][]float64 // of each variable
	Show         []Asked
	Requirements []Requirement
	// AllMargins asks for the margin of every requirement, and not only for
	// the first that is missed.
	AllMargins bool
}

// Row is one design of a grid.
type Row struct {
	Values []float64 // of the variables
	Shown  []float64 // NaN where there is no such result
	// No says why the design has no answer: it sinks, it turns over, it
	// cannot be built. Results that are there all the same are in Shown.
	No error
	// Missed is the first requirement that is missed, in the order of the
	// craft file; -1 when all hold or there is no answer.
	Missed int
	// Margins are those of the requirements, in the unit of their bounds, when
	// the grid asks for all; NaN where there is no value or no answer.
	Margins []float64
}

// Holds reports whether the design has an answer and meets all requirements.
func (r Row) Holds() bool { return r.No == nil && r.Missed < 0 }

// Designs returns how many designs the grid has.
func (g *Grid) Designs() int {
	n := 1
	for _, v := range g.Values {
		n *= len(v)
	}
	return n
}

// Check returns an error for a grid that is empty or too large.
func (g *Grid) Check() error {
	n := 1
	for i, v := range g.Values {
		if len(v) == 0 {
			return fmt.Errorf("%s has no values to go through", g.Vary[i].Text())
		}
		if n *= len(v); n > MostDesigns {
			return fmt.Errorf("the grid has more than %d designs: take larger steps", MostDesigns)
		}
	}
	return Distinct(g.Vary)
}

// at returns design i, the last variable changing fastest.
func (g *Grid) at(i int) []float64 {
	out := make([]float64, len(g.Values))
	for k := len(g.Values) - 1; k >= 0; k-- {
		n := len(g.Values[k])
		out[k] = g.Values[k][i%n]
		i /= n
	}
	return out
}

// OverturnError is the answer that a craft does not stay upright.
type OverturnError struct{ Trim, Heel float64 }

func (e *OverturnError) Error() string {
	return fmt.Sprintf("does not stay upright: rests at trim %s, heel %s", unit.Format(unit.Angle, e.Trim), unit.Format(unit.Angle, e.Heel))
}

// overturned returns an *OverturnError for a rest that is not upright.
func overturned(r *hydro.Rest) error {
	if Upright(&r.State) {
		return nil
	}
	return &OverturnError{r.Trim(), r.Heel()}
}

// Try returns the trial of a craft with variables set, one of many designs to be
// tried.
func Try(c *craft.Craft, vars []Varied, to []float64) (*Trial, error) {
	d, err := Changed(c, vars, to)
	if err != nil {
		return nil, err
	}
	// Before the first cut and whatever the number of designs, so that no
	// last bit depends on which design was tried before.
	d.Prepare(math.MaxInt32)
	return New(d)
}

// row works one design through. Each starts from level on its own: what rest is
// reached must not depend on which design was looked at before.
func (g *Grid) row(i int) Row {
	r := Row{Values: g.at(i), Shown: make([]float64, len(g.Show)), Missed: -1}
	if g.AllMargins {
		r.Margins = make([]float64, len(g.Requirements))
		for k := range r.Margins {
			r.Margins[k] = math.NaN()
		}
	}
	t, err := Try(g.Craft, g.Vary, r.Values)
	if err != nil {
		r.No = err
		for k := range r.Shown {
			r.Shown[k] = math.NaN()
		}
		return r
	}
	for k, a := range g.Show {
		if r.Shown[k], err = a.Value(t); err != nil {
			r.Shown[k] = math.NaN()
		}
	}
	rest, err := t.Rest()
	if err == nil {
		err = overturned(rest)
	}
	if r.No = err; err != nil {
		return r
	}
	for k, q := range g.Requirements {
		v := q.Judge(t)
		if !v.Pass && r.Missed < 0 {
			r.Missed = k
		}
		if g.AllMargins {
			r.Margins[k] = v.Margin
		} else if r.Missed >= 0 {
			break
		}
	}
	return r
}

// unit of work: some designs of one line of the grid.
const batch = 8

// Run works the grid through with the given number of workers and gives every
// row to emit, in the order of the grid, whatever the number of workers. Only a
// few batches of rows are kept at a time. It ends early with the error of emit,
// or with the context's once what is begun is done and emitted: rows emitted
// are then the first ones of the grid.
func (g *Grid) Run(ctx context.Context, workers int, emit func(Row) error) error {
	if err := g.Check(); err != nil {
		return err
	}
	n := g.Designs()
	workers = max(1, workers)
	inner, stop := context.WithCancel(ctx)
	defer stop()
	type job struct {
		from int
		rows chan []Row
	}
	jobs := make(chan job)
	order := make(chan job, 4*workers)
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for j := range jobs {
				var rows []Row
				for i := j.from; i < min(j.from+batch, n); i++ {
					rows = append(rows, g.row(i))
				}
				j.rows <- rows
			}
		})
	}
	go func() {
		defer close(order)
		defer close(jobs)
		for from := 0; from < n && inner.Err() == nil; from += batch {
			j := job{from, make(chan []Row, 1)}
			select {
			case order <- j:
			case <-inner.Done():
				return
			}
			jobs <- j
		}
	}()
	var failed error
	done := 0
	for j := range order {
		for _, r := range <-j.rows {
			if failed == nil {
				if failed = emit(r); failed != nil {
					stop()
				}
			}
			done++
		}
	}
	wait.Wait()
	if failed == nil && done < n {
		failed = ctx.Err()
	}
	return failed
}
