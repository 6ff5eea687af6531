package hydro_test

import (
	"math"
	"testing"

	"millpond/hydro"
)

// Check values of the one-atmosphere equation of state: UNESCO Technical
// Papers in Marine Science 44 (1983) and A. E. Gill, Atmosphere-Ocean Dynamics
// (1982), table A3.2; the last row is a fisheries-acoustics manual's example.
func TestWaterDensity(t *testing.T) {
	for _, c := range []struct{ celsius, salinity, want, tolerance float64 }{
		{5, 0, 999.96675, 1e-5},
		{25, 0, 997.04796, 1e-5},
		{5, 35, 1027.67547, 1e-5},
		{25, 35, 1023.34306, 1e-5},
		{10, 8, 1005.94660, 2e-5},
	} {
		got, err := hydro.WaterDensity(c.celsius, c.salinity)
		if err != nil || math.Abs(got-c.want) > c.tolerance {
			t.Errorf("WaterDensity(%g, %g) = %.5f, %v; want %.5f", c.celsius, c.salinity, got, err, c.want)
		}
	}
}

// Fresh water from 10 to 30 deg C: ITTC Recommended Procedure 7.5-02-01-03
// (2011), table 1. The two models differ by up to 0.0017 kg/m3.
func TestFreshWaterAgainstITTC(t *testing.T) {
	for i, want := range []float64{
		999.7025, 999.6079, 999.5004, 999.3801, 999.2474, 999.1026, 998.9461, 998.7780, 998.5986, 998.4083, 998.2072,
		997.9955, 997.7735, 997.5414, 997.2994, 997.0476, 996.7864, 996.5158, 996.2360, 995.9471, 995.6495,
	} {
		got, err := hydro.WaterDensity(float64(10+i), 0)
		if err != nil || math.Abs(got-want) > 0.002 {
			t.Errorf("WaterDensity(%d, 0) = %.4f, %v; the table has %.4f", 10+i, got, err, want)
		}
	}
}

// Sea water from 1 to 30 deg C: the same procedure's table 3. It lies 0.041 to
// 0.048 kg/m3 above this equation throughout, about one more atmosphere of
// compression: that, and no other difference, is expected.
func TestSeaWaterAgainstITTC(t *testing.T) {
	for i, table := range []float64{
		1028.0941, 1028.0197, 1027.9327, 1027.8336, 1027.7225, 1027.6000, 1027.4662, 1027.3214, 1027.1659, 1027.0000,
		1026.8238, 1026.6376, 1026.4416, 1026.2360, 1026.0210, 1025.7967, 1025.5633, 1025.3210, 1025.0700, 1024.8103,
		1024.5421, 1024.2656, 1023.9808, 1023.6881, 1023.3873, 1023.0788, 1022.7626, 1022.4389, 1022.1078, 1021.7694,
	} {
		got, err := hydro.WaterDensity(float64(1+i), 35)
		if d := table - got; err != nil || d < 0.040 || d > 0.049 {
			t.Errorf("WaterDensity(%d, 35) = %.4f, %v; the table has %.4f, %.4f more", 1+i, got, err, table, d)
		}
	}
}

func TestWaterDensityRange(t *testing.T) {
	for _, c := range [][2]float64{{-1, 0}, {41, 0}, {10, -1}, {10, 43}, {math.NaN(), 0}, {10, math.NaN()}} {
		if got, err := hydro.WaterDensity(c[0], c[1]); err == nil {
			t.Errorf("WaterDensity(%g, %g) = %g, want an error", c[0], c[1], got)
		}
	}
}
