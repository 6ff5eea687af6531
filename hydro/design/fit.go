package design

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// Design is a craft with its variables set, judged.
type Design struct {
	Values   []float64
	Trial    *Trial // nil when it cannot be built
	Verdicts []Verdict
	No       error // why it has no answer
	// Violation adds up by how much requirements are missed, each as a share
	// of its bound; 0 when all hold.
	Violation float64
}

// Fits reports whether the design has an answer and meets all requirements.
func (d *Design) Fits() bool { return d.Violation == 0 }

// Missed returns the indices of the requirements that are missed.
func (d *Design) Missed() []int {
	var out []int
	for i, v := range d.Verdicts {
		if !v.Pass {
			out = append(out, i)
		}
	}
	return out
}

// problem is a craft, what may vary and what is to hold.
type problem struct {
	craft        *craft.Craft
	spans        []Span
	requirements []Requirement
	workers      int
}

func (p *problem) vars() []Varied {
	var out []Varied
	for _, s := range p.spans {
		out = append(out, s.Varied)
	}
	return out
}

// noAnswer is the violation of a design that has no answer, or of a
// requirement that has no value: more than any miss that still has a number.
const noAnswer = 1000

// judge judges the design with the given values.
func (p *problem) judge(values []float64) *Design {
	d := &Design{Values: slices.Clone(values)}
	d.Trial, d.No = Try(p.craft, p.vars(), values)
	if d.No != nil {
		d.Violation = 10 * noAnswer
		return d
	}
	rest, err := d.Trial.Rest()
	if err == nil {
		err = overturned(rest)
	}
	if d.No = err; err != nil {
		d.Violation = noAnswer
		// Farther from floating is worse, so that a search finds its way.
		var sinks *hydro.SinksError
		if errors.As(err, &sinks) {
			d.Violation += noAnswer * (1 + sinks.Short/d.Trial.Body.Need())
		}
		return d
	}
	for _, q := range p.requirements {
		v := q.Judge(d.Trial)
		d.Verdicts = append(d.Verdicts, v)
		switch {
		case v.Err != nil:
			d.Violation += noAnswer / 10
		case !v.Pass:
			d.Violation += -v.Margin / v.scale()
		}
	}
	return d
}

// scale is what a margin is measured by: the size of the bound, and for bounds
// about zero what a builder would call much.
func (r Requirement) scale() float64 {
	size := 0.0
	for _, b := range []*float64{r.AtLeast, r.AtMost} {
		if b != nil {
			size = max(size, math.Abs(*b))
		}
	}
	much := map[unit.Kind]float64{unit.Length: 0.01, unit.Angle: 1 * math.Pi / 180, unit.Share: 0.1, unit.Mass: 0.1}[r.BoundKind()]
	if much == 0 {
		much = 1e-6
	}
	return max(size, much)
}

// judgeAll judges designs on all workers, in the order given, and drops what
// answers they took. It stops with the context's error.
func (p *problem) judgeAll(ctx context.Context, all [][]float64, progress func()) ([]*Design, error) {
	return p.judgeKeeping(ctx, all, progress, func(int, *Design) {})
}

// judgeKeeping is judgeAll that shows each design to keep, by several
// goroutines at a time, before its answers are dropped.
func (p *problem) judgeKeeping(ctx context.Context, all [][]float64, progress func(), keep func(int, *Design)) ([]*Design, error) {
	out := make([]*Design, len(all))
	next := make(chan int)
	var wait sync.WaitGroup
	for range max(1, p.workers) {
		wait.Go(func() {
			for i := range next {
				d := p.judge(all[i])
				keep(i, d)
				d.forget()
				out[i] = d
				if progress != nil {
					progress()
				}
			}
		})
	}
	var err error
	for i := range all {
		if err = ctx.Err(); err != nil {
			break
		}
		next <- i
	}
	close(next)
	wait.Wait()
	return out, err
}

// forget drops the answers that are not needed any more, which hold on to the
// whole craft.
func (d *Design) forget() { d.Trial = nil }

// Contradiction returns an error when two requirements bound one result so that
// no value meets both.
func Contradiction(all []Requirement) error {
	for i, a := range all {
		for _, b := range all[:i] {
			if a.Text() != b.Text() || a.Percent != b.Percent {
				continue
			}
			for _, pair := range [][2]Requirement{{a, b}, {b, a}} {
				least, most := pair[0].AtLeast, pair[1].AtMost
				if least != nil && most != nil && *least > *most {
					return fmt.Errorf("the requirements contradict each other: %s is to be at least %s and at most %s; nothing can meet both",
						a.Text(), shown(a.BoundKind(), *least), shown(a.BoundKind(), *most))
				}
			}
		}
	}
	return nil
}

// NothingFitsError is the answer that no design tried meets all requirements.
type NothingFitsError struct {
	Nearest *Design // the one whose misses add up to least
	Tried   int
}

func (e *NothingFitsError) Error() string {
	return fmt.Sprintf("none of the %d designs tried meets all requirements", e.Tried)
}

// LeastMissed returns the missed requirement that is missed by the smallest
// share of its bound, -1 for none.
func (d *Design) LeastMissed() int {
	best, least := -1, math.Inf(1)
	for _, i := range d.Missed() {
		v := d.Verdicts[i]
		if miss := -v.Margin / v.scale(); best < 0 || v.Err == nil && miss < least {
			best, least = i, miss
		}
	}
	return best
}
