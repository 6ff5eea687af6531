package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Segments calls yield with each straight piece of the line in which the
// surface meets the plane, from a to b, with the solid's cut face on the left
// seen from above. Over all pieces of a body they close into loops but come in no
// order. Every triangle is visited.
func (p Placed) Segments(pl Plane, yield func(a, b r3.Vec)) {
	for i := range p.Solid.Surface() {
		t := p.Triangle(i)
		h := [3]float64{pl.Height(t[0]), pl.Height(t[1]), pl.Height(t[2])}
		wet := 0
		for _, x := range h {
			if x < 0 {
				wet++
			}
		}
		if wet == 0 || wet == 3 {
			continue
		}
		// Corner k is the one on its own side.
		k := 0
		for (h[k] < 0) != (wet == 1) {
			k++
		}
		next, last := (k+1)%3, (k+2)%3
		a := meet(t[k], t[next], h[k], h[next])
		b := meet(t[k], t[last], h[k], h[last])
		// Below the plane the surface's boundary runs against the cut
		// face's: the wet corner sees a after itself and b before.
		if h[k] < 0 {
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
