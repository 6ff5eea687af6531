package craft

import (
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// Reshaped reports whether the part's form, and not just its place, is other
// than drawn.
func (p *Part) Reshaped() bool {
	f := p.Fit
	return f.Longer.Add != 0 || f.Deeper.Add != 0 ||
		one(f.Stretch.Length) != 1 || one(f.Stretch.Beam) != 1 || one(f.Stretch.Height) != 1
}

// Reshape returns one of the part's solids, the outer one or a hollow, with its
// plugs and stretch as one closed surface in the coordinates of its file: what
// goes back to CAD. A part that is as drawn gives the solid itself.
func (p *Part) Reshape(s *mesh.Solid) (*mesh.Solid, error) {
	if !p.Reshaped() {
		return s, nil
	}
	var err error
	f := p.Fit
	for _, step := range []struct {
		plug    Plug
		axis    Axis
		stretch float64
	}{{f.Deeper, AlongZ, one(f.Stretch.Height)}, {f.Longer, AlongX, one(f.Stretch.Length)}} {
		if s, err = step.plug.parted(s, p.Drawn, step.axis, step.stretch); err != nil {
			return nil, err
		}
	}
	back, _ := p.Drawn.Inverse()
	stretch := f.Stretch.affine()
	return s.Mapped(func(v r3.Vec) r3.Vec {
		q := p.Drawn.Point(v)
		q.X = f.Longer.settle(q.X, one(f.Stretch.Length))
		q.Z = f.Deeper.settle(q.Z, one(f.Stretch.Height))
		return back.Point(stretch.Point(q))
	})
}

// parted returns the solid with the slice of a plug let in, or with its
// triangles parted where the band begins and ends that is to be squeezed.
func (g Plug) parted(s *mesh.Solid, drawn mesh.Affine, a Axis, stretch float64) (*mesh.Solid, error) {
	if g.Add == 0 {
		return s, nil
	}
	cut, err := s.Split(plane(drawn, a, g.At))
	if err != nil {
		return nil, err
	}
	if g.Add > 0 {
		return cut.Joined(inFile(drawn, a, g.Add/stretch))
	}
	if s, err = cut.Joined(r3.Vec{}); err != nil {
		return nil, err
	}
	if cut, err = s.Split(plane(drawn, a, g.To)); err != nil {
		return nil, err
	}
	return cut.Joined(r3.Vec{})
}

// settle returns where a vertex at x goes along the axis once the slice is let
// in: the squeeze, and the way back when the far piece stays.
func (g Plug) settle(x, stretch float64) float64 {
	add := g.Add / stretch
	switch {
	case g.Add < 0 && x >= g.To:
		x += add
	case g.Add < 0 && x > g.At:
		x += add * (x - g.At) / (g.To - g.At)
	}
	if g.FarStays {
		x -= add
	}
	return x
}

// Surfaces returns the part as set on the craft, and a mirrored part's second
// one, each as one closed surface without inner faces: for telling how parts
// lie to each other.
func (p *Part) Surfaces() ([]mesh.Placed, error) {
	s, err := p.Reshape(p.Solid)
	if err != nil {
		return nil, err
	}
	plain := *p
	plain.Solid = s
	plain.Fit.Longer, plain.Fit.Deeper, plain.Fit.Stretch = Plug{}, Plug{}, Stretch{}
	return plain.Placed(), nil
}
