package mesh_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// The part below a plane, worked out in rational arithmetic and by another
// way: the body is taken as signed tetrahedra from one of its own vertices,
// and each is clipped on its own into smaller ones.

// rat3 is a point with rational coordinates.
type rat3 [3]*big.Rat

func exactPoint(v r3.Vec) rat3 {
	r := func(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }
	return rat3{r(v.X), r(v.Y), r(v.Z)}
}

func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

func (a rat3) minus(b rat3) rat3 { return rat3{sub(a[0], b[0]), sub(a[1], b[1]), sub(a[2], b[2])} }
func (a rat3) plus(b rat3) rat3  { return rat3{add(a[0], b[0]), add(a[1], b[1]), add(a[2], b[2])} }
func (a rat3) times(s *big.Rat) rat3 {
	return rat3{mul(a[0], s), mul(a[1], s), mul(a[2], s)}
}
func (a rat3) dot(b rat3) *big.Rat {
	return add(add(mul(a[0], b[0]), mul(a[1], b[1])), mul(a[2], b[2]))
}
func (a rat3) cross(b rat3) rat3 {
	c := func(i, j int) *big.Rat { return sub(mul(a[i], b[j]), mul(a[j], b[i])) }
	return rat3{c(1, 2), c(2, 0), c(0, 1)}
}

// exactCut sums what is below the plane n.p + d = 0, about ref. The sums are
// kept to 200 bits: exact terms of many denominators would grow without end.
type exactCut struct {
	n   rat3
	d   *big.Rat
	ref rat3
	sum [14]*big.Float // in the order of numbers; the cut's times the length of n
}

// exactBelow returns the section of b below pl about a point.
func exactBelow(b *mesh.Mesh, pl mesh.Plane, about r3.Vec) mesh.Section {
	c := exactCut{n: exactPoint(pl.Normal), d: new(big.Rat).SetFloat64(pl.Offset), ref: exactPoint(about)}
	for i := range c.sum {
		c.sum[i] = new(big.Float).SetPrec(200)
	}
	v := make([]rat3, len(b.Vertices))
	for i := range v {
		v[i] = exactPoint(b.Vertices[i])
	}
	for _, t := range b.Triangles {
		tet := [4]rat3{v[0], v[t[0]], v[t[1]], v[t[2]]}
		c.tetrahedron(tet, int64(sixfold(tet).Sign()))
	}
	var f [14]float64
	for i := range f {
		f[i], _ = c.sum[i].Float64()
		if i >= 4 {
			f[i] /= r3.Norm(pl.Normal)
		}
	}
	return mesh.Section{
		Volume: f[0], Moment: r3.Vec{X: f[1], Y: f[2], Z: f[3]},
		Area: f[4], AreaMoment: r3.Vec{X: f[5], Y: f[6], Z: f[7]},
		AreaSecond: mesh.Sym{XX: f[8], YY: f[9], ZZ: f[10], XY: f[11], XZ: f[12], YZ: f[13]},
	}
}

// sixfold returns six times the signed volume of a tetrahedron.
func sixfold(t [4]rat3) *big.Rat {
	return t[1].minus(t[0]).dot(t[2].minus(t[0]).cross(t[3].minus(t[0])))
}

// tetrahedron clips one tetrahedron and adds the part below, sign times.
func (c *exactCut) tetrahedron(t [4]rat3, sign int64) {
	if sign == 0 {
		return
	}
	var wet, dry []rat3
	var h = map[*big.Rat]*big.Rat{} // heights, by the pointer to a corner's x
	for i := range t {
		// Corners may share a pointer; they then share the height too.
		h[t[i][0]] = add(c.n.dot(t[i]), c.d)
		if h[t[i][0]].Sign() < 0 {
			wet = append(wet, t[i])
		} else {
			dry = append(dry, t[i])
		}
	}
	x := func(w, d rat3) rat3 {
		hw, hd := h[w[0]], h[d[0]]
		return w.plus(d.minus(w).times(new(big.Rat).Quo(hw, sub(hw, hd))))
	}
	switch len(wet) {
	case 4:
		c.volume(t, sign)
	case 1:
		p, q, r := x(wet[0], dry[0]), x(wet[0], dry[1]), x(wet[0], dry[2])
		c.volume([4]rat3{wet[0], p, q, r}, sign)
		c.area(p, q, r, sign)
	case 3:
		p, q, r := x(wet[0], dry[0]), x(wet[1], dry[0]), x(wet[2], dry[0])
		c.volume(t, sign)
		c.volume([4]rat3{dry[0], p, q, r}, -sign)
		c.area(p, q, r, sign)
	case 2: // a wedge between two triangles, in three tetrahedra
		a0, a1, a2 := wet[0], x(wet[0], dry[0]), x(wet[0], dry[1])
		b0, b1, b2 := wet[1], x(wet[1], dry[0]), x(wet[1], dry[1])
		c.volume([4]rat3{a0, b0, b1, b2}, sign)
		c.volume([4]rat3{a0, a1, b1, b2}, sign)
		c.volume([4]rat3{a0, a1, a2, b2}, sign)
		c.area(a1, a2, b2, sign)
		c.area(a1, b2, b1, sign)
	}
}

// put adds a rational to one of the sums.
func (c *exactCut) put(i int, r *big.Rat) {
	c.sum[i].Add(c.sum[i], new(big.Float).SetPrec(200).SetRat(r))
}

// volume adds a tetrahedron that is below the plane.
func (c *exactCut) volume(t [4]rat3, sign int64) {
	six := sixfold(t)
	vol := mul(six.Abs(six), big.NewRat(sign, 6))
	mid := t[0].plus(t[1]).plus(t[2]).plus(t[3]).times(big.NewRat(1, 4)).minus(c.ref)
	c.put(0, vol)
	for i := range 3 {
		c.put(1+i, mul(vol, mid[i]))
	}
}

// area adds a triangle of the cut.
func (c *exactCut) area(p, q, r rat3, sign int64) {
	twice := q.minus(p).cross(r.minus(p)).dot(c.n)
	a := mul(twice.Abs(twice), big.NewRat(sign, 2))
	p, q, r = p.minus(c.ref), q.minus(c.ref), r.minus(c.ref)
	sum := p.plus(q).plus(r)
	c.put(4, a)
	for i := range 3 {
		c.put(5+i, mul(a, mul(sum[i], big.NewRat(1, 3))))
	}
	for k, ij := range [6][2]int{{0, 0}, {1, 1}, {2, 2}, {0, 1}, {0, 2}, {1, 2}} {
		i, j := ij[0], ij[1]
		m := add(add(mul(p[i], p[j]), mul(q[i], q[j])), add(mul(r[i], r[j]), mul(sum[i], sum[j])))
		c.put(8+k, mul(a, mul(m, big.NewRat(1, 12))))
	}
}

// slack bounds how far the cut's integrals may be off, as a share of the
// matching power of the body's size. A height sums four terms of at most that
// size with three roundings each; where its error δ is, the line in which the
// plane cuts a facet moves by δ over the sine of the angle between the two,
// along a length of at most the size. One rounding more, and some, is for each
// term of the sums. A facet in the plane has no bound: +Inf.
func slack(b *mesh.Mesh, pl mesh.Plane) float64 {
	sum := 0.0
	for i := range b.Triangles {
		t := b.Triangle(i)
		h0, h1, h2 := pl.Height(t[0]), pl.Height(t[1]), pl.Height(t[2])
		if min(h0, h1, h2) < 1e-9 && max(h0, h1, h2) > -1e-9 {
			facet := r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0]))
			sum += r3.Norm(facet) / r3.Norm(r3.Cross(facet, pl.Normal))
		}
	}
	return unitRoundoff * (12*sum + 4*float64(len(b.Triangles)))
}

// unitRoundoff is half the distance from 1 to the next float64.
const unitRoundoff = 0x1p-53

// Random tetrahedra and dented bodies at random planes.
func TestBelowMatchesExactArithmetic(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	// Coordinates of few bits keep the rationals short; the plane has all 53.
	coordinate := func() float64 { return float64(rng.IntN(257)-128) / 64 }
	point := func() r3.Vec { return r3.Vec{X: coordinate(), Y: coordinate(), Z: coordinate()} }
	cuts := 0
	for range 60 {
		var b *mesh.Mesh
		if rng.IntN(3) > 0 {
			b = &mesh.Mesh{
				Vertices:  []r3.Vec{point(), point(), point(), point()},
				Triangles: [][3]uint32{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}},
			}
			v := b.Vertices
			switch d := r3.Dot(r3.Sub(v[1], v[0]), r3.Cross(r3.Sub(v[2], v[0]), r3.Sub(v[3], v[0]))); {
			case d == 0:
				continue
			case d < 0:
				v[0], v[1] = v[1], v[0]
			}
		} else {
			radii := make([]float64, 12)
			for i := range radii {
				radii[i] = 0.5 + rng.Float64()
			}
			b = dented(radii)
			for i, v := range b.Vertices {
				b.Vertices[i] = r3.Scale(1.0/64, r3.Vec{X: math.Round(64 * v.X), Y: math.Round(64 * v.Y), Z: math.Round(64 * v.Z)})
			}
		}
		p := inPlace(t, b)
		for range 4 {
			about, through := point(), b.Vertices[rng.IntN(len(b.Vertices))]
			through = r3.Add(r3.Scale(0.7, through), r3.Scale(0.3, p.Centroid()))
			n := r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
			pl := mesh.Plane{Normal: n, Offset: -r3.Dot(n, through)}
			size := reach(b, about)
			tol := slack(b, pl)
			got, want := p.Below(pl, about), exactBelow(b, pl, about)
			if d := differ(got, want, size, tol); d != "" {
				t.Errorf("Below(%v, %v) of %v:%s", pl, about, b, d)
			}
			if d := differ(volumes(got), volumes(want), size, 100*unitRoundoff); d != "" {
				t.Errorf("Below(%v, %v) of %v:%s", pl, about, b, d)
			}
			if want.Area > 0 {
				cuts++
			}
		}
	}
	if cuts < 200 {
		t.Errorf("only %d planes cut their body", cuts)
	}
}
