package shape

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Float holds the lines of a stepped seaplane float with a V bottom, vertical
// sides, a flat deck with rounded edges, a bow that is round in plan and in
// profile, and a narrow transom. Lengths are in any one unit, angles in
// radians. Its own origin is the keel at the step: x forward, y to port, z up.
type Float struct {
	Forebody       float64 // length ahead of the step
	Afterbody      float64 // length behind it
	Beam           float64 // greatest, at the chines
	Depth          float64 // from the forebody keel up to the deck
	Step           float64 // height of the step
	Deadrise       float64 // of the bottom, from the stern to the straight forebody
	BowDeadrise    float64 // at the stem
	AfterbodyAngle float64 // rise of the afterbody keel
	Straight       float64 // share of the forebody, from the step, with keel and beam straight
	BowRise        float64 // height of the keel at the stem
	Sheer          float64 // rise of the deck at the stem
	Transom        float64 // breadth of the stern
	Edge           float64 // radius of the deck edge where the beam is greatest
}

// station is the shape of one cross section.
type station struct {
	x, keel, half, deadrise, deck float64
	aft                           bool // behind the step
}

// Mesh returns the float in about the given number of triangles, 600 at least.
// Port and starboard are exact mirror images. The step face is flat, and the
// chine runs sharp from the bow to the transom.
func (f Float) Mesh(triangles int) *mesh.Mesh {
	fine := max(math.Sqrt(float64(triangles)/6000), 0.3)
	count := func(n float64) int { return int(math.Ceil(n * fine)) }
	var rings [][]r3.Vec
	add := func(s station) { rings = append(rings, f.section(s, count(6), count(6), count(4), count(5))) }

	for n, i := count(28), 0; i <= n; i++ {
		add(f.behind(1 - float64(i)/float64(n)))
	}
	for n, i := count(12), 0; i < n; i++ {
		add(f.ahead(f.Straight*float64(i)/float64(n), 0))
	}
	// Equal steps of the angle crowd the stations where the bow closes.
	for n, i := count(32), 0; i <= n; i++ {
		sin, _ := math.Sincos(math.Pi / 2 * float64(i) / float64(n))
		if i == n {
			sin = 1
		}
		add(f.ahead(f.Straight+(1-f.Straight)*sin, sin))
	}
	return Loft("float", rings...)
}

// behind returns the station at share s of the afterbody, from 0 at the step
// to 1 at the transom.
func (f Float) behind(s float64) station {
	back := s * f.Afterbody
	return station{
		x:        -back,
		keel:     f.Step + back*math.Tan(f.AfterbodyAngle),
		half:     f.Beam/2 - (f.Beam-f.Transom)/2*s*s,
		deadrise: f.Deadrise,
		deck:     f.Depth,
		aft:      true,
	}
}

// ahead returns the station at share s of the forebody; u is the share of the
// curved part, 0 where it begins and 1 at the stem.
func (f Float) ahead(s, u float64) station {
	return station{
		x: s * f.Forebody,
		// A superellipse lets the keel start level and end upright.
		keel:     f.BowRise * (1 - math.Pow(1-math.Pow(u, 2.2), 1/1.6)),
		half:     f.Beam / 2 * math.Pow(1-math.Pow(u, 2.4), 1/1.9),
		deadrise: f.Deadrise + (f.BowDeadrise-f.Deadrise)*u*u,
		deck:     f.Depth + f.Sheer*u*u,
	}
}

// section returns the ring of a station, anticlockwise seen from ahead, from
// the keel up the port side and down the starboard side, with the given
// numbers of panels across half the bottom, up the side, round the deck edge
// and across half the deck.
//
// The chine steps up at the step while the side above it runs on. So the side
// begins with one row of its own that reaches from the forebody's chine to
// where the afterbody's would be, and that has no height behind the step. The
// two sections at the step then share every point above the afterbody's chine.
func (f Float) section(s station, bottom, side, edge, deck int) []r3.Vec {
	point := func(y, z float64) r3.Vec { return r3.Vec{X: s.x, Y: y, Z: z} }
	chine := s.half * math.Tan(s.deadrise)
	radius := f.Edge * s.half / (f.Beam / 2)
	top := s.deck - radius
	foot := s.keel + chine
	if !s.aft {
		foot += math.Min(f.Step, (top-foot)/2)
	}

	var port []r3.Vec
	for i := range bottom + 1 {
		part := float64(i) / float64(bottom)
		port = append(port, point(part*s.half, s.keel+part*chine))
	}
	for i := range side + 1 {
		port = append(port, point(s.half, foot+(top-foot)*(float64(i)/float64(side))))
	}
	for i := 1; i <= edge; i++ {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / float64(edge))
		if i == edge {
			cos = 0
		}
		port = append(port, point(s.half-radius+radius*cos, top+radius*sin))
	}
	for i := 1; i <= deck; i++ {
		port = append(port, point((s.half-radius)*(1-float64(i)/float64(deck)), s.deck))
	}
	return mirrored(port)
}

// mirrored returns the closed ring of a symmetric section from its port half,
// whose first and last points lie on the centerline.
func mirrored(port []r3.Vec) []r3.Vec {
	ring := append([]r3.Vec(nil), port...)
	for i := len(port) - 2; i > 0; i-- {
		p := port[i]
		p.Y = -p.Y
		ring = append(ring, p)
	}
	return ring
}
