package craft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// FloatSheet is the geometry of one flotation part as read from its mesh, in
// craft axes, lengths in meters and angles in radians. What the mesh does not
// show, such as a step on a float without one, is NaN.
type FloatSheet struct {
	Part   string
	Count  int // of the part: two of a mirrored one
	Length float64
	Bow    float64 // x of the foremost point
	Stern  float64 // x of the aftmost
	Depth  float64 // from the lowest to the highest point

	StepX     float64 // where the keel drops going forward
	StepZ     float64 // of the forebody's keel at the step
	StepDepth float64
	Beam      float64 // of the section just ahead of the step, or the widest
	Deadrise  float64 // of the same section
	Forebody  float64 // angle of the keel ahead of the step, front end up
	Afterbody float64 // angle by which the keel rises aft of the step
	Spacing   float64 // between the middles of the two of a mirrored part

	touch float64 // rotation as the mesh has it; NaN where the builder states the step
}

// FloatMarks overrule what a FloatSheet reads, where the builder knows better.
type FloatMarks struct {
	StepX                          *float64 // craft axes, m
	Beam, Deadrise                 *float64
	StepDepth, Forebody, Afterbody *float64
}

// keelPlaces is how many sections the keel is followed through.
const keelPlaces = 240

// FloatSheets returns the sheet of each flotation part.
func (c *Craft) FloatSheets() []FloatSheet {
	var out []FloatSheet
	for i := range c.Parts {
		if p := &c.Parts[i]; p.Role == Flotation {
			out = append(out, p.FloatSheet())
		}
	}
	return out
}

// FloatSheet reads the geometry of the part from its sections.
func (p *Part) FloatSheet() FloatSheet {
	all := p.Placed()
	one := all[:len(all)/p.Count()]
	lo, hi := extent(one, r3.Vec{X: 1})
	bottom, top := extent(one, r3.Vec{Z: 1})
	s := FloatSheet{
		Part: p.Name, Count: p.Count(), Length: hi - lo, Bow: hi, Stern: lo, Depth: top - bottom,
		StepX: math.NaN(), StepZ: math.NaN(), StepDepth: math.NaN(), Spacing: math.NaN(),
		touch: math.NaN(),
	}
	if p.Mirrored {
		y0, y1 := extent(one, r3.Vec{Y: 1})
		s.Spacing = math.Abs(y0 + y1)
	}
	keel := keelOf(one, lo, hi, keelPlaces)
	s.findStep(one, keel)
	if m := p.Marks; m.StepX == nil && m.StepDepth == nil && m.Afterbody == nil {
		s.touch = s.touches(one)
	}
	s.apply(p.Marks)
	s.measure(one, keel)
	s.apply(p.Marks)
	return s
}

// extent returns the least and largest d.p over solids.
func extent(solids []mesh.Placed, d r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range solids {
		lo = min(lo, r3.Dot(d, s.Lowest(d)))
		hi = max(hi, r3.Dot(d, s.Lowest(r3.Scale(-1, d))))
	}
	return lo, hi
}

// findStep looks for a drop of the keel that is many times what it does
// elsewhere, and closes in on it.
func (s *FloatSheet) findStep(one []mesh.Placed, keel keelLine) {
	i, depth := keel.drop()
	// The bow's own rise can be steep, but it rises forward; a drop going
	// forward of a hundredth of the depth and many times the usual is a step.
	if i < 0 || depth < 0.01*s.Depth || depth < 4*keel.median() {
		return
	}
	x0, x1 := keel.x[i], keel.x[i+1]
	z0, z1 := keel.z[i], keel.z[i+1]
	behind, ahead := z0, z1 // of the keel next to the place
	for range 40 {
		x := (x0 + x1) / 2
		k, ok := sectionAt(one, x).keel()
		if !ok {
			break
		}
		if math.Abs(k.Z-z0) < math.Abs(k.Z-z1) {
			x0, behind = x, k.Z
		} else {
			x1, ahead = x, k.Z
		}
	}
	// The keel has a slope of its own between the sections first looked at. A
	// raked face has no place where all of it drops: there they are all there is.
	if behind-ahead > (z0-z1)/2 {
		z0, z1 = behind, ahead
	}
	s.StepX, s.StepZ, s.StepDepth = x1, z1, z0-z1
}

// touches returns the angle by which the solids can turn nose up about the
// step's keel before something behind it reaches the line through it, rad. The
// hundredth of the length next to the step is left to the step's own face.
func (s *FloatSheet) touches(one []mesh.Placed) float64 {
	least := math.NaN()
	for _, p := range one {
		for i := range p.Solid.Surface() {
			t := p.Triangle(i)
			for _, v := range t {
				back := s.StepX - v.X
				if angle := math.Atan2(v.Z-s.StepZ, back); back > 0.01*s.Length && !(angle >= least) {
					least = angle
				}
			}
		}
	}
	return least
}

// measure fills in what is read at and about the step, or without one at the
// fullest section.
func (s *FloatSheet) measure(one []mesh.Placed, keel keelLine) {
	at := s.StepX + 0.005*s.Length
	if math.IsNaN(s.StepX) {
		at = widest(one, s.Stern, s.Bow)
	}
	o := sectionAt(one, at)
	lo, hi := o.breadth()
	s.Beam, s.Deadrise = hi-lo, o.deadrise()
	if math.IsNaN(s.StepX) {
		s.Forebody = keel.fit(at, at+0.15*s.Length)
		s.Afterbody = math.NaN()
		return
	}
	s.Forebody = keel.fit(s.StepX, s.StepX+0.15*s.Length)
	s.Afterbody = -keel.fit(s.Stern, s.StepX)
}

// widest returns where the section is widest.
func widest(one []mesh.Placed, lo, hi float64) float64 {
	best, at := 0.0, (lo+hi)/2
	for i := range 60 {
		x := lo + (hi-lo)*(float64(i)+0.5)/60
		if a, b := sectionAt(one, x).breadth(); b-a > best {
			best, at = b-a, x
		}
	}
	return at
}

// apply puts in what the builder states.
func (s *FloatSheet) apply(m FloatMarks) {
	for _, o := range []struct {
		stated *float64
		to     *float64
	}{{m.StepX, &s.StepX}, {m.Beam, &s.Beam}, {m.Deadrise, &s.Deadrise}, {m.StepDepth, &s.StepDepth}, {m.Forebody, &s.Forebody}, {m.Afterbody, &s.Afterbody}} {
		if o.stated != nil {
			*o.to = *o.stated
		}
	}
}

// Advice is one figure of a float's geometry beside what common practice makes
// of it. It is a plausibility range and never a verdict: practice disagrees
// with itself.
type Advice struct {
	What     string
	Value    float64 // NaN where it cannot be worked out
	Kind     AdviceKind
	Practice string // the range, in words
	Within   bool   // of the range, meaningless for a NaN
}

// AdviceKind says what an Advice's value is.
type AdviceKind int

const (
	Share  AdviceKind = iota // plain ratio
	Length                   // m
	Angle                    // rad
)

const degree = math.Pi / 180

// Advise compares a sheet with the rules of thumb that model builders use
// (common practice, no source; the ranges are the spread of unrelated hobby
// sources and full-size texts, quoted from memory). cg is the CG, propeller and
// tail the craft's PropellerX and TailX.
func (s *FloatSheet) Advise(cg r3.Vec, propeller, tail *float64) []Advice {
	var out []Advice
	disc, airplane := math.NaN(), math.NaN()
	if propeller != nil {
		disc = *propeller
		if tail != nil {
			airplane = disc - *tail
		}
	}
	add := func(what string, v float64, k AdviceKind, lo, hi float64, words string) {
		out = append(out, Advice{What: what, Value: v, Kind: k, Practice: words, Within: v >= lo && v <= hi})
	}
	inf := math.Inf(1)
	add("length over length of the airplane", s.Length/airplane, Share, 0.75, 0.80, "0.75 to 0.80 for twin floats, near 1 for a single one")
	add("ahead of the propeller, of its length", (s.Bow-disc)/s.Length, Share, 0.05, 0.15, "0.05 to 0.15")
	add("step aft of the CG, of its length", (cg.X-s.StepX)/s.Length, Share, 0, 0.03, "0 to 0.03, never ahead")
	add("lean of the line from step to CG", math.Atan2(cg.X-s.StepX, cg.Z-s.StepZ), Angle, 10*degree, 20*degree, "10 to 20 deg on full-size machines; often less on models")
	add("step from the bow, of its length", (s.Bow-s.StepX)/s.Length, Share, 0.48, 0.58, "about 0.5 to 0.55")
	add("step depth, of its length", s.StepDepth/s.Length, Share, 0.01, inf, "at least 0.01")
	add("depth, of its length", s.Depth/s.Length, Share, 0.06, 0.12, "about 0.08")
	add("afterbody keel angle", s.Afterbody, Angle, 2*degree, 8*degree, "3 deg and more")
	add("rotation until the stern touches", s.Rotation(), Angle, 4*degree, inf, "more than the angle at take-off")
	return out
}

// Rotation returns the angle by which the craft can turn nose up about the step
// before the stern's keel, or what else lies lowest behind the step, reaches the
// line through the step's keel, rad. Where the builder states step or afterbody
// it is that of the stern's keel by what is stated.
func (s *FloatSheet) Rotation() float64 {
	if !math.IsNaN(s.touch) {
		return s.touch
	}
	if math.IsNaN(s.StepX) || math.IsNaN(s.Afterbody) {
		return math.NaN()
	}
	back := s.StepX - s.Stern
	rise := s.StepDepth + back*math.Tan(s.Afterbody)
	return math.Atan2(rise, back)
}
