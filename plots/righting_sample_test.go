package plots

import "math"

// rightingSamples are the figures of what turns over and what rights.
func rightingSamples() []figure {
	righting, attitudes := rightingSample(), attitudesSample()
	w, h := righting.Size()
	w2, h2 := attitudes.Size()
	return []figure{{"righting", w, h, righting.Draw, 96}, {"attitudes", w2, h2, attitudes.Draw, 96}}
}

// rightingSample is a made-up righting curve with a jump, places that go under
// and two heeling arms.
func rightingSample() *Righting {
	arm := func(d float64) float64 {
		s := math.Sin(d * math.Pi / 180)
		return 150*s*math.Cos(d*math.Pi/360) + 40*math.Sin(d*math.Pi/60)
	}
	r := &Righting{
		Title: "Fieldfare, 2.400 kg, righting arm from rest in salt water",
		Angle: "Heel, starboard down", Free: "Trim, nose up", Unit: "mm", Rest: 0,
		Marks: []RightingMark{{Angle: 44, Arm: 126.2, Label: "126.2 mm at 44.0°"}},
		Ends:  []RightingAngle{{Angle: 130, Label: "leaps at 130.0°"}},
		Wets:  []RightingAngle{{Angle: -14, Label: "hatch wet at -14.0°"}, {Angle: 14, Label: "hatch wet at 14.0°"}},
		Jumps: []float64{130},
	}
	for d := -180.0; d <= 180; d += 2 {
		v, trim := arm(d), 2+20*math.Abs(d)/180
		if d > 130 {
			v, trim = -0.8*v, 70
		}
		r.Angles, r.Arms, r.Frees = append(r.Angles, d), append(r.Arms, v), append(r.Frees, trim)
		r.Other = append(r.Other, d > 130)
		if d == 130 {
			r.Angles, r.Arms, r.Frees = append(r.Angles, d), append(r.Arms, -0.8*v), append(r.Frees, 70)
			r.Other = append(r.Other, true)
		}
	}
	for _, w := range []struct {
		name string
		arm  float64
	}{{"steady wind, 6 m/s", 18}, {"gust, 9 m/s", 40}} {
		h := HeelingArm{Name: w.name}
		for d := 0.0; d <= 90; d += 3 {
			h.Angles, h.Arms = append(h.Angles, d), append(h.Arms, w.arm*math.Cos(d*math.Pi/180))
		}
		r.Heeling = append(r.Heeling, h)
	}
	r.Balances = []RightingMark{{Angle: 4, Arm: 18, Label: "4° in the wind"}}
	return r
}

// attitudesSample is the made-up craft upright and on its back.
func attitudesSample() *Attitudes {
	level, back, side := boxCraft(2.5, 0), boxCraft(-8, 180), boxCraft(0, 80)
	back.Height, side.Height = 0.05, 0.05
	return &Attitudes{Title: "Fieldfare, 2.400 kg: every way it can float in salt water", Rows: []AttitudeRow{
		{Heading: "1  on its back", Lines: []string{"trim -8.0°, heel 180.0°", "draft 90 mm"}, Profile: back},
		{Heading: "2  on its starboard side", Lines: []string{"trim 0.0°, heel 80.0°", "draft 320 mm", "from upright 900 mJ"}, Profile: side},
		{Heading: "3  upright", Lines: []string{"trim 2.5°, heel 0.0°", "draft 48 mm", "reached from level"}, Profile: level},
	}}
}
