package hydro_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/mesh"
	"millpond/mesh/shape"
)

// A machine of 5 kg with KM 0.03 m and KG 0.09 m on a box hull, and a tip float
// 0.55 m out that is awash at 6 deg. By the method of 14 CFR 23.757 as it stood
// until 2017, and of NACA TN 215 (E. P. Warner, 1925), with GM times the sine of
// the heel: upset by 0.0313585 kg m, so that 0.0470378 kg m are wanted, which
// takes 86.15 cm3 in water of 998.2 kg/m3. The wall-sided hull is exact where
// the method takes a small angle: GZ = sin t (GM + BM tan²t / 2).
func TestAuxiliaryFloat(t *testing.T) {
	const (
		density, mass = 998.2, 5.0
		draft, kg, km = 0.04, 0.09, 0.03
		heel, out     = 6 * math.Pi / 180, 0.55
	)
	sin, cos := math.Sincos(heel)
	tan := sin / cos
	bm := km - draft/2
	beam := math.Sqrt(12 * draft * bm)
	hull := keelBox(t, mass/(density*beam*draft), beam, 0.2)
	body := hydro.Body{Hull: hull, Mass: mass, CG: r3.Vec{Z: kg}, Density: density}

	// The float: a small box whose upper inner edge is the last to go under,
	// at a heel of 6 deg to either side.
	cb := r3.Vec{Y: bm * tan, Z: draft/2 + bm*tan*tan/2} // toward the low side
	volume := 86.15e-6
	side := math.Cbrt(volume)
	center := r3.Vec{Y: out, Z: 0}
	// Top inner edge at the surface: (y - side/2) up by sin less, z up by cos.
	// Heeled to low side +y: height = z cos - y sin - draft cos for a wall-sided
	// hull, whose level in the middle stays.
	center.Z = (draft*cos+(center.Y-side/2)*sin)/cos - side/2
	half := r3.Vec{X: side / 2, Y: side / 2, Z: side / 2}
	for _, c := range []struct {
		name string
		side float64
	}{{"to starboard", 1}, {"to port", -1}} {
		m := shape.BoxBetween(r3.Sub(center, half), r3.Add(center, half))
		place := mesh.Identity()
		if c.side > 0 {
			place = mesh.Scaling(1, -1, 1) // y to starboard is negative
		}
		terms := []hydro.Term{{Placed: mesh.Placed{Solid: solid(t, m), Place: place}, Weight: 1}}
		a, err := body.Auxiliary(terms, 0, c.side, density)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name+": heel", a.Heel, heel, 1e-9)
		upset := mass * hydro.Gravity * sin * (kg - km - bm*tan*tan/2)
		near(t, c.name+": upsetting moment", a.Upsetting, upset, 1e-9)
		near(t, c.name+": upsetting moment by the method, kg m", a.Upsetting/hydro.Gravity, 0.0313585, 1e-3*0.0313585)
		arm := (center.Y-cb.Y)*cos + (center.Z-cb.Z)*sin
		near(t, c.name+": righting moment", a.Righting, density*volume*hydro.Gravity*arm, 1e-9)
		// The method's arm is the float's distance from the middle.
		methods := density * volume * out * cos
		near(t, c.name+": what the method counts, kg m", methods, 0.0470378, 1e-4*0.0470378)
	}
}
