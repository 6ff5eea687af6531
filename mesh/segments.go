package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Segments calls yield with each straight piece of the line in which the
// surface meets the plane, from a to b, with the solid's cut face on the left
// seen from above. Over all pieces of a body they close into loops but come in no
// order. Every triangle is visited, but only those that meet the plane cost more
// than a look.
func (p Placed) Segments(pl Plane, yield func(a, b r3.Vec)) {
	s := p.Solid
	normal, offset := p.local(pl)
	if lo, hi := boxHeights(&s.box, normal, offset); lo >= 0 || hi < 0 {
		return
	}
	borrowed := s.marks(normal, offset)
	defer scratch.Put(borrowed)
	m := *borrowed
	mirrored := p.Place.Det() < 0
	for _, c := range s.triangles[:s.skin] {
		wet := m[c[0]] | m[c[1]]<<1 | m[c[2]]<<2
		if wet == 0 || wet == 7 {
			continue
		}
		// Corner k is the one on its own side.
		k := 0
		for own := [3]uint8{1, 2, 4}; wet != own[k] && wet != 7-own[k]; {
			k++
		}
		own, next, last := s.vertices[c[k]], s.vertices[c[(k+1)%3]], s.vertices[c[(k+2)%3]]
		if mirrored {
			next, last = last, next
		}
		h := height(normal, offset, own)
		a := p.image(meet(own, next, h, height(normal, offset, next)))
		b := p.image(meet(own, last, h, height(normal, offset, last)))
		// Below the plane the surface's boundary runs against the cut
		// face's: the wet corner sees a after itself and b before.
		if h < 0 {
			yield(b, a)
		} else {
			yield(a, b)
		}
	}
}

// meet returns the point of the edge from p to q, at heights hp and hq of
// opposite sides, that is at height zero.
func meet(p, q r3.Vec, hp, hq float64) r3.Vec {
	if !(hp < 0) {
		p, q, hp, hq = q, p, hq, hp
	}
	return r3.Add(p, r3.Scale(hp/(hp-hq), r3.Sub(q, p)))
}
