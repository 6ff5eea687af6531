package design

import (
	"context"
	"math"
	"slices"

	"millpond/hydro/craft"
)

// Sizing asks for the values of variables with which a craft meets all its
// requirements.
type Sizing struct {
	Craft        *craft.Craft
	Vary         []Span
	Requirements []Requirement
	// Nearest asks for the value of one variable nearest to today's instead
	// of the smallest.
	Nearest bool
	// Volume asks for the least volume of the flotation instead of the least
	// mass, when several variables may vary.
	Volume  bool
	Workers int
	// Progress, when not nil, is called after each design with how many are
	// done of how many, the latter 0 when nobody knows. It is called by one
	// goroutine at a time.
	Progress func(done, of int)
}

// Sized is the answer to a Sizing.
type Sized struct {
	*Design
	Today *Design
	// Binds is the requirement that keeps the answer from being better: the
	// first that is missed at Beyond. -1 when none does.
	Binds int
	// Beyond is the design on the other side of the limit, nil for none. Where
	// it has no answer, such as that it turns over, that is the limit.
	Beyond *Design
	// Tolerance is how near to the true limit each variable is; 0 for one
	// that is held to steps.
	Tolerance []float64
	Tried     int // how many designs were judged
	Starts    int // of several variables without steps: how many searches,
	Agree     int // and how many of them ended within a thousandth of this one
}

// Solve finds the design, or returns a *NothingFitsError. One variable gives
// its smallest value, or the nearest to today's; several give the least mass or
// volume.
func (s *Sizing) Solve(ctx context.Context) (*Sized, error) {
	p := &problem{s.Craft, s.Vary, s.Requirements, max(1, s.Workers)}
	if err := Distinct(p.vars()); err != nil {
		return nil, err
	}
	if err := Contradiction(s.Requirements); err != nil {
		return nil, err
	}
	now := make([]float64, len(s.Vary))
	for i, v := range s.Vary {
		var err error
		if now[i], err = v.Now(s.Craft); err != nil {
			return nil, err
		}
	}
	search := &search{problem: p, sizing: s, today: p.judge(now)}
	var sized *Sized
	var err error
	if len(s.Vary) == 1 {
		sized, err = search.one(ctx)
	} else {
		sized, err = search.several(ctx)
	}
	if err != nil {
		return nil, err
	}
	sized.Today = search.today
	sized.Tried = search.tried
	// The answer's own trial may have been dropped on the way.
	sized.Design = p.judge(sized.Values)
	return sized, nil
}

// search is one Sizing under way.
type search struct {
	*problem
	sizing *Sizing
	today  *Design
	tried  int
	near   *Design // that misses least
}

// saw counts a design and remembers it when it misses least.
func (s *search) saw(d *Design) {
	s.tried++
	if s.near == nil || d.Violation < s.near.Violation {
		s.near = d
	}
}

// nothing returns the answer that nothing fits.
func (s *search) nothing() error {
	return &NothingFitsError{Nearest: s.judge(s.near.Values), Tried: s.tried}
}

// look is into how many parts a range is divided before it is searched further.
const look = 64

// narrow is the share of a range to which a limit is found.
const narrow = 1e-7

// one finds the value of one variable.
func (s *search) one(ctx context.Context) (*Sized, error) {
	span := s.spans[0]
	values := slices.Clone(span.Values(look))
	now := s.today.Values[0]
	nearest := s.sizing.Nearest
	inside := now >= span.From && now <= span.To
	if nearest && inside && !slices.Contains(values, now) && !span.Discrete() {
		values = append(values, now)
		slices.Sort(values)
	}
	if !nearest {
		found, err := s.first(ctx, values)
		return s.orNothing(found, err)
	}
	if inside && s.today.Fits() && slices.Contains(values, now) {
		return &Sized{Design: s.today, Binds: -1, Tolerance: []float64{0}}, nil
	}
	// Up and down from today, and the nearer of the two.
	i, exact := slices.BinarySearch(values, now)
	up, err := s.first(ctx, values[i:])
	if err != nil {
		return nil, err
	}
	if exact {
		i++
	}
	below := slices.Clone(values[:i])
	slices.Reverse(below)
	down, err := s.first(ctx, below)
	if up == nil || down != nil && math.Abs(down.Values[0]-now) < math.Abs(up.Values[0]-now) {
		up = down
	}
	return s.orNothing(up, err)
}

// orNothing returns what was found, or the error that nothing was.
func (s *search) orNothing(found *Sized, err error) (*Sized, error) {
	if err == nil && found == nil {
		err = s.nothing()
	}
	return found, err
}

// counter returns what tells of progress over a known number of designs.
func (s *search) counter(of int) func() {
	if s.sizing.Progress == nil {
		return nil
	}
	tick := make(chan int, 1)
	tick <- 0
	return func() {
		n := <-tick + 1
		s.sizing.Progress(n, of)
		tick <- n
	}
}

// first returns the first value that fits of a list in order of preference, and
// between it and the one before it the limit. Between two that do not fit it
// looks for a window that does, as long as they do not both miss the same
// bound. It is nil when none is found.
func (s *search) first(ctx context.Context, values []float64) (*Sized, error) {
	// A few at a time, however many workers there are: what is behind the
	// first that fits need not be known.
	const part = 8
	tick := s.counter(0)
	var last *Design
	for from := 0; from < len(values); from += part {
		var list [][]float64
		for _, v := range values[from:min(from+part, len(values))] {
			list = append(list, []float64{v})
		}
		designs, err := s.judgeAll(ctx, list, tick)
		if err != nil {
			return nil, err
		}
		for _, d := range designs {
			s.saw(d)
		}
		for _, d := range designs {
			switch {
			case d.Fits() && last == nil:
				return &Sized{Design: d, Binds: -1, Tolerance: []float64{0}}, nil
			case d.Fits():
				return s.limit(last, d), nil
			case last != nil && !s.spans[0].Discrete():
				if w := s.window(last, d, 24); w != nil {
					return s.limit(last, w), nil
				}
			}
			last = d
		}
	}
	return nil, nil
}

// window returns a design that fits between two that do not, preferring what
// is near the first.
func (s *search) window(a, b *Design, depth int) *Design {
	if depth == 0 || a.No != nil || b.No != nil || shares(a.sides(), b.sides()) {
		return nil
	}
	m := s.judge([]float64{(a.Values[0] + b.Values[0]) / 2})
	s.saw(m)
	if m.Fits() {
		return m
	}
	if w := s.window(a, m, depth-1); w != nil {
		return w
	}
	return s.window(m, b, depth-1)
}

// sides returns the bounds that are missed: one number for each.
func (d *Design) sides() []int {
	var out []int
	for _, i := range d.Missed() {
		side := 2 * i
		if v := d.Verdicts[i]; v.AtMost != nil && v.Value > *v.AtMost {
			side++
		}
		out = append(out, side)
	}
	return out
}

// shares reports whether two lists have an element in common.
func shares(a, b []int) bool {
	return slices.ContainsFunc(a, func(i int) bool { return slices.Contains(b, i) })
}

// limit closes in on where a variable begins to fit, between a design that does
// not and one that does.
func (s *search) limit(miss, fit *Design) *Sized {
	span := s.spans[0]
	tolerance := 0.0
	if !span.Discrete() {
		tolerance = narrow * (span.To - span.From)
		for math.Abs(fit.Values[0]-miss.Values[0]) > tolerance {
			m := s.judge([]float64{(fit.Values[0] + miss.Values[0]) / 2})
			s.saw(m)
			if m.Fits() {
				fit = m
			} else {
				miss = m
			}
		}
	}
	out := &Sized{Design: fit, Binds: -1, Beyond: miss, Tolerance: []float64{tolerance}}
	if missed := miss.Missed(); len(missed) > 0 {
		out.Binds = missed[0]
	}
	return out
}
