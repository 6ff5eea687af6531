// Package hydro is what the water feels: a body that displaces, its mass and
// center of gravity, and the attitudes in which the two balance. It knows no
// files, no roles of parts and no requirements.
//
// Axes are the body's: x forward, y to port, z up. An [Attitude] is the
// water's upward unit vector in body axes and the height of the body's origin
// above the water. Trim is nose up positive, heel is starboard down positive,
// both in radians; near trim of +-90 deg they lose meaning and only the vector
// counts. Lengths are meters, masses kilograms, densities kg/m3.
//
// The usual way through it: build a [Hull] once from placed solids, make a
// [Body] from it with a mass, a CG and a water density, and ask [Body.Rest].
// A State at rest then answers how it moves when mass is added
// ([Body.Response]) and how much it takes until a place goes under
// ([Body.FirstWet]). [Body.Attitudes] finds every other way the body can float,
// and [Rest.Righting] follows it as it is heeled or pitched. [Rest.Follow] puts
// a [Load] on it, [Rest.Throttle] and [Rest.Gale] those of motors and wind.
//
// # Energy
//
// At a given attitude, with the displaced volume V and its center B below the
// plane, the potential energy of body and water is, up to a constant,
//
//	E = W (n.G + e) - rho g (V n.B + V e)
//
// with n the upward vector and e the height of the origin. Its derivative by e
// is W - rho g V, its gradient over n the horizontal offset of weight and
// buoyancy, and its second derivatives are those of the waterplane: the energy
// method needs no more than one cut per step and none to be differenced. At
// balanced volume the reduced second derivative over n is W (J/V - BG), J the
// waterplane's second-moment tensor about the center of flotation. Both follow
// from the boundary of the displaced region: moving the surface by w adds w dA
// of water at height zero, which changes the energy only to second order.
package hydro

// Gravity is the standard acceleration of free fall in m/s2 (3rd CGPM, 1901).
// It cancels in every attitude and matters only where forces are given.
const Gravity = 9.80665
