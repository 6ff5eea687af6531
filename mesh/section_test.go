package mesh_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// cloud is a Section's definition taken to points: masses in place of volume
// elements, others in place of area elements.
type cloud []struct {
	at           r3.Vec
	volume, area float64
}

func randomCloud(rng *rand.Rand) cloud {
	c := make(cloud, 5)
	for i := range c {
		c[i].at = randomVec(rng)
		c[i].volume, c[i].area = rng.NormFloat64(), rng.NormFloat64()
	}
	return c
}

func randomVec(rng *rand.Rand) r3.Vec {
	return r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}
}

// section sums the cloud's integrals about ref, each times w.
func (c cloud) section(ref r3.Vec, w float64) mesh.Section {
	var s mesh.Section
	for _, e := range c {
		p := r3.Sub(e.at, ref)
		s.Volume += w * e.volume
		s.Moment.X += w * e.volume * p.X
		s.Moment.Y += w * e.volume * p.Y
		s.Moment.Z += w * e.volume * p.Z
		s.Area += w * e.area
		s.AreaMoment.X += w * e.area * p.X
		s.AreaMoment.Y += w * e.area * p.Y
		s.AreaMoment.Z += w * e.area * p.Z
		s.AreaSecond.XX += w * e.area * p.X * p.X
		s.AreaSecond.YY += w * e.area * p.Y * p.Y
		s.AreaSecond.ZZ += w * e.area * p.Z * p.Z
		s.AreaSecond.XY += w * e.area * p.X * p.Y
		s.AreaSecond.XZ += w * e.area * p.X * p.Z
		s.AreaSecond.YZ += w * e.area * p.Y * p.Z
	}
	return s
}

func TestSectionAlgebra(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	const tol = 1e-13 // five terms of normal deviates, squared
	for range 50 {
		a, b, ref, by, w := randomCloud(rng), randomCloud(rng), randomVec(rng), randomVec(rng), rng.NormFloat64()
		sa := a.section(ref, 1)
		if d := differ(sa.Shift(by), a.section(r3.Sub(ref, by), 1), 2, tol); d != "" {
			t.Errorf("Shift(%v):%s", by, d)
		}
		if d := differ(sa.Add(b.section(ref, 1)), append(a, b...).section(ref, 1), 2, tol); d != "" {
			t.Errorf("Add:%s", d)
		}
		if d := differ(sa.Scale(w), a.section(ref, w), 2, tol); d != "" {
			t.Errorf("Scale(%g):%s", w, d)
		}
	}
}

// dense returns a Sym as gonum's matrix.
func dense(a mesh.Sym) *mat.SymDense {
	return mat.NewSymDense(3, []float64{a.XX, a.XY, a.XZ, a.XY, a.YY, a.YZ, a.XZ, a.YZ, a.ZZ})
}

func column(v r3.Vec) *mat.VecDense { return mat.NewVecDense(3, []float64{v.X, v.Y, v.Z}) }

func TestSymAgainstMatrices(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	randomSym := func() mesh.Sym {
		return mesh.Sym{XX: rng.NormFloat64(), YY: rng.NormFloat64(), ZZ: rng.NormFloat64(), XY: rng.NormFloat64(), XZ: rng.NormFloat64(), YZ: rng.NormFloat64()}
	}
	const tol = 1e-14
	for range 50 {
		a, b, s, u, v := randomSym(), randomSym(), rng.NormFloat64(), randomVec(rng), randomVec(rng)

		var sum, scaled, outer mat.Dense
		sum.Add(dense(a), dense(b))
		scaled.Scale(s, dense(a))
		outer.Outer(s, column(v), column(v))
		var image mat.VecDense
		image.MulVec(dense(a), column(v))

		for _, c := range []struct {
			name string
			got  mat.Matrix
			want mat.Matrix
		}{
			{"Add", dense(a.Add(b)), &sum},
			{"Scale", dense(a.Scale(s)), &scaled},
			{"Outer", dense(mesh.Outer(s, v)), &outer},
			{"Vec", column(a.Vec(v)), &image},
		} {
			if !mat.EqualApprox(c.got, c.want, tol) {
				t.Errorf("%s = %v, want %v", c.name, mat.Formatted(c.got), mat.Formatted(c.want))
			}
		}
		if got, want := a.Form(u, v), mat.Inner(column(u), dense(a), column(v)); math.Abs(got-want) > 10*tol {
			t.Errorf("Form(%v, %v) = %g, want %g", u, v, got, want)
		}
	}
}
