package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Attitude says how a body lies to the water: a body point p is at height
// Up.p + Height above the surface. Up is of unit length.
type Attitude struct {
	Up     r3.Vec  // the water's upward direction in body axes
	Height float64 // of the body's origin above the water, m
}

// UpVector returns the upward vector for a trim (nose up positive) and a heel
// (starboard down positive) in radians:
//
//	(sin trim, cos trim sin heel, cos trim cos heel)
func UpVector(trim, heel float64) r3.Vec {
	st, ct := math.Sincos(trim)
	sh, ch := math.Sincos(heel)
	return r3.Vec{X: st, Y: ct * sh, Z: ct * ch}
}

// Trim returns the pitch of the body x axis against the water, nose up
// positive, within +-pi/2.
func (a Attitude) Trim() float64 { return math.Asin(max(-1, min(1, a.Up.X))) }

// Heel returns the roll about the body x axis, starboard down positive, within
// +-pi. It is 0 where the x axis is vertical and heel has no meaning.
func (a Attitude) Heel() float64 { return math.Atan2(a.Up.Y, a.Up.Z) }

// HeightOf returns the height of body point p above the water, m.
func (a Attitude) HeightOf(p r3.Vec) float64 { return r3.Dot(a.Up, p) + a.Height }

// Slope returns the angle of the unit vector d above the horizontal: the angle
// of attack of a chord in still air and level wind, asin(n.d).
func (a Attitude) Slope(d r3.Vec) float64 { return math.Asin(max(-1, min(1, r3.Dot(a.Up, d)))) }

// Surface returns the water's surface as a plane over body axes.
func (a Attitude) Surface() mesh.Plane { return mesh.Plane{Normal: a.Up, Offset: a.Height} }

// tilt returns the unit vector reached from n by turning toward the tangent
// vector w through |w| radians.
func tilt(n, w r3.Vec) r3.Vec {
	angle := r3.Norm(w)
	if angle == 0 {
		return n
	}
	s, c := math.Sincos(angle)
	return r3.Unit(r3.Add(r3.Scale(c, n), r3.Scale(s/angle, w)))
}

// tangents returns two unit vectors at right angles to n and to each other.
// Where n is anywhere near upright the first one pitches and the second one
// rolls: they are the body's x and y axes made tangent.
func tangents(n r3.Vec) (t1, t2 r3.Vec) {
	axis := r3.Vec{X: 1}
	if math.Abs(n.X) > 0.9 {
		axis = r3.Vec{Y: 1}
	}
	t1 = r3.Unit(r3.Sub(axis, r3.Scale(r3.Dot(axis, n), n)))
	return t1, r3.Cross(n, t1)
}
