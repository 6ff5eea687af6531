package design

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// climb is one search from one start.
type climb struct {
	*search
	unit  float64
	tick  func()
	at    []float64 // where the next simplex begins
	tried int
	near  *Design
	best  *Design
	least float64 // cost of best
}

// values returns the variables for a place, folded back into the range and
// held to steps where there are any.
func (c *climb) values(u []float64) []float64 {
	out := make([]float64, len(u))
	for i, x := range u {
		span := c.spans[i]
		x = math.Abs(math.Mod(x, 2))
		if x > 1 {
			x = 2 - x
		}
		out[i] = span.From + x*(span.To-span.From)
		if span.Discrete() {
			out[i] = nearestOf(span.Values(0), out[i])
		}
	}
	return out
}

func nearestOf(values []float64, x float64) float64 {
	best := values[0]
	for _, v := range values {
		if math.Abs(v-x) < math.Abs(best-x) {
			best = v
		}
	}
	return best
}

// try judges a place and returns its cost with its misses.
func (c *climb) try(u []float64) float64 {
	d := c.judge(c.values(u))
	cost := c.cost(d)
	d.forget()
	c.tried++
	if c.tick != nil {
		c.tick()
	}
	if c.near == nil || d.Violation < c.near.Violation {
		c.near = d
	}
	if d.Fits() && cost < c.least {
		c.best, c.least = d, cost
	}
	if math.IsInf(cost, 0) {
		cost = c.unit
	}
	return cost/c.unit + 10*d.Violation
}

// minimize runs one simplex until it gains less than a share of the cost, and
// remembers where it ended.
func (c *climb) minimize(ctx context.Context, gain float64) {
	settings := &optimize.Settings{
		FuncEvaluations: 100 * len(c.at),
		Converger:       &optimize.FunctionConverge{Absolute: gain, Iterations: 10 * len(c.at)},
	}
	p := optimize.Problem{
		Func:   c.try,
		Status: func() (optimize.Status, error) { return optimize.NotTerminated, ctx.Err() },
	}
	r, err := optimize.Minimize(p, c.at, settings, &optimize.NelderMead{SimplexSize: 0.2})
	if r != nil && err == nil {
		c.at = r.X
	}
}

// finest is the share of a range at which polishing ends.
const finest = 1e-5

// polish goes down from the best design by steps of one variable at a time,
// and of two against each other, along the edge of what fits.
func (c *climb) polish(ctx context.Context) {
	if c.best == nil {
		return
	}
	n := len(c.spans)
	u := make([]float64, n)
	for step := 1. / 64; step > finest/4; {
		for i, span := range c.spans {
			u[i] = (c.best.Values[i] - span.From) / (span.To - span.From)
		}
		before := c.least
		for i := range n {
			for _, sign := range []float64{-1, 1} {
				c.nudge(u, i, sign*step, -1, 0)
				for k := range n {
					if k != i && c.least == before {
						c.nudge(u, i, sign*step, k, -sign*step)
						c.nudge(u, i, sign*step, k, sign*step/2)
						c.nudge(u, i, sign*step, k, -sign*step/2)
					}
				}
			}
		}
		if ctx.Err() != nil {
			return
		}
		if c.least >= before {
			step /= 4
		}
	}
}

// nudge tries the place moved in one or two variables.
func (c *climb) nudge(u []float64, i int, di float64, k int, dk float64) {
	at := slices.Clone(u)
	at[i] += di
	if k >= 0 {
		at[k] += dk
	}
	for _, x := range at {
		if x < 0 || x > 1 {
			return
		}
	}
	c.try(at)
}
