package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/plotter"
)

// silhouette returns the closed lines that bound what a part covers in a
// projection, within a box of the world, each point exact to about 1/10 pixel
// at the given scale, in pixels per meter.
func silhouette(part ProfilePart, pr projection, box r2.Box, scale float64) [][]r2.Vec {
	// Coverage is counted on a finer raster, so that its level of one half
	// runs smoothly between pixels.
	const fine = 4
	pad := 2 / scale
	box.Min, box.Max = r2.Sub(box.Min, r2.Vec{X: pad, Y: pad}), r2.Add(box.Max, r2.Vec{X: pad, Y: pad})
	ras := newRaster(box, scale*fine)
	for t := range part.Triangles {
		ras.triangle(pr, t, 0)
	}
	w, h := ras.w/fine, ras.h/fine
	s := Samples{Values: make([]float64, w*h)}
	side := 1 / scale
	top := ras.min.Y + float64(ras.h)/ras.scale
	for i := range w {
		s.Xs = append(s.Xs, ras.min.X+side*(float64(i)+0.5))
	}
	for j := range h {
		s.Ys = append(s.Ys, top-side*(float64(h-1-j)+0.5))
	}
	for i := range w {
		for j := range h {
			n := 0
			for y := (h - 1 - j) * fine; y < (h-j)*fine; y++ {
				for x := i * fine; x < (i+1)*fine; x++ {
					if ras.part[y*ras.w+x] != 0 {
						n++
					}
				}
			}
			s.Values[i*h+j] = float64(n) / (fine * fine)
		}
	}
	var out [][]r2.Vec
	for _, l := range Loops(s, 0.5) {
		if l = simplify(l, 0.12/scale); len(l) > 3 {
			loop := make([]r2.Vec, len(l))
			for i, q := range l {
				loop[i] = r2.Vec{X: q.X, Y: q.Y}
			}
			out = append(out, loop)
		}
	}
	return out
}

// simplify leaves out points of a line that lie within a tolerance of what
// remains (Douglas and Peucker, "Algorithms for the reduction of the number of
// points required to represent a digitized line", Cartographica 10, 1973).
func simplify(l []plotter.XY, tolerance float64) []plotter.XY {
	if len(l) < 3 {
		return l
	}
	keep := make([]bool, len(l))
	keep[0], keep[len(l)-1] = true, true
	stack := [][2]int{{0, len(l) - 1}}
	for len(stack) > 0 {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		a, b := l[s[0]], l[s[1]]
		far, at := tolerance, -1
		for i := s[0] + 1; i < s[1]; i++ {
			if d := offLine(l[i], a, b); d > far {
				far, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			stack = append(stack, [2]int{s[0], at}, [2]int{at, s[1]})
		}
	}
	var out []plotter.XY
	for i, k := range keep {
		if k {
			out = append(out, l[i])
		}
	}
	return out
}

// offLine returns the distance of a point from the line between two others, or
// from the first where both are one.
func offLine(q, a, b plotter.XY) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return math.Hypot(q.X-a.X, q.Y-a.Y)
	}
	return math.Abs(dx*(q.Y-a.Y)-dy*(q.X-a.X)) / l
}
