package mend

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// unit is the word for the file's unit, empty when it is not known.
type unit string

func (u unit) length(x float64) string { return u.number(x, "units", "") }

// volume shows a volume in liters or less where the unit is known.
func (u unit) volume(x float64) string {
	for _, known := range lengthUnits {
		if known.name != string(u) {
			continue
		}
		switch liters := 1000 * x * known.meters * known.meters * known.meters; {
		case math.Abs(liters) >= 1:
			return fmt.Sprintf("%.4g L", liters)
		case math.Abs(liters) >= 1e-3:
			return fmt.Sprintf("%.4g cm3", 1e3*liters)
		default:
			return fmt.Sprintf("%.3g mm3", 1e6*liters)
		}
	}
	return u.number(x, "cubic units", "3")
}

func (u unit) number(x float64, unnamed, power string) string {
	if u == "" {
		return fmt.Sprintf("%.4g %s", x, unnamed)
	}
	return fmt.Sprintf("%.4g %s%s", x, string(u), power)
}

func place(p r3.Vec) string { return fmt.Sprintf("(%.5g, %.5g, %.5g)", p.X, p.Y, p.Z) }

func percent(share float64) string { return fmt.Sprintf("%.3g %%", 100*share) }

// count returns "1 hole", "2 holes".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if noun == "vertex" {
		return fmt.Sprintf("%d vertices", n)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// were returns the verb for so many.
func were(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

func prefix(name string) string {
	if name == "" {
		return ""
	}
	return name + ": "
}
