package hydro

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Liquid is a fixed amount of liquid that lies loose in a space of the craft:
// water shut in by bulkheads, or fuel in a tank. It keeps its own level
// surface, whatever the attitude, and its weight goes where it lies.
//
// It is a potential like the rest. With rho' the liquid's density, v its
// volume and M(n) the first moment of the place it takes, about the hull's
// center, the part of the space below n.q = s with s such that it holds v,
//
//	E = rho' g (n.M + v e)
//
// over a surface at which n.q is the same everywhere. Turning n toward the
// tangent t moves liquid from one side of that surface to the other, all of it
// at the height s: by that no energy is gained or lost to first order, and
//
//	dE/dt = rho' g t.M
//
// as if the liquid were frozen. To second order the layer moved is t2.(c - q)
// thick, with c the surface's centroid since no volume is gained, so that
//
//	dM/dt2 = -∫ (q - c) t2.(q - c) dA,  d²E/dt1dt2 = -rho' g (J(t1,t2) + n.M t1.t2)
//
// with J the surface's second moment about its own centroid, and the last term
// from the curving of the sphere of directions, as for any weight. So a free
// surface takes rho'/rho J/V off the metacentric height, the formula of the
// textbooks, here at every attitude and with the level that it has there.
type Liquid struct {
	Space   []Term  // what it can fill; a weight counts as share of the volume: the permeability
	Volume  float64 // of liquid, m3
	Density float64 // kg/m3
}

// Mass returns the liquid's mass, kg.
func (l *Liquid) Mass() float64 { return l.Volume * l.Density }

// Room returns the volume that the space can hold, m3.
func (l *Liquid) Room() float64 { return room(l.Space) }

func room(terms []Term) float64 {
	sum := 0.0
	for i := range terms {
		sum += terms[i].Weight * terms[i].Volume()
	}
	return sum
}

// brim is the share of the room, counted from the top, within which a space is
// full: no level is looked for in rounding.
const brim = 1e-9

// check returns an error for a liquid that cannot lie in its space.
func (l *Liquid) check() error {
	room := l.Room()
	switch {
	case !(l.Volume >= 0) || math.IsInf(l.Volume, 0):
		return fmt.Errorf("the volume of the liquid is %g m3, it must not be negative", l.Volume)
	case !(l.Density > 0) || math.IsInf(l.Density, 0):
		return fmt.Errorf("the density of the liquid is %g kg/m3, it must be over zero", l.Density)
	case l.Volume > room*(1+brim):
		return fmt.Errorf("%.3g L of liquid do not go into a space of %.3g L", l.Volume*1e3, room*1e3)
	}
	return nil
}

// lie returns the first moment of the liquid about the point about, and its
// free surface's second moment about the surface's centroid, with n up.
func (l *Liquid) lie(n, about r3.Vec) (moment r3.Vec, surface mesh.Sym) {
	room := l.Room()
	if l.Volume <= 0 {
		return r3.Vec{}, mesh.Sym{}
	}
	if l.Volume >= room*(1-brim) {
		for i := range l.Space {
			t := &l.Space[i]
			moment = r3.Add(moment, r3.Scale(t.Weight*t.Volume(), r3.Sub(t.Centroid(), about)))
		}
		return r3.Scale(l.Volume/room, moment), mesh.Sym{}
	}
	sec := l.level(n, about, room)
	moment = sec.Moment
	if !(sec.Area > 0) {
		return moment, mesh.Sym{}
	}
	arm := r3.Scale(1/sec.Area, sec.AreaMoment)
	// What the level solve left over goes in at the surface.
	moment = r3.Add(moment, r3.Scale(l.Volume-sec.Volume, arm))
	return moment, sec.AreaSecond.Add(mesh.Outer(-sec.Area, arm))
}

// level returns the section of the space below the liquid's surface. As for
// the hull, the volume rises steadily with the surface, so that Newton's
// method inside a bracket cannot fail.
func (l *Liquid) level(n, about r3.Vec, room float64) mesh.Section {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range l.Space {
		a, b := l.Space[i].Span(n, about)
		lo, hi = min(lo, a), max(hi, b)
	}
	s := lo + (hi-lo)*l.Volume/room
	for range 200 {
		pl := mesh.Plane{Normal: n, Offset: -s - r3.Dot(n, about)}
		var sec mesh.Section
		for i := range l.Space {
			sec = sec.Add(l.Space[i].Below(pl, about).Scale(l.Space[i].Weight))
		}
		lack := l.Volume - sec.Volume
		if math.Abs(lack) <= levelTolerance*l.Volume {
			return sec
		}
		if lack > 0 {
			lo = s
		} else {
			hi = s
		}
		next := s + lack/sec.Area
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if hi-lo <= 0x1p-52*(math.Abs(lo)+math.Abs(hi)) || next == s {
			return sec
		}
		s = next
	}
	panic("hydro: a bisection of 200 steps did not end") // 2^-200 is below all rounding
}

// loose is what all liquids of a body say of one upward direction, per the
// density of the water.
type loose struct {
	need    float64  // volume of water that weighs as much as they do, m3
	moment  r3.Vec   // of that, about the hull's center
	surface mesh.Sym // second moments of the free surfaces, each about its own centroid
}

// loose lets the body's liquids come to their levels.
func (b *Body) loose(n r3.Vec) loose {
	var sum loose
	for i := range b.Liquids {
		l := &b.Liquids[i]
		k := l.Density / b.Density
		moment, surface := l.lie(n, b.Hull.center)
		sum.need += k * l.Volume
		sum.moment = r3.Add(sum.moment, r3.Scale(k, moment))
		sum.surface = sum.surface.Add(surface.Scale(k))
	}
	return sum
}

// liquid returns the mass of the body's liquids, kg.
func (b *Body) liquid() float64 {
	sum := 0.0
	for i := range b.Liquids {
		sum += b.Liquids[i].Mass()
	}
	return sum
}

// WithLiquid returns the body with a liquid let in, its mass added to the
// body's.
func (b *Body) WithLiquid(l Liquid) *Body {
	c := *b
	c.Mass += l.Mass()
	c.Liquids = append(append([]Liquid(nil), b.Liquids...), l)
	return &c
}
