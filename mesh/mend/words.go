package mend

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// unit is the word for the file's unit, empty when it is not known.
type unit string

func (u unit) length(x float64) string { return u.number(x, "units", "") }
func (u unit) volume(x float64) string { return u.number(x, "cubic units", "3") }

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

func prefix(name string) string {
	if name == "" {
		return ""
	}
	return name + ": "
}
