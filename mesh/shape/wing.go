package shape

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Wing holds the shape of a tapered wing with round tips. Lengths are in any
// one unit, angles in radians. Its own origin is the leading edge at the
// centerline: x forward, y to port, z up, every chord parallel to x.
//
// The section is the four-digit one of E. N. Jacobs, K. E. Ward and R. M.
// Pinkerton, NACA Report 460, 1933 (formulas from memory), with the thickness
// laid off upright instead of across the mean line, and with the last
// coefficient changed so that the trailing edge closes.
type Wing struct {
	Span      float64
	Root, Tip float64 // chords; Tip is where the round tip begins
	Sweep     float64 // how far the leading edge lies further aft there
	Dihedral  float64 // of each half
	Thickness float64 // of the section, as a share of the chord
	Camber    float64 // greatest rise of the mean line, as a share of the chord
	CamberAt  float64 // its place behind the leading edge, as a share of the chord
}

// tipShare is the share of the half span over which the tip closes.
const tipShare = 0.07

// Mesh returns both halves in about the given number of triangles, 400 at
// least, exact mirror images of each other.
func (w Wing) Mesh(triangles int) *mesh.Mesh {
	port := w.half(triangles / 2)
	var rings [][]r3.Vec
	for i := len(port) - 1; i > 0; i-- {
		ring := make([]r3.Vec, len(port[i]))
		for k, p := range port[i] {
			ring[k] = r3.Vec{X: p.X, Y: -p.Y, Z: p.Z}
		}
		rings = append(rings, ring)
	}
	return Loft("wing", append(rings, port...)...)
}

// Fin returns the port half alone, turned upright: its span runs up z and its
// root is a flat cap at z = 0. The section should have no camber.
func (w Wing) Fin(triangles int) *mesh.Mesh {
	upright := mesh.Affine{M: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}}
	return Transformed(Loft("fin", w.half(triangles)...), upright)
}

// half returns the sections of the port half, from the centerline out.
func (w Wing) half(triangles int) [][]r3.Vec {
	fine := max(math.Sqrt(float64(triangles)/3000), 0.25)
	round := 2 * int(math.Ceil(30*fine))
	straight, tip := int(math.Ceil(16*fine)), int(math.Ceil(9*fine))
	var rings [][]r3.Vec
	for i := range straight {
		rings = append(rings, w.section((1-tipShare)*float64(i)/float64(straight), 0, round))
	}
	for i := range tip + 1 {
		sin, _ := math.Sincos(math.Pi / 2 * float64(i) / float64(tip))
		if i == tip {
			sin = 1
		}
		rings = append(rings, w.section(1-tipShare+tipShare*sin, sin, round))
	}
	return rings
}

// section returns the airfoil at share s of the half span, anticlockwise seen
// from port: from the trailing edge over the upper side to the leading edge
// and back below. u runs over the tip from 0 to 1, where the section closes
// to its mean line.
func (w Wing) section(s, u float64, points int) []r3.Vec {
	y := s * w.Span / 2
	taper := math.Min(s/(1-tipShare), 1)
	closing := math.Sqrt(1 - u*u)
	full := w.Root + (w.Tip-w.Root)*taper
	chord := full * (0.6 + 0.4*closing)
	lead := -w.Sweep*taper - 0.45*(full-chord)
	ring := make([]r3.Vec, points)
	for k := range points/2 + 1 {
		c := (1 + math.Cos(2*math.Pi*float64(k)/float64(points))) / 2
		x, middle := lead-c*chord, w.mean(c)*chord+y*math.Tan(w.Dihedral)
		half := w.Thickness * closing * thickness(c) * chord
		ring[(points-k)%points] = r3.Vec{X: x, Y: y, Z: middle - half}
		ring[k] = r3.Vec{X: x, Y: y, Z: middle + half}
	}
	return ring
}

// thickness returns half the thickness at share c of the chord, per unit of
// the greatest thickness: NACA Report 460, trailing edge closed.
func thickness(c float64) float64 {
	if c <= 0 || c >= 1 {
		return 0
	}
	return 5 * (0.2969*math.Sqrt(c) + c*(-0.1260+c*(-0.3516+c*(0.2843-0.1036*c))))
}

// mean returns the height of the mean line at share c of the chord.
func (w Wing) mean(c float64) float64 {
	m, p := w.Camber, w.CamberAt
	if m == 0 || c <= 0 || c >= 1 {
		return 0
	}
	if c < p {
		return m / (p * p) * c * (2*p - c)
	}
	return m / ((1 - p) * (1 - p)) * (1 - 2*p + c*(2*p-c))
}
