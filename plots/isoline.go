package plots

import (
	"math"

	"gonum.org/v1/plot/plotter"
)

// Isolines returns the lines on which the values of a grid, interpolated
// along the edges of its cells, equal level. Each is a chain of points with
// the larger values to its left; a closed one repeats its first point at the
// end. Cells with a NaN corner have no line. Where a cell is a saddle, the
// mean of its corners decides which pair of corners is joined.
func Isolines(g plotter.GridXYZ, level float64) [][]plotter.XY {
	nx, ny := g.Dims()
	var segs []segment
	for i := 0; i+1 < nx; i++ {
		for j := 0; j+1 < ny; j++ {
			segs = cell(segs, g, i, j, level)
		}
	}
	return chain(segs, func(e edge) plotter.XY { return crossing(g, e, level) })
}

// Loops returns the closed lines that bound the part of a grid where the
// values are at least level, anticlockwise around areas and clockwise around
// holes. NaN counts as below. The border of the grid closes areas that
// reach it.
func Loops(g plotter.GridXYZ, level float64) [][]plotter.XY {
	return Isolines(walled{g, level}, level)
}

// walled is a grid with a ring of cells of no width around it, whose outer
// values lie below level, as NaN values do.
type walled struct {
	plotter.GridXYZ
	level float64
}

func (w walled) Dims() (c, r int) {
	c, r = w.GridXYZ.Dims()
	return c + 2, r + 2
}

func (w walled) inner(i, n int) int { return min(max(i-1, 0), n-1) }

func (w walled) X(i int) float64 {
	n, _ := w.GridXYZ.Dims()
	return w.GridXYZ.X(w.inner(i, n))
}

func (w walled) Y(j int) float64 {
	_, n := w.GridXYZ.Dims()
	return w.GridXYZ.Y(w.inner(j, n))
}

func (w walled) Z(i, j int) float64 {
	c, r := w.GridXYZ.Dims()
	if i == 0 || j == 0 || i == c+1 || j == r+1 {
		return math.Inf(-1)
	}
	v := w.GridXYZ.Z(i-1, j-1)
	if math.IsNaN(v) {
		return math.Inf(-1)
	}
	return v
}

// edge is the edge of a grid from node (i, j) to its right or upper neighbor.
type edge struct {
	i, j int
	up   bool
}

type segment struct{ from, to edge }

// crossing returns where the level crosses an edge. If one end is infinite it
// is at the other.
func crossing(g plotter.GridXYZ, e edge, level float64) plotter.XY {
	i, j := e.i+1, e.j
	if e.up {
		i, j = e.i, e.j+1
	}
	a, b := g.Z(e.i, e.j), g.Z(i, j)
	var t float64
	switch {
	case math.IsInf(a, -1):
		t = 1
	case math.IsInf(b, -1):
		t = 0
	case a != b:
		t = (level - a) / (b - a)
	}
	x, y := g.X(e.i), g.Y(e.j)
	return plotter.XY{X: x + t*(g.X(i)-x), Y: y + t*(g.Y(j)-y)}
}

// cell appends the pieces of the isoline within cell (i, j). A node is inside
// if its value is at least level.
func cell(segs []segment, g plotter.GridXYZ, i, j int, level float64) []segment {
	z := [4]float64{g.Z(i, j), g.Z(i+1, j), g.Z(i+1, j+1), g.Z(i, j+1)}
	k, sum := 0, 0.0
	for b, v := range z {
		if math.IsNaN(v) {
			return segs
		}
		if v >= level {
			k |= 1 << b
		}
		sum += v
	}
	bottom, right := edge{i, j, false}, edge{i + 1, j, true}
	top, left := edge{i, j + 1, false}, edge{i, j, true}
	// Corners anticlockwise from the lower left are bits 0 to 3; the inside
	// is to the left of each piece.
	switch k {
	case 1:
		return append(segs, segment{bottom, left})
	case 2:
		return append(segs, segment{right, bottom})
	case 3:
		return append(segs, segment{right, left})
	case 4:
		return append(segs, segment{top, right})
	case 6:
		return append(segs, segment{top, bottom})
	case 7:
		return append(segs, segment{top, left})
	case 8:
		return append(segs, segment{left, top})
	case 9:
		return append(segs, segment{bottom, top})
	case 11:
		return append(segs, segment{right, top})
	case 12:
		return append(segs, segment{left, right})
	case 13:
		return append(segs, segment{bottom, right})
	case 14:
		return append(segs, segment{left, bottom})
	case 5:
		if sum/4 >= level {
			return append(segs, segment{top, left}, segment{bottom, right})
		}
		return append(segs, segment{bottom, left}, segment{top, right})
	case 10:
		if sum/4 >= level {
			return append(segs, segment{left, bottom}, segment{right, top})
		}
		return append(segs, segment{right, bottom}, segment{left, top})
	}
	return segs
}

// chain joins pieces end to end, open chains first, in the order of the
// pieces. Each edge starts at most one piece and ends at most one.
func chain(segs []segment, at func(edge) plotter.XY) [][]plotter.XY {
	next := make(map[edge]int, len(segs))
	ended := make(map[edge]bool, len(segs))
	for k, s := range segs {
		next[s.from] = k
		ended[s.to] = true
	}
	used := make([]bool, len(segs))
	follow := func(k int) []plotter.XY {
		line := []plotter.XY{at(segs[k].from)}
		for ok := true; ok && !used[k]; k, ok = next[segs[k].to] {
			used[k] = true
			if q := at(segs[k].to); q != line[len(line)-1] {
				line = append(line, q)
			}
		}
		return line
	}
	var lines [][]plotter.XY
	for pass := range 2 {
		for k, s := range segs {
			if used[k] || pass == 0 && ended[s.from] {
				continue
			}
			if l := follow(k); len(l) > 1 {
				lines = append(lines, l)
			}
		}
	}
	return lines
}
