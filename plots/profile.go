package plots

import (
	"image/color"
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Caution is the line under every figure about floating.
const Caution = "Calm-water statics of the geometry given; waves, wind, spray, leaks and soaked foam take from the reserve."

// Profile is a craft at rest in three views to scale: from starboard, from
// ahead and from above. Lengths are meters, angles radians; places are in body
// axes (x forward, y to port, z up).
type Profile struct {
	Title string
	Parts []ProfilePart
	// Up is the unit vector to the sky in body axes, and Height the height of
	// the body's origin above the water.
	Up     r3.Vec
	Height float64
	CG, CB r3.Vec
	GM     *MetacentricHeights // nil leaves the metacenters out
	// Trim and Heel are said in words; NaN leaves them out, as near a trim of
	// 90 degrees where they have no meaning. The drawing follows Up.
	Trim, Heel float64
	// Lies is how it lies, such as "on its back"; empty for upright.
	Lies string
	// Chord is the wing's chord from its trailing to its leading edge, and
	// AngleOfAttack its angle to the level wind; nil leaves both out.
	Chord         *ProfileLine
	AngleOfAttack float64
	Lines         []ProfileLine // other lines whose angle to the water is watched
	// Points are watched places with their heights above the water.
	Points []ProfilePoint
	// Drafts are places with their depths below the water, positive down; for
	// them Clearance holds the depth.
	Drafts []ProfilePoint
	Facts  []Fact // a short table beside the views
	Note   string // replaces Caution if set
}

// PartKind is what a part is to the water.
type PartKind int

const (
	Flotation  PartKind = iota // a float, a hull
	Buoyant                    // other structure that displaces water, such as a foam wing
	NonBuoyant                 // drawn, but displaces nothing
)

// ProfilePart is a closed surface, or several.
type ProfilePart struct {
	Name string
	Kind PartKind
	// Triangles yields the surface in body axes. It is called several times.
	Triangles iter.Seq[r3.Triangle]
}

// MetacentricHeights are the heights of the metacenters above the center of
// gravity; NaN for one that is not known.
type MetacentricHeights struct{ Transverse, Longitudinal float64 }

// ProfilePoint is a named place and its height above the water, negative when
// wet.
type ProfilePoint struct {
	Name      string
	At        r3.Vec
	Clearance float64
}

// ProfileLine is a line of the craft from an aft to a fore place, and its
// angle to the water.
type ProfileLine struct {
	Name      string
	Aft, Fore r3.Vec
	Angle     float64
}

// Fact is a line of the table beside the views.
type Fact struct{ Name, Value string }

// Triangles yields the triangles of a slice, for a [ProfilePart].
func Triangles(ts []r3.Triangle) iter.Seq[r3.Triangle] {
	return func(yield func(r3.Triangle) bool) {
		for _, t := range ts {
			if !yield(t) {
				return
			}
		}
	}
}

// Colors of parts above water: darker the more they matter to the water, so
// that kinds differ in black and white too.
var (
	partColors = map[PartKind]color.RGBA{
		Flotation:  {0xf0, 0xd5, 0x9a, 0xff},
		Buoyant:    {0xe3, 0xe6, 0xdf, 0xff},
		NonBuoyant: {0xf7, 0xf6, 0xf3, 0xff},
	}
	partWords = map[PartKind]string{
		Flotation:  "flotation",
		Buoyant:    "other buoyant",
		NonBuoyant: "not buoyant",
	}
	waterColor = color.RGBA{0xe6, 0xf1, 0xf9, 0xff} // behind the craft
	wetColor   = color.RGBA{0x2f, 0x7f, 0xb8, 0xff} // parts under water turn to it
)

const wetShare = 0.74

// frame3 are the axes of the views in body axes: forward and port lie level,
// up is the sky.
type frame3 struct{ forward, port, up r3.Vec }

// axes returns the frame of the water. Forward is where the body's x axis
// points over the water; if it points to the sky or the ground, where the nose
// came from by the shortest way.
func (p *Profile) axes() frame3 {
	n := r3.Unit(p.Up)
	x := r3.Vec{X: 1}
	f := r3.Sub(x, r3.Scale(r3.Dot(n, x), n))
	if r3.Norm(f) < 1e-6 {
		f = r3.Vec{Z: -math.Copysign(1, n.X)}
	}
	f = r3.Unit(f)
	return frame3{f, r3.Cross(n, f), n}
}

// The three projections. In each the picture's y is a height above the water
// or, from above, a distance to port.
func (p *Profile) side() projection {
	a := p.axes()
	return projection{right: a.forward, up: a.up, near: r3.Scale(-1, a.port),
		offset: r3.Vec{Y: p.Height}, normal: a.up, height: p.Height}
}

func (p *Profile) front() projection {
	a := p.axes()
	return projection{right: a.port, up: a.up, near: a.forward,
		offset: r3.Vec{Y: p.Height}, normal: a.up, height: p.Height}
}

func (p *Profile) plan() projection {
	a := p.axes()
	return projection{right: a.forward, up: a.port, near: a.up,
		offset: r3.Vec{Z: p.Height}, normal: a.up, height: p.Height}
}

// bounds returns the box of everything drawn in the water's axes: x forward, y
// to port, z above the water. It holds the water surface too.
func (p *Profile) bounds() r3.Box {
	pr := p.plan()
	inf := math.Inf(1)
	b := r3.Box{Min: r3.Vec{X: inf, Y: inf, Z: 0}, Max: r3.Vec{X: -inf, Y: -inf, Z: 0}}
	add := func(q r3.Vec) {
		v, _ := pr.at(q)
		if d := v.X + v.Y + v.Z; math.IsNaN(d) || math.IsInf(d, 0) {
			return
		}
		b.Min = r3.Vec{X: math.Min(b.Min.X, v.X), Y: math.Min(b.Min.Y, v.Y), Z: math.Min(b.Min.Z, v.Z)}
		b.Max = r3.Vec{X: math.Max(b.Max.X, v.X), Y: math.Max(b.Max.Y, v.Y), Z: math.Max(b.Max.Z, v.Z)}
	}
	for _, part := range p.Parts {
		for t := range part.Triangles {
			for _, q := range t {
				add(q)
			}
		}
	}
	add(p.CG)
	add(p.CB)
	for _, set := range [][]ProfilePoint{p.Points, p.Drafts} {
		for _, q := range set {
			add(q.At)
		}
	}
	return b
}

// millimeters writes a length with the decimals that a craft of the given
// size deserves.
func millimeters(m, size float64) string {
	if size < 0.5 {
		return Number(m*1000, 1) + " mm"
	}
	return Number(m*1000, 0) + " mm"
}

// degrees writes an angle.
func degrees(rad float64) string { return Number(rad*180/math.Pi, 1) + "°" }
