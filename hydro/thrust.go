package hydro

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// ThrustLine is a motor's pull, fixed in the body.
type ThrustLine struct {
	At     r3.Vec  // a point on its line, body axes, m
	Along  r3.Vec  // unit vector to which it pulls the body
	Most   float64 // at full throttle, N
	Torque float64 // of the motor on the body at full throttle, N m, right-handed about Along
}

// Answer says where the level part of a thrust is answered.
type Answer int

const (
	// AtLateral: the water's drag acts at the height of the center of the
	// wetted lateral area, whatever the attitude makes that.
	AtLateral Answer = iota
	// AtHeight: the drag acts at a stated height above the water.
	AtHeight
	// AtPoint: the drag acts at a body point.
	AtPoint
	// Tethered: a level rope at a body point holds all of it, and nothing is
	// left for drag and inertia.
	Tethered
)

// Reaction is what answers the level part of a thrust.
type Reaction struct {
	Answer Answer
	Height float64 // for AtHeight, m above the water, negative below
	At     r3.Vec  // for AtPoint and Tethered, body axes
}

// Thrust is the load of one or more motors, and what the water and the inertia
// of the body answer.
//
// The forces are fixed in the body and turn with it. With F their sum and
// H = F - (F.n) n its level part, the share Drag of H is answered by the
// water's drag, which is level and acts at the height or the point that
// Reaction says; the rest speeds the body up and is answered by its inertia
// through the CG. At Drag 1 it moves steadily, at 0 it has only begun to move.
// The whole is a level couple and the vertical part (F.n) n, which carries
// weight or adds to it. With M the moment of the forces and torques about the
// hull's center c, z the height at which drag acts and e that of c,
//
//	force  = (F.n) n
//	moment = M - Drag (z-e) n x F - (1-Drag) (G-c) x H
//
// since n x H = n x F. Where along the level the drag acts makes no other
// moment than one about the vertical.
type Thrust struct {
	body     *Body
	drag     float64
	reaction Reaction
	force    r3.Vec // F
	moment   r3.Vec // M
	most     float64
	lateral  *lateral
}

// NewThrust returns the load of thrust lines on a body, with the share drag of
// its level part answered by the water. It serves one goroutine at a time.
func NewThrust(b *Body, lines []ThrustLine, reaction Reaction, drag float64) *Thrust {
	t := &Thrust{body: b, drag: drag, reaction: reaction}
	for _, l := range lines {
		f := r3.Scale(l.Most, l.Along)
		t.force = r3.Add(t.force, f)
		t.moment = r3.Add(t.moment, r3.Add(r3.Cross(r3.Sub(l.At, b.Hull.center), f), r3.Scale(l.Torque, l.Along)))
		t.most += l.Most
	}
	if reaction.Answer == Tethered {
		t.drag = 1
	}
	if reaction.Answer == AtLateral && t.drag > 0 {
		t.lateral = newLateral(b.Hull)
	}
	return t
}

// Most returns the sum of all lines' thrust at full throttle, N.
func (t *Thrust) Most() float64 { return t.most }

// Push returns the wrench and its exact derivatives.
func (t *Thrust) Push(p Pose) Push {
	n := p.Up
	fn := r3.Dot(t.force, n)
	level := r3.Sub(t.force, r3.Scale(fn, n))
	var out Push
	out.Force = r3.Scale(fn, n)
	out.Moment = t.moment
	tangents := [2]r3.Vec{p.T1, p.T2}
	var dlevel [2]r3.Vec
	for j, d := range tangents {
		dlevel[j] = r3.Sub(r3.Scale(-r3.Dot(t.force, d), n), r3.Scale(fn, d))
		out.Turn[j].Force = r3.Scale(-1, dlevel[j])
	}
	at := func(arm r3.Vec, share float64) { // a body point answers a share of the level part
		out.Moment = r3.Sub(out.Moment, r3.Scale(share, r3.Cross(arm, level)))
		for j := range 2 {
			out.Turn[j].Moment = r3.Sub(out.Turn[j].Moment, r3.Scale(share, r3.Cross(arm, dlevel[j])))
		}
	}
	at(r3.Sub(t.body.CG, p.Center), 1-t.drag)
	if t.reaction.Answer == AtPoint || t.reaction.Answer == Tethered {
		at(r3.Sub(t.reaction.At, p.Center), t.drag)
		return out
	}
	z, turn, rise := t.reaction.Height, [2]float64{}, 0.0
	if t.lateral != nil {
		wet := t.lateral.at(p)
		z, turn, rise = wet.height, wet.turn, wet.rise
	}
	across := r3.Cross(n, t.force)
	out.Moment = r3.Sub(out.Moment, r3.Scale(t.drag*(z-p.Rise), across))
	for j, d := range tangents {
		out.Turn[j].Moment = r3.Sub(out.Turn[j].Moment, r3.Add(
			r3.Scale(t.drag*turn[j], across),
			r3.Scale(t.drag*(z-p.Rise), r3.Cross(d, t.force))))
	}
	out.Rise.Moment = r3.Scale(-t.drag*(rise-1), across)
	return out
}

// Drag returns where and how the water answers full thrust at an attitude: the
// height at which drag acts, m above the water, and the wetted lateral area
// where that decides, else zero.
func (t *Thrust) Drag(a Attitude) (height, area float64) {
	switch t.reaction.Answer {
	case AtHeight:
		return t.reaction.Height, 0
	case AtPoint, Tethered:
		return a.HeightOf(t.reaction.At), 0
	}
	l := t.lateral
	if l == nil {
		l = newLateral(t.body.Hull)
	}
	p := poseAt(a.Up, a.HeightOf(t.body.Hull.center), t.body.Hull.center)
	wet := l.at(p)
	return wet.height, wet.area
}

// Yaw returns the moment about the vertical through the CG that the lines make
// at full throttle at an attitude, N m, positive when it turns the nose to
// port. Nothing floats differently for it; the water and the rudder answer it.
func (t *Thrust) Yaw(a Attitude) float64 {
	arm := r3.Sub(t.body.CG, t.body.Hull.center)
	return r3.Dot(a.Up, r3.Sub(t.moment, r3.Cross(arm, t.force)))
}

var (
	_ Load = (*Thrust)(nil)
	_ Load = LoadFunc(nil)
	_ Load = Couple{}
)
