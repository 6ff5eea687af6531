package plots

import (
	"math"
	"sort"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// pointGroup is one or several watched points that look like one in a view.
type pointGroup struct {
	at        vg.Point
	world     r2.Vec
	names     string
	clearance float64
	text      string // of the clearance
}

func (g pointGroup) symbol() Symbol {
	if g.clearance < 0 {
		return WetMark
	}
	return PointMark
}

// groups joins the chosen points that fall on one another in a view with the
// same clearance as written, such as the two tips of a wing from the side.
func (p *Profile) groups(v *View, pr projection, size float64, keep func(ProfilePoint) bool) []pointGroup {
	var gs []pointGroup
	names := map[int][]string{}
	for _, q := range p.Points {
		if !keep(q) {
			continue
		}
		w := pr.flat(q.At)
		at, txt := v.At(w), millimeters(q.Clearance, size)
		found := false
		for i := range gs {
			if gs[i].text == txt && hypot(gs[i].at.Sub(at)) < 2 {
				names[i] = append(names[i], q.Name)
				found = true
				break
			}
		}
		if !found {
			names[len(gs)] = []string{q.Name}
			gs = append(gs, pointGroup{at: at, world: w, clearance: q.Clearance, text: txt})
		}
	}
	for i := range gs {
		gs[i].names = joinNames(names[i])
	}
	return gs
}

// joinNames writes several names with the words they share at either end once:
// "wing tip port" and "wing tip starboard" give "wing tip port, starboard".
func joinNames(names []string) string {
	words := make([][]string, len(names))
	for i, s := range names {
		words[i] = strings.Fields(s)
	}
	first := words[0]
	head, tail := len(first), len(first)
	for _, w := range words[1:] {
		head, tail = min(head, len(w)), min(tail, len(w))
		for i := range head {
			if w[i] != first[i] {
				head = i
				break
			}
		}
		for i := range tail {
			if w[len(w)-1-i] != first[len(first)-1-i] {
				tail = i
				break
			}
		}
	}
	for _, w := range words {
		if head+tail >= len(w) && len(names) > 1 {
			return strings.Join(names, ", ") // one name is part of another
		}
	}
	if len(names) == 1 {
		return names[0]
	}
	var own []string
	for _, w := range words {
		own = append(own, strings.Join(w[head:len(w)-tail], " "))
	}
	all := append(append([]string(nil), first[:head]...), strings.Join(own, ", "))
	return strings.Join(append(all, first[len(first)-tail:]...), " ")
}

// drawPoints draws watched points with their clearances as dimensions to the
// water, and returns where the dimension lines stand.
func (p *Profile) drawPoints(v *View, pr projection, size float64, keep func(ProfilePoint) bool) []vg.Length {
	gs := p.groups(v, pr, size, keep)
	sort.SliceStable(gs, func(i, j int) bool { return gs[i].at.X < gs[j].at.X })
	surface := v.At(r2.Vec{}).Y
	var used []vg.Length
	for _, g := range gs {
		clr := Ink
		if g.clearance < 0 {
			clr = Red
		}
		if d := math.Abs(float64(g.at.Y - surface)); d > 3 {
			x := freeNear(g.at.X, used)
			used = append(used, x)
			if x != g.at.X {
				v.Canvas.StrokeLine2(draw.LineStyle{Color: Muted, Width: 0.4}, g.at.X, g.at.Y, x, g.at.Y)
			}
			for _, l := range dimension(v.Canvas, vg.Point{X: x, Y: g.at.Y}, vg.Point{X: x, Y: surface}, clr) {
				v.place.avoid(l[:]...)
			}
		}
	}
	for _, g := range gs {
		g.symbol().Draw(v.Canvas, g.at)
		v.place.keep(around(g.at, 3, 3))
		clr, bold := Ink, false
		if g.clearance < 0 {
			clr, bold = Red, true
		}
		v.Label(g.at, 3, clr, bold, g.names, g.text)
	}
	return used
}

// freeNear returns the place nearest to x that is clear of the used ones.
func freeNear(x vg.Length, used []vg.Length) vg.Length {
	const apart = 9
	for k := range 12 {
		for _, s := range []vg.Length{1, -1} {
			c := x + s*vg.Length(k)*apart
			free := true
			for _, u := range used {
				if d := u - c; d > -apart+0.5 && d < apart-0.5 {
					free = false
				}
			}
			if free {
				return c
			}
		}
	}
	return x
}

// drawDrafts draws depths under the water as dimensions.
func (p *Profile) drawDrafts(v *View, pr projection, size float64, used []vg.Length) {
	surface := v.At(r2.Vec{}).Y
	for _, q := range p.Drafts {
		at := v.At(pr.flat(q.At))
		x := freeNear(at.X, used)
		used = append(used, x)
		if math.Abs(float64(at.Y-surface)) > 3 {
			for _, l := range dimension(v.Canvas, vg.Point{X: x, Y: surface}, vg.Point{X: x, Y: at.Y}, Ink) {
				v.place.avoid(l[:]...)
			}
		}
		v.Label(vg.Point{X: x, Y: at.Y}, 3, Ink, false, q.Name+" draft", millimeters(q.Clearance, size))
	}
}
