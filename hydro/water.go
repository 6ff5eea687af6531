package hydro

import (
	"fmt"
	"math"
)

// Round densities for when nothing better is known, kg/m3.
const (
	FreshWater = 1000.0
	SaltWater  = 1025.0
)

// WaterDensity returns the density of water in kg/m3 at one atmosphere, from
// the temperature in degrees Celsius (IPTS-68; the modern scale differs by
// less than 0.002 kg/m3 here) and the practical salinity (nearly g of salt per
// kg of water). It fails outside the equation's range, 0 to 40 degrees and
// salinity 0 to 42.
//
// The equation is the one-atmosphere International Equation of State of
// Seawater, 1980: N. P. Fofonoff and R. C. Millard, "Algorithms for
// computation of fundamental properties of seawater", UNESCO Technical Papers
// in Marine Science 44 (1983).
func WaterDensity(celsius, salinity float64) (float64, error) {
	t, s := celsius, salinity
	if !(t >= 0 && t <= 40) {
		return 0, fmt.Errorf("water temperature of %g C is outside 0 to 40 C", celsius)
	}
	if !(s >= 0 && s <= 42) {
		return 0, fmt.Errorf("salinity of %g g/kg is outside 0 to 42 g/kg", salinity)
	}
	fresh := horner(t, 999.842594, 6.793952e-2, -9.095290e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9)
	a := horner(t, 0.824493, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9)
	b := horner(t, -5.72466e-3, 1.0227e-4, -1.6546e-6)
	return fresh + s*(a+b*math.Sqrt(s)+4.8314e-4*s), nil
}

// horner evaluates the polynomial with the given coefficients, constant first.
func horner(x float64, coefficients ...float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*x + coefficients[i]
	}
	return sum
}
