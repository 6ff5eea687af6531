package shape

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// PolygonFactor returns sin(2π/n)/(2π/n), the area of a regular n-gon over
// that of the circle through its corners: 1 - 6.6/n² about.
func PolygonFactor(n int) float64 {
	t := 2 * math.Pi / float64(n)
	return math.Sin(t) / t
}

// Revolved returns the outline turned about the z axis in n facets. The
// outline runs from bottom to top; X of each point is the radius, Y the height.
// A radius may be zero at the ends only. Ends with a radius get flat caps.
//
// Exact for the facets: volume, moments about z = 0 and areas of horizontal
// slices are [PolygonFactor](n) times those of the turned outline, whose pieces
// are cone frustums of volume π/3 (r0² + r0 r1 + r1²)(z1 - z0).
func Revolved(outline []r2.Vec, n int) *mesh.Mesh {
	if n < 3 {
		panic("shape: a body of revolution needs three facets")
	}
	rings := make([][]r3.Vec, len(outline))
	for i, p := range outline {
		rings[i] = circle(p.X, p.Y, n)
	}
	return Loft("body of revolution", rings...)
}

// circle returns n points at radius r and height z, anticlockwise seen from
// above, the first on the +x side. Points opposite each other across the x
// axis are exact mirror images, which sines of 2π - t would not be.
func circle(r, z float64, n int) []r3.Vec {
	ring := make([]r3.Vec, n)
	for k := 0; 2*k <= n; k++ {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		if k == 0 || 2*k == n {
			sin = 0
		}
		ring[k] = r3.Vec{X: r * cos, Y: r * sin, Z: z}
		if k > 0 {
			ring[n-k] = r3.Vec{X: r * cos, Y: -r * sin, Z: z}
		}
	}
	return ring
}

// Cylinder returns the upright cylinder with n facets, standing on z = 0; for
// small n it is the regular prism. Exact: volume n/2 sin(2π/n) r² h.
func Cylinder(radius, height float64, n int) *mesh.Mesh {
	return Revolved([]r2.Vec{{X: radius}, {X: radius, Y: height}}, n)
}

// Cone returns the cone with n facets standing on its base at z = 0, apex at
// z = height. Exact: volume n/6 sin(2π/n) r² h, centroid at height/4.
func Cone(radius, height float64, n int) *mesh.Mesh {
	return Revolved([]r2.Vec{{X: radius}, {Y: height}}, n)
}

// ConeDown returns the cone standing on its apex at z = 0, base at z = height.
func ConeDown(radius, height float64, n int) *mesh.Mesh {
	return Revolved([]r2.Vec{{}, {X: radius, Y: height}}, n)
}

// Sphere returns the sphere in m belts from pole to pole and n facets round
// the z axis, centered at the origin. Its outline is inscribed in the circle,
// so the volume is short by a share that falls as 1/m² beside PolygonFactor(n),
// exactly as [Revolved] says.
func Sphere(radius float64, n, m int) *mesh.Mesh {
	if m < 2 {
		panic("shape: a sphere needs two belts")
	}
	outline := make([]r2.Vec, m+1)
	for i := 0; 2*i <= m; i++ {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(m))
		if i == 0 {
			sin = 0
		}
		if 2*i == m {
			cos = 0
		}
		outline[i] = r2.Vec{X: radius * sin, Y: -radius * cos}
		outline[m-i] = r2.Vec{X: radius * sin, Y: radius * cos}
	}
	return Revolved(outline, n)
}

// Ellipsoid returns the ellipsoid with semi-axes a along x, b along y and c
// along z: a stretched [Sphere] with n facets and m belts. Volumes stretch with
// it exactly.
func Ellipsoid(a, b, c float64, n, m int) *mesh.Mesh {
	return Transformed(Sphere(1, n, m), mesh.Scaling(a, b, c))
}

// Paraboloid returns the body under z = r²/(2a) turned about the z axis, apex
// down at z = 0, closed by a flat deck at z = height, in n facets and m belts
// of equal growth in radius. Smooth volume: π a h²; the polyline outline and
// the facets change it as [Revolved] says.
func Paraboloid(a, height float64, n, m int) *mesh.Mesh {
	if !(a > 0 && height > 0) || m < 1 {
		panic("shape: a paraboloid needs positive lengths and a belt")
	}
	outline := make([]r2.Vec, m+1)
	for i := range outline {
		u := float64(i) / float64(m)
		outline[i] = r2.Vec{X: u * math.Sqrt(2*a*height), Y: u * u * height}
	}
	return Revolved(outline, n)
}

// Torus returns the ring of tube radius r about the circle of radius big in
// the z = 0 plane, in n facets round the axis and m round the tube. Exact:
// volume PolygonFactor(n) 2π big times the area m/2 sin(2π/m) r² of the tube's
// m-gon (Pappus).
func Torus(big, r float64, n, m int) *mesh.Mesh {
	if !(r > 0 && big > r) || n < 3 || m < 3 {
		panic("shape: a torus needs 0 < r < big and three facets each way")
	}
	tube := circle(r, 0, m)
	rings := make([][]r3.Vec, n)
	for k := range rings {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		rings[k] = make([]r3.Vec, m)
		for i, p := range tube {
			// Anticlockwise seen along the way round: from +z to outward.
			out := big + p.Y
			rings[k][i] = r3.Vec{X: out * cos, Y: out * sin, Z: p.X}
		}
	}
	s := newSurface("torus")
	for k := range rings {
		s.strip(rings[k], rings[(k+1)%n])
	}
	return s.mesh
}
