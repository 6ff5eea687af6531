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
// set. The step is found to the width of the bisection, angles to what the
// lines' own rounding at deck and bow leaves.
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
			{"step depth", s.StepDepth, 0.010, 3e-4},
			{"beam", s.Beam, 0.086, 1e-4},
			{"deadrise", s.Deadrise / degree, 20, 0.05},
			{"forebody", s.Forebody / degree, 0, 0.05},
			{"afterbody", s.Afterbody / degree, 4, 0.1},
			{"rotation", s.Rotation() / degree, math.Atan2(10+380*math.Tan(4*degree), 380) / degree, 0.1},
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
