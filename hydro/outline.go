package hydro

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Exposed is what the wind takes hold of.
type Exposed interface {
	// Exposed returns the area above the water in a pose as the wind sees it,
	// and the height of its center above the water. The wind blows from the
	// given angle, rad clockwise from ahead seen from above. It is asked for
	// at very many poses and must not leap from one to the next.
	Exposed(p Pose, from float64) (area, height float64)
	// Shown returns the same as exact as it can be had, for one pose that is
	// told of.
	Shown(p Pose, from float64) (area, height float64)
}

// Areas is what the wind takes hold of as stated: an area seen from the side
// and one seen from ahead, each with its center, which turn with the body and
// stay what they are. From between, an angle a from ahead, it is
// Side |sin a| + Front |cos a|, as for a box.
type Areas struct {
	Side, Front     float64 // m2
	SideAt, FrontAt r3.Vec  // body axes
}

// Exposed returns the stated area.
func (a Areas) Exposed(p Pose, from float64) (area, height float64) {
	s, c := math.Sincos(from)
	side, front := a.Side*math.Abs(s), a.Front*math.Abs(c)
	if area = side + front; area == 0 {
		return 0, 0
	}
	return area, (side*p.HeightOf(a.SideAt) + front*p.HeightOf(a.FrontAt)) / area
}

// Shown returns the stated area.
func (a Areas) Shown(p Pose, from float64) (area, height float64) { return a.Exposed(p, from) }

// Outlines is what the wind takes hold of as drawn: the outline of solids above
// the water, places behind one another counted once. On the way of a body it is
// taken at trims and heels outlineStep apart as they are needed, and between
// them in proportion. It serves one goroutine at a time.
type Outlines struct {
	solids []mesh.Placed
	center r3.Vec
	views  map[view]*mesh.Silhouette
}

// view is a direction from which an outline was taken.
type view struct {
	trim, heel int // in steps
	from       float64
}

// outlineStep is how far apart outlines are taken, rad: 1 deg. What follows a
// sine is wrong by at most step²/8 between them, next to nothing. But the
// outline of a flat plate has a kink where the plate is passed edge on: there,
// and within a step of there only, it is too large by up to half a step times
// the plan area, 0.9 percent of that. A wing section, round in front, is nearer.
const outlineStep = 2 * math.Pi / outlinesAround

// outlinesAround is how many steps of heel there are.
const outlinesAround = 360

// NewOutlines returns the outlines of solids; center is that of the hull.
func NewOutlines(solids []mesh.Placed, center r3.Vec) *Outlines {
	return &Outlines{solids: solids, center: center, views: map[view]*mesh.Silhouette{}}
}

// Exposed returns the area and center of the outline above the water.
func (o *Outlines) Exposed(p Pose, from float64) (area, height float64) {
	// Upright, heel means nothing; no wind is followed there.
	trim := max(-80*math.Pi/180, min(80*math.Pi/180, p.Trim())) / outlineStep
	heel := p.Heel() / outlineStep
	i, j := math.Floor(trim), math.Floor(heel)
	u, v := trim-i, heel-j
	corners := [4]view{{int(i), int(j), from}, {int(i) + 1, int(j), from}, {int(i), int(j) + 1, from}, {int(i) + 1, int(j) + 1, from}}
	weights := [4]float64{(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v}
	moment := 0.0
	for k, s := range o.at(corners) {
		a, _, h := s.Above(-p.Rise)
		area += weights[k] * a
		moment += weights[k] * a * (h + p.Rise)
	}
	if area == 0 {
		return 0, 0
	}
	return area, moment / area
}

// at returns the outlines of views, taking those that are new, at once.
func (o *Outlines) at(views [4]view) (out [4]*mesh.Silhouette) {
	var wait sync.WaitGroup
	for k := range views {
		v := &views[k]
		v.heel = (v.heel%outlinesAround + outlinesAround) % outlinesAround
		if out[k] = o.views[*v]; out[k] == nil {
			wait.Go(func() {
				p := poseAt(UpVector(float64(v.trim)*outlineStep, float64(v.heel)*outlineStep), 0, o.center)
				out[k] = o.take(p, v.from, mesh.Strips)
			})
		}
	}
	wait.Wait()
	for k, v := range views {
		o.views[v] = out[k]
	}
	return out
}

func (o *Outlines) take(p Pose, from float64, strips int) *mesh.Silhouette {
	return mesh.NewSilhouette(o.solids, blowing(p, from), p.Up, o.center, strips)
}

// Shown returns the area and center of the outline above the water, taken in
// this very pose and in finer strips.
func (o *Outlines) Shown(p Pose, from float64) (area, height float64) {
	area, _, height = o.take(p, from, 4*mesh.Strips).Above(-p.Rise)
	if area == 0 {
		return 0, 0
	}
	return area, height + p.Rise
}

// Seen returns the area that a state shows to a wind from an angle, rad
// clockwise from ahead, and the height of its center above the water.
func Seen(e Exposed, s *State, from float64) (area, height float64) {
	center := s.body.Hull.center
	return e.Shown(poseAt(s.Up, s.HeightOf(center), center), from)
}

// blowing returns the level unit vector to which the wind blows.
func blowing(p Pose, from float64) r3.Vec {
	ahead, port := p.Headings()
	s, c := math.Sincos(from)
	return r3.Add(r3.Scale(-c, ahead), r3.Scale(s, port))
}

var (
	_ Exposed = Areas{}
	_ Exposed = (*Outlines)(nil)
)
