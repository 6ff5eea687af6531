package plots

import "math"

// underLoadSamples are the figures of crafts under throttle and in the wind.
func underLoadSamples() []figure {
	throttle, wind := throttleSample(), windSample()
	w, h := throttle.Size()
	w2, h2 := wind.Size()
	return []figure{{"throttle", w, h, throttle.Draw, 96}, {"wind", w2, h2, wind.Draw, 96}}
}

// throttleSample is a made-up craft whose nose goes under before full throttle.
func throttleSample() *UnderLoad {
	const limit = 17.0
	u := &UnderLoad{
		Title: "Fieldfare under throttle in salt water",
		Load:  "Thrust (N)", Unit: "mm",
		Limits: []LoadLimit{{20, "full throttle", false}, {limit, "nose goes under", true}, {15, "hatch wet", false}},
	}
	var x, trim, free, hatch, tip []float64
	for i := range 41 {
		v := 20 * float64(i) / 40
		x = append(x, v)
		free = append(free, 3-0.1*v)
		if v > limit {
			trim, hatch, tip = append(trim, math.NaN()), append(hatch, math.NaN()), append(tip, math.NaN())
			continue
		}
		t := 3 - 0.3*v - 3*(1-math.Sqrt(1-v/limit))
		trim = append(trim, t)
		hatch, tip = append(hatch, 40+8*(t-0)), append(tip, 120+4*t)
	}
	u.Angles = []LoadCurve{{"trim, nose up: drag equal to thrust", x, trim}}
	u.Band = &LoadBand{"trim: from no drag yet to drag equal to thrust", x, trim, free}
	u.Heights = []LoadCurve{{"hatch", x, hatch}, {"propeller tip", x, tip}}
	return u
}

// windSample is a made-up craft in a wind, with nothing watched.
func windSample() *UnderLoad {
	u := &UnderLoad{Title: "Fieldfare in a steady wind from starboard", Load: "Wind speed (m/s) at 300 mm", Note: "Heading held."}
	var x, heel, trim []float64
	for i := range 30 {
		v := 10 * float64(i) / 29
		x, heel, trim = append(x, v), append(heel, -0.08*v*v), append(trim, 1+0.01*v*v)
	}
	u.Angles = []LoadCurve{{"trim, nose up", x, trim}, {"heel, starboard down", x, heel}}
	u.Limits = []LoadLimit{{10, "rolls over", true}}
	return u
}
