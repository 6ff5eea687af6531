package design

import (
	"errors"
	"fmt"
	"math"

	"millpond/hydro/unit"
)

// Requirement bounds one result.
type Requirement struct {
	Asked
	AtLeast *float64 // inside unit; nil for no bound
	AtMost  *float64
	// Percent says that the bounds are shares of the row's Share and not
	// values of the row's own kind.
	Percent bool
	Rule    *Rule // the published rule that asks for it; nil for the builder's own
}

// Bound reads one bound of a requirement as a user writes it: in the result's
// own unit, or in percent where the result has something to be a share of. It
// reports which.
func (a Asked) Bound(text, defaultUnit string) (v float64, percent bool, err error) {
	v, err = unit.ParseWithDefault(a.Kind, text, defaultUnit)
	if err == nil || a.Share == nil || a.Kind == unit.Share {
		return v, false, err
	}
	if p, perr := unit.Parse(unit.Share, text); perr == nil {
		return p, true, nil
	}
	return 0, false, err
}

// Kind returns the kind of unit that the requirement's bounds and value are in.
func (r Requirement) BoundKind() unit.Kind {
	if r.Percent {
		return unit.Share
	}
	return r.Kind
}

// Verdict is how a requirement fares.
type Verdict struct {
	Requirement
	Value  float64 // in the unit of BoundKind
	Margin float64 // to the nearer bound, negative on a miss
	Pass   bool
	Err    error // why there is no value; a miss
}

// Judge returns how a requirement fares in a trial.
func (r Requirement) Judge(t *Trial) Verdict {
	v := Verdict{Requirement: r}
	v.Value, v.Err = r.value(t)
	if v.Err != nil {
		v.Value, v.Margin = math.NaN(), math.NaN()
		return v
	}
	v.Margin = r.margin(v.Value)
	v.Pass = v.Margin >= 0
	return v
}

func (r Requirement) value(t *Trial) (float64, error) {
	v, err := r.Asked.Value(t)
	if err != nil {
		return 0, err
	}
	if math.IsNaN(v) {
		return 0, fmt.Errorf("%s has no value here", r.Title())
	}
	if r.Percent {
		whole, err := r.Share(t)
		if err != nil {
			return 0, err
		}
		v /= whole
	}
	return v, nil
}

// margin returns how far a value is inside the bounds, negative outside.
func (r Requirement) margin(v float64) float64 {
	m := math.Inf(1)
	if r.AtLeast != nil {
		m = min(m, v-*r.AtLeast)
	}
	if r.AtMost != nil {
		m = min(m, *r.AtMost-v)
	}
	return m
}

// Check returns an error when the bounds cannot both hold.
func (r Requirement) Check() error {
	switch {
	case r.AtLeast == nil && r.AtMost == nil:
		return errors.New("a requirement needs at_least or at_most")
	case r.AtLeast != nil && r.AtMost != nil && *r.AtLeast > *r.AtMost:
		return fmt.Errorf("%s cannot be at least %s and at most %s", r.Title(),
			unit.Format(r.BoundKind(), *r.AtLeast), unit.Format(r.BoundKind(), *r.AtMost))
	}
	return nil
}
