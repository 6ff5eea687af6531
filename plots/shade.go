package plots

import (
	"image"
	"image/color"
	"math"
)

// look is how a raster becomes a picture.
type look struct {
	dry []color.RGBA // of each part above water
	// wet is what parts below water turn to, by wetShare.
	wet      color.RGBA
	wetShare float64
	// paper is the background at a height of the picture, in world units.
	paper func(y float64) color.RGBA
	// silhouette and crease are the radii of outlines and of sharp edges, in
	// pixels of the raster.
	silhouette, crease int
}

// creaseCos is the cosine of the angle between facets above which an edge is
// drawn. It is a little over 30 degrees, so that a prism of twelve sides,
// which usually stands for a cylinder, has none.
const creaseCos = 0.84

// edges are the strengths of lines at each pixel: 0 to 255.
type edges []uint8

// find marks outlines of parts, steps in depth and creases.
func (r *raster) findEdges(lk look) edges {
	e := make(edges, r.w*r.h)
	for y := range r.h {
		for x := range r.w {
			k := y*r.w + x
			if x+1 < r.w {
				r.compare(e, k, k+1, 1, 0, lk)
			}
			if y+1 < r.h {
				r.compare(e, k, k+r.w, 0, -1, lk)
			}
		}
	}
	return e
}

// compare draws an edge between neighboring pixels a and b, where b is one
// pixel away in the picture direction (dx, dy), y up.
func (r *raster) compare(e edges, a, b int, dx, dy float64, lk look) {
	pa, pb := r.part[a], r.part[b]
	if pa == 0 && pb == 0 {
		return
	}
	near := a
	if r.depth[b] > r.depth[a] {
		near = b
	}
	if pa != pb {
		r.dab(e, near, lk.silhouette, 255)
		return
	}
	na, nb := r.norm[a], r.norm[b]
	gap := (float64(r.depth[b]) - float64(r.depth[a])) * r.scale
	// A step in depth is one that neither facet explains by its slope.
	slope := func(n [3]int8) float64 {
		return -(float64(n[0])*dx + float64(n[1])*dy) / math.Max(float64(n[2]), 1)
	}
	if step := math.Min(math.Abs(gap-slope(na)), math.Abs(gap-slope(nb))); step > 8 &&
		step > 0.5*math.Abs(gap) {
		r.dab(e, near, lk.silhouette, 235)
		return
	}
	dot := float64(na[0])*float64(nb[0]) + float64(na[1])*float64(nb[1]) + float64(na[2])*float64(nb[2])
	if dot < creaseCos*127*127 {
		r.dab(e, near, lk.crease, 150)
	}
}

// dab draws a dot of the given radius.
func (r *raster) dab(e edges, k, radius int, strength uint8) {
	x, y := k%r.w, k/r.w
	for j := max(y-radius, 0); j <= min(y+radius, r.h-1); j++ {
		for i := max(x-radius, 0); i <= min(x+radius, r.w-1); i++ {
			if d := (i-x)*(i-x) + (j-y)*(j-y); d <= radius*radius {
				e[j*r.w+i] = max(e[j*r.w+i], strength)
			}
		}
	}
}

// picture returns the shaded picture, each pixel the mean of n x n of the
// raster.
func (r *raster) picture(lk look, n int) *image.RGBA {
	e := r.findEdges(lk)
	water := r.waterlines(lk.crease)
	w, h := r.w/n, r.h/n
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			var sum [3]float64
			for j := range n {
				for i := range n {
					c := r.color(lk, e, water, x*n+i, y*n+j)
					for b := range sum {
						sum[b] += c[b]
					}
				}
			}
			f := 1 / float64(n*n)
			img.SetRGBA(x, y, color.RGBA{
				uint8(sum[0]*f + 0.5), uint8(sum[1]*f + 0.5), uint8(sum[2]*f + 0.5), 0xff,
			})
		}
	}
	return img
}

// waterlines returns the strengths of the lines where water cuts parts.
func (r *raster) waterlines(radius int) edges {
	e := make(edges, r.w*r.h)
	for k, l := range r.line {
		switch l {
		case 1:
			r.dab(e, k, radius+1, 255)
		case 2:
			r.dab(e, k, radius, 140)
		}
	}
	return e
}

// color returns the color of one pixel of the raster.
func (r *raster) color(lk look, e, water edges, x, y int) [3]float64 {
	k := y*r.w + x
	var c [3]float64
	if p := r.part[k]; p == 0 {
		c = floats(lk.paper(r.min.Y + (float64(r.h-y)-0.5)/r.scale))
	} else {
		c = floats(lk.dry[p-1])
		if r.wet[k] {
			c = blend(c, lk.wet, lk.wetShare)
		}
		// Light from the upper left, before the picture.
		nrm := r.norm[k]
		light := (-0.35*float64(nrm[0]) + 0.6*float64(nrm[1]) + 0.72*float64(nrm[2])) / 127
		s := 0.84 + 0.19*math.Max(light, 0)
		for b := range c {
			c[b] = math.Min(c[b]*s, 255)
		}
	}
	if water[k] > 0 {
		c = blend(c, Blue, float64(water[k])/255)
	}
	if e[k] > 0 {
		c = blend(c, Ink, float64(e[k])/255)
	}
	return c
}

func floats(c color.RGBA) [3]float64 { return [3]float64{float64(c.R), float64(c.G), float64(c.B)} }

// blend returns a mixed with a share of b.
func blend(a [3]float64, b color.RGBA, share float64) [3]float64 {
	for i, v := range floats(b) {
		a[i] += share * (v - a[i])
	}
	return a
}
