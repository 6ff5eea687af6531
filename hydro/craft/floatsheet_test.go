package craft

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/shape"
)

func partOf(t *testing.T, m *mesh.Mesh, fit Fit) Part {
	t.Helper()
	s, err := mesh.NewSolid(m.Vertices, m.Triangles)
	if err != nil {
		t.Fatal(err)
	}
	return Part{Name: "float", Solid: s, Drawn: mesh.Scaling(0.001, 0.001, 0.001), Fit: fit, Base: fit, Mirrored: true}
}

// The sheet of a float drawn to known lines gives them back, wherever it is
// set. The step is found to the width of the bisection, and its depth and the
// rotation to the stern with it; angles to what the lines' own rounding at deck
// and bow leaves.
func TestFloatSheet(t *testing.T) {
	lines := shape.Float{
		Forebody: 440, Afterbody: 380, Beam: 86, Depth: 74, Step: 10, Deadrise: 20 * degree, BowDeadrise: 34 * degree,
		AfterbodyAngle: 4 * degree, Straight: 0.36, BowRise: 64, Sheer: 12, Transom: 48, Edge: 8,
	}
	for _, move := range []r3.Vec{{Y: 0.19}, {X: 0.3, Y: 0.25, Z: -0.1}} {
		p := partOf(t, lines.Mesh(6000), Fit{At: move})
		s := p.FloatSheet()
		for _, c := range []struct {
			name                 string
			got, want, tolerance float64
		}{
			{"length", s.Length, 0.820, 1e-6},
			{"bow", s.Bow, 0.440 + move.X, 1e-6},
			{"spacing", s.Spacing, 2 * move.Y, 1e-6},
			{"step x", s.StepX, move.X, 1e-6},
			{"step z", s.StepZ, move.Z, 1e-6},
			{"step depth", s.StepDepth, 0.010, 1e-9},
			{"beam", s.Beam, 0.086, 1e-4},
			{"deadrise", s.Deadrise / degree, 20, 0.05},
			{"forebody", s.Forebody / degree, 0, 0.05},
			{"afterbody", s.Afterbody / degree, 4, 0.1},
			{"rotation", s.Rotation() / degree, math.Atan2(10+380*math.Tan(4*degree), 380) / degree, 1e-6},
		} {
			if !(math.Abs(c.got-c.want) <= c.tolerance) {
				t.Errorf("set at %v: %s = %g, want %g", move, c.name, c.got, c.want)
			}
		}
	}
}

// A V bottom without a step has none, and its deadrise is read all the same.
func TestFloatSheetWithoutStep(t *testing.T) {
	p := partOf(t, shape.VBottom(800, 100, 15*degree, 90), Fit{})
	s := p.FloatSheet()
	if !math.IsNaN(s.StepX) || !math.IsNaN(s.StepDepth) {
		t.Errorf("step at %g, depth %g; want none", s.StepX, s.StepDepth)
	}
	if math.Abs(s.Deadrise/degree-15) > 1e-6 || math.Abs(s.Beam-0.1) > 1e-9 {
		t.Errorf("deadrise %g deg, beam %g; want 15, 0.1", s.Deadrise/degree, s.Beam)
	}
}

// What the builder states overrules what is read.
func TestFloatMarksOverrule(t *testing.T) {
	p := partOf(t, shape.VBottom(800, 100, 15*degree, 90), Fit{})
	step, depth := 0.02, 0.012
	p.Marks = FloatMarks{StepX: &step, StepDepth: &depth}
	s := p.FloatSheet()
	if s.StepX != step || s.StepDepth != depth {
		t.Errorf("step at %g, depth %g; want what was stated", s.StepX, s.StepDepth)
	}
	for _, a := range s.Advise(r3.Vec{X: 0.03, Z: 0.2}, nil, nil) {
		if a.What == "step aft of the CG, of its length" && math.Abs(a.Value-0.01/0.8) > 1e-12 {
			t.Errorf("%s = %g", a.What, a.Value)
		}
	}
}

// A box under the afterbody touches before the stern does: that is the rotation.
// What the builder states about the step or the afterbody is taken at his word.
func TestRotation(t *testing.T) {
	lines := shape.Float{
		Forebody: 440, Afterbody: 380, Beam: 86, Depth: 74, Step: 10, Deadrise: 20 * degree, BowDeadrise: 34 * degree,
		AfterbodyAngle: 4 * degree, Straight: 0.36, BowRise: 64, Sheer: 12, Transom: 48, Edge: 8,
	}
	rudder := shape.BoxBetween(r3.Vec{X: -360, Y: -2, Z: 30}, r3.Vec{X: -350, Y: 2, Z: 60})
	p := partOf(t, shape.Join(lines.Mesh(6000), rudder), Fit{At: r3.Vec{Y: 0.19, Z: -0.02}})
	s := p.FloatSheet()
	if got, want := s.Rotation(), math.Atan2(30, 360); math.Abs(got-want) > 1e-9 {
		t.Errorf("rotation %g deg, want %g", got/degree, want/degree)
	}
	depth := 0.02
	p.Marks.StepDepth = &depth
	s = p.FloatSheet()
	want := math.Atan2(0.02+0.38*math.Tan(s.Afterbody), 0.38)
	if got := s.Rotation(); math.Abs(got-want) > 1e-12 {
		t.Errorf("rotation %g deg with a stated step, want %g", got/degree, want/degree)
	}
}

// A step whose face is raked over 6 mm keeps its depth: there is no one place
// where the keel drops.
func TestRakedStep(t *testing.T) {
	ring := func(x, keel float64) []r3.Vec {
		return []r3.Vec{{X: x, Y: 0, Z: keel}, {X: x, Y: 40, Z: keel + 12}, {X: x, Y: 40, Z: 80}, {X: x, Y: -40, Z: 80}, {X: x, Y: -40, Z: keel + 12}}
	}
	p := partOf(t, shape.Loft("raked", ring(-380, 10), ring(-6, 10), ring(0, 0), ring(440, 0)), Fit{})
	s := p.FloatSheet()
	if s.StepDepth < 0.0055 || s.StepDepth > 0.010001 || math.Abs(s.StepX+0.003) > 0.004 {
		t.Errorf("step %g mm deep at x %g mm, want most of 10 mm between -6 and 0", s.StepDepth*1e3, s.StepX*1e3)
	}
}
