package hydro

import "math"

// AirDensity is that of the standard atmosphere at sea level and 15 C, kg/m3
// (ISO 2533:1975).
const AirDensity = 1.225

const (
	// WindHeight is the height over the water at which a wind is meant when
	// nothing else is said, m: about that of a model's wing. Common practice
	// at the lakeside, no source.
	WindHeight = 0.3
	// WaterRoughness is the roughness length of open water, m: the class
	// "sea" of J. Wieringa, "Updating the Davenport roughness classification",
	// J. Wind Engineering and Industrial Aerodynamics 41 (1992) 357-368; the
	// value is from memory.
	WaterRoughness = 0.0002
	// DragCoefficient is what a craft's outline is taken to resist per area
	// and dynamic pressure. Bluff shapes lie between 0.8 and 1.3; common
	// practice, no source.
	DragCoefficient = 1.1
)

// WindAt returns the speed at one height of a wind of the given speed at
// another, both in m over the water, by the logarithmic law
//
//	u(z) = u(h) ln(z/z0) / ln(h/z0)
//
// with the roughness length z0 in m. It holds over open water in neutral air;
// close to a shore or in the lee of trees it does not. Heights at or below z0
// have no wind.
func WindAt(z, speed, h, z0 float64) float64 {
	if !(z > z0) || !(h > z0) {
		return 0
	}
	return speed * math.Log(z/z0) / math.Log(h/z0)
}
