package design

import (
	"errors"

	"millpond/hydro"
)

// Standing is how a trial stands against requirements. Two can be compared.
type Standing struct {
	// No says why it has no rest to judge: "sinks", "does not stay upright". It is empty
	// for a craft that rests upright.
	No string
	// Missed is the first requirement that is missed, in their order, as its
	// title; empty when all hold.
	Missed string
}

// Holds reports whether it rests upright and all requirements hold.
func (s Standing) Holds() bool { return s == Standing{} }

// Stand returns how a trial stands.
func Stand(t *Trial, asked []Requirement) Standing {
	r, err := t.Rest()
	switch {
	case errors.As(err, new(*hydro.SinksError)):
		return Standing{No: "sinks"}
	case err != nil:
		return Standing{No: "no rest found"}
	case !Upright(&r.State):
		return Standing{No: "does not stay upright"}
	}
	for _, q := range asked {
		if !q.Judge(t).Pass {
			return Standing{Missed: q.Title()}
		}
	}
	return Standing{}
}

// Standing returns how a design of a grid stands against the grid's
// requirements.
func (r Row) Standing(asked []Requirement) Standing {
	switch {
	case errors.As(r.No, new(*hydro.SinksError)):
		return Standing{No: "sinks"}
	case errors.As(r.No, new(*OverturnError)):
		return Standing{No: "does not stay upright"}
	case r.No != nil:
		return Standing{No: "cannot be"}
	case r.Missed >= 0:
		return Standing{Missed: asked[r.Missed].Title()}
	}
	return Standing{}
}

// Stretches divides the range of the one variable of a grid, given its rows,
// as [Stretches] does.
func (g *Grid) Stretches(rows []Row) []Stretch {
	known := map[float64]Standing{}
	for i, r := range rows {
		known[g.Values[0][i]] = r.Standing(g.Requirements)
	}
	return Stretches(g.Values[0], func(v float64) Standing {
		if s, ok := known[v]; ok {
			return s
		}
		t, err := Try(g.Craft, g.Vary, []float64{v})
		if err != nil {
			return Standing{No: "cannot be"}
		}
		return Stand(t, g.Requirements)
	})
}

// Stretch is a range of a variable over which a craft stands the same way.
type Stretch struct {
	From, To float64
	Standing
}

// Stretches divides the range of some values, in rising order, into stretches
// of one standing each. Where it changes between two values the place is found
// by halving, to a ten-thousandth of their distance; what changes and changes
// back between two values is not seen.
func Stretches(values []float64, at func(float64) Standing) []Stretch {
	if len(values) == 0 {
		return nil
	}
	out := []Stretch{{values[0], values[0], at(values[0])}}
	for _, v := range values[1:] {
		out = advance(out, v, at)
	}
	return out
}

// advance carries the last stretch on to v. Between two standings there may be
// more, such as a second requirement that is missed soon after the first: each
// halving takes the change next to the last stretch.
func advance(out []Stretch, v float64, at func(float64) Standing) []Stretch {
	end := at(v)
	close := 1e-4 * (v - out[len(out)-1].To)
	for {
		last := &out[len(out)-1]
		if last.Standing == end {
			last.To = v
			return out
		}
		lo, hi, there := last.To, v, end
		for hi-lo > close {
			mid := lo + (hi-lo)/2
			if s := at(mid); s == last.Standing {
				lo = mid
			} else {
				hi, there = mid, s
			}
		}
		last.To = lo
		out = append(out, Stretch{hi, hi, there})
	}
}
