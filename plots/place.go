package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// placer finds places for labels: within a border, off each other, and off
// the lines and shapes of the drawing as far as that is possible. Labels are
// placed one by one, so the important ones come first.
type placer struct {
	border vg.Rectangle
	taken  []vg.Rectangle // labels and symbols
	ink    []vg.Point     // samples of lines
	// shade, if set, returns how much of a rectangle lies on something that a
	// label had better leave visible, from 0 to 1.
	shade func(vg.Rectangle) float64
}

// Costs of a place. One label over another is worse than anything else that
// can happen within the border.
const (
	costTaken = 1e6
	costInk   = 1.0
	costShade = 40.0
	costTouch = 6.0  // of a shape, however little
	costFar   = 0.12 // a point of distance from the anchor
	costCross = 40.0 // the leader over a label or symbol
)

// avoid adds a polyline to what labels keep off.
func (p *placer) avoid(pts ...vg.Point) { p.ink = append(p.ink, sampled(pts, 3)...) }

// keep adds a rectangle that no label may cover.
func (p *placer) keep(r vg.Rectangle) { p.taken = append(p.taken, r) }

// cost returns the cost of a label on r, infinite outside the border.
func (p *placer) cost(r vg.Rectangle) float64 {
	if !within(r, p.border) {
		return math.Inf(1)
	}
	c := 0.0
	for _, t := range p.taken {
		if overlaps(r, t) {
			c += costTaken
		}
	}
	for _, q := range p.ink {
		if q.X > r.Min.X && q.X < r.Max.X && q.Y > r.Min.Y && q.Y < r.Max.Y {
			c += costInk
		}
	}
	if p.shade != nil {
		if s := p.shade(r); s > 0 {
			c += costTouch + costShade*s
		}
	}
	return c
}

// best returns the cheapest of several centers for a label of the given size,
// the earlier of equals, and takes it. It fails if all leave the border.
func (p *placer) best(size vg.Point, centers []vg.Point) (vg.Rectangle, bool) {
	var best vg.Rectangle
	least := math.Inf(1)
	for i, q := range centers {
		r := around(q, size.X/2, size.Y/2)
		if c := p.cost(r) + 0.2*float64(i); c < least {
			best, least = r, c
		}
	}
	if math.IsInf(least, 1) {
		return best, false
	}
	p.keep(best)
	return best, true
}

// beside places a label near an anchor, around a symbol of the given radius,
// and returns it with the end of a leader, which is on the label. Near the
// anchor no leader is needed. It fails if there is no room within the
// border. A place over another label is no place.
func (p *placer) beside(anchor vg.Point, radius vg.Length, size vg.Point) (r vg.Rectangle, leader vg.Point, need, ok bool) {
	least := math.Inf(1)
	try := func(center vg.Point, far vg.Length) {
		q := around(center, size.X/2, size.Y/2)
		c := p.cost(q) + costFar*float64(far)
		if c >= least {
			return
		}
		end := nearestOn(q, anchor)
		if far > 10 {
			c += p.leaderCost(anchor, end, radius)
		}
		if c < least {
			r, leader, need, least = q, end, far > 10, c
		}
	}
	// Right, left, over and under first, then slanting, then further out.
	for _, gap := range []vg.Length{2, 5, 9, 15, 22, 30, 40, 52, 66, 82, 100, 125, 155, 190} {
		for k := range 24 {
			a := float64(k) * math.Pi / 12
			d := vg.Point{X: vg.Length(math.Cos(a)), Y: vg.Length(math.Sin(a))}
			// The label's edge, not its center, keeps the distance.
			center := vg.Point{
				X: anchor.X + d.X*(radius+gap) + clampUnit(d.X*1.6)*size.X/2,
				Y: anchor.Y + d.Y*(radius+gap) + clampUnit(d.Y*1.6)*size.Y/2,
			}
			try(center, gap)
		}
		if least < 0.12*float64(gap) {
			break // nothing further out can be cheaper
		}
	}
	if least >= costTaken {
		// Crowded: look everywhere.
		step := size.Y / 2
		for y := p.border.Min.Y + size.Y/2; y <= p.border.Max.Y-size.Y/2; y += step {
			for x := p.border.Min.X + size.X/2; x <= p.border.Max.X-size.X/2; x += 2 * step {
				q := vg.Point{X: x, Y: y}
				try(q, hypot(q.Sub(anchor)))
			}
		}
	}
	if least >= costTaken {
		return r, leader, false, false
	}
	p.keep(r)
	return r, leader, need, true
}

// leaderCost returns the cost of a leader from an anchor to the end of a
// label.
func (p *placer) leaderCost(anchor, end vg.Point, radius vg.Length) float64 {
	c := 0.0
	for _, q := range sampled([]vg.Point{anchor, end}, 3) {
		if hypot(q.Sub(anchor)) <= radius+1 {
			continue
		}
		for _, t := range p.taken {
			if q.X > t.Min.X && q.X < t.Max.X && q.Y > t.Min.Y && q.Y < t.Max.Y {
				c += costCross
			}
		}
	}
	return c
}

func clampUnit(v vg.Length) vg.Length { return min(max(v, -1), 1) }

// nearestOn returns the point of r nearest to q.
func nearestOn(r vg.Rectangle, q vg.Point) vg.Point {
	return vg.Point{X: min(max(q.X, r.Min.X), r.Max.X), Y: min(max(q.Y, r.Min.Y), r.Max.Y)}
}
