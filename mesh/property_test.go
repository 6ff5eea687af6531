package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"millpond/mesh"
	"millpond/mesh/shape"
)

// drawVec draws a vector with coordinates from -1 to 1.
func drawVec(t *rapid.T, label string) r3.Vec {
	c := rapid.SliceOfN(rapid.Float64Range(-1, 1), 3, 3).Draw(t, label)
	return r3.Vec{X: c[0], Y: c[1], Z: c[2]}
}

// drawUnit draws a direction.
func drawUnit(t *rapid.T, label string) r3.Vec {
	v := drawVec(t, label)
	if r3.Norm(v) < 0.1 {
		v.Z++
	}
	return r3.Unit(v)
}

// drawBody draws a closed body of about unit size: dented, smooth or a box.
func drawBody(t *rapid.T) *mesh.Mesh {
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		side := rapid.Float64Range(0.2, 1.5)
		return shape.Box(side.Draw(t, "l"), side.Draw(t, "b"), side.Draw(t, "h"))
	case 1:
		return shape.Star(rapid.Uint64().Draw(t, "seed"), 2)
	default:
		n := rapid.SampledFrom([]int{12, 42}).Draw(t, "vertices")
		return dented(rapid.SliceOfN(rapid.Float64Range(0.3, 1.3), n, n).Draw(t, "radii"))
	}
}

// drawPlane draws a plane that passes near or through a body of unit size.
func drawPlane(t *rapid.T) mesh.Plane {
	return mesh.Plane{Normal: drawUnit(t, "normal"), Offset: rapid.Float64Range(-1, 1).Draw(t, "offset")}
}

// drawTurn draws a rigid motion.
func drawTurn(t *rapid.T) mesh.Affine {
	turn := mesh.Rotation(drawUnit(t, "axis"), rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"))
	turn.T = r3.Scale(3, drawVec(t, "shift"))
	return turn
}

// bodySize bounds the distance of any drawn body from the origin.
const bodySize = 3

// What is below a plane and what is above it make the whole, and share the cut.
func TestBelowAndAboveMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl, about := drawBody(t), drawPlane(t), drawVec(t, "about")
		p := inPlace(t, m)
		below, above := p.Below(pl, about), p.Below(flipped(pl), about)
		whole := mesh.Section{Volume: p.Volume(), Moment: r3.Scale(p.Volume(), r3.Sub(p.Centroid(), about))}
		tol := slack(m, pl)
		if d := differ(volumes(below.Add(above)), whole, bodySize, min(tol, 1e-13)); d != "" {
			t.Errorf("below and above %v:%s", pl, d)
		}
		if tol > 1e-9 { // a facet in the plane: each side may count it or not
			return
		}
		below.Volume, below.Moment = above.Volume, above.Moment
		if d := differ(below, above, bodySize, tol); d != "" {
			t.Errorf("the cut from above %v and from below:%s", pl, d)
		}
		if got := p.WetArea(pl) + p.WetArea(flipped(pl)); math.Abs(got-p.Area()) > tol*bodySize*bodySize {
			t.Errorf("wet and dry area at %v = %.17g, want %.17g", pl, got, p.Area())
		}
	})
}

// Neither the order of triangles and vertices nor the corner that a triangle
// begins with changes anything but the last digits.
func TestOrderOfTrianglesIsFree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl := drawBody(t), drawPlane(t)
		a := inPlace(t, m)
		b := inPlace(t, shape.Shuffled(m, rapid.Uint64().Draw(t, "order")))
		if d := differ(b.Below(pl, r3.Vec{}), a.Below(pl, r3.Vec{}), bodySize, slack(m, pl)); d != "" {
			t.Errorf("shuffled: Below(%v):%s", pl, d)
		}
		if got, want := b.WetArea(pl), a.WetArea(pl); math.Abs(got-want) > 1e-13 {
			t.Errorf("shuffled: WetArea(%v) = %.17g, want %.17g", pl, got, want)
		}
	})
}

// Splitting triangles leaves the surface as it was.
func TestSplitTrianglesAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl := drawBody(t), drawPlane(t)
		split := shape.Refined(m)
		a, b := inPlace(t, m), inPlace(t, split)
		tol := slack(split, pl) // a middle is a rounding off its edge, too
		if d := differ(b.Below(pl, r3.Vec{}), a.Below(pl, r3.Vec{}), bodySize, tol); d != "" {
			t.Errorf("split: Below(%v):%s", pl, d)
		}
		if got, want := b.WetArea(pl), a.WetArea(pl); math.Abs(got-want) > tol*bodySize*bodySize {
			t.Errorf("split: WetArea(%v) = %.17g, want %.17g", pl, got, want)
		}
	})
}

// image returns the plane's image under a rigid motion.
func image(pl mesh.Plane, rigid mesh.Affine) mesh.Plane {
	n := rigid.Vector(pl.Normal)
	return mesh.Plane{Normal: n, Offset: pl.Offset - r3.Dot(n, rigid.T)}
}

// turned returns what a section becomes when everything, the reference point
// too, is moved by a rigid motion or a mirror: vectors and tensors turn along.
// The tensor is summed over the columns q of the map, as Σ s_ij q_i q_jᵀ.
func turned(s mesh.Section, by mesh.Affine) mesh.Section {
	x, y, z := by.Vector(r3.Vec{X: 1}), by.Vector(r3.Vec{Y: 1}), by.Vector(r3.Vec{Z: 1})
	second := mesh.Outer(s.AreaSecond.XX-s.AreaSecond.XY-s.AreaSecond.XZ, x).
		Add(mesh.Outer(s.AreaSecond.YY-s.AreaSecond.XY-s.AreaSecond.YZ, y)).
		Add(mesh.Outer(s.AreaSecond.ZZ-s.AreaSecond.XZ-s.AreaSecond.YZ, z)).
		Add(mesh.Outer(s.AreaSecond.XY, r3.Add(x, y))).
		Add(mesh.Outer(s.AreaSecond.XZ, r3.Add(x, z))).
		Add(mesh.Outer(s.AreaSecond.YZ, r3.Add(y, z)))
	return mesh.Section{
		Volume: s.Volume, Moment: by.Vector(s.Moment),
		Area: s.Area, AreaMoment: by.Vector(s.AreaMoment), AreaSecond: second,
	}
}

// A rigid motion of body, plane and reference point turns the answer along,
// whether the placement moves or the mesh.
func TestRigidMotionTurnsAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl, about, move := drawBody(t), drawPlane(t), drawVec(t, "about"), drawTurn(t)
		p := inPlace(t, m)
		want := turned(p.Below(pl, about), move)
		tol := 8 * slack(m, pl) // the motion rounds in coordinates up to 8
		for _, q := range []mesh.Placed{
			{Solid: p.Solid, Place: move},
			inPlace(t, shape.Transformed(m, move)),
		} {
			if d := differ(q.Below(image(pl, move), move.Point(about)), want, bodySize, tol); d != "" {
				t.Errorf("moved by %v: Below(%v):%s", move, pl, d)
			}
			if got, want := q.WetArea(image(pl, move)), p.WetArea(pl); math.Abs(got-want) > tol*bodySize*bodySize {
				t.Errorf("moved by %v: WetArea(%v) = %.17g, want %.17g", move, pl, got, want)
			}
		}
	})
}

// A mirrored body under a mirrored plane gives the mirrored answer, whether the
// placement mirrors or the mesh.
func TestMirrorMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl, about := drawBody(t), drawPlane(t), drawVec(t, "about")
		p := inPlace(t, m)
		starboard := mesh.Scaling(1, -1, 1)
		want := turned(p.Below(pl, about), starboard)
		mirrored := mesh.Plane{Normal: starboard.Vector(pl.Normal), Offset: pl.Offset}
		for _, q := range []mesh.Placed{
			{Solid: p.Solid, Place: starboard},
			inPlace(t, shape.Transformed(m, starboard)),
		} {
			if d := differ(q.Below(mirrored, starboard.Point(about)), want, bodySize, slack(m, pl)); d != "" {
				t.Errorf("mirrored: Below(%v):%s", mirrored, d)
			}
		}
	})
}

// Bodies apart from each other add, as one mesh and as placed parts.
func TestPartsAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, pl := drawBody(t), drawBody(t), drawPlane(t)
		apart := mesh.Translation(r3.Vec{X: 2 * bodySize})
		both := shape.Join(m, shape.Transformed(n, apart))
		a := inPlace(t, m).Below(pl, r3.Vec{})
		b := mesh.Placed{Solid: solidOf(t, n), Place: apart}.Below(pl, r3.Vec{})
		if d := differ(inPlace(t, both).Below(pl, r3.Vec{}), a.Add(b), 3*bodySize, slack(both, pl)); d != "" {
			t.Errorf("one mesh against the sum of two: Below(%v):%s", pl, d)
		}
	})
}

// clearOfVertices returns the least distance of a vertex from the plane.
func clearOfVertices(m *mesh.Mesh, pl mesh.Plane) float64 {
	least := math.Inf(1)
	for _, v := range m.Vertices {
		least = min(least, math.Abs(pl.Height(v)))
	}
	return least
}

// The volume grows with the level by the waterplane's area, the moment by the
// area's moment. Between two vertices the area is a polynomial of degree two in
// the level and its moment one of degree three, so that Simpson's rule is exact
// and the difference over the step needs no small step: only rounding is left.
func TestLevelDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl := drawBody(t), drawPlane(t)
		step := 0.9 * clearOfVertices(m, pl)
		if step < 1e-6 {
			t.Skip("a vertex is on the plane")
		}
		p := inPlace(t, m)
		at := func(rise float64) mesh.Section {
			return p.Below(mesh.Plane{Normal: pl.Normal, Offset: pl.Offset - rise}, r3.Vec{})
		}
		low, mid, high := at(-step), at(0), at(step)
		simpson := low.Add(mid.Scale(4)).Add(high).Scale(step / 3)
		got := mesh.Section{Volume: high.Volume - low.Volume, Moment: r3.Sub(high.Moment, low.Moment)}
		want := mesh.Section{Volume: simpson.Area, Moment: simpson.AreaMoment}
		if d := differ(got, want, bodySize, 1e-14+2*step*slack(m, pl)); d != "" {
			t.Errorf("level of %v by ±%g:%s", pl, step, d)
		}
	})
}

// Turning the plane about the origin in the direction δ raises it over a point p
// by -δ.p an angle, so the volume changes by -δ.∫ p dA and the moment by
// -(∫ p pᵀ dA) δ. The changes over a finite angle, within which no vertex is
// passed, are compared with the integral of those rates by Gauss's rule.
func TestTiltDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, pl := drawBody(t), drawPlane(t)
		n := pl.Normal
		to := r3.Cross(n, drawUnit(t, "axis"))
		if r3.Norm(to) < 0.1 {
			t.Skip("no direction to turn")
		}
		to = r3.Unit(to)
		// The integrands are analytic up to the angle where a vertex is met,
		// clear/bodySize at least. Within a fifth of that, five points leave
		// 5^-10 of them at most.
		half := clearOfVertices(m, pl) / bodySize / 5
		if half < 1e-7 {
			t.Skip("a vertex is on the plane")
		}
		p := inPlace(t, m)
		at := func(angle float64) (sec mesh.Section, toward r3.Vec) {
			s, c := math.Sincos(angle)
			normal := r3.Add(r3.Scale(c, n), r3.Scale(s, to))
			toward = r3.Sub(r3.Scale(c, to), r3.Scale(s, n))
			return p.Below(mesh.Plane{Normal: normal, Offset: pl.Offset}, r3.Vec{}), toward
		}
		one, _ := at(-half)
		two, _ := at(half)
		got := mesh.Section{Volume: two.Volume - one.Volume, Moment: r3.Sub(two.Moment, one.Moment)}
		component := func(f func(sec mesh.Section, toward r3.Vec) float64) float64 {
			return quad.Fixed(func(a float64) float64 { return f(at(a)) }, -half, half, 5, quad.Legendre{}, 0)
		}
		along := func(e r3.Vec) float64 {
			return component(func(s mesh.Section, toward r3.Vec) float64 { return -s.AreaSecond.Form(e, toward) })
		}
		want := mesh.Section{
			Volume: component(func(s mesh.Section, toward r3.Vec) float64 { return -r3.Dot(s.AreaMoment, toward) }),
			Moment: r3.Vec{X: along(r3.Vec{X: 1}), Y: along(r3.Vec{Y: 1}), Z: along(r3.Vec{Z: 1})},
		}
		if d := differ(got, want, bodySize, 1e-14+2*half*(slack(m, pl)+1e-7)); d != "" {
			t.Errorf("%v turned by ±%g:%s", pl, half, d)
		}
	})
}
