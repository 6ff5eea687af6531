package hydro

import "gonum.org/v1/gonum/spatial/r3"

// Wrench is a force and a moment about the hull's center ([Hull.Center]), both
// in body axes.
type Wrench struct {
	Force  r3.Vec // N
	Moment r3.Vec // N m
}

// Push is a wrench and how it changes as the body moves.
type Push struct {
	Wrench
	Turn [2]Wrench // per radian by which Up turns toward T1 and T2 of the Pose
	Rise Wrench    // per meter by which the body rises
}

// Pose is an attitude as a load looks at it.
type Pose struct {
	Attitude
	// T1 and T2 are unit vectors at right angles to Up and to each other,
	// along which the turns of a [Push] are meant. Any such pair would do.
	T1, T2 r3.Vec
	Center r3.Vec  // of the hull: what moments are taken about
	Rise   float64 // height of Center above the water, m
}

// Headings returns the level direction of the body's x axis and the level
// direction to port of it. With the x axis upright, ahead is where the belly
// or the back would fall.
func (p Pose) Headings() (ahead, port r3.Vec) {
	ahead = r3.Sub(r3.Vec{X: 1}, r3.Scale(p.Up.X, p.Up))
	if r3.Norm2(ahead) < 1e-18 {
		ahead = r3.Vec{Z: -p.Up.X}
	}
	ahead = r3.Unit(ahead)
	return ahead, r3.Cross(p.Up, ahead)
}

// Load is what pushes on a body besides its weight and the water at rest:
// a propeller, the wind, a rope. It depends on the attitude alone, and is
// asked for at full strength; what solves for it scales it by a share.
//
// A load must be balanced along the level: whatever pushes ahead or sideways
// is answered by the water's drag, by a rope or by inertia, and the answer is
// part of the load. Of its force only the vertical part is then left, and of
// its moment the part about the vertical turns the body without changing how
// it floats. So the equations of balance are three, one of heave and two of
// moments about level axes. With n the upward vector, G and B the centers of
// gravity and buoyancy, c the hull's center, V the volume and s the share:
//
//	rho g V = W - s F.n
//	rho g n x ((W/rho g) (G-c) - V (B-c)) + s M = 0 along the level
//
// A turn of n toward the unit tangent t is a rotation of the body by t x n.
// The work of the moments in it gives the second equation the form of a
// gradient, t.(W (G-c) - rho g V (B-c)) - s t.(n x M) = 0. The first part is
// the gradient of the energy in [Body]; the load's part p = (t1.(n x M),
// t2.(n x M), F.n) is in general no gradient of anything, and its derivative,
// which is taken off the Hessian of the energy to give the tangent stiffness,
// is not symmetric:
//
//	d/dt2 [t1.(n x M)] = t1.(t2 x M + n x dM/dt2)
//
// (the tangents turn too, but only along n, on which n x M has no part).
type Load interface {
	// Push returns the wrench at full strength in a pose.
	Push(p Pose) Push
}

// LoadFunc is a load known only by its wrench. Its derivatives are taken by
// central differences, which are good to some 1e-9 of it.
type LoadFunc func(p Pose) Wrench

// differ is the turn in radians, and the rise in sizes of a body of one meter,
// over which a LoadFunc is differenced: the error of rounding, 1e-16/differ,
// and that of the third derivative, differ², are then both near 1e-10.
const differ = 1e-5

// Push returns the wrench and its differences.
func (f LoadFunc) Push(p Pose) Push {
	out := Push{Wrench: f(p)}
	for i, t := range [2]r3.Vec{p.T1, p.T2} {
		a, b := poseAt(tilt(p.Up, r3.Scale(differ, t)), p.Rise, p.Center), poseAt(tilt(p.Up, r3.Scale(-differ, t)), p.Rise, p.Center)
		out.Turn[i] = f(a).slope(f(b))
	}
	a, b := poseAt(p.Up, p.Rise+differ, p.Center), poseAt(p.Up, p.Rise-differ, p.Center)
	out.Rise = f(a).slope(f(b))
	return out
}

// slope returns the central difference of two wrenches.
func (w Wrench) slope(behind Wrench) Wrench {
	return Wrench{
		Force:  r3.Scale(1/(2*differ), r3.Sub(w.Force, behind.Force)),
		Moment: r3.Scale(1/(2*differ), r3.Sub(w.Moment, behind.Moment)),
	}
}

// poseAt returns the pose with the hull's center at the height rise.
func poseAt(n r3.Vec, rise float64, center r3.Vec) Pose {
	p := Pose{Attitude: Attitude{Up: n, Height: rise - r3.Dot(n, center)}, Center: center, Rise: rise}
	p.T1, p.T2 = tangents(n)
	return p
}

// Couple is a moment about the level axes that stays what it is at any
// attitude: the heeling moment of a weight of people, or the couple of a
// pendulum. Pitch lifts the nose, Roll puts starboard down, N m. Where the nose
// has gone past the vertical, ahead is the other way and the couple with it.
type Couple struct{ Pitch, Roll float64 }

// Push returns the couple: about port the right hand puts the nose down, about
// ahead it puts starboard down.
func (c Couple) Push(p Pose) Push { return LoadFunc(c.wrench).Push(p) }

func (c Couple) wrench(p Pose) Wrench {
	ahead, port := p.Headings()
	return Wrench{Moment: r3.Add(r3.Scale(-c.Pitch, port), r3.Scale(c.Roll, ahead))}
}
