package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// box returns the twelve triangles of a box, outward, given two corners.
func box(min, max r3.Vec) []r3.Triangle {
	return prism([4]r3.Vec{min, {X: max.X, Y: min.Y, Z: min.Z}, {X: max.X, Y: min.Y, Z: max.Z}, {X: min.X, Y: min.Y, Z: max.Z}},
		r3.Vec{Y: max.Y - min.Y})
}

// prism sweeps a plane quadrilateral, anticlockwise seen against the sweep.
func prism(q [4]r3.Vec, sweep r3.Vec) []r3.Triangle {
	var o [4]r3.Vec
	for i := range q {
		o[i] = r3.Add(q[i], sweep)
	}
	ts := []r3.Triangle{{q[0], q[1], q[2]}, {q[0], q[2], q[3]}, {o[2], o[1], o[0]}, {o[3], o[2], o[0]}}
	for i := range q {
		k := (i + 1) % 4
		ts = append(ts, r3.Triangle{q[k], q[i], o[i]}, r3.Triangle{q[k], o[i], o[k]})
	}
	return ts
}

// boxCraft is a twin-float craft of boxes and wedges at a made-up attitude,
// given in degrees. Its numbers need not balance: plots solve nothing.
func boxCraft(trim, heel float64) *Profile {
	trim, heel = trim*math.Pi/180, heel*math.Pi/180
	sin, cos := math.Sincos(trim)
	up := r3.Vec{X: sin, Y: cos * math.Sin(heel), Z: cos * math.Cos(heel)}
	var floats []r3.Triangle
	for _, y := range []float64{-0.24, 0.16} {
		at := func(x, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
		side := r3.Vec{Y: 0.08}
		floats = append(floats, prism([4]r3.Vec{at(-0.45, -0.2), at(0.15, -0.22), at(0.15, -0.14), at(-0.45, -0.14)}, side)...)
		floats = append(floats, prism([4]r3.Vec{at(0.15, -0.22), at(0.4, -0.17), at(0.4, -0.14), at(0.15, -0.14)}, side)...)
	}
	p := &Profile{
		Title: "Box plover, 2.1 kg",
		Parts: []ProfilePart{
			{"floats", Flotation, Triangles(floats)},
			{"fuselage", NonBuoyant, Triangles(box(r3.Vec{X: -0.7, Y: -0.045, Z: -0.05}, r3.Vec{X: 0.25, Y: 0.045, Z: 0.05}))},
			{"wing", Buoyant, Triangles(box(r3.Vec{X: -0.1, Y: -0.7, Z: 0.05}, r3.Vec{X: 0.12, Y: 0.7, Z: 0.075}))},
		},
		Up: up, Height: 0.17,
		CG: r3.Vec{X: 0.02, Z: -0.01}, GM: &MetacentricHeights{0.18, 0.9},
		Trim: trim, Heel: heel,
		Chord:         &ProfileLine{"wing chord", r3.Vec{X: -0.1, Z: 0.0625}, r3.Vec{X: 0.12, Z: 0.0625}, trim},
		AngleOfAttack: trim,
		Facts:         []Fact{{"Displacement", "2.10 kg"}, {"Reserve buoyancy of the flotation, over 2.10 kg", "104 %"}},
	}
	p.CB = r3.Sub(p.CG, r3.Scale(0.17, up))
	height := func(q r3.Vec) float64 { return r3.Dot(up, q) + p.Height }
	for _, q := range []ProfilePoint{
		{Name: "wing tip port", At: r3.Vec{X: 0.12, Y: 0.7, Z: 0.05}},
		{Name: "wing tip starboard", At: r3.Vec{X: 0.12, Y: -0.7, Z: 0.05}},
		{Name: "propeller tip", At: r3.Vec{X: 0.27, Z: -0.13}},
		{Name: "hatch seam", At: r3.Vec{X: -0.3, Y: 0.045, Z: 0.02}},
		{Name: "stern vent", At: r3.Vec{X: -0.45, Y: 0.2, Z: -0.185}},
	} {
		q.Clearance = height(q.At)
		p.Points = append(p.Points, q)
	}
	step := r3.Vec{X: 0.15, Y: -0.16, Z: -0.22}
	p.Drafts = []ProfilePoint{{"step", step, -height(step)}}
	return p
}
