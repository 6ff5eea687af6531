package hydro

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// WindAnswer says where the water answers the wind.
type WindAnswer int

const (
	// Drifting: the craft drifts steadily, and the water resists at half the
	// draft at rest, however it leans then.
	Drifting WindAnswer = iota
	// Onset: the wind has just set in, the craft does not drift yet, and its
	// inertia answers through the CG.
	Onset
)

// Wind is the load of a steady wind on a body whose heading is held: the drag
// of what it takes hold of, and the lift of the wing where there is one. At
// full strength it blows with its speed; its forces go with the speed squared,
// so a share s of the load is that of a wind of Speed √s.
type Wind struct {
	Speed       float64 // m/s
	From        float64 // rad clockwise from ahead, seen from above: pi/2 is from starboard
	Density     float64 // of the air, kg/m3
	Coefficient float64 // drag per dynamic pressure and area
	On          Exposed
	Wing        *Wing // nil for none
	Answer      WindAnswer

	body *Body
	half float64 // height at which water resists drifting, m
}

// NewWind returns the load of a wind of the given speed on a body at rest, in
// air and with a drag coefficient of the usual size. It serves one goroutine at
// a time.
func NewWind(r *Rest, on Exposed, speed, from float64) *Wind {
	return &Wind{
		Speed: speed, From: from, Density: AirDensity, Coefficient: DragCoefficient, On: on,
		body: r.body, half: -r.Draft() / 2,
	}
}

// Push returns the wrench, and its derivatives by differences.
func (w *Wind) Push(p Pose) Push { return LoadFunc(w.wrench).Push(p) }

// Drag returns the drag at full strength in an attitude, N, and the area it
// comes from, as shown in that attitude, with the height of its center above the
// water, m.
func (w *Wind) Drag(a Attitude) (drag, area, height float64) {
	center := w.body.Hull.center
	p := poseAt(a.Up, a.HeightOf(center), center)
	area, height = w.On.Shown(p, w.From)
	return w.pressure() * w.Coefficient * area, area, height
}

// Lift returns the vertical part of what the wing adds at full strength in an
// attitude, N, and the moment about the level direction ahead through the CG,
// N m, starboard down positive.
func (w *Wind) Lift(a Attitude) (lift, roll float64) {
	if w.Wing == nil {
		return 0, 0
	}
	p := poseAt(a.Up, a.HeightOf(w.body.Hull.center), w.body.Hull.center)
	ahead, _ := p.Headings()
	at, force := w.Wing.forces(r3.Scale(w.Speed, blowing(p, w.From)), w.Density)
	for i := range at {
		lift += r3.Dot(force[i], a.Up)
		roll += r3.Dot(ahead, r3.Cross(r3.Sub(at[i], w.body.CG), force[i]))
	}
	return lift, roll
}

// AnsweredAt returns the height over the water at which it answers a craft that
// drifts, m, negative below: half the draft at rest down.
func (w *Wind) AnsweredAt() float64 { return w.half }

func (w *Wind) pressure() float64 { return w.Density / 2 * w.Speed * w.Speed }

func (w *Wind) wrench(p Pose) Wrench {
	to := blowing(p, w.From)
	area, height := w.On.Exposed(p, w.From)
	drag := r3.Scale(w.pressure()*w.Coefficient*area, to)
	sum := drag
	moment := r3.Scale(height-p.Rise, r3.Cross(p.Up, drag))
	if w.Wing != nil {
		at, force := w.Wing.forces(r3.Scale(w.Speed, to), w.Density)
		for i := range at {
			sum = r3.Add(sum, force[i])
			moment = r3.Add(moment, r3.Cross(r3.Sub(at[i], p.Center), force[i]))
		}
	}
	up := r3.Scale(r3.Dot(sum, p.Up), p.Up)
	level := r3.Sub(sum, up)
	if w.Answer == Onset {
		moment = r3.Sub(moment, r3.Cross(r3.Sub(w.body.CG, p.Center), level))
	} else {
		moment = r3.Sub(moment, r3.Scale(w.half-p.Rise, r3.Cross(p.Up, level)))
	}
	return Wrench{Force: up, Moment: moment}
}

var _ Load = (*Wind)(nil)

// Arm returns what works against the righting arm in an attitude, m: the moment
// of the wind and the water's answer about the level direction ahead through
// the CG, over the body's weight. It is positive where it turns starboard down.
func (w *Wind) Arm(a Attitude) float64 {
	center := w.body.Hull.center
	p := poseAt(a.Up, a.HeightOf(center), center)
	ahead, _ := p.Headings()
	push := w.wrench(p)
	about := r3.Add(push.Moment, r3.Cross(r3.Sub(center, w.body.CG), push.Force))
	return r3.Dot(ahead, about) / (w.body.Mass * Gravity)
}
