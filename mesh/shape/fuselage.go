package shape

import (
	"math"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Frame is one cross section of a [Fuselage]: a superellipse
// |y/a|^e + |z/b|^e = 1 between its bottom and its top.
type Frame struct {
	X           float64
	Half        float64 // half breadth
	Bottom, Top float64 // heights
	Square      float64 // the exponent e: 2 is an ellipse, 4 a rounded box
}

// Fuselage returns the body through the frames, which are listed from aft to
// forward, in about the given number of triangles. Between frames each measure
// follows a curve that keeps to the range of its two neighbours (gonum's
// FritschButland). Both ends are flat. Port and starboard are exact mirror
// images.
func Fuselage(frames []Frame, triangles int) *mesh.Mesh {
	x := make([]float64, len(frames))
	measures := [4][]float64{}
	for i, f := range frames {
		x[i] = f.X
		for k, v := range [4]float64{f.Half, f.Bottom, f.Top, f.Square} {
			measures[k] = append(measures[k], v)
		}
	}
	var along [4]interp.FritschButland
	for k := range along {
		if err := along[k].Fit(x, measures[k]); err != nil {
			panic("shape: fuselage frames: " + err.Error())
		}
	}
	fine := max(math.Sqrt(float64(triangles)/6000), 0.3)
	round := 2 * int(math.Ceil(14*fine))
	n := int(math.Ceil(float64(triangles) / float64(4*round)))
	rings := make([][]r3.Vec, n+1)
	for i := range rings {
		at := x[0] + (x[len(x)-1]-x[0])*float64(i)/float64(n)
		half, bottom, top, square := along[0].Predict(at), along[1].Predict(at), along[2].Predict(at), along[3].Predict(at)
		port := make([]r3.Vec, round+1)
		for k := range port {
			// Keel to top: the corners, where a superellipse bends, get
			// about as many points as the sides.
			sin, cos := math.Sincos(math.Pi * float64(k) / float64(round))
			y := half * math.Pow(sin, 2/square)
			z := (top-bottom)/2*math.Copysign(math.Pow(math.Abs(cos), 2/square), -cos) + (top+bottom)/2
			if k == 0 || k == round {
				y = 0
			}
			port[k] = r3.Vec{X: at, Y: y, Z: z}
		}
		rings[i] = mirrored(port)
	}
	return Loft("fuselage", rings...)
}
