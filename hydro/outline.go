package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Exposed is what the wind takes hold of.
type Exposed interface {
	// Exposed returns the area above the water in a pose as the wind sees it,
	// and the height of its center above the water. The wind blows from the
	// given angle, rad clockwise from ahead seen from above.
	Exposed(p Pose, from float64) (area, height float64)
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

// Outlines is what the wind takes hold of as drawn: the outline of solids above
// the water, places behind one another counted once. It is taken at trims and
// heels outlineStep apart as they are needed, and between them in proportion.
// It serves one goroutine at a time.
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

// outlineStep is how far apart outlines are taken, rad. Between them an area
// that follows the sine of the heel is wrong by at most step²/8, 0.1 percent
// of its largest.
const outlineStep = 2 * math.Pi / outlinesAround

// outlinesAround is how many steps of heel there are.
const outlinesAround = 72

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
	moment := 0.0
	for _, c := range [4]struct {
		di, dj int
		weight float64
	}{{0, 0, (1 - u) * (1 - v)}, {1, 0, u * (1 - v)}, {0, 1, (1 - u) * v}, {1, 1, u * v}} {
		s := o.at(view{int(i) + c.di, int(j) + c.dj, from})
		a, _, h := s.Above(-p.Rise)
		area += c.weight * a
		moment += c.weight * a * (h + p.Rise)
	}
	if area == 0 {
		return 0, 0
	}
	return area, moment / area
}

// at returns the outline of a view, taking it when it is new.
func (o *Outlines) at(v view) *mesh.Silhouette {
	v.heel = (v.heel%outlinesAround + outlinesAround) % outlinesAround
	s, ok := o.views[v]
	if !ok {
		p := poseAt(UpVector(float64(v.trim)*outlineStep, float64(v.heel)*outlineStep), 0, o.center)
		s = mesh.NewSilhouette(o.solids, blowing(p, v.from), p.Up, o.center, mesh.Strips)
		o.views[v] = s
	}
	return s
}

// Seen returns the area that a state shows to a wind from an angle, rad
// clockwise from ahead, and the height of its center above the water.
func Seen(e Exposed, s *State, from float64) (area, height float64) {
	center := s.body.Hull.center
	return e.Exposed(poseAt(s.Up, s.HeightOf(center), center), from)
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
