package design

import (
	"fmt"
	"math/rand/v2"

	"millpond/hydro/unit"
)

// Tolerance says how a variable may come out: either about its value today, or
// anywhere in a range.
type Tolerance struct {
	Varied
	// Within is two standard deviations of a normal distribution about
	// today's value; zero when a range is given instead.
	Within float64
	// From and To bound a range, all of it equally likely.
	From, To float64
}

// Check returns an error for a tolerance without extent.
func (t Tolerance) Check() error {
	switch {
	case t.Within < 0 || t.Within == 0 && t.From == 0 && t.To == 0:
		return fmt.Errorf("the tolerance of %s needs an extent over zero", t.Text())
	case t.Within == 0 && !(t.From < t.To):
		return fmt.Errorf("the range of %s from %s to %s is empty", t.Text(), t.Written(t.From), t.Written(t.To))
	}
	return nil
}

// middle returns the mean of the distribution, given the value today.
func (t Tolerance) middle(today float64) float64 {
	if t.Within > 0 {
		return today
	}
	return (t.From + t.To) / 2
}

// sigma returns the standard deviation: of an even range its width over the
// square root of 12.
func (t Tolerance) sigma() float64 {
	if t.Within > 0 {
		return t.Within / 2
	}
	return (t.To - t.From) / 3.4641016151377544
}

// draw returns one value of the distribution.
func (t Tolerance) draw(r *rand.Rand, today float64) float64 {
	if t.Within > 0 {
		return today + t.Within/2*r.NormFloat64()
	}
	return t.From + (t.To-t.From)*r.Float64()
}

// Assumed says the distribution in words, for people.
func (t Tolerance) Assumed() string {
	s := unit.Style{Fine: true}
	if t.Within > 0 {
		return "normal, two standard deviations are " + s.Format(t.Kind, t.Within)
	}
	return "anything from " + s.Format(t.Kind, t.From) + " to " + s.Format(t.Kind, t.To) + ", equally likely"
}
