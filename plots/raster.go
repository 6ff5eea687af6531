package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// projection looks at a body orthographically. Its three axes are unit
// vectors of the body frame, right-handed: right and up span the picture, near
// points at the viewer. Offset is added to the coordinates that result.
type projection struct {
	right, up, near r3.Vec
	offset          r3.Vec
	// normal.p + height is the height of a body point p above the water.
	normal r3.Vec
	height float64
}

// at returns the picture coordinates of a body point, its nearness, and its
// height above the water.
func (pr projection) at(p r3.Vec) (q r3.Vec, height float64) {
	return r3.Vec{
		X: r3.Dot(pr.right, p) + pr.offset.X,
		Y: r3.Dot(pr.up, p) + pr.offset.Y,
		Z: r3.Dot(pr.near, p) + pr.offset.Z,
	}, r3.Dot(pr.normal, p) + pr.height
}

// flat returns the picture coordinates of a body point.
func (pr projection) flat(p r3.Vec) r2.Vec {
	q, _ := pr.at(p)
	return r2.Vec{X: q.X, Y: q.Y}
}

// raster is a picture of triangles with hidden surfaces removed: for each
// pixel the nearest surface. Row 0 is at the top.
type raster struct {
	w, h  int
	min   r2.Vec  // world coordinates of the lower left corner
	scale float64 // pixels per meter
	depth []float32
	norm  [][3]int8 // unit normal in picture axes, times 127
	part  []uint16  // 1 + index of the part, 0 for none
	wet   []bool
	line  []uint8 // where the water surface cuts a part: 1 in sight, 2 hidden
}

// newRaster returns an empty picture of the given box of the world.
func newRaster(box r2.Box, scale float64) *raster {
	size := box.Size()
	r := &raster{
		w: max(int(math.Ceil(size.X*scale)), 1), h: max(int(math.Ceil(size.Y*scale)), 1),
		min: box.Min, scale: scale,
	}
	n := r.w * r.h
	r.depth = make([]float32, n)
	for i := range r.depth {
		r.depth[i] = float32(math.Inf(-1))
	}
	r.norm, r.part, r.wet, r.line = make([][3]int8, n), make([]uint16, n), make([]bool, n), make([]uint8, n)
	return r
}

// pixel maps world to pixel coordinates, y down.
func (r *raster) pixel(q r3.Vec) (x, y float64) {
	return (q.X - r.min.X) * r.scale, float64(r.h) - (q.Y-r.min.Y)*r.scale
}

// triangle draws one triangle of a part. Both sides are drawn; the normal is
// turned toward the viewer.
func (r *raster) triangle(pr projection, t r3.Triangle, part int) {
	var (
		x, y, z, h [3]float64
		q          [3]r3.Vec
	)
	for i, p := range t {
		q[i], h[i] = pr.at(p)
		x[i], y[i] = r.pixel(q[i])
		z[i] = q[i].Z
	}
	n := r3.Cross(r3.Sub(q[1], q[0]), r3.Sub(q[2], q[0]))
	if n.Z < 0 {
		n = r3.Scale(-1, n)
	}
	l := r3.Norm(n)
	if !(l > 0) || n.Z < 1e-4*l {
		return // edge on: its neighbors show its outline
	}
	n = r3.Scale(127/l, n)
	norm := [3]int8{int8(math.Round(n.X)), int8(math.Round(n.Y)), int8(math.Round(n.Z))}
	area := (x[1]-x[0])*(y[2]-y[0]) - (x[2]-x[0])*(y[1]-y[0])
	if area == 0 {
		return
	}
	x0, x1 := span(x, r.w)
	y0, y1 := span(y, r.h)
	for py := y0; py < y1; py++ {
		for px := x0; px < x1; px++ {
			fx, fy := float64(px)+0.5, float64(py)+0.5
			b1 := ((fx-x[0])*(y[2]-y[0]) - (x[2]-x[0])*(fy-y[0])) / area
			b2 := ((x[1]-x[0])*(fy-y[0]) - (fx-x[0])*(y[1]-y[0])) / area
			b0 := 1 - b1 - b2
			const slack = -1e-9 // so that shared edges leave no holes
			if b0 < slack || b1 < slack || b2 < slack {
				continue
			}
			k := py*r.w + px
			d := float32(b0*z[0] + b1*z[1] + b2*z[2])
			if d <= r.depth[k] {
				continue
			}
			r.depth[k], r.norm[k], r.part[k] = d, norm, uint16(part+1)
			r.wet[k] = b0*h[0]+b1*h[1]+b2*h[2] < 0
		}
	}
}

// span returns the pixels whose centers lie within the extent of v.
func span(v [3]float64, n int) (from, to int) {
	lo, hi := math.Min(v[0], math.Min(v[1], v[2])), math.Max(v[0], math.Max(v[1], v[2]))
	return max(int(math.Ceil(math.Max(lo-0.5, -1))), 0), min(int(math.Floor(math.Min(hi-0.5, float64(n))))+1, n)
}

// cut marks where the water surface cuts a triangle. Call it when all
// triangles are drawn, so that it can tell hidden from visible.
func (r *raster) cut(pr projection, t r3.Triangle) {
	var ends []r3.Vec
	for i := range 3 {
		a, ha := pr.at(t[i])
		b, hb := pr.at(t[(i+1)%3])
		if (ha < 0) != (hb < 0) {
			ends = append(ends, r3.Add(a, r3.Scale(ha/(ha-hb), r3.Sub(b, a))))
		}
	}
	if len(ends) != 2 {
		return
	}
	x0, y0 := r.pixel(ends[0])
	x1, y1 := r.pixel(ends[1])
	n := int(math.Min(math.Max(math.Abs(x1-x0), math.Abs(y1-y0)), 1e5)) + 1
	for k := range n + 1 {
		s := float64(k) / float64(n)
		x, y := int(x0+s*(x1-x0)), int(y0+s*(y1-y0))
		if x < 0 || y < 0 || x >= r.w || y >= r.h {
			continue
		}
		i := y*r.w + x
		z := ends[0].Z + s*(ends[1].Z-ends[0].Z)
		// The surface that is cut is itself within a few pixels of depth.
		if float64(r.depth[i])-z > 6/r.scale {
			if r.line[i] == 0 && (x+y)/14%2 == 0 { // dashed
				r.line[i] = 2
			}
		} else {
			r.line[i] = 1
		}
	}
}

// covered returns the share of pixels on a part within a box of the world,
// sampled on a small grid.
func (r *raster) covered(box r2.Box) float64 {
	const n = 6
	size, hits := box.Size(), 0
	for i := range n {
		for j := range n {
			x, y := r.pixel(r3.Vec{
				X: box.Min.X + size.X*(float64(i)+0.5)/n,
				Y: box.Min.Y + size.Y*(float64(j)+0.5)/n,
			})
			if x >= 0 && y >= 0 && x < float64(r.w) && y < float64(r.h) && r.part[int(y)*r.w+int(x)] != 0 {
				hits++
			}
		}
	}
	return float64(hits) / (n * n)
}
