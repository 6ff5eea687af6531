package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Gale is what a growing wind from one direction does to a body that lies
// still with its heading held.
type Gale struct {
	From float64 // rad clockwise from ahead
	// Ways are the ways of the body under the wind, one for each WindAnswer:
	// drifting before it, and with the wind just set in. A steady wind finds
	// it drifting. A gust is taken by both, and the worse counts: at first
	// nothing but inertia answers, through the CG, and soon after the water
	// does, further down.
	Ways [2]*Path
	Load *Wind // of the drifting body, at full strength at Gusty

	thrown [2]throw // by gusts, on each of the ways
}

// throw is the gust that throws a body over.
type throw struct {
	speed float64
	at    Point // how far it swings just before
	over  bool  // false where none does
}

const (
	// Gusty is the speed at which the load of a Gale has full strength, m/s.
	Gusty = 10.0
	// Hurricane is the speed up to which a body is followed, m/s: more wind
	// than anything is afloat in that this is for.
	Hurricane = 40.0
)

// Gale follows a body at rest in a growing wind. set, where not nil, changes
// each load before it is used: air, drag coefficient, wing.
func (r *Rest) Gale(on Exposed, from float64, set func(*Wind)) (*Gale, error) {
	g := &Gale{From: from}
	r.body.Hull.Prepare(400)
	for _, answer := range []WindAnswer{Drifting, Onset} {
		w := NewWind(r, on, Gusty, from)
		w.Answer = answer
		if set != nil {
			set(w)
		}
		if answer == Drifting {
			g.Load = w
		}
		// A gust throws the body past where it would rest, and can throw it
		// past where a steady wind would turn it over.
		p, err := r.Follow(Course{
			Load: w, Most: Hurricane * Hurricane / (Gusty * Gusty), Past: true,
			Enough: func(p *Point) bool { return p.Sudden() >= p.Share },
		})
		if err != nil {
			return nil, err
		}
		g.Ways[answer], g.thrown[answer] = p, thrown(p)
	}
	return g, nil
}

// Speed returns the speed of the wind that is a share of the load of a Gale,
// m/s.
func Speed(share float64) float64 { return Gusty * math.Sqrt(max(share, 0)) }

// Share returns the share of the load of a Gale at a speed in m/s.
func Share(speed float64) float64 { return speed * speed / (Gusty * Gusty) }

// At returns how the body lies in a steady wind, and false where it goes over.
func (g *Gale) At(speed float64) (Point, bool) { return g.Ways[Drifting].At(Share(speed)) }

// Over returns the steady speed at which the body goes over and how it lies
// just before, and false where it does not up to Hurricane.
func (g *Gale) Over() (speed float64, at Point, lost bool) {
	p := g.Ways[Drifting]
	at = p.Loss()
	return Speed(at.Share), at, p.Lost()
}

// Gust returns how far a gust of the given speed out of still air throws the
// body, and false where it throws it over. The gust sets in at once and stays;
// without damping the body swings to where the work of the wind has become
// energy, by the areas under the two moments. Of the two ways the one that
// turns it further counts.
func (g *Gale) Gust(speed float64) (Point, bool) {
	var worst Point
	most := -1.0
	for i, p := range g.Ways {
		at, ok := p.At(0)
		rest := at.Up
		if share := Share(speed); share > 0 {
			at, ok = p.First(true, func(q *Point) float64 { return share - q.Sudden() })
			if t := &g.thrown[i]; t.over && speed >= t.speed {
				ok = false
			}
		}
		if !ok {
			return Point{}, false
		}
		if turn := angleBetween(rest, at.Up); turn > most {
			worst, most = at, turn
		}
	}
	return worst, true
}

// GustOver returns the speed of the gust that throws the body over, how far it
// swings just before, and +Inf and false where none does up to Hurricane.
func (g *Gale) GustOver() (speed float64, at Point, lost bool) {
	speed = math.Inf(1)
	for _, t := range g.thrown {
		if t.over && t.speed < speed {
			speed, at, lost = t.speed, t.at, true
		}
	}
	return speed, at, lost
}

// thrown returns the gust that throws a body over on one way.
func thrown(p *Path) throw {
	if !p.Lost() {
		return throw{}
	}
	at, found := p.First(true, func(q *Point) float64 {
		if q.Share == 0 {
			return 1
		}
		return q.Share - q.Sudden()
	})
	if !found {
		// The way past the loss could not be followed on: what it was thrown
		// to so far is known to be withstood, more is not.
		at = p.point(&p.knots[len(p.knots)-1])
	}
	return throw{Speed(at.Sudden()), at, true}
}

// Under returns the steady speed and the speed of a gust at which a place goes
// under, each with false where it does not before the body goes over.
func (g *Gale) Under(p Place) (steady, gust float64, wetSteady, wetGust bool) {
	clear := func(at *Point) float64 {
		h, _ := p.Clearance(at.Attitude)
		return h
	}
	at, wetSteady := g.Ways[Drifting].First(false, clear)
	steady, gust = Speed(at.Share), math.Inf(1)
	most, _, _ := g.GustOver()
	for _, w := range g.Ways {
		if at, wet := w.First(true, clear); wet && Speed(at.Sudden()) <= most {
			gust, wetGust = min(gust, Speed(at.Sudden())), true
		}
	}
	return steady, gust, wetSteady, wetGust
}

// Top is the highest point of a placed solid as a [Place]: when it goes under,
// the solid is under with all of it.
type Top mesh.Placed

// Clearance returns the height of the highest point.
func (t Top) Clearance(a Attitude) (float64, r3.Vec) {
	q := mesh.Placed(t).Lowest(r3.Scale(-1, a.Up))
	return a.HeightOf(q), q
}

var _ Place = Top{}
