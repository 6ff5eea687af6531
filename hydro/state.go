package hydro

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// State is a body at an attitude with its volume balanced: everything the
// waterplane says.
type State struct {
	Attitude
	Volume float64  // displaced, m3
	CB     r3.Vec   // center of buoyancy, body axes, m
	Area   float64  // of the waterplane, m2; zero when nothing pierces the surface
	CF     r3.Vec   // center of flotation, body axes, m; meaningless when Area is zero
	Second mesh.Sym // second moments of the waterplane about CF, body axes, m4
	CG     r3.Vec   // center of gravity with the liquids where they lie, body axes, m
	Energy float64  // W (G - B) height at balanced volume, J: least at rest

	Cuts     int     // how many times the hull was cut to get here
	Residual float64 // how far from balance, relative to size and volume

	body *Body
	at   place
}

// state turns a place into a State.
func (b *Body) state(p *place, cuts int) State {
	center := b.Hull.center
	s := State{
		Attitude: Attitude{Up: p.n, Height: p.e - r3.Dot(p.n, center)},
		Volume:   p.sec.Volume,
		CB:       r3.Add(center, r3.Scale(1/p.sec.Volume, p.sec.Moment)),
		Energy:   p.energy * b.Mass * Gravity * b.Hull.size,
		Cuts:     cuts,
		CG:       b.gravity(p.loose),
		Residual: p.residual(),
		body:     b,
		at:       *p,
	}
	if b.Hull.pierces(p.sec.Area) {
		s.Area = p.sec.Area
		arm := r3.Scale(1/p.sec.Area, p.sec.AreaMoment)
		s.CF = r3.Add(center, arm)
		s.Second = p.sec.AreaSecond.Add(mesh.Outer(-p.sec.Area, arm))
	}
	return s
}

// pierces reports whether an area is a waterplane: less than rounding leaves of
// one is none.
func (h *Hull) pierces(area float64) bool { return area > 1e-12*h.size*h.size }

// Body returns the body whose state this is.
func (s *State) Body() *Body { return s.body }

// BG returns the height of G above B, m.
func (s *State) BG() float64 { return r3.Dot(s.Up, r3.Sub(s.CG, s.CB)) }

// gravity returns the center of gravity with the liquids where they lie.
func (b *Body) gravity(l loose) r3.Vec {
	if l.need == 0 {
		return b.CG
	}
	need := b.Need()
	arm := r3.Add(r3.Scale(need-l.need, r3.Sub(b.CG, b.Hull.center)), l.moment)
	return r3.Add(b.Hull.center, r3.Scale(1/need, arm))
}

// stiff returns the second moments that bring the body back: the waterplane's,
// less those of the liquids' free surfaces.
func (s *State) stiff() mesh.Sym { return s.Second.Add(s.at.loose.surface.Scale(-1)) }

// horizontals returns the horizontal projection of the body's x axis and the
// horizontal direction to port of it. With the x axis vertical its place is
// taken by the y axis.
func (s *State) horizontals() (ahead, port r3.Vec) { return tangents(s.Up) }

// gmAbout returns the metacentric height for a small turn about the
// horizontal unit axis: the waterplane's second moment about that axis over
// the volume, less BG.
func (s *State) gmAbout(axis r3.Vec) float64 { return s.gmToward(r3.Cross(s.Up, axis)) }

// gmToward returns the metacentric height for a small turn toward the
// horizontal unit vector across.
func (s *State) gmToward(across r3.Vec) float64 {
	return s.stiff().Form(across, across)/s.Volume - s.BG()
}

// GMTransverse returns the metacentric height about the horizontal projection
// of the body x axis, m.
func (s *State) GMTransverse() float64 {
	ahead, _ := s.horizontals()
	return s.gmAbout(ahead)
}

// GMLongitudinal returns the metacentric height about the horizontal axis
// across the body x axis, m.
func (s *State) GMLongitudinal() float64 {
	_, port := s.horizontals()
	return s.gmAbout(port)
}

// GMLeast returns the least metacentric height over all horizontal axes, m,
// and the unit axis about which the body turns to find it. It can be negative
// while both named ones are positive.
func (s *State) GMLeast() (gm float64, axis r3.Vec) {
	ahead, port := s.horizontals()
	j := s.stiff()
	lo, _, v := eigen2(j.Form(ahead, ahead), j.Form(port, port), j.Form(ahead, port))
	across := r3.Add(r3.Scale(v[0], ahead), r3.Scale(v[1], port))
	return lo/s.Volume - s.BG(), r3.Cross(across, s.Up)
}

// Draft returns the depth of the hull's deepest point below the water, m.
func (s *State) Draft() float64 { return -s.HeightOf(s.body.Hull.Lowest(s.Up)) }

// WetArea returns the hull's area in contact with water, m2.
func (s *State) WetArea() float64 { return s.body.Hull.WetArea(s.Attitude) }

// Reserve returns the volume that is left above the water over the volume
// displaced, a plain ratio: the whole hull's reserve buoyancy over the
// displacement.
func (s *State) Reserve() float64 { return s.body.Hull.volume/s.body.Need() - 1 }

// HeaveRange returns the lowest and highest height of the body's origin at
// which the volume stays balanced at this upward direction. The two are equal
// unless nothing pierces the surface; then the body is neutral in heave
// between them.
func (s *State) HeaveRange() (lo, hi float64) {
	if s.Area > 0 {
		return s.Height, s.Height
	}
	b := s.body
	low, high := b.Hull.span(s.Up)
	edge := func(from, to float64) float64 { // from is balanced, to is not
		for math.Abs(to-from) > 1e-12*b.Hull.size {
			mid := (from + to) / 2
			if p := b.at(s.Up, mid); math.Abs(p.grad[2]) <= 1e-12 {
				from = mid
			} else {
				to = mid
			}
		}
		return from
	}
	shift := r3.Dot(s.Up, b.Hull.center)
	return edge(s.at.e, -high-b.Hull.size) - shift, edge(s.at.e, -low+b.Hull.size) - shift
}
