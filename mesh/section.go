package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Sym is a symmetric 3x3 tensor.
type Sym struct{ XX, YY, ZZ, XY, XZ, YZ float64 }

// Outer returns s v vᵀ.
func Outer(s float64, v r3.Vec) Sym {
	return Sym{s * v.X * v.X, s * v.Y * v.Y, s * v.Z * v.Z, s * v.X * v.Y, s * v.X * v.Z, s * v.Y * v.Z}
}

// Add returns a + b.
func (a Sym) Add(b Sym) Sym {
	return Sym{a.XX + b.XX, a.YY + b.YY, a.ZZ + b.ZZ, a.XY + b.XY, a.XZ + b.XZ, a.YZ + b.YZ}
}

// Scale returns s a.
func (a Sym) Scale(s float64) Sym {
	return Sym{s * a.XX, s * a.YY, s * a.ZZ, s * a.XY, s * a.XZ, s * a.YZ}
}

// Vec returns a v.
func (a Sym) Vec(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: a.XX*v.X + a.XY*v.Y + a.XZ*v.Z,
		Y: a.XY*v.X + a.YY*v.Y + a.YZ*v.Z,
		Z: a.XZ*v.X + a.YZ*v.Y + a.ZZ*v.Z,
	}
}

// Form returns uᵀ a v.
func (a Sym) Form(u, v r3.Vec) float64 { return r3.Dot(u, a.Vec(v)) }

// symOuter2 returns v wᵀ + w vᵀ.
func symOuter2(v, w r3.Vec) Sym {
	return Sym{
		2 * v.X * w.X, 2 * v.Y * w.Y, 2 * v.Z * w.Z,
		v.X*w.Y + v.Y*w.X, v.X*w.Z + v.Z*w.X, v.Y*w.Z + v.Z*w.Y,
	}
}

// Section holds the integrals of the part of a solid below a plane, and of the
// cut itself, about a reference point that the maker of the Section states.
// Sections about one point add, so a body of many terms is summed term by term.
type Section struct {
	Volume float64 // of the part below
	Moment r3.Vec  // ∫ (p - ref) dV over the part below

	Area       float64 // of the cut (the waterplane)
	AreaMoment r3.Vec  // ∫ (p - ref) dA over the cut
	AreaSecond Sym     // ∫ (p - ref)(p - ref)ᵀ dA over the cut
}

// Add returns the sum of two sections about the same point.
func (a Section) Add(b Section) Section {
	return Section{
		Volume:     a.Volume + b.Volume,
		Moment:     r3.Add(a.Moment, b.Moment),
		Area:       a.Area + b.Area,
		AreaMoment: r3.Add(a.AreaMoment, b.AreaMoment),
		AreaSecond: a.AreaSecond.Add(b.AreaSecond),
	}
}

// Scale returns the section with every integral multiplied by w.
func (a Section) Scale(w float64) Section {
	return Section{
		Volume:     w * a.Volume,
		Moment:     r3.Scale(w, a.Moment),
		Area:       w * a.Area,
		AreaMoment: r3.Scale(w, a.AreaMoment),
		AreaSecond: a.AreaSecond.Scale(w),
	}
}

// Shift returns the section about another reference point, which lies at -by
// from the present one: every p - ref grows by by.
func (a Section) Shift(by r3.Vec) Section {
	a.AreaSecond = a.AreaSecond.Add(symOuter2(a.AreaMoment, by)).Add(Outer(a.Area, by))
	a.AreaMoment = r3.Add(a.AreaMoment, r3.Scale(a.Area, by))
	a.Moment = r3.Add(a.Moment, r3.Scale(a.Volume, by))
	return a
}

// linear returns the section of the solid after the linear part of an affine
// map, about the image of the reference point. Here covector is the transposed
// map applied to the image plane's unit normal: an area in the plane changes
// by |det| / |covector|, since the map's cofactor takes the old unit normal
// to det/|covector| times the new one.
func (a Section) linear(m Affine, covector r3.Vec) Section {
	det := m.Det()
	if det < 0 {
		det = -det
	}
	onArea := det / r3.Norm(covector)
	a.Volume *= det
	a.Moment = r3.Scale(det, m.Vector(a.Moment))
	a.Area *= onArea
	a.AreaMoment = r3.Scale(onArea, m.Vector(a.AreaMoment))
	a.AreaSecond = m.congruence(a.AreaSecond).Scale(onArea)
	return a
}

// congruence returns M s Mᵀ for the linear part M.
func (a Affine) congruence(s Sym) Sym {
	row := func(i int) r3.Vec { return r3.Vec{X: a.M[i][0], Y: a.M[i][1], Z: a.M[i][2]} }
	x, y, z := row(0), row(1), row(2)
	sx, sy, sz := s.Vec(x), s.Vec(y), s.Vec(z)
	return Sym{r3.Dot(x, sx), r3.Dot(y, sy), r3.Dot(z, sz), r3.Dot(x, sy), r3.Dot(x, sz), r3.Dot(y, sz)}
}
