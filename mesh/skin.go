package mesh

import "gonum.org/v1/gonum/spatial/r3"

// surface sums areas and their first moment about zero.
type surface struct {
	area float64
	arm  r3.Vec
}

// add adds a triangle of the given area.
func (s *surface) add(area float64, a, b, c r3.Vec) {
	s.area += area
	s.arm = r3.Add(s.arm, r3.Scale(area/3, r3.Add(a, r3.Add(b, c))))
}

// Skin returns the area of the whole surface and its first moment about the
// point about: what a cloth of even weight laid over it weighs and where. Under
// a map that is no similarity every triangle is visited.
func (p Placed) Skin(about r3.Vec) (area float64, moment r3.Vec) {
	s := p.Solid
	if k, ok := p.Place.Similarity(); ok {
		area, moment = k*k*s.area, r3.Scale(k*k, s.skinArm)
	} else {
		area, moment = s.stretchedSkin(p.Place.cofactor())
	}
	moment = p.Place.Vector(moment)
	return area, r3.Add(moment, r3.Scale(area, r3.Sub(p.image(r3.Vec{}), about)))
}

// stretchedSkin returns the area of the surface after a map of area vectors,
// and its first moment over the points before the map.
func (s *Solid) stretchedSkin(cofactor Affine) (area float64, arm r3.Vec) {
	for from := 0; from < s.skin; from += block {
		var sum surface
		for _, t := range s.triangles[from:min(from+block, s.skin)] {
			a, b, c := s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]
			sum.add(r3.Norm(cofactor.Vector(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))))/2, a, b, c)
		}
		area += sum.area
		arm = r3.Add(arm, sum.arm)
	}
	return area, arm
}
