package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Skin returns the area of the whole surface and its first moment about the
// point about: what a cloth of even weight laid over it weighs and where. Every
// triangle is visited.
func (p Placed) Skin(about r3.Vec) (area float64, moment r3.Vec) {
	s := p.Solid
	cof := p.Place.cofactor()
	for from := 0; from < len(s.triangles); from += block {
		var sum float64
		var arm r3.Vec
		for _, t := range s.triangles[from:min(from+block, len(s.triangles))] {
			a, b, c := s.vertices[t[0]], s.vertices[t[1]], s.vertices[t[2]]
			da := r3.Norm(cof.Vector(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))) / 2
			sum += da
			arm = r3.Add(arm, r3.Scale(da/3, r3.Add(a, r3.Add(b, c))))
		}
		area += sum
		moment = r3.Add(moment, arm)
	}
	moment = p.Place.Vector(moment)
	return area, r3.Add(moment, r3.Scale(area, r3.Sub(p.image(r3.Vec{}), about)))
}
