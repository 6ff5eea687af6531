package plots

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
)

// Ticks labels an axis at steps of 1, 2 or 5 times a power of ten, with the
// same number of decimals at each and a true minus sign.
type Ticks struct {
	// Want is the number of labels aimed at; zero means 6.
	Want int
}

// DegreeTicks labels an axis in degrees at steps of 1, 2, 5, 10, 15, 30, 45 or
// 90. Below one degree it goes on as [Ticks].
type DegreeTicks struct {
	// Want is the number of labels aimed at; zero means 7.
	Want int
}

var (
	_ plot.Ticker = Ticks{}
	_ plot.Ticker = DegreeTicks{}
)

// Ticks returns the labeled values within min and max, ascending. It returns
// none for a range that is empty or not finite.
func (t Ticks) Ticks(min, max float64) []plot.Tick {
	want := t.Want
	if want <= 0 {
		want = 6
	}
	span := max - min
	if !(span > 0) || math.IsInf(span, 0) {
		return nil
	}
	mag := math.Floor(math.Log10(span / float64(want)))
	var steps []float64
	for _, m := range []float64{1, 2, 5, 10, 20} {
		steps = append(steps, m*math.Pow(10, mag))
	}
	return ticksAt(min, max, nearest(span, steps, want))
}

// Ticks returns the labeled values within min and max, in degrees.
func (t DegreeTicks) Ticks(min, max float64) []plot.Tick {
	want := t.Want
	if want <= 0 {
		want = 7
	}
	span := max - min
	if !(span > 0) || math.IsInf(span, 0) {
		return nil
	}
	if span < float64(want)/2 {
		return Ticks{Want: want}.Ticks(min, max)
	}
	return ticksAt(min, max, nearest(span, []float64{1, 2, 5, 10, 15, 30, 45, 90, 180}, want))
}

// nearest picks the step whose number of labels over span is nearest to want,
// as a ratio.
func nearest(span float64, steps []float64, want int) float64 {
	best, worst := steps[0], math.Inf(1)
	for _, s := range steps {
		if d := math.Abs(math.Log((span/s + 1) / float64(want))); d < worst {
			best, worst = s, d
		}
	}
	return best
}

// ticksAt returns the multiples of step within min and max. A multiple within
// a millionth of a step outside still counts, so that rounding of an end does
// not lose its label.
func ticksAt(min, max, step float64) []plot.Tick {
	const slack = 1e-6
	lo, hi := math.Ceil(min/step-slack), math.Floor(max/step+slack)
	// In a range that is narrow against its distance from zero, labels would
	// be too long to tell apart, and in the end one number.
	const most = 1e12
	if !(math.Abs(lo) < most && math.Abs(hi) < most && hi-lo < 1000) {
		return nil
	}
	prec := 0
	if step < 1 {
		prec = int(math.Ceil(-math.Log10(step) - 1e-9))
	}
	ticks := make([]plot.Tick, 0, int(hi-lo)+1)
	for i := lo; i <= hi; i++ {
		ticks = append(ticks, plot.Tick{Value: i * step, Label: Number(i*step, prec)})
	}
	return ticks
}

// Number writes v with the given number of decimals and a true minus sign
// (U+2212), and never as minus zero.
func Number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.HasPrefix(s, "-") {
		s = s[1:]
		if strings.Trim(s, "0.") == "" {
			return s
		}
		return "−" + s
	}
	return s
}
