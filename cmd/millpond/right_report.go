package main

import (
	"fmt"
	"math"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// rightReport is what `right` has to say.
type rightReport struct {
	trial   *design.Trial
	upright bool
	rows    float64 // how far apart the rows of the curve's table are
	thin    bool    // the JSON too has only those
	curve   *hydro.Righting
	sides   [2]hydro.RightingSide // falling angles, rising angles
	left    [2]*hydro.LeapError   // the leap on that side that does not come back, if any
	wets    []wetAngles
	areas   []area
}

// wetAngles says at which angles a place goes under; NaN for never.
type wetAngles struct {
	design.Watched
	falling, rising float64
	wet             bool // at rest
}

// area is the area under the curve from rest to an angle.
type area struct {
	point hydro.RightingPoint
	value float64 // m rad
	// left is the leap before the angle that does not come back: there is no
	// area then.
	left *hydro.LeapError
}

// solve works everything out.
func (r *rightReport) solve(rest *hydro.Rest, o hydro.RightingOptions, areas []float64) error {
	var err error
	if r.curve, err = rest.Righting(o); err != nil {
		return err
	}
	if r.sides[0], r.sides[1], err = r.curve.Sides(); err != nil {
		return err
	}
	for i, end := range []float64{-math.Pi, math.Pi} {
		if r.left[i], err = r.curve.Leaves(end); err != nil {
			return err
		}
	}
	for _, p := range r.trial.Watched() {
		w := wetAngles{Watched: p, falling: math.NaN(), rising: math.NaN()}
		h, _ := p.Clearance(r.curve.Start.Attitude)
		w.wet = h < 0
		falling, rising, err := r.curve.Under(p)
		if err != nil {
			return err
		}
		if falling != nil {
			w.falling = falling.Angle
		}
		if rising != nil {
			w.rising = rising.Angle
		}
		r.wets = append(r.wets, w)
	}
	for _, a := range areas {
		p, err := r.curve.At(a)
		if err != nil {
			return fmt.Errorf("--areas %s: %w", unit.Format(unit.Angle, a), err)
		}
		left, err := r.curve.Leaves(a)
		if err != nil {
			return err
		}
		v := math.NaN()
		if left == nil {
			if v, err = r.curve.Area(a); err != nil {
				return err
			}
		}
		r.areas = append(r.areas, area{p, v, left})
	}
	return nil
}

// worse returns the side on which rank is less, the rising one when alike, and
// its name.
func (r *rightReport) worse(rank func(hydro.RightingSide) float64) (hydro.RightingSide, string) {
	const alike = 1e-9
	w := r.words()
	switch a, b := rank(r.sides[0]), rank(r.sides[1]); {
	case a < b-alike || math.IsNaN(b) && !math.IsNaN(a):
		return r.sides[0], w.sides[0]
	case b < a-alike || math.IsNaN(a) && !math.IsNaN(b):
		return r.sides[1], w.sides[1]
	}
	return r.sides[1], "both"
}

// words are how the two axes are spoken of.
type rightWords struct {
	angle, free     string // "heel", "trim"
	falling, rising string // "to port", "to starboard"
	gm              string // key of the GM about the axis
	angleAxis       string // for the plot
	freeAxis        string
	turned          string    // "heeled"
	sides           [2]string // falling, rising, in JSON
}

func (r *rightReport) words() rightWords {
	if r.curve.Axis == hydro.PitchAxis {
		return rightWords{"pitch", "roll", "nose down", "nose up", "gm_longitudinal", "Pitch, nose up", "Roll", "pitched", [2]string{"nose down", "nose up"}}
	}
	return rightWords{"heel", "trim", "to port", "to starboard", "gm_transverse", "Heel, starboard down", "Trim, nose up", "heeled", [2]string{"port", "starboard"}}
}

// shown reports whether point i of the curve is in the table.
func (r *rightReport) shown(i int) bool {
	p := r.curve.Points
	if i == 0 || i == len(p)-1 || p[i].Angle == r.curve.Start.Angle {
		return true
	}
	if p[i-1].Angle == p[i].Angle || p[i+1].Angle == p[i].Angle {
		return true // a jump
	}
	row := p[i].Angle / r.rows
	return math.Abs(row-math.Round(row)) < 1e-6
}

func (r *rightReport) json() object {
	t, w, c := r.trial, r.words(), r.curve
	var o object
	o.add("name", t.Craft.Name)
	o.number("mass", unit.Mass, t.Body.Mass)
	o.vector("cg_m", t.Body.CG)
	o.number("water_density", unit.Density, t.Body.Density)
	o.add("upright", r.upright)
	o.add("axis", w.angle)
	o.number("rest_"+w.angle, unit.Angle, c.Start.Angle)
	o.number("rest_"+w.free, unit.Angle, c.Start.Free)
	o.number(w.gm, unit.Length, c.GM)
	if r.upright {
		r.sidesJSON(&o)
	}
	curve := []object{}
	for i := range c.Points {
		if !r.thin || r.shown(i) {
			curve = append(curve, append(r.pointJSON(&c.Points[i]), field{"after_leap", r.other(i)}))
		}
	}
	o.add("curve", curve)
	points := []object{}
	for _, p := range r.wets {
		q := object{{"name", p.Name}, {"keep_dry", p.KeepDry}, {"wet_at_rest", p.wet}}
		q.number("falling_"+w.angle, unit.Angle, p.falling)
		q.number("rising_"+w.angle, unit.Angle, p.rising)
		points = append(points, q)
	}
	o.add("points", points)
	jumps := []object{}
	for _, j := range c.Jumps {
		var q object
		q.number(w.angle, unit.Angle, j.Angle)
		q.number(w.free+"_from", unit.Angle, j.From)
		q.number(w.free+"_to", unit.Angle, j.To)
		q.add("either_way", j.Either)
		q.add("ends_stability", r.ends(j))
		q.number("energy_lost", unit.Energy, j.Lost)
		jumps = append(jumps, q)
	}
	o.add("jumps", jumps)
	areas := []object{}
	for _, a := range r.areas {
		var q object
		q.number(w.angle, unit.Angle, a.point.Angle)
		q.add("after_leap", a.left != nil)
		if a.left == nil {
			q.add("area_m_rad", a.value)
			q.number("work", unit.Energy, a.point.Work)
		}
		areas = append(areas, q)
	}
	o.add("areas", areas)
	o.add("cuts", c.Cuts)
	return o
}

// sidesJSON adds what the two sides come to, and the worse of them under the
// names of the table of results.
func (r *rightReport) sidesJSON(o *object) {
	w := r.words()
	most, side := r.worse(func(s hydro.RightingSide) float64 { return s.Max })
	o.number("gz_max", unit.Length, most.Max)
	o.number("gz_max_"+w.angle, unit.Angle, math.Abs(most.MaxAngle))
	o.add("gz_max_side", side)
	first, side := r.worse(func(s hydro.RightingSide) float64 { return math.Abs(s.Vanishing) })
	o.number("vanishing_"+w.angle, unit.Angle, math.Abs(first.Vanishing))
	o.add("vanishing_side", side)
	o.add("vanishing_by", endKeys[first.Ends])
	sides := []object{}
	for i, name := range []string{w.falling, w.rising} {
		s := object{{"side", name}}
		s.number("gz_max", unit.Length, r.sides[i].Max)
		s.number("gz_max_"+w.angle, unit.Angle, r.sides[i].MaxAngle)
		s.number("vanishing_"+w.angle, unit.Angle, r.sides[i].Vanishing)
		s.add("vanishing_by", endKeys[r.sides[i].Ends])
		if left := r.left[i]; left != nil {
			s.number("leaps_to_"+w.free, unit.Angle, left.Leap.To)
			s.number("then_rests_at_trim", unit.Angle, left.Comes.Trim())
			s.number("then_rests_at_heel", unit.Angle, left.Comes.Heel())
		}
		sides = append(sides, s)
	}
	o.add("sides", sides)
}

func (r *rightReport) pointJSON(p *hydro.RightingPoint) object {
	w := r.words()
	var o object
	o.number(w.angle, unit.Angle, p.Angle)
	o.number("gz", unit.Length, p.GZ)
	o.number("righting_moment", unit.Torque, p.Moment)
	o.number(w.free, unit.Angle, p.Free)
	o.number("draft", unit.Length, p.Draft)
	o.number("work", unit.Energy, p.Work)
	o.vector("up", p.Up)
	if p.Area == 0 {
		o.number("draft_range", unit.Length, p.Slack)
	}
	return o
}
