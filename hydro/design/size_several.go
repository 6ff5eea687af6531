package design

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
)

// mostListed is how many designs are judged one by one when every variable is
// held to steps.
const mostListed = 50_000

// cost is what is to be least.
func (s *search) cost(d *Design) float64 {
	switch {
	case d.Trial == nil:
		return math.Inf(1)
	case s.sizing.Volume:
		return d.Trial.Craft.FlotationVolume()
	}
	return d.Trial.Body.Mass
}

// several finds the values of several variables.
func (s *search) several(ctx context.Context) (*Sized, error) {
	listed := 1
	for _, v := range s.spans {
		if !v.Discrete() {
			return s.descend(ctx)
		}
		if listed *= len(v.Values(0)); listed > mostListed {
			return nil, fmt.Errorf("the steps make more than %d designs: take larger steps, or leave them out", mostListed)
		}
	}
	return s.list(ctx, listed)
}

// list judges every design and takes the least that fits.
func (s *search) list(ctx context.Context, n int) (*Sized, error) {
	grid := Grid{Vary: s.vars()}
	for _, v := range s.spans {
		grid.Values = append(grid.Values, v.Values(0))
	}
	tick := s.counter(n)
	const part = 256
	var best *Design
	least := math.Inf(1)
	for from := 0; from < n; from += part {
		var values [][]float64
		for i := from; i < min(from+part, n); i++ {
			values = append(values, grid.at(i))
		}
		// Costs are taken while the trials are there.
		costs := make([]float64, len(values))
		designs, err := s.judgeKeeping(ctx, values, tick, func(i int, d *Design) { costs[i] = s.cost(d) })
		if err != nil {
			return nil, err
		}
		for i, d := range designs {
			s.saw(d)
			if d.Fits() && costs[i] < least {
				best, least = d, costs[i]
			}
		}
	}
	if best == nil {
		return nil, s.nothing()
	}
	out := &Sized{Design: best, Binds: -1, Tolerance: make([]float64, len(s.spans))}
	s.bind(out, least)
	return out, nil
}

// bind finds the requirement that the next cheaper design misses, one step of
// one variable away.
func (s *search) bind(out *Sized, least float64) {
	for k, span := range s.spans {
		values := span.Values(0)
		i, _ := slices.BinarySearch(values, out.Values[k])
		for _, j := range []int{i - 1, i + 1} {
			if j < 0 || j >= len(values) {
				continue
			}
			at := slices.Clone(out.Values)
			at[k] = values[j]
			d := s.judge(at)
			if missed := d.Missed(); s.cost(d) < least && len(missed) > 0 {
				out.Binds, out.Beyond = missed[0], d
				return
			}
		}
	}
}

const (
	// starts is from how many places a search without steps begins.
	starts = 6
	// finalists is how many of the searches are carried to the end, of those
	// that came within almost this share of the best.
	finalists = 3
	almost    = 0.01
)

// descend searches for the least cost by a simplex from several starts. Misses
// are added to the cost, steeply, so that a search that begins where nothing
// fits finds its way to where something does; only designs that truly fit are
// answers.
func (s *search) descend(ctx context.Context) (*Sized, error) {
	unit := s.cost(s.today)
	if !(unit > 0) || math.IsInf(unit, 0) {
		unit = 1
	}
	tick := s.counter(0)
	var climbs []*climb
	for _, u := range s.places() {
		climbs = append(climbs, &climb{search: s, unit: unit, tick: tick, least: math.Inf(1), at: u})
	}
	s.each(ctx, climbs, func(c *climb) { c.minimize(ctx, 1e-5) })
	ended := slices.Clone(climbs)
	slices.SortStableFunc(ended, func(a, b *climb) int { return cmp.Compare(a.least, b.least) })
	last := ended[:0:0]
	for _, c := range ended[:min(finalists, len(ended))] {
		if c.best == nil || c.least <= ended[0].least+almost*unit {
			last = append(last, c)
		}
	}
	s.each(ctx, last, func(c *climb) {
		c.minimize(ctx, 1e-8) // a simplex that has shrunk begins anew
		c.polish(ctx)
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var best *climb
	for _, c := range climbs {
		s.tried += c.tried
		if s.near == nil || c.near.Violation < s.near.Violation {
			s.near = c.near
		}
		if c.best != nil && (best == nil || c.least < best.least) {
			best = c
		}
	}
	if best == nil {
		return nil, s.nothing()
	}
	out := &Sized{Design: best.best, Binds: -1, Starts: len(climbs)}
	for _, c := range climbs {
		if c.best != nil && c.least-best.least <= 1e-3*unit {
			out.Agree++
		}
	}
	for _, span := range s.spans {
		out.Tolerance = append(out.Tolerance, finest*(span.To-span.From))
	}
	s.bindAt(out, best.least)
	return out, nil
}

// each does something with every search, on all workers.
func (s *search) each(ctx context.Context, climbs []*climb, do func(*climb)) {
	var wait sync.WaitGroup
	slots := make(chan struct{}, s.workers)
	for _, c := range climbs {
		slots <- struct{}{}
		wait.Go(func() {
			defer func() { <-slots }()
			if ctx.Err() == nil {
				do(c)
			}
		})
	}
	wait.Wait()
}

// bindAt finds the requirement that is missed a little way down the cost.
func (s *search) bindAt(out *Sized, least float64) {
	for k, span := range s.spans {
		for _, sign := range []float64{-1, 1} {
			at := slices.Clone(out.Values)
			at[k] += sign * 4 * finest * (span.To - span.From)
			if at[k] < span.From || at[k] > span.To {
				continue
			}
			d := s.judge(at)
			if missed := d.Missed(); s.cost(d) < least && len(missed) > 0 {
				out.Binds, out.Beyond = missed[0], d
				return
			}
		}
	}
}

// places returns where searches begin, every variable from 0 to 1 over its
// range: today, the middle, and places drawn with a fixed seed.
func (s *search) places() [][]float64 {
	n := len(s.spans)
	today, middle := make([]float64, n), make([]float64, n)
	for i, span := range s.spans {
		today[i] = min(1, max(0, (s.today.Values[i]-span.From)/(span.To-span.From)))
		middle[i] = 0.5
	}
	out := [][]float64{today, middle}
	r := rand.New(rand.NewPCG(20, 4))
	for len(out) < starts {
		u := make([]float64, n)
		for i := range u {
			u[i] = r.Float64()
		}
		out = append(out, u)
	}
	return out
}
